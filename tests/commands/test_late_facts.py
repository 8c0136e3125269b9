"""Facts and counts that are handed in out of their order: time decides, within its bounds (SY8)."""

from datetime import timedelta

from tests.commands.house import NOW, at
from tests.commands.larkfield import MANAGER


def counted(quantity):
    return {"area": "Cold room", "lines": [{"batch": "b", "quantity": quantity}]}


def butter(house):
    house.receive("b", "butter", "1 kg", at=at(7))


def test_SY8_what_moved_after_the_count_is_not_counted_against_it(house):
    butter(house)
    house.do("use", {"batch": "b", "quantity": "300 g"}, at=at(8, 10))
    house.do("count", counted("1 kg"), at=at(8, 9))
    assert house.balances("b")["area:cold-room"] == 700_000
    assert house.questions() == []


def test_SY8_what_moved_before_the_count_and_is_handed_in_later_changes_nothing(house):
    butter(house)
    house.now = at(9)
    house.do("count", counted("1 kg"), at=at(8, 10))
    house.do("use", {"batch": "b", "quantity": "300 g"}, at=at(8, 9))
    assert house.balances("b")["area:cold-room"] == 1_000_000
    assert house.balances("b")["served:off-menu"] == 300_000
    assert house.balances("b")["count_difference"] == -300_000


def test_SY8_a_late_fact_explains_the_difference_that_the_count_found(house):
    butter(house)
    house.now = at(9)
    house.do("count", counted("700 g"), at=at(8, 10))
    waste = {"batch": "b", "quantity": "300 g", "reason": "mould", "destination": "bin"}
    house.do("waste", waste, at=at(8, 9))
    assert house.balances("b") == {
        "area:cold-room": 700_000,
        "waste": 300_000,
        "supplier": -1_000_000,
    }
    assert house.questions("overdrawn") == []


def test_SY8_what_happened_after_the_count_moves_the_shelf_as_ever(house):
    butter(house)
    house.do("count", counted("1 kg"), at=at(8, 6))
    house.do("use", {"batch": "b", "quantity": "300 g"})
    assert house.balances("b")["area:cold-room"] == 700_000


def test_SY8_a_late_fact_is_taken_up_only_where_it_was_counted(house):
    butter(house)
    house.now = at(9)
    house.do("count", counted("1 kg"), at=at(8, 10))
    house.do("move", {"batch": "b", "quantity": "200 g", "area": "Pantry"}, at=at(8, 9))
    assert house.balances("b")["area:cold-room"] == 1_000_000
    assert house.balances("b")["area:pantry"] == 200_000


def test_SY8_a_count_handed_in_after_a_later_one_changes_nothing(house):
    butter(house)
    house.now = at(9)
    house.do("count", counted("800 g"), at=at(8, 12))
    house.do("count", counted("1 kg"), at=at(8, 11))
    assert house.balances("b")["area:cold-room"] == 800_000


def test_SY8_what_was_used_between_two_counts_and_handed_in_late_is_taken_up_by_the_second(house):
    butter(house)
    house.now = at(10)
    house.do("count", counted("1 kg"), at=at(8, 9))
    house.do("count", counted("900 g"), at=at(9, 9))
    house.do("use", {"batch": "b", "quantity": "100 g"}, at=at(8, 18))
    assert house.balances("b") == {
        "area:cold-room": 900_000,
        "served:off-menu": 100_000,
        "supplier": -1_000_000,
    }


def phone(house, name, bound_ms=5_000):
    house.do("enrol_device", {"device": name, "name": name}, person=MANAGER)
    return {"device": name, "n": 1, "clock": {"offset_ms": 0, "bound_ms": bound_ms}}


def test_SY8_where_two_clocks_leave_the_order_open_the_one_that_fits_is_taken(house):
    butter(house)
    one, other = phone(house, "one"), phone(house, "other")
    house.do("use", {"batch": "b", "quantity": "300 g"}, at=NOW, **one)
    house.do("count", counted("1 kg"), at=NOW.replace(second=3), **other)
    assert house.balances("b")["area:cold-room"] == 700_000
    assert house.questions() == []


def test_SY8_where_neither_order_fits_it_is_asked_and_the_books_stay(house):
    butter(house)
    one, other = phone(house, "one"), phone(house, "other")
    house.do("use", {"batch": "b", "quantity": "300 g"}, at=NOW, **one)
    house.do("count", counted("800 g"), at=NOW.replace(second=3), **other)
    assert house.question("which_was_first").about.endswith("|b")
    assert house.balances("b")["area:cold-room"] == 700_000


def test_SY8_beyond_the_bounds_time_decides(house):
    butter(house)
    one, other = phone(house, "one"), phone(house, "other")
    house.do("use", {"batch": "b", "quantity": "300 g"}, at=NOW, **one)
    house.do("count", counted("1 kg"), at=NOW.replace(second=30), **other)
    assert house.balances("b")["area:cold-room"] == 1_000_000


def test_one_device_knows_its_own_order(house):
    butter(house)
    one = phone(house, "one")
    house.do("use", {"batch": "b", "quantity": "300 g"}, at=NOW, **one)
    house.do("count", counted("1 kg"), at=NOW.replace(second=3), **one | {"n": 2})
    assert house.balances("b")["area:cold-room"] == 1_000_000


MINUTES = 60_000
USED = {"batch": "b", "quantity": "300 g"}


def test_SY8_clocks_that_are_far_out_are_looked_at_as_far_as_they_may_be(house):
    """Never held against the server's, two clocks may be 40 minutes apart in all."""
    butter(house)
    one, other = phone(house, "one", 20 * MINUTES), phone(house, "other", 20 * MINUTES)
    house.do("use", USED, at=NOW, **one)
    house.do("count", counted("1 kg"), at=NOW + timedelta(minutes=39), **other)
    assert house.balances("b")["area:cold-room"] == 700_000


def test_SY8_a_movement_handed_in_after_a_count_beside_it_is_asked_about_and_time_decides(house):
    butter(house)
    one, other = phone(house, "one"), phone(house, "other")
    house.do("count", counted("800 g"), at=NOW, **one)
    house.do("use", USED, at=NOW.replace(second=3), **other)
    asked = house.question("which_was_first")
    assert (asked.about, asked.owner) == ("area:cold-room|b", "chef")
    assert house.balances("b")["area:cold-room"] == 500_000


def test_SY8_a_movement_before_a_count_is_asked_about_too_where_the_clocks_leave_it_open(house):
    butter(house)
    one, other = phone(house, "one"), phone(house, "other")
    house.do("count", counted("800 g"), at=NOW.replace(second=3), **one)
    house.do("use", USED, at=NOW, **other)
    assert house.question("which_was_first").about == "area:cold-room|b"
    assert house.balances("b")["area:cold-room"] == 800_000


def test_SY8_beyond_the_bounds_nobody_is_asked_about_a_movement_after_a_count(house):
    butter(house)
    one, other = phone(house, "one"), phone(house, "other")
    house.do("count", counted("960 g"), at=NOW, **one)
    house.do("use", USED, at=NOW.replace(second=11), **other)
    assert house.questions() == []


def test_SY8_which_was_first_is_answered_by_counting_again(house):
    butter(house)
    one, other = phone(house, "one"), phone(house, "other")
    house.do("count", counted("960 g"), at=NOW, **one)
    house.do("use", USED, at=NOW.replace(second=3), **other)
    house.do("count", counted("660 g"), at=NOW.replace(second=40), **one | {"n": 2})
    assert house.questions() == []
    assert house.balances("b")["area:cold-room"] == 660_000


def test_SY8_what_another_count_found_is_no_movement_beside_this_one(house):
    """Two people count one shelf, and the second finds less: nobody moved anything."""
    butter(house)
    one, other = phone(house, "one"), phone(house, "other")
    house.do("count", counted("980 g"), at=NOW, **one)
    house.do("count", counted("960 g"), at=NOW.replace(second=3), **other)
    assert house.questions() == []
    assert house.balances("b")["area:cold-room"] == 960_000


def test_SY8_what_a_device_did_before_it_counted_is_counted_though_its_clock_was_set_back(house):
    butter(house)
    one = phone(house, "one")
    house.do("use", USED, at=at(8, 7, 20), **one)
    house.do("count", counted("700 g"), at=at(8, 7, 15), **one | {"n": 2})
    assert house.questions() == []
    assert house.balances("b")["area:cold-room"] == 700_000


def test_SY8_a_device_that_counts_again_overtakes_itself_though_its_clock_was_set_back(house):
    butter(house)
    one = phone(house, "one")
    house.do("count", counted("980 g"), at=at(8, 7, 20), **one)
    house.do("count", counted("960 g"), at=at(8, 7, 15), **one | {"n": 2})
    assert house.balances("b") == {
        "area:cold-room": 960_000,
        "count_difference": 40_000,
        "supplier": -1_000_000,
    }


def test_LG4_what_a_device_did_before_it_counted_may_be_taken_back_though_its_clock_was_set_back(
    house,
):
    """Neither the hour nor whoever takes it back says on which side of the count it was."""
    butter(house)
    one = phone(house, "one")
    used = house.do("use", USED, at=at(8, 7, 20), **one)
    house.do("count", counted("1 kg"), at=at(8, 7, 15), **one | {"n": 2})
    house.do("correct", {"command": used, "reason": "mistake"}, person=MANAGER)
    assert house.balances("b")["area:cold-room"] == 1_000_000


def test_LG4_a_use_of_the_second_of_a_count_is_before_it_or_after_it_when_taken_back(house):
    """At a desk all of one second: used, counted, used; then both uses are taken back."""
    butter(house)
    before = house.do("use", USED)
    house.do("count", counted("1 kg"))
    after = house.do("use", USED)
    assert house.balances("b")["area:cold-room"] == 700_000
    house.do("correct", {"command": before, "reason": "mistake"})
    assert house.balances("b")["area:cold-room"] == 700_000
    back = house.do("correct", {"command": after, "reason": "mistake"})
    assert house.balances("b")["area:cold-room"] == 1_000_000
    house.do("correct", {"command": back, "reason": "it was right"})
    assert house.balances("b")["area:cold-room"] == 700_000
