"""What the house uses every day whatever the menu (RQ5)."""

from datetime import UTC, date, datetime, timedelta
from fractions import Fraction
from zoneinfo import ZoneInfo

from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.allocation import Handling, Need, Source
from pantry.rules.daily_use import daily_needs
from pantry.rules.house_time import end_of_day
from pantry.rules.kitchen import Kitchen, project
from pantry.rules.stock import BaseUnit, Item

LONDON = ZoneInfo("Europe/London")
MILK = Item("milk", "Whole milk", BaseUnit.ML, daily_per_head=250_000)
LEMON = Item("lemon", "Lemon", BaseUnit.EACH, whole=True, daily_per_head=125)


def daily(
    *items: Item, people: int, first: date, last: date, zone: ZoneInfo = LONDON
) -> list[Need]:
    return daily_needs({item.id: item for item in items}, people, first, last, zone)


def test_RQ5_use_is_by_head_and_day_wanted_in_the_morning_and_usable_all_day():
    found = daily(MILK, people=6, first=date(2027, 3, 27), last=date(2027, 3, 28))
    assert [each.id for each in found] == ["daily|milk|2027-03-27", "daily|milk|2027-03-28"]
    assert [each.quantity for each in found] == [1_500_000, 1_500_000]
    assert [each.wanted_by for each in found] == [
        datetime(2027, 3, 27, 6, tzinfo=UTC),
        datetime(2027, 3, 28, 5, tzinfo=UTC),  # 06:00 BST
    ]
    assert [each.until for each in found] == [
        datetime(2027, 3, 27, 23, 59, 59, tzinfo=UTC),
        datetime(2027, 3, 28, 22, 59, 59, tzinfo=UTC),
    ]
    assert {(each.service, each.dish, each.rank) for each in found} == {("", "", 1_000_000)}


def test_RQ5_milk_that_dies_today_is_used_today():
    found = daily(MILK, people=4, first=date(2027, 3, 10), last=date(2027, 3, 11))
    now = datetime(2027, 3, 10, 9, tzinfo=UTC)
    last_day = end_of_day(date(2027, 3, 10), LONDON)
    dying = Source("batch", "b", "milk", 2_000_000, last_day, None, now)
    kitchen = Kitchen(
        {"milk": MILK}, {}, {"milk": [dying]}, {}, lambda _: Handling(), LONDON, lambda *_: None
    )
    allocation = project(found, kitchen, now).allocations["milk"]
    assert [(pick.need, pick.quantity) for pick in allocation.picks] == [
        ("daily|milk|2027-03-10", 1_000_000)
    ]
    assert allocation.short == {"daily|milk|2027-03-11": 1_000_000}


def test_RQ5_nobody_in_the_house_and_what_is_not_counted_use_nothing():
    days = {"first": date(2027, 3, 10), "last": date(2027, 3, 12)}
    assert daily(MILK, LEMON, people=0, **days) == []
    salt = Item("salt", "Salt", BaseUnit.G, measured=False, daily_per_head=1000)
    assert daily(salt, Item("tea", "Tea", BaseUnit.G), people=6, **days) == []
    assert daily(MILK, people=6, first=date(2027, 3, 12), last=date(2027, 3, 10)) == []


def test_RQ5_a_quarter_of_a_lemon_a_day_is_a_lemon_every_fourth_day():
    found = daily(LEMON, people=2, first=date(2027, 3, 1), last=date(2027, 3, 28))
    assert {each.quantity for each in found} == {1000}
    assert len(found) == 7


@given(
    st.integers(1, 2500),
    st.integers(1, 9),
    st.dates(date(2027, 1, 1), date(2027, 12, 1)),
    st.integers(0, 60),
    st.sampled_from([None, Fraction(60), Fraction(1234, 7)]),
)
def test_RQ5_whole_pieces_follow_use_within_one_piece_and_on_the_same_days_whenever_asked(
    per_head, people, first, length, weight
):
    unit = BaseUnit.EACH if weight is None else BaseUnit.G
    egg = Item("egg", "Egg", unit, whole=True, piece_weight=weight, daily_per_head=per_head)
    piece = 1000 if weight is None else round(weight * 1000)
    last = first + timedelta(days=length)
    found = daily(egg, people=people, first=first, last=last)
    assert all(each.quantity % piece == 0 for each in found)
    used = per_head * people * (length + 1)
    assert abs(sum(each.quantity for each in found) - used) < piece
    by_day = [
        each
        for n in range(length + 1)
        for each in daily(
            egg,
            people=people,
            first=first + timedelta(days=n),
            last=first + timedelta(days=n),
        )
    ]
    assert by_day == found
