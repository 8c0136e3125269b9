"""SL1-SL4: until when one thing may be used, by what is known about it."""

from datetime import UTC, date, datetime

import pytest

from pantry.refusals import MissingFact, Refusal, UnreadableInput, UnsafeFood
from pantry.rules.shelf_life import Life
from pantry.rules.stock import DateKind
from pantry.rules.usable_until import answer

LONDON = "Europe/London"
USE_BY, BEST_BEFORE = DateKind.USE_BY, DateKind.BEST_BEFORE


def utc(text: str) -> datetime:
    return datetime.fromisoformat(text).replace(tzinfo=UTC)


def day(text: str) -> date:
    return date.fromisoformat(text)


def test_SL1_nothing_known_is_no_limit():
    assert answer(LONDON) == answer(LONDON, date_kind=DateKind.NONE) == Life()


def test_SL3_opened_before_it_was_frozen_counts_before_and_after():
    life = answer(
        LONDON,
        date_kind=USE_BY,
        date=day("2027-03-20"),
        opened=day("2027-03-08"),
        opened_life_days=3,
        frozen=day("2027-03-09"),
        thawed=utc("2027-03-15 09:00"),
    )
    assert life.usable_until == utc("2027-03-16 23:59:59")  # day 1 the 8th; days 2, 3: 15th, 16th


@pytest.mark.parametrize("opening", ["2027-03-12", "2027-03-15"])
def test_SL3_opened_in_the_freezer_or_on_the_day_of_thawing_adds_no_day(opening):
    life = answer(
        LONDON,
        date_kind=USE_BY,
        date=day("2027-03-10"),
        frozen=day("2027-03-09"),
        opened=day(opening),
        opened_life_days=7,
        thawed=utc("2027-03-15 09:00"),
    )
    assert life.usable_until == utc("2027-03-16 23:59:59")


def test_SL3_opened_after_thawing_is_the_earlier():
    life = answer(
        LONDON,
        date_kind=BEST_BEFORE,
        date=day("2027-12-31"),
        thawed=utc("2027-03-15 09:00"),
        thawed_life_hours=72,
        opened=day("2027-03-16"),
        opened_life_days=1,
    )
    assert life == Life(utc("2027-03-16 23:59:59"), utc("2027-12-31 23:59:59"))


def test_SL3_what_lies_frozen_has_no_last_instant():
    life = answer(LONDON, made=day("2027-03-08"), life_days=4, frozen=day("2027-03-11"))
    assert life.frozen
    assert life.usable_until is None


@pytest.mark.parametrize(
    ("code", "asked"),
    [
        ("half_said", {"date": day("2027-03-20")}),
        ("half_said", {"date": day("2027-03-20"), "date_kind": DateKind.NONE}),
        ("half_said", {"date_kind": USE_BY}),
        ("half_said", {"opened": day("2027-03-20")}),
        ("half_said", {"opened_life_days": 3}),
        ("half_said", {"made": day("2027-03-20")}),
        ("half_said", {"life_days": 3}),
        ("half_said", {"thawed_life_hours": 24}),
        (
            "two_origins",
            {
                "date_kind": USE_BY,
                "date": day("2027-03-20"),
                "made": day("2027-03-08"),
                "life_days": 3,
            },
        ),
        ("before_made", {"made": day("2027-03-08"), "life_days": 3, "frozen": day("2027-03-07")}),
        (
            "before_made",
            {"made": day("2027-03-08"), "life_days": 3, "thawed": utc("2027-03-07 12:00")},
        ),
        ("thawed_before_frozen", {"frozen": day("2027-03-08"), "thawed": utc("2027-03-07 12:00")}),
        ("life_too_short", {"made": day("2027-03-08"), "life_days": 0}),
        ("life_too_short_in_hours", {"thawed": utc("2027-03-07 12:00"), "thawed_life_hours": 0}),
    ],
)
def test_SL3_what_contradicts_itself_is_refused_by_name(code, asked):
    with pytest.raises(UnreadableInput) as refused:
        answer(LONDON, **asked)
    assert refused.value.code == code


def test_SL3_what_stands_in_the_way_is_named():
    with pytest.raises(UnreadableInput) as refused:
        answer(LONDON, made=day("2027-03-08"), life_days=3, frozen=day("2027-03-07"))
    assert (refused.value.field, refused.value.value) == ("frozen", "2027-03-07")
    with pytest.raises(UnreadableInput) as refused:
        answer(LONDON, frozen=day("2027-03-08"), thawed=utc("2027-03-07 12:00"))
    assert (refused.value.field, refused.value.value) == ("thawed", "2027-03-07")


def test_SL3_frozen_and_thawed_on_one_day_is_as_if_it_had_not_been():
    life = answer(
        LONDON,
        made=day("2027-03-08"),
        life_days=4,
        frozen=day("2027-03-09"),
        thawed=utc("2027-03-09 20:00"),
    )
    assert life.usable_until == utc("2027-03-11 23:59:59")


def test_SL3_frozen_after_its_date_is_refused():
    with pytest.raises(UnsafeFood) as refused:
        answer(LONDON, date_kind=USE_BY, date=day("2027-03-20"), frozen=day("2027-03-21"))
    assert refused.value.code == "frozen_too_late"


def test_SL3_thawed_with_nothing_to_go_by_is_refused():
    with pytest.raises(MissingFact) as refused:
        answer(LONDON, thawed=utc("2027-03-07 12:00"))
    assert refused.value.code == "life_unknown"


def test_SL1_an_unknown_zone_is_refused():
    with pytest.raises(Refusal) as refused:
        answer("Europe/Atlantis")
    assert refused.value.code == "zone_unknown"
