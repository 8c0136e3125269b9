"""The whole kitchen projected: preparations netted level by level (RQ1, RQ2, RQ3, AL1, AL2)."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.refusals import UnreadableInput
from pantry.rules.allocation import Allocation, Handling, Need, Pick, Source
from pantry.rules.fefo import allocate
from pantry.rules.house_time import Span, end_of_day, local_date
from pantry.rules.kitchen import Kitchen, Projection, bought_for, project
from pantry.rules.menu import Dating, Ingredient, Recipe, RecipeKind, Scaling
from pantry.rules.stock import BaseUnit, Item
from tests.rules.planned_house import own_life

LONDON = ZoneInfo("Europe/London")
NOW = datetime(2027, 3, 8, 8, tzinfo=UTC)  # a Monday; GMT until the 28th
NAMES = ("soup base", "glaze", "stock", "bones", "leek", "cream", "egg", "salt")
ITEMS = {
    name: Item(
        name,
        name,
        BaseUnit.G,
        measured=name != "salt",
        whole=name == "egg",
        piece_weight=Fraction(50),
    )
    for name in NAMES
}
LITRE = 1_000_000


def day(number: int, hour: int = 19) -> datetime:
    """That hour on a day of March 2027."""
    return datetime(2027, 3, number, hour, tzinfo=UTC)


def need(
    item: str, quantity: int, at: datetime, *, table: str = "family", rank: int = 1, **facts
) -> Need:
    service = f"{at.date()}/{at.hour:02}/{table}"
    return Need(
        f"{service}|main|dish|{item}", service, "dish", item, quantity, at, at, rank, **facts
    )


def batch(id_: str, item: str, quantity: int, until: datetime | None = None, **facts) -> Source:
    return Source("batch", id_, item, quantity, until, None, NOW, **facts)


def making(makes: str, *lines: Ingredient, yields: int = 1000, **facts) -> Recipe:
    return Recipe(
        f"make {makes}",
        makes,
        RecipeKind.PREPARATION,
        Fraction(yields),
        lines,
        makes=makes,
        **facts,
    )


STOCK = making(
    "stock", Ingredient("bones", Fraction(1500)), lead=Span(exact=timedelta(hours=6)), life_days=4
)


def kitchen(*recipes: Recipe, stock: tuple[Source, ...] = (), **facts) -> Kitchen:
    sources: dict[str, list[Source]] = {}
    for source in stock:
        sources.setdefault(source.item, []).append(source)
    defaults = {
        "items": ITEMS,
        "preparations": {recipe.makes: recipe for recipe in recipes},
        "sources": sources,
        "fixed": {},
        "handling": lambda item: Handling(piece=50_000 if item.whole else 0),
        "zone": LONDON,
        "made_until": own_life(LONDON),
    }
    return Kitchen(**{**defaults, **facts})


def given_to(allocation: Allocation, need: Need) -> dict[str, int]:
    return {pick.source: pick.quantity for pick in allocation.picks if pick.need == need.id}


def test_RQ1_a_preparation_is_taken_from_what_is_made_and_only_the_rest_is_made():
    wanted = need("stock", 3 * LITRE, day(10))
    found = project([wanted], kitchen(STOCK, stock=(batch("b", "stock", LITRE),)), NOW)
    assert given_to(found.allocations["stock"], wanted) == {
        "b": LITRE,
        "make|stock|2027-03-10": 2 * LITRE,
    }
    (made,) = found.makings
    assert (made.quantity, made.start, made.ready) == (2 * LITRE, day(10, 13), day(10))
    assert (made.recipe, made.services, made.late) == (
        "make stock",
        ("2027-03-10/19/family",),
        False,
    )
    (bones,) = found.needs["bones"]
    assert bones == Need(
        id="make|stock|2027-03-10|bones",
        service="2027-03-10/19/family",
        dish="dish",
        item="bones",
        quantity=3 * LITRE,
        wanted_by=day(10, 13),
        until=day(10, 13),
        rank=1,
        via="stock",
    )
    assert found.allocations["bones"].short == {bones.id: 3 * LITRE}


def test_RQ1_nothing_is_made_and_nothing_bought_where_last_weeks_batch_suffices():
    wanted = need("stock", LITRE, day(10))
    found = project([wanted], kitchen(STOCK, stock=(batch("b", "stock", LITRE, day(11)),)), NOW)
    assert found.makings == ()
    assert set(found.needs) == {"stock"}


def test_RQ1_a_batch_that_dies_before_the_service_does_not_count():
    wanted = need("stock", LITRE, day(10))
    found = project([wanted], kitchen(STOCK, stock=(batch("b", "stock", LITRE, day(9)),)), NOW)
    assert [made.quantity for made in found.makings] == [LITRE]
    assert [loss.source for loss in found.allocations["stock"].lost] == ["b"]


def test_RQ1_what_is_short_on_one_day_is_made_together_for_the_earliest_of_it():
    lunch, dinner = (
        need("stock", LITRE, day(10, 12), table="staff", rank=3),
        need("stock", LITRE, day(10)),
    )
    later = need("stock", LITRE, day(11))
    found = project([later, dinner, lunch], kitchen(STOCK), NOW)
    first, second = found.makings
    assert (first.id, first.quantity, first.ready) == (
        "make|stock|2027-03-10",
        2 * LITRE,
        day(10, 12),
    )
    assert first.services == (lunch.service, dinner.service)
    assert (second.id, second.quantity, second.ready) == ("make|stock|2027-03-11", LITRE, day(11))
    bones = found.needs["bones"]
    assert [(each.service, each.rank, each.quantity) for each in bones] == [
        (lunch.service, 1, 3 * LITRE),  # the best rank it serves
        (later.service, 1, LITRE * 3 // 2),
    ]


def test_RQ1_the_day_is_the_houses_own():
    auckland = ZoneInfo("Pacific/Auckland")
    wanted = [need("stock", LITRE, day(10, 10)), need("stock", LITRE, day(10, 12))]  # 23:00, 01:00
    found = project(wanted, kitchen(STOCK, zone=auckland), NOW)
    assert [made.id for made in found.makings] == ["make|stock|2027-03-10", "make|stock|2027-03-11"]


def test_RQ1_a_full_recipe_is_made_whole_and_its_rest_serves_later_needs():
    tray = replace(STOCK, full_recipes=True)
    wanted = [
        need("stock", 1_200_000, day(10)),
        need("stock", 500_000, day(12)),
        need("stock", 500_000, day(13)),
    ]
    found = project(wanted, kitchen(tray), NOW)
    assert [(made.id, made.quantity) for made in found.makings] == [
        ("make|stock|2027-03-10", 2 * LITRE),
        ("make|stock|2027-03-13", LITRE),
    ]
    assert given_to(found.allocations["stock"], wanted[2]) == {
        "make|stock|2027-03-10": 300_000,
        "make|stock|2027-03-13": 200_000,
    }
    (rest,) = found.allocations["stock"].left
    assert (rest.kind, rest.id, rest.quantity) == ("making", "make|stock|2027-03-13", 800_000)
    assert (rest.ready, rest.usable_until) == (day(13), end_of_day(date(2027, 3, 16), LONDON))


def test_SL4_the_rest_of_a_making_dies_with_the_last_day_of_its_life():
    tray = replace(STOCK, full_recipes=True, life_days=3)  # the 10th, 11th and 12th
    wanted = [need("stock", 400_000, day(10)), need("stock", 400_000, day(13))]
    found = project(wanted, kitchen(tray), NOW)
    assert [made.id for made in found.makings] == ["make|stock|2027-03-10", "make|stock|2027-03-13"]
    (loss,) = found.allocations["stock"].lost
    assert (loss.quantity, loss.at) == (600_000, end_of_day(date(2027, 3, 12), LONDON))


def test_SL4_a_life_counts_from_the_day_it_is_made_not_from_the_day_it_is_wanted():
    the_day_before = replace(STOCK, lead=Span(days=1), life_days=2, full_recipes=True)
    wanted = [need("stock", 400_000, day(10)), need("stock", 400_000, day(11))]
    found = project(wanted, kitchen(the_day_before), NOW)
    assert [made.start for made in found.makings] == [day(9), day(10)]


def test_SL4_what_would_not_live_until_its_own_service_is_not_made():
    wanted = need("stock", LITRE, day(10))
    too_short = replace(STOCK, lead=Span(days=1), life_days=1)
    found = project([wanted], kitchen(too_short), NOW)
    assert found.makings == ()
    assert found.allocations["stock"].short == {wanted.id: LITRE}


def test_SL4_what_would_die_too_soon_with_the_first_of_its_day_is_made_apart():
    """Breakfast's is made the evening before, and its one day of life ends there."""
    half_a_day = replace(STOCK, lead=Span(exact=timedelta(hours=12)), life_days=2)
    breakfast = need("stock", LITRE, day(10, 8))
    brined = replace(need("stock", LITRE, day(10, 20)), until=day(11, 2))
    found = project([breakfast, brined], kitchen(half_a_day), NOW)
    assert [(made.id, made.start) for made in found.makings] == [
        ("make|stock|2027-03-10", day(9, 20)),
        ("make|stock|2027-03-10|2", day(10, 8)),
    ]


def test_SL4_ingredients_of_what_is_cooked_are_usable_when_it_is_made():
    wanted = [need("stock", LITRE, day(10)), need("stock", LITRE, day(10, 21))]
    for dating in (Dating.COOKED, Dating.PRESERVED):
        found = project(wanted, kitchen(replace(STOCK, dating=dating)), NOW)
        assert found.needs["bones"][0].until == day(10, 13)


def test_SL4_ingredients_of_what_is_assembled_are_usable_until_its_last_use():
    cold = replace(STOCK, dating=Dating.ASSEMBLED, full_recipes=True)
    wanted = [need("stock", 400_000, day(10)), need("stock", 400_000, day(12))]
    dying = batch("b", "bones", 5 * LITRE, day(11))
    found = project(wanted, kitchen(cold, stock=(dying,)), NOW)
    (bones,) = found.needs["bones"]
    assert (bones.wanted_by, bones.until) == (day(10, 13), day(12))
    assert found.allocations["bones"].short == {bones.id: 1_500_000}


def test_RQ1_what_several_levels_need_is_netted_once():
    glaze = making(
        "glaze",
        Ingredient("stock", Fraction(4000)),
        Ingredient("leek", Fraction(100)),
        lead=Span(days=1),
    )
    stock = making("stock", Ingredient("bones", Fraction(1500)), Ingredient("leek", Fraction(200)))
    wanted = [
        need("glaze", 500_000, day(12)),
        need("stock", LITRE, day(13)),
        need("leek", 300_000, day(10)),
    ]
    there = (batch("s", "stock", LITRE), batch("l", "leek", 400_000))
    found = project(wanted, kitchen(glaze, stock, stock=there), NOW)
    assert [(made.item, made.quantity) for made in found.makings] == [
        ("glaze", 500_000),
        ("stock", LITRE),  # two litres for the glaze, of which the one there is the first
        ("stock", LITRE),
    ]
    assert [(each.via, each.quantity) for each in found.needs["leek"]] == [
        ("", 300_000),
        ("glaze", 50_000),
        ("stock", 200_000),
        ("stock", 200_000),
    ]
    assert sum(found.allocations["leek"].short.values()) == 350_000
    assert sum(found.allocations["bones"].short.values()) == 3 * LITRE


def test_RQ2_the_ingredients_of_a_preparation_of_a_preparation_are_wanted_earlier_still():
    glaze = making("glaze", Ingredient("stock", Fraction(4000)), lead=Span(days=1))
    found = project([need("glaze", LITRE, day(12))], kitchen(glaze, STOCK), NOW)
    assert found.needs["stock"][0].wanted_by == day(11)
    assert found.needs["bones"][0].wanted_by == day(11, 13)
    assert found.needs["bones"][0].dish == "dish"


def test_RQ2_ingredients_are_never_wanted_before_now_and_a_making_says_it_is_late():
    wanted = need("stock", LITRE, day(8, 12))  # in four hours; it takes six
    found = project([wanted], kitchen(STOCK), NOW)
    (made,) = found.makings
    assert (made.start, made.ready, made.late) == (NOW, day(8, 12), True)
    assert found.needs["bones"][0].wanted_by == NOW
    overdue = replace(wanted, wanted_by=day(7, 12))  # the dish should have been begun yesterday
    (made,) = project([overdue], kitchen(STOCK), NOW).makings
    assert (made.start, made.ready) == (NOW, NOW)


def test_RQ1_whole_pieces_are_rounded_up_over_one_making():
    pastry = making(
        "soup base",
        Ingredient("egg", Fraction(40)),
        Ingredient("egg", Fraction(40)),
        Ingredient("salt", Fraction(5)),
    )
    wanted = [need("soup base", 700_000, day(10, 12)), need("soup base", 300_000, day(10))]
    found = project(wanted, kitchen(pastry), NOW)
    assert [each.quantity for each in found.needs["egg"]] == [100_000]  # 80 g: two eggs, not four
    assert "salt" not in found.needs


def test_RQ3_a_harvest_or_a_delivery_to_come_counts_from_when_it_is_there():
    to_come = Source("delivery", "d", "stock", 5 * LITRE, None, None, NOW, ready=day(11, 7))
    wanted = [need("stock", LITRE, day(10)), need("stock", LITRE, day(11))]
    found = project(wanted, kitchen(STOCK, stock=(to_come,)), NOW)
    assert [made.id for made in found.makings] == ["make|stock|2027-03-10"]
    assert given_to(found.allocations["stock"], wanted[1]) == {"d": LITRE}


def test_AL2_what_is_fixed_stays_fixed():
    early, late = need("stock", LITRE, day(10)), need("stock", LITRE, day(11))
    fixed = {"stock": [Pick(late.id, "b", LITRE)]}
    found = project(
        [early, late], kitchen(STOCK, stock=(batch("b", "stock", LITRE),), fixed=fixed), NOW
    )
    assert given_to(found.allocations["stock"], late) == {"b": LITRE}
    assert given_to(found.allocations["stock"], early) == {"make|stock|2027-03-10": LITRE}


def test_AL2_for_what_cannot_be_made_any_more_rank_decides_who_gets_what_is_made_already():
    staff = need("stock", LITRE, day(8, 12), table="staff", rank=3)
    family = need("stock", LITRE, day(8), table="family", rank=1)
    there = kitchen(STOCK, stock=(batch("b", "stock", LITRE),))
    passed = project([staff, family], there, NOW, last_order_by=lambda _: day(7))
    assert given_to(passed.allocations["stock"], family) == {"b": LITRE}
    assert passed.needs["bones"][0].service == staff.service
    in_time = project([staff, family], there, NOW, last_order_by=lambda _: day(8, 9))
    assert given_to(in_time.allocations["stock"], staff) == {"b": LITRE}
    assert in_time.needs["bones"][0].service == family.service


def test_AL2_what_is_fixed_stays_fixed_beside_what_cannot_be_made_any_more():
    """The staff's pin on the batch holds; the family, out of time, takes the rest of it."""
    family = need("stock", LITRE, day(8), rank=1)
    soon = need("stock", LITRE, day(9, 12), table="staff", rank=3)
    pinned = need("stock", LITRE, day(12), table="staff", rank=3)
    found = project(
        [family, soon, pinned],
        kitchen(
            STOCK,
            stock=(batch("b", "stock", 2 * LITRE),),
            fixed={"stock": [Pick(pinned.id, "b", LITRE)]},
        ),
        NOW,
        last_order_by=lambda each: day(7) if each.service == family.service else day(9),
    )
    allocation = found.allocations["stock"]
    assert given_to(allocation, family) == given_to(allocation, pinned) == {"b": LITRE}
    assert given_to(allocation, soon) == {"make|stock|2027-03-09": LITRE}


def test_AL2_what_was_promised_stays_covered_unless_the_chef_agrees_by_name():
    staff = need("stock", LITRE, day(8, 12), table="staff", rank=3)
    family = need("stock", LITRE, day(8), table="family", rank=1)
    there = kitchen(STOCK, stock=(batch("b", "stock", LITRE),))
    passed = {"last_order_by": lambda _: day(7), "covered": {staff.id: LITRE}}
    kept = project([staff, family], there, NOW, **passed)
    assert given_to(kept.allocations["stock"], staff) == {"b": LITRE}
    agreed = project([staff, family], there, NOW, **passed, yielding=frozenset({staff.id}))
    assert given_to(agreed.allocations["stock"], family) == {"b": LITRE}


def test_PL1_what_is_not_made_here_is_bought_and_what_is_made_is_not():
    asked = []

    def at_the_market(need, short):
        item = need.item
        asked.append((item, need.via, short))
        return Source(
            "planned", f"order {item}", item, short, None, None, NOW, ready=need.wanted_by
        )

    def answer(item, needs):
        return allocate(needs, (), NOW, buy=at_the_market if item == "bones" else None)

    wanted = [need("stock", LITRE, day(10)), need("leek", 100_000, day(10))]
    found = project(
        wanted, kitchen(STOCK), NOW, given=answer, last_order_by=lambda each: each.wanted_by
    )
    assert asked == [("bones", "stock", 1_500_000)]
    assert found.allocations["bones"].short == {}
    assert found.allocations["leek"].short == {wanted[1].id: 100_000}
    assert found.needs["bones"][0].last_order_by == day(10, 13)


def test_RQ1_a_cycle_is_refused_before_anything_is_projected():
    stock = making("stock", Ingredient("glaze", Fraction(1)))
    glaze = making("glaze", Ingredient("stock", Fraction(1)))
    with pytest.raises(UnreadableInput, match="glaze → stock → glaze"):
        project([need("leek", 1, day(10))], kitchen(stock, glaze), NOW)


def test_LG2_more_covers_change_no_id():
    few, many = need("stock", LITRE, day(10)), need("stock", 3 * LITRE, day(10))
    before, after = (project([each], kitchen(STOCK), NOW) for each in (few, many))
    assert [made.id for made in before.makings] == [made.id for made in after.makings]
    assert [each.id for each in before.needs["bones"]] == [each.id for each in after.needs["bones"]]


# --- properties -----------------------------------------------------------------------------------

BOOK = st.fixed_dictionaries(
    {
        made: st.builds(
            lambda made, parts, yields, full, hours, life, dating: making(
                made,
                *parts,
                yields=yields,
                full_recipes=full,
                lead=Span(exact=timedelta(hours=hours)),
                life_days=life,
                dating=dating,
            ),
            st.just(made),
            st.lists(
                st.builds(
                    Ingredient,
                    st.sampled_from(below),
                    st.integers(1, 900).map(Fraction),
                    st.sampled_from(Scaling),
                ),
                min_size=1,
                max_size=3,
            ),
            st.integers(200, 1500),
            st.booleans(),
            st.sampled_from([0, 3, 24]),
            st.sampled_from([None, 2, 3, 6]),
            st.sampled_from(Dating),
        )
        for made, below in (
            ("soup base", ["stock", "leek", "cream"]),
            ("glaze", ["stock", "bones"]),
            ("stock", ["bones", "leek"]),
        )
    }
)
COUNTED = ("soup base", "glaze", "stock", "bones", "leek", "cream")
INSTANTS = st.builds(day, st.integers(8, 20), st.sampled_from([9, 13, 19]))


@st.composite
def situations(draw):
    """A divisible kitchen: needs, batches and deliveries of raw items and of preparations."""
    wanted = [
        replace(
            need(
                draw(st.sampled_from(COUNTED)),
                draw(st.integers(1, 3 * LITRE)),
                draw(INSTANTS),
                rank=draw(st.integers(1, 3)),
            ),
            id=f"need {n}",
        )
        for n in range(draw(st.integers(1, 8)))
    ]
    there = tuple(
        batch(
            f"batch {n}",
            draw(st.sampled_from(COUNTED)),
            draw(st.integers(1, 2 * LITRE)),
            draw(st.none() | INSTANTS),
            ready=draw(st.none() | INSTANTS),
        )
        for n in range(draw(st.integers(0, 8)))
    )
    return wanted, kitchen(*draw(BOOK).values(), stock=there)


def supply(found: Projection, item: str, of: Kitchen) -> int:
    made = sum(each.quantity for each in found.makings if each.item == item)
    return made + sum(source.quantity for source in of.sources.get(item, ()))


@given(situations())
def test_RQ1_everything_supplied_is_given_left_or_lost_and_every_need_is_given_or_short(situation):
    wanted, there = situation
    found = project(wanted, there, NOW)
    assert set(found.needs) == set(found.allocations)
    assert {each.id for each in wanted} <= {
        each.id for needs in found.needs.values() for each in needs
    }
    for item, allocation in found.allocations.items():
        given = sum(pick.quantity for pick in allocation.picks)
        rest = sum(each.quantity for each in (*allocation.left, *allocation.lost))
        assert given + rest == supply(found, item, there)
        for each in found.needs[item]:
            got = sum(given_to(allocation, each).values())
            assert got + allocation.short.get(each.id, 0) == each.quantity


@given(situations())
def test_RQ1_every_making_asks_for_what_its_recipe_says_and_for_nothing_else(situation):
    wanted, there = situation
    found = project(wanted, there, NOW)
    exploded = {each.id: each for needs in found.needs.values() for each in needs if each.via}
    for made in found.makings:
        recipe = there.preparations[made.item]
        for item in {line.item for line in recipe.ingredients}:
            lines = [line for line in recipe.ingredients if line.item == item]
            times = Fraction(made.quantity, 1000) / recipe.yields
            exact = sum(
                line.amount * 1000 * (1 if line.scaling is Scaling.FIXED else times)
                for line in lines
            )
            asked = exploded.pop(f"{made.id}|{item}", None)
            assert abs((asked.quantity if asked else 0) - exact) <= Fraction(1, 2)
            if asked:
                assert (asked.via, asked.wanted_by) == (made.item, made.start)
    assert exploded == {}


@given(situations())
def test_RQ1_a_preparation_is_short_only_where_what_is_made_could_not_live_long_enough(situation):
    wanted, there = situation
    found = project(wanted, there, NOW)
    for item, recipe in there.preparations.items():
        short = found.allocations[item].short if item in found.allocations else {}
        for each in found.needs.get(item, ()):
            if each.id in short:
                assert recipe.life_days is not None
                made_on = local_date(max(NOW, each.wanted_by - recipe.lead.exact), LONDON)
                last = end_of_day(made_on + timedelta(days=recipe.life_days - 1), LONDON)
                assert last < each.until


@given(situations())
def test_RQ1_no_more_is_made_than_is_short_but_for_the_rest_of_a_whole_recipe(situation):
    wanted, there = situation
    found = project(wanted, there, NOW)
    for made in found.makings:
        picks = found.allocations[made.item].picks
        given = sum(pick.quantity for pick in picks if pick.source == made.id)
        recipe = there.preparations[made.item]
        whole = recipe.yields * 1000 if recipe.full_recipes else 0
        assert 0 <= made.quantity - given <= max(0, whole - 1)
        assert not whole or made.quantity % whole == 0


@given(situations(), st.data())
def test_LG2_the_projection_is_a_function_of_what_is_there_not_of_the_order_it_is_told(
    situation, data
):
    wanted, there = situation
    shuffled = data.draw(st.permutations(wanted))
    assert project(shuffled, there, NOW) == project(wanted, there, NOW)


@given(situations())
def test_RQ1_part_of_a_kitchen_planned_again_gives_what_the_whole_gave(situation):
    """What makings outside the part need of its items is given as it stands."""
    wanted, there = situation
    whole = project(wanted, there, NOW)
    for part in ({"stock"}, {"leek", "cream"}, {"glaze"}):
        inside = set(part)
        for made in ("soup base", "glaze", "stock"):
            if made in inside:
                inside |= {line.item for line in there.preparations[made].ingredients}
        told = [
            each for item in inside for each in whole.needs.get(item, ()) if each.via not in inside
        ]
        again = project(told, there, NOW)
        for item in again.needs:
            assert again.needs[item] == whole.needs[item]
            assert again.allocations[item] == whole.allocations[item]


@given(situations())
def test_PL5_what_would_have_to_be_bought_is_what_the_kitchen_projected_would_need_of_it(situation):
    needs, of = situation
    found = project(needs, replace(of, fixed={}), NOW)
    assert bought_for(needs, of, of.sources, NOW) == [
        need
        for item, wanted in found.needs.items()
        if item not in of.preparations
        for need in wanted
    ]
