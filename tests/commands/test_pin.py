"""The chef says which batch a service gets (AL2)."""

from pantry.records.tables import PromisedRow
from tests.commands.house import at, use_by
from tests.commands.larkfield import MANAGER

DINNER = "2027-03-12/dinner/family"
LUNCH = "2027-03-13/lunch/staff"


def two_batches(house):
    house.receive("early", "whole-milk", "1 l", use_by(14))
    house.receive("late", "whole-milk", "1 l", use_by(20))


def pin(house, batch="late", quantity="1 l", service=DINNER, **rest):
    body = {"service": service, "batch": batch, "quantity": quantity}
    return house.do("pin", body, **rest)


def test_AL2_a_pinned_batch_is_given_though_another_dies_first(house):
    two_batches(house)
    house.menu(DINNER, "rice-pudding")
    assert house.promised("early") == {DINNER: 1_000_000}
    pin(house)
    assert house.promised("late") == {DINNER: 1_000_000}
    assert house.promised("early") == {}


def test_AL2_a_pin_stays_whatever_else_is_planned(house):
    two_batches(house)
    house.menu(DINNER, "rice-pudding")
    pin(house)
    house.menu(LUNCH, "rice-pudding", time="12:30")
    house.receive("more", "whole-milk", "3 l", use_by(13))
    assert house.promised("late") == {DINNER: 1_000_000}
    assert [row.pinned for row in house.rows(PromisedRow, batch="late")] == [True]


def test_AL2_a_pin_takes_the_batch_from_whom_it_was_promised_to(house):
    house.receive("m", "whole-milk", "1 l", use_by(14))
    house.menu(DINNER, "rice-pudding")
    house.menu(LUNCH, "rice-pudding", time="12:30")
    assert house.promised("m") == {DINNER: 1_000_000}
    pin(house, "m", "600 ml", LUNCH)
    assert house.promised("m") == {DINNER: 400_000, LUNCH: 600_000}


def test_AL2_todays_pick_gives_way_to_a_pin(house):
    two_batches(house)
    house.menu(DINNER, "rice-pudding")
    house.now = at(12)
    pin(house)
    assert house.promised("late") == {DINNER: 1_000_000}
    assert house.promised("early") == {}


def test_AL2_part_of_it_may_be_pinned(house):
    house.receive("early", "butter", "1 kg", use_by(14))
    house.receive("late", "butter", "1 kg", use_by(20))
    house.menu(DINNER, "rice-pudding")
    pin(house, quantity="15 g")
    assert house.promised("late") == {DINNER: 15_000}
    assert house.promised("early") == {DINNER: 25_000}


def test_RQ3_what_a_pin_opens_goes_before_what_is_sealed(house):
    two_batches(house)
    house.menu(DINNER, "rice-pudding")
    pin(house, quantity="300 ml")
    assert house.promised("late") == {DINNER: 1_000_000}


def test_AL2_nothing_of_it_unpins(house):
    two_batches(house)
    house.menu(DINNER, "rice-pudding")
    pin(house)
    pin(house, quantity="0 l")
    assert house.promised("early") == {DINNER: 1_000_000}
    assert house.promised("late") == {}


def test_AL2_no_more_is_pinned_than_is_wanted(house):
    house.receive("m", "whole-milk", "5 l", use_by(20))
    house.menu(DINNER, "rice-pudding")
    pin(house, "m", "5 l")
    assert house.promised("m") == {DINNER: 1_000_000}


def test_AL2_what_may_not_be_used_is_not_pinned(house):
    house.receive("dies", "whole-milk", "1 l", use_by(11))
    house.receive("held", "whole-milk", "1 l", use_by(20), verdict="hold")
    house.receive("back", "whole-milk", "1 l", use_by(20), lot="X")
    house.do("recall", {"lot": "X", "reason": "glass"})
    house.menu(DINNER, "rice-pudding")
    for batch in ("dies", "held", "back"):
        body = {"service": DINNER, "batch": batch, "quantity": "1 l"}
        assert house.refuses("pin", body).code == "batch_unfit"


def test_what_cannot_be_pinned_is_refused_by_name(house):
    two_batches(house)
    house.menu(DINNER, "green-salad")
    body = {"service": DINNER, "batch": "late", "quantity": "1 l"}
    assert house.refuses("pin", body).code == "not_needed"
    assert house.refuses("pin", body | {"batch": "?"}).code == "batch_unknown"
    assert house.refuses("pin", body | {"service": LUNCH}).code == "service_unknown"
    assert house.refuses("pin", body, person=MANAGER).code == "role_lacking"
