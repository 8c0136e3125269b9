"""Who is promised what: first expired first out, what is fixed stays (LG2, AL1, AL2, RQ3)."""

from pantry.records.tables import PromiseRow
from tests.commands.house import DAY, at, use_by

TODAY, TOMORROW = "2027-03-08/dinner/family", "2027-03-09/dinner/family"
FRIDAY, SATURDAY = "2027-03-12/dinner/family", "2027-03-13/dinner/family"

STAFF, FAMILY = "2027-03-12/lunch/staff", "2027-03-12/lunch/family"


def milk(house, batch, quantity, day):
    house.receive(batch, "whole-milk", quantity, use_by(day))


def test_AL1_a_batch_that_dies_before_the_service_is_not_promised(house):
    milk(house, "dies", "1 l", 11)
    house.menu(FRIDAY, "rice-pudding")
    assert house.promised("dies") == {}


def test_AL1_what_dies_first_and_lives_long_enough_is_promised(house):
    milk(house, "late", "1 l", 20)
    milk(house, "early", "1 l", 12)
    house.menu(FRIDAY, "rice-pudding")
    assert house.promised("early") == {FRIDAY: 1_000_000}


def test_AL1_what_is_on_hold_or_the_emergency_meal_is_not_promised(house):
    house.receive("held", "whole-milk", "1 l", use_by(12), verdict="hold")
    milk(house, "kept", "1 l", 12)
    house.do("set_aside", {"batch": "kept", "quantity": "1 l", "area": "Cold room"})
    house.menu(FRIDAY, "rice-pudding")
    assert house.promised("held") == house.promised("kept") == {}


def test_AL2_later_picks_are_swapped_for_what_dies_first(house):
    milk(house, "late", "1 l", 20)
    house.menu(FRIDAY, "rice-pudding")
    milk(house, "early", "1 l", 13)
    assert house.promised("early") == {FRIDAY: 1_000_000}
    assert house.promised("late") == {}


def test_AL2_todays_and_tomorrows_picks_stay(house):
    milk(house, "late", "2 l", 20)
    house.menu(TODAY, "rice-pudding")
    house.menu(TOMORROW, "rice-pudding")
    milk(house, "early", "2 l", 13)
    assert house.promised("late") == {TODAY: 1_000_000, TOMORROW: 1_000_000}


def test_AL2_what_can_be_bought_no_more_keeps_its_stock(house):
    milk(house, "m", "1 l", 20)
    house.menu(FRIDAY, "rice-pudding")
    house.now = at(11, 18)
    house.menu("2027-03-12/lunch/family", "rice-pudding", time="12:00")
    assert house.promised("m") == {FRIDAY: 1_000_000}


def test_AL2_what_can_still_be_bought_yields_to_what_cannot(house):
    milk(house, "m", "1 l", 20)
    house.menu("2027-03-15/dinner/family", "rice-pudding")
    house.now = at(11, 18)
    house.menu(FRIDAY, "rice-pudding")
    assert house.promised("m") == {FRIDAY: 1_000_000}


def test_AL2_of_what_can_be_bought_no_more_the_first_promised_keeps_its_stock(house):
    milk(house, "m", "1 l", 20)
    house.now = at(11, 18)
    house.menu(STAFF, "rice-pudding", time="12:00", covers=3)
    house.menu(FAMILY, "rice-pudding", time="12:00")
    assert house.promised("m") == {STAFF: 750_000, FAMILY: 250_000}


def test_AL2_when_what_was_promised_is_lost_the_tables_rank_decides(house):
    milk(house, "m", "1 l", 20)
    house.now = at(11, 18)
    house.menu(STAFF, "rice-pudding", time="12:00", covers=3)
    house.menu(FAMILY, "rice-pudding", time="12:00")
    house.do("use", {"batch": "m", "quantity": "300 ml"})
    assert house.promised("m") == {STAFF: 450_000, FAMILY: 250_000}


def test_RQ3_what_opening_uses_up_is_not_promised_twice(house):
    house.receive("m", "whole-milk", "2 l", use_by(30), pack="2 l bottle")
    house.menu(TODAY, "rice-pudding")
    house.menu(SATURDAY, "rice-pudding")
    assert house.promised("m") == {TODAY: 1_000_000}


def test_RQ3_what_is_ordered_and_dies_first_is_counted_on_and_promised_to_nobody(house):
    milk(house, "m", "1 l", 25)
    lines = [{"item": "whole-milk", "pack": "2 l bottle", "packs": 1}]
    order = {"supplier": "hill-dairy", "delivery": "2027-03-12", "lines": lines}
    house.menu(FRIDAY, "rice-pudding")
    house.menu("2027-03-17/dinner/family", "rice-pudding")
    assert house.promised("m") == {FRIDAY: 1_000_000}
    house.do("place_order", order)
    assert house.promised("m") == {"2027-03-17/dinner/family": 1_000_000}


def test_LG2_only_net_differences_are_written(house):
    milk(house, "m", "2 l", 20)
    house.menu(FRIDAY, "rice-pudding")
    before = len(house.rows(PromiseRow))
    milk(house, "n", "2 l", 25)
    house.do("confirm", {"service": FRIDAY, "dishes": [{"dish": "rice-pudding"}]})
    house.do("change_covers", {"service": FRIDAY, "covers": 6})
    written = house.rows(PromiseRow)[before:]
    assert [row.quantity for row in written] == [500_000]


def test_LG2_confirming_and_taking_off_with_nothing_between_restores_what_was_available(house):
    milk(house, "a", "1 l", 12)
    milk(house, "b", "2 l", 20)
    house.receive("flour", "plain-flour", "1 kg")
    house.menu(SATURDAY, "rice-pudding")
    before = {batch: house.available(batch) for batch in ("a", "b", "flour")}
    house.menu(FRIDAY, "pancakes")
    assert {batch: house.available(batch) for batch in before} != before
    house.do("take_off", {"service": FRIDAY, "reason": "changed their minds"})
    assert {batch: house.available(batch) for batch in before} == before


def test_LG2_a_day_passing_changes_no_promise_by_itself(house):
    milk(house, "m", "2 l", 20)
    house.menu(FRIDAY, "rice-pudding")
    house.now += DAY
    house.hand_in()
    assert house.promised("m") == {FRIDAY: 1_000_000}


def test_SL3_what_cannot_be_planned_is_promised_to_nobody_and_asked_about(house):
    from pantry.records.database import writing
    from pantry.records.rows import change
    from pantry.records.tables import ItemRow
    from tests.commands.larkfield import ID

    house.receive("b", "butter", "1 kg")
    house.menu(FRIDAY, "rice-pudding")
    with writing(house.engine) as connection:
        change(connection, ItemRow, {"house": ID, "id": "butter"}, whole=True)
    house.do("use", {"batch": "b", "quantity": "100 g"})
    assert house.promised("b") == {}
    assert "what one weighs is not known" in house.question("cannot_plan").against
