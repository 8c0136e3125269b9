"""What stands on a label: dates by name, in the house's zone; allergens never as free."""

from datetime import UTC, date, datetime
from zoneinfo import ZoneInfo

import pytest

from pantry.rules.house_time import end_of_day
from pantry.rules.label import Labelled, words_of
from pantry.rules.stock import DateKind, DateMark, State

LONDON = ZoneInfo("Europe/London")
NEW_YORK = ZoneInfo("America/New_York")
NONE = DateMark(DateKind.NONE)
USE_BY = DateMark(DateKind.USE_BY, date(2027, 3, 20))
BEST_BEFORE = DateMark(DateKind.BEST_BEFORE, date(2027, 9, 30))


def end(month, day, zone=LONDON):
    return end_of_day(date(2027, month, day), zone)


def labelled(**more):
    known = {
        "item": "Whole milk",
        "label": "KQ7PM",
        "house": "Larkfield Lodge",
        "area": "Cold room",
        "state": State.SEALED,
        "done": "receive",
        "done_at": datetime(2027, 3, 8, 9, tzinfo=UTC),
        "mark": NONE,
        "usable_until": None,
        "good_until": None,
    }
    return Labelled(**known | more)


def words(zone=LONDON, **more):
    return words_of(labelled(**more), zone)


def test_SL2_a_sealed_pack_keeps_the_name_of_its_own_date():
    assert words(mark=USE_BY, usable_until=end(3, 20)).dates == ("Use by Sat 20 Mar 2027",)
    best = words(mark=BEST_BEFORE, good_until=end(9, 30))
    assert best.dates == ("Best before Thu 30 Sep 2027",)


def test_SL3_what_was_opened_says_until_when_and_what_the_pack_said():
    opened = words(state=State.OPENED, done="open", mark=USE_BY, usable_until=end(3, 10))
    assert opened.dates == ("Usable until Wed 10 Mar 2027", "On the pack: use by Sat 20 Mar 2027")
    assert opened.done == "Opened Mon 8 Mar 2027"


def test_SL3_what_is_usable_for_hours_says_the_time():
    until = datetime(2027, 3, 9, 14, 30, tzinfo=UTC)
    thawed = words(state=State.THAWED, done="thaw", usable_until=until)
    assert thawed.dates == ("Usable until Tue 9 Mar 2027, 14:30",)
    assert thawed.done == "Thawed Mon 8 Mar 2027"


def test_SL1_dates_and_days_are_those_of_the_house():
    late = datetime(2027, 3, 8, 2, tzinfo=UTC)
    until = end(3, 10, NEW_YORK)
    made = words(NEW_YORK, state=State.MADE, done="make", done_at=late, usable_until=until)
    assert made.dates == ("Usable until Wed 10 Mar 2027",)
    assert made.done == "Made Sun 7 Mar 2027"


def test_frozen_food_says_when_it_was_frozen_and_how_long_it_is_good():
    frozen = words(state=State.FROZEN, done="freeze", good_until=end(9, 10))
    assert frozen.dates == ("Good until Fri 10 Sep 2027",)
    assert frozen.done == "Frozen Mon 8 Mar 2027"


def test_what_is_decanted_in_the_freezer_is_frozen_still():
    assert words(state=State.FROZEN, done="decant").done == "Decanted Mon 8 Mar 2027, frozen"


@pytest.mark.parametrize(
    ("done", "said"),
    [("harvest", "Picked"), ("decant", "Decanted"), ("vacuum_pack", "Vacuum packed")],
)
def test_what_was_done_is_said_with_its_day(done, said):
    assert words(done=done).done == f"{said} Mon 8 Mar 2027"


def test_without_any_date_it_says_so():
    assert words().dates == ("No date mark",)


def test_AL3_unknown_is_said_and_nothing_is_called_free():
    said = words(contains=("milk",), may_contain=("nuts",), unknown=("celery", "lupin"))
    assert said.allergens == ("Contains: milk", "May contain: nuts", "Not known: celery, lupin")
    assert words(unknown=("celery",), all_unknown=True).allergens == ("Allergens not known",)
    assert words().allergens == ()


def test_what_must_not_be_used_says_so():
    assert words(usable=False, held=True).warning == "Not to be used"
    assert words(held=True).warning == "On hold: the chef decides"
    assert words().warning == ""
