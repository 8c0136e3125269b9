"""Lives and date marks, against what is published.

A value marked `computed` follows from the source beside it by counting days.
"""

import re
from datetime import UTC, date, datetime, time, timedelta
from zoneinfo import ZoneInfo

import pytest

from pantry.handbook.policies import POLICIES, policy
from pantry.rules.date_marks import read_date_mark
from pantry.rules.house_time import zone
from pantry.rules.menu import Dating
from pantry.rules.shelf_life import (
    flagged_at,
    frozen,
    made,
    of_mark,
    opened,
    thawed,
    usable_at,
    vacuum_packed,
)
from pantry.rules.stock import DateKind, DateMark
from pantry.rules.usable_until import answer

LONDON, NEW_YORK = zone("Europe/London"), zone("America/New_York")
UK, US = policy("uk"), policy("us")


def wall(day: str, clock: str, house: ZoneInfo) -> datetime:
    text = time.fromisoformat(clock)
    return datetime.combine(date.fromisoformat(day), text, house).astimezone(UTC)


def last_day(instant: datetime, house: ZoneInfo) -> str:
    """The civil date of an instant that is the last second of its day."""
    shown = instant.astimezone(house)
    assert shown.time() == time(23, 59, 59)
    return shown.date().isoformat()


def use_by(day: str, house: ZoneInfo = LONDON):
    return of_mark(DateMark(DateKind.USE_BY, date.fromisoformat(day)), house)


def best_before(day: str, house: ZoneInfo = LONDON):
    return of_mark(DateMark(DateKind.BEST_BEFORE, date.fromisoformat(day)), house)


# FDA Food Code 2022, 3-501.17(A): 7 days, the day of preparation being day 1 (Minn. R. 4626.0400).
# City of Dubuque, Iowa, date marking, July 2024: prepared on 1 July, last day 7 July.
def test_SL4_prepared_on_1_July_has_its_last_day_on_7_July():
    days = US.life("prepared", "any").days
    life = made(wall("2027-07-01", "11:00", NEW_YORK), days, Dating.COOKED, (), NEW_YORK)
    assert last_day(life.usable_until, NEW_YORK) == "2027-07-07"


# FDA Food Code 2022, 3-501.17(B): the day of opening is day 1; never past the maker's use-by
# (Minn. R. 4626.0400 B).
def test_SL3_an_opened_pack_has_7_days_and_never_more_than_its_use_by():
    days = US.life("opened", "any").days
    at = wall("2027-07-01", "11:00", NEW_YORK)
    long = opened(use_by("2027-08-01", NEW_YORK), at, days, NEW_YORK)
    assert last_day(long.usable_until, NEW_YORK) == "2027-07-07"
    short = opened(use_by("2027-07-04", NEW_YORK), at, days, NEW_YORK)
    assert last_day(short.usable_until, NEW_YORK) == "2027-07-04"


# FDA Food Code 2022, 3-501.17(C): what is combined keeps the date of its earliest-prepared part
# (Wis. Admin. Code ATCP 75). The two dates: computed.
def test_SL4_what_is_combined_keeps_the_date_of_its_earliest_part():
    parts = [
        made(wall(day, "11:00", NEW_YORK), 7, Dating.COOKED, (), NEW_YORK)
        for day in ("2027-07-03", "2027-07-01")
    ]
    life = made(wall("2027-07-04", "11:00", NEW_YORK), 7, Dating.ASSEMBLED, parts, NEW_YORK)
    assert last_day(life.usable_until, NEW_YORK) == "2027-07-07"


# North Carolina date-marking sheet, studylib.net/doc/13385666: cooked on 1 October (day 1), frozen
# on 3 October, thawed on 10 October (day 3), discarded by the end of 14 October (day 7).
def test_SL3_the_published_case_of_freezing_stops_the_clock():
    life = answer(
        "America/New_York",
        made=date(2027, 10, 1),
        life_days=7,
        frozen=date(2027, 10, 3),
        thawed=wall("2027-10-10", "08:00", NEW_YORK),
    )
    assert last_day(life.usable_until, NEW_YORK) == "2027-10-14"


# Minn. R. 4626.0400, 2014 version: days after thawing = 7 - days held before freezing.
@pytest.mark.parametrize("held", range(7))
def test_SL3_days_after_thawing_are_seven_less_those_before_freezing(held):
    cooked = wall("2027-10-01", "12:00", NEW_YORK)
    life = made(cooked, 7, Dating.COOKED, (), NEW_YORK)
    stopped = frozen(life, cooked + timedelta(days=held), None, NEW_YORK)
    out = wall("2027-12-01", "12:00", NEW_YORK)
    after = thawed(stopped, out, None, NEW_YORK, thawing_counts=US.thawing_counts).usable_until
    days = (date.fromisoformat(last_day(after, NEW_YORK)) - date(2027, 12, 1)).days + 1
    assert days == 7 - held


# Regulation (EU) No 1169/2011, article 24(1): past its use-by food is unsafe; it ends at midnight
# at the end of the date shown (fdf.org.uk, application of minimum durability).
@pytest.mark.parametrize("house", [LONDON, NEW_YORK, zone("Pacific/Auckland")])
def test_SL1_a_use_by_ends_at_the_houses_own_midnight(house):
    life = use_by("2027-03-10", house)
    assert usable_at(life, wall("2027-03-10", "23:59:59", house))
    assert not usable_at(life, wall("2027-03-11", "00:00", house))


# The same source: past its best-before food may be used if it is fit.
def test_SL2_a_best_before_that_is_past_is_flagged_and_not_blocked():
    life = best_before("2027-03-10")
    assert usable_at(life, wall("2027-03-11", "00:00", LONDON))
    assert flagged_at(life, wall("2027-03-11", "00:00", LONDON))


# Regulation (EU) No 1169/2011, Annex X, 1(c): month and year, or year alone, for what keeps longer;
# the last good day of each, and the year left out: computed.
@pytest.mark.parametrize(
    ("text", "read_on", "last"),
    [
        ("03/2027", "2027-01-10", "2027-03-31"),
        ("2028", "2027-01-10", "2028-12-31"),
        ("28 Feb", "2027-01-10", "2027-02-28"),
        ("28 Feb", "2027-12-20", "2028-02-28"),
    ],
)
def test_SL1_a_best_before_by_month_or_year_ends_with_it(text, read_on, last):
    mark = read_date_mark(text, DateKind.BEST_BEFORE, read_on=date.fromisoformat(read_on))
    assert last_day(of_mark(mark, LONDON).good_until, LONDON) == last


# Computed: the day of opening is day 1 (FDA Food Code 2022, 3-501.17(B)), the pack's date a limit.
def test_SL3_use_by_the_20th_opened_on_the_8th_for_3_days_is_the_10th():
    life = answer(
        "Europe/London",
        date_kind=DateKind.USE_BY,
        date=date(2027, 3, 20),
        opened=date(2027, 3, 8),
        opened_life_days=3,
    )
    assert life.usable_until == datetime(2027, 3, 10, 23, 59, 59, tzinfo=UTC)


# Computed: the earliest ingredient wins in what is assembled (FDA Food Code 2022, 3-501.17(C)).
def test_SL4_cream_to_the_9th_and_a_base_to_the_7th_make_a_sauce_to_the_7th():
    at = wall("2027-03-05", "15:00", LONDON)
    parts = [use_by("2027-03-09"), use_by("2027-03-07")]
    life = made(at, None, Dating.ASSEMBLED, parts, LONDON)
    assert last_day(life.usable_until, LONDON) == "2027-03-07"


# Computed: a dinner on the 13th is not covered by what ends on the 12th.
def test_SL2_what_ends_the_day_before_the_dinner_does_not_cover_it():
    assert not usable_at(use_by("2027-03-12"), wall("2027-03-13", "19:30", LONDON))


# Food Standards Agency, The safety and shelf-life of vacuum and modified atmosphere packed chilled
# foods, December 2020: ten days at 3 to 8 °C without another control. The date: computed.
def test_SL3_vacuum_packed_and_chilled_keeps_ten_days_at_most():
    days = UK.life("vacuum", "any").days
    packed = vacuum_packed(use_by("2027-12-01"), wall("2027-03-08", "10:00", LONDON), days, LONDON)
    assert last_day(packed.usable_until, LONDON) == "2027-03-17"


# Food Standards Agency, July 2016 (foodmate.com, 5 July 2016): up to 24 hours once defrosted; and
# How to chill, freeze and defrost food safely: frozen right up to the use-by date.
def test_SL3_frozen_on_its_last_day_it_has_at_most_24_hours_once_thawed():
    stopped = frozen(use_by("2027-03-20"), wall("2027-03-20", "18:00", LONDON), None, LONDON)
    out = wall("2027-04-09", "20:00", LONDON)
    hours = UK.life("thawed", "any").hours
    life = thawed(stopped, out, hours, LONDON, timedelta(hours=12))
    assert last_day(life.usable_until, LONDON) == "2027-04-10"
    roomy = frozen(use_by("2027-03-20"), wall("2027-03-10", "18:00", LONDON), None, LONDON)
    later = thawed(roomy, out, hours, LONDON, timedelta(hours=12))
    assert later.usable_until == wall("2027-04-11", "08:00", LONDON)


# What English caterers label: cooked on Monday, day dot for Wednesday (foodsafetyguru.co.uk, Food
# labelling in the kitchen).
def test_SL4_cooked_on_Monday_is_labelled_for_Wednesday():
    days = UK.life("prepared", "lasagne").days
    monday = wall("2027-03-08", "16:00", LONDON)
    life = made(monday, days, Dating.COOKED, (), LONDON)
    assert last_day(life.usable_until, LONDON) == "2027-03-10"


# USDA FSIS FoodKeeper (foodkeeper_data_url_en.json, copy of 2026-11-25, 661 products): the freezer
# column by product number, as the file writes it.
FOODKEEPER = {
    "1": "6 - 9 Months",
    "2": "3 Months",
    "3": "6 Months",
    "7": "6 Months",
    "14": "3 - 4 Months",
    "22": "12 Months",
    "27": "3 Months",
    "40": "4 - 12 Months",
    "43": "3 - 4 Months",
    "44": "4 - 12 Months",
    "60": "4 - 12 Months",
    "76": "4 - 12 Months",
    "77": "3 - 4 Months",
    "79": "1 Month",
    "102": "1 - 2 Months",
    "113": "12 Months",
    "117": "9 Months",
    "123": "6 Months",
    "144": "6 - 8 Months",
    "146": "2 - 3 Months",
    "150": "6 - 18 Months",
    "151": "6 - 18 Months",
    "154": "2 - 4 Months",
    "174": "1 - 2 Months",
    "193": "2 - 3 Months",
    "271": "5 Months",
    "273": "8 Months",
    "279": "10 - 12 Months",
    "317": "6 Months",
    "460": "3 Months",
    "481": "8 - 12 Months",
    "484": "2 - 3 Months",
    "595": "9 Months",
}


@pytest.mark.parametrize("name", POLICIES)
def test_SL5_frozen_quality_is_the_lower_end_of_the_foodkeeper(name):
    cited = set()
    for key, number in policy(name).numbers.items():
        if key.startswith("frozen."):
            for product in re.findall(r"\d+", number.source.partition("product")[2]):
                months = int(FOODKEEPER[product].split(" ")[0])
                assert number.amount == 30 * months, key
                cited.add(product)
    assert cited == set(FOODKEEPER)


# USDA FSIS, The Big Thaw (2013), as tabulated at extension.illinois.edu/meat-safety/thawing: 1-2
# days for minced meat and poultry, 3-5 days for roasts, steaks and chops; and FoodKeeper, product
# 173: left-overs 3-4 days. The policy takes the lower ends.
@pytest.mark.parametrize(
    ("treatment", "food", "days"),
    [("thawed", "poultry", 1), ("thawed", "red_meat", 3), ("prepared", "left_over", 3)],
)
def test_SL5_the_lower_end_of_published_ranges_is_the_policy(treatment, food, days):
    life = US.life(treatment, food)
    assert (life.days or life.hours // 24) == days
