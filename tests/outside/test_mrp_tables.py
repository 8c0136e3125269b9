"""Preparations netted level by level against MRP tables of the textbooks (RQ1, RQ2).

A lot size is a full recipe; a lead time is a recipe's lead; a scheduled receipt is something on its
way. Gross requirements of a week are wanted at its beginning, and so is what is received in it.
"""

from collections.abc import Mapping
from dataclasses import replace
from datetime import UTC, date, datetime, time, timedelta
from fractions import Fraction
from zoneinfo import ZoneInfo

import pytest

from pantry.rules.allocation import Handling, Need, Source
from pantry.rules.house_time import Span
from pantry.rules.kitchen import Kitchen, Projection, project
from pantry.rules.menu import Ingredient, Recipe, RecipeKind
from pantry.rules.stock import BaseUnit, Item
from tests.rules.planned_house import own_life

ZONE = ZoneInfo("Etc/UTC")
NOW = datetime(2026, 12, 7, 6, tzinfo=UTC)
WEEK_1 = datetime(2027, 1, 4, 6, tzinfo=UTC)


def week(number: int) -> datetime:
    return WEEK_1 + timedelta(weeks=number - 1)


def day(number: int) -> datetime:
    return datetime(2027, 3, number, 6, tzinfo=UTC)


def lot(makes: str, lead_days: int, parts: Mapping[str, int], size: int | None = None) -> Recipe:
    """A preparation of single parts, lot for lot (None) or in multiples of one lot size."""
    yields = Fraction(size or 1)
    lines = tuple(Ingredient(part, count * yields) for part, count in parts.items())
    return Recipe(
        id=makes,
        name=makes,
        kind=RecipeKind.PREPARATION,
        yields=yields,
        ingredients=lines,
        makes=makes,
        lead=Span(days=lead_days),
        full_recipes=size is not None,
    )


def gross(item: str, requirements: Mapping[datetime, int]) -> list[Need]:
    """Requirements in whole units, as needs in thousandths."""
    return [
        Need(f"{at:%Y-%m-%d} {item}", "", "", item, 1000 * quantity, at, at)
        for at, quantity in requirements.items()
    ]


def supply(kind: str, item: str, quantity: int, ready: datetime = NOW) -> Source:
    return Source(kind, f"{kind} {item}", item, 1000 * quantity, None, None, NOW, ready=ready)


def worked_out(needs: list[Need], recipes: list[Recipe], sources: list[Source]) -> Projection:
    lines = {line.item for recipe in recipes for line in recipe.ingredients}
    names = lines | {recipe.id for recipe in recipes}
    kitchen = Kitchen(
        items={name: Item(name, name, BaseUnit.EACH) for name in names},
        preparations={recipe.id: recipe for recipe in recipes},
        sources={name: [each for each in sources if each.item == name] for name in names},
        fixed={},
        handling=lambda _: Handling(),
        zone=ZONE,
        made_until=own_life(ZONE),
    )
    return project(needs, kitchen, NOW)


def receipts(found: Projection, item: str) -> list[tuple[datetime, int]]:
    return [(made.ready, made.quantity // 1000) for made in found.makings if made.item == item]


def releases(found: Projection, item: str) -> list[tuple[datetime, int]]:
    return [(made.start, made.quantity // 1000) for made in found.makings if made.item == item]


def on_hand(found: Projection, item: str, sources: list[Source], at: datetime) -> int:
    """What is there by then after everything wanted was given and what died was thrown away."""
    came = sum(each.quantity for each in sources if each.item == item and each.ready <= at) // 1000
    came += sum(quantity for ready, quantity in receipts(found, item) if ready <= at)
    taken = sum(need.quantity for need in found.needs[item] if need.wanted_by <= at)
    died = sum(loss.quantity for loss in found.allocations[item].lost if loss.at <= at)
    return came - (taken + died) // 1000


def test_RQ1_a_fixed_lot_of_230_as_krajewski_and_ritzman_have_it():
    """Krajewski & Ritzman, Operations Management, seat subassembly C.

    Lot 230, lead time 2 weeks, 37 on hand, 230 scheduled for week 1. Inputs as reprinted (scribd
    353225171, fig. 1.5); the planned receipts and releases from memory, and worked out by hand.
    """
    seat = lot("seat", 14, {"cushion": 1}, size=230)
    sources = [supply("batch", "seat", 37), supply("delivery", "seat", 230, week(1))]
    requirements = {week(1): 150, week(4): 120, week(6): 150, week(7): 120}
    found = worked_out(gross("seat", requirements), [seat], sources)
    assert receipts(found, "seat") == [(week(4), 230), (week(7), 230)]
    assert releases(found, "seat") == [(week(2), 230), (week(5), 230)]
    projected = [on_hand(found, "seat", sources, week(number)) for number in range(1, 9)]
    assert projected == [117, 117, 117, 227, 227, 77, 187, 187]
    assert [(need.wanted_by, need.quantity) for need in found.needs["cushion"]] == [
        (week(2), 230_000),
        (week(5), 230_000),
    ]


def shutters(*, frames_in: int | None, wood_in: int | None) -> tuple[Projection, list[Source]]:
    """Stevenson, Operations Management, chapter on MRP, the window shutters (from memory).

    100 wanted in week 4 and 150 in week 8, lead time 1; each of 2 frames (2 weeks) and 4 wood
    sections (1 week), of which 70 are scheduled for week 1.
    """
    recipes = [
        lot("shutter", 7, {"frame": 2, "wood": 4}),
        lot("frame", 14, {"timber": 1}, size=frames_in),
        lot("wood", 7, {"timber": 1}, size=wood_in),
    ]
    sources = [supply("delivery", "wood", 70, week(1))]
    wanted = gross("shutter", {week(4): 100, week(8): 150})
    return worked_out(wanted, recipes, sources), sources


def test_RQ1_lot_for_lot_as_stevenson_has_it():
    found, _ = shutters(frames_in=None, wood_in=None)
    assert releases(found, "shutter") == [(week(3), 100), (week(7), 150)]
    assert releases(found, "frame") == [(week(1), 200), (week(5), 300)]
    assert releases(found, "wood") == [(week(2), 330), (week(6), 600)]


def test_RQ1_multiples_of_a_pack_as_stevenson_has_it():
    found, sources = shutters(frames_in=320, wood_in=70)
    assert releases(found, "frame") == [(week(1), 320), (week(5), 320)]
    assert releases(found, "wood") == [(week(2), 350), (week(6), 630)]
    assert on_hand(found, "frame", sources, week(8)) == 140
    assert on_hand(found, "wood", sources, week(8)) == 50


def cream(life_days: int | None) -> tuple[Projection, list[Source]]:
    """Cream in 2.5 l packs a day ahead, 1.5 l on hand; worked out by hand. One unit is 0.1 l."""
    pack = replace(lot("cream", 1, {"churn": 1}, size=25), life_days=life_days)
    sources = [supply("batch", "cream", 15)]
    wanted = gross("cream", {day(2): 36, day(5): 42, day(7): 24})
    return worked_out(wanted, [pack], sources), sources


def test_RQ1_packs_of_cream():
    found, sources = cream(life_days=None)
    assert receipts(found, "cream") == [(day(2), 25), (day(5), 50), (day(7), 25)]
    assert releases(found, "cream") == [(day(1), 25), (day(4), 50), (day(6), 25)]
    assert on_hand(found, "cream", sources, day(7)) == 13


@pytest.mark.parametrize(
    ("life_days", "lost", "left"),
    [
        (5, [], 13),  # from the 1st as day 1 the 5th is its last day: the 0.4 l are used that day
        (4, [(date(2027, 3, 4), 4)], 9),  # a day less, and they are gone before
    ],
)
def test_RQ3_what_dies_leaves_the_projected_balance(life_days, lost, left):
    found, sources = cream(life_days)
    died = found.allocations["cream"].lost
    assert [(each.at, each.quantity // 1000) for each in died] == [
        (datetime.combine(on, time(23, 59, 59), UTC), quantity) for on, quantity in lost
    ]
    assert receipts(found, "cream") == [(day(2), 25), (day(5), 50), (day(7), 25)]
    assert on_hand(found, "cream", sources, day(7)) == left
