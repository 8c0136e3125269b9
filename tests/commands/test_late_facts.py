"""Facts and counts that are handed in out of their order: time decides, within its bounds (SY8)."""

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


def phone(house, name):
    house.do("enrol_device", {"device": name, "name": name}, person=MANAGER)
    return {"device": name, "n": 1, "clock": {"offset_ms": 0, "bound_ms": 5_000}}


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
