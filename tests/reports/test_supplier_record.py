"""How suppliers kept to what was ordered: in time, whole, cold, in date, at the price."""

from pantry.reports.supplier_record import supplier_record
from tests.commands.house import at, use_by
from tests.commands.larkfield import MANAGER
from tests.reports.asking import told

ORDER = "hill-dairy/2027-03-09"
MILK = {"item": "Whole milk", "pack": "2 l bottle"}
BUTTER = {"item": "butter", "pack": "250 g block"}


def ordered(lodge, milk=2, butter=2):
    lines = [MILK | {"packs": milk}, BUTTER | {"packs": butter}]
    lodge.do("place_order", {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": lines})


def came(lodge, batch, item, quantity, mark, when, **more):
    more = {"order": ORDER, "supplier": "Hill Dairy", "temperature_c": "4"} | more
    lodge.receive(batch, item, quantity, mark, at=when, **more)


def record(lodge, *days):
    rows = told(lodge, supplier_record, *days)
    return next(row for row in rows if row["supplier"] == "Hill Dairy")


def incidents(lodge, what):
    return [one for one in record(lodge)["incidents"] if one["what"] == what]


def test_what_came_whole_and_by_its_hour_is_no_incident(lodge):
    ordered(lodge)
    lodge.now = at(9, 7)
    came(lodge, "m", "whole-milk", "4 l", use_by(15), at(9, 7), pack="2 l bottle")
    came(lodge, "b", "butter", "500 g", use_by(30), at(9, 7), pack="250 g block")
    row = record(lodge)
    assert (row["deliveries"], row["in_time"], row["whole"]) == (1, 1, 1)
    assert (row["lines"], row["whole_lines"], row["measured"]) == (2, 2, 2)
    assert row["incidents"] == []
    assert row["credits"]["count"] == 0


def test_late_short_warm_refused_and_short_dated_are_told_apart(lodge):
    ordered(lodge)
    lodge.now = at(9, 9, 30)
    # seven days are promised: the 13th is the fifth, that of arrival being the first
    came(lodge, "m", "whole-milk", "4 l", use_by(13), at(9, 8, 25), pack="2 l bottle")
    more = {"pack": "250 g block", "temperature_c": "11", "verdict": "refuse", "reason": "warm"}
    came(lodge, "b", "butter", "500 g", use_by(30), at(9, 8, 45), **more)
    assert record(lodge)["deliveries"] == 0  # the driver is still there
    lodge.do("close_delivery", {"order": ORDER, "driver": "Ines"}, at=at(9, 9))
    row = record(lodge)
    assert (row["deliveries"], row["in_time"], row["whole"]) == (1, 0, 0)
    assert (row["lines"], row["whole_lines"]) == (2, 1)
    (late,) = incidents(lodge, "late")
    assert late["told"] == "PT1H40M"
    (short,) = incidents(lodge, "short")
    assert short["item"] == "Butter"
    (warm,) = incidents(lodge, "warm")
    assert (warm["item"], warm["told"]) == ("Butter", "11")
    (refused,) = incidents(lodge, "refused")
    assert refused["told"] == "warm"
    (dated,) = incidents(lodge, "short_dated")
    assert (dated["item"], dated["told"]) == ("Whole milk", "5 of 7")
    assert row["credits"]["count"] == 1
    assert row["credits"]["value"]["minor"] == 2 * 230


def test_what_they_said_beforehand_and_a_price_that_rose_are_told_too(lodge):
    ordered(lodge)
    price = {"minor": 240, "currency": "GBP"}
    lines = [MILK | {"packs": 1}, BUTTER | {"price": price}]
    lodge.do("record_confirmation", {"order": ORDER, "lines": lines})
    row = record(lodge)
    assert (row["dearer"], row["cheaper"], row["deliveries"]) == (1, 0, 0)
    (said,) = incidents(lodge, "said_short")
    assert (said["item"], said["told"]) == ("Whole milk", "1 of 2")


def test_a_delivery_that_was_called_off_is_told_once_its_day_has_come(lodge):
    off = {"supplier": "hill-dairy", "date": "2027-03-09", "reason": "snow"}
    lodge.do("call_off_delivery", off, person=MANAGER)
    assert record(lodge)["incidents"] == []
    lodge.now = at(9, 12)
    (called,) = incidents(lodge, "called_off")
    assert called["told"] == "snow"


def test_what_lies_further_back_than_was_asked_is_left_out(lodge):
    ordered(lodge)
    lodge.now = at(9, 9)
    came(lodge, "m", "whole-milk", "4 l", use_by(15), at(9, 9), pack="2 l bottle")
    lodge.do("close_delivery", {"order": ORDER}, at=at(9, 9))
    assert record(lodge)["deliveries"] == 1
    lodge.now = at(20, 9)
    assert record(lodge, 7)["deliveries"] == 0
    assert record(lodge, 14)["deliveries"] == 1
