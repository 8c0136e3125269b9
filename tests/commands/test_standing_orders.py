"""Standing orders: milk comes of itself, each order is written once, people's own changes stand."""

import pytest

from pantry.records.tables import (
    FreeLineRow,
    OrderLineRow,
    OrderRow,
    StandingDeliveryRow,
    StandingOrderRow,
)
from tests.commands.house import DAY, at
from tests.commands.larkfield import APPROVER, MANAGER, PORTER

WEEKS = 4
MONDAYS = ["2027-03-15", "2027-03-22", "2027-03-29", "2027-04-05"]
"""On the 8th it is seven already: today's cut-off is past."""


def milk(weekday="monday", packs=3, item="whole-milk", pack="2 l bottle"):
    return {"weekday": weekday, "item": item, "pack": pack, "packs": packs}


def standing(*lines, **more):
    return {"supplier": "Hill Dairy", "lines": list(lines)} | more


def orders(house, state="open"):
    return [row.id for row in house.rows(OrderRow) if row.state == state]


def ids(*days):
    return [f"hill-dairy/{day}" for day in days]


def test_an_order_is_written_for_every_delivery_of_four_weeks_whose_cut_off_is_ahead(house):
    house.do("set_standing_order", standing(milk()))
    assert orders(house) == ids(*MONDAYS)
    (line,) = house.rows(OrderLineRow, purchase_order=f"hill-dairy/{MONDAYS[0]}")
    assert (line.packs, line.quantity) == (3, 6_000_000)
    (row,) = house.rows(OrderRow, id=f"hill-dairy/{MONDAYS[0]}")
    assert row.delivery_at == at(15, 6, 45)


def test_each_is_written_once_and_the_next_weeks_follow_by_themselves(house):
    house.do("set_standing_order", standing(milk()))
    house.do("set_par", {"item": "butter", "floor": "250 g"})
    assert orders(house) == ids(*MONDAYS)
    house.now += 7 * DAY
    house.do("set_par", {"item": "butter", "floor": "500 g"})
    assert orders(house) == ids(*MONDAYS, "2027-04-12")


def test_what_somebody_cancelled_is_not_written_again(house):
    house.do("set_standing_order", standing(milk()))
    house.do("cancel_order", {"order": f"hill-dairy/{MONDAYS[1]}", "reason": "nobody is here"})
    house.now += DAY
    house.do("set_standing_order", standing(milk(packs=4)))
    assert orders(house) == ids(MONDAYS[0], *MONDAYS[2:])


def test_a_change_follows_in_the_orders_nobody_has_touched(house):
    house.do("set_standing_order", standing(milk()))
    own = [{"item": "whole-milk", "pack": "2 l bottle", "packs": 9}]
    house.do("amend_order", {"order": f"hill-dairy/{MONDAYS[0]}", "lines": own})
    house.do("set_standing_order", standing(milk(packs=5), milk("wednesday", 1)))
    packs = {line.purchase_order: line.packs for line in house.rows(OrderLineRow)}
    assert packs[f"hill-dairy/{MONDAYS[0]}"] == 9
    assert {packs[f"hill-dairy/{day}"] for day in MONDAYS[1:]} == {5}
    assert packs["hill-dairy/2027-03-10"] == 1


def test_an_order_whose_cut_off_is_past_stays_as_the_supplier_knows_it(house):
    house.do("set_standing_order", standing(milk("wednesday")))
    house.now = at(9, 17, 30)
    house.do("set_standing_order", standing(milk("wednesday", 8)))
    packs = {line.purchase_order: line.packs for line in house.rows(OrderLineRow)}
    assert packs["hill-dairy/2027-03-10"] == 3
    assert packs["hill-dairy/2027-03-17"] == 8


def test_it_ends_with_no_lines_and_what_was_written_is_cancelled(house):
    house.do("set_standing_order", standing(milk()))
    house.do("set_standing_order", standing())
    assert orders(house) == []
    assert {row.reason for row in house.rows(OrderRow)} == {"the standing order has ended"}
    assert house.rows(StandingOrderRow) == [] == house.rows(StandingDeliveryRow)
    house.do("set_standing_order", standing(milk()))
    assert orders(house) == [f"{each}/2" for each in ids(*MONDAYS)]


def test_papers_stand_beside_the_milk_in_words(house):
    paper = {"weekday": "Monday", "words": "The county paper", "amount": "1"}
    house.do("set_standing_order", standing(milk(), free=[paper]))
    found = house.rows(FreeLineRow, purchase_order=f"hill-dairy/{MONDAYS[0]}")
    assert [(row.words, row.amount) for row in found] == [("The county paper", "1")]
    house.do("set_standing_order", standing(free=[paper]))
    assert orders(house) == ids(*MONDAYS)
    assert house.rows(OrderLineRow) == []


def test_PL2_a_delivery_that_moves_takes_its_standing_order_with_it(house):
    closure = {"date": "2027-03-15", "what": "no_delivery", "instead": "2027-03-16"}
    calendar = {"supplier": "Hill Dairy", "closures": [closure]}
    house.do("set_calendar", calendar, person=MANAGER)
    house.do("set_standing_order", standing(milk()))
    assert orders(house)[0] == "hill-dairy/2027-03-16"
    assert len(orders(house)) == WEEKS


@pytest.mark.parametrize(
    ("body", "code"),
    [
        (standing(milk("someday")), "weekday_unreadable"),
        (standing(milk("sunday")), "nothing_comes_on_weekday"),
        (standing(milk(pack="churn")), "pack_unknown"),
        (standing(milk(packs=0)), "packs_nothing"),
        (standing(milk(), milk()), "standing_twice"),
        (standing(milk()) | {"supplier": "?"}, "supplier_unknown"),
    ],
)
def test_what_cannot_be_is_refused_and_nothing_is_written(house, body, code):
    assert house.refuses("set_standing_order", body).code == code
    assert house.rows(OrderRow) == [] == house.rows(StandingOrderRow)


@pytest.mark.parametrize("person", [PORTER, APPROVER])
def test_only_the_kitchen_and_the_manager_set_it(house, person):
    assert house.refuses("set_standing_order", standing(milk()), person=person).status == 403
