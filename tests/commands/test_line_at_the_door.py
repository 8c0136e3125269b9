"""One line at the door: its temperature, its date against its service, another thing, undo."""

import pytest

from pantry.records.tables import OrderLineRow, OrderRow, ReceiptRow
from tests.commands.house import at, best_before, end_of, use_by
from tests.commands.larkfield import CHEF, MANAGER, PORTER

ORDER = "hill-dairy/2027-03-09"


def line(item, **change):
    body = {"batch": "b", "item": item, "quantity": "250 g", "area": "Cold room"}
    return body | {"verdict": "accept", "date_mark": use_by(19)} | change


def butter_for(house, *services):
    """Butter comes tomorrow, for these dinners; its dairy promises no life on arrival."""
    for service in services:
        house.menu(service, "rice-pudding")
    lines = [{"item": "butter", "pack": "250 g block", "packs": 1}]
    house.do("place_order", {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": lines})
    house.now = at(9, 7)


def is_held(house):
    return "hold:cold-room" in house.balances("b")


def test_AL1_a_porter_holds_what_keeps_shorter_than_its_service_wants_it(house):
    butter_for(house, "2027-03-12/dinner/family", "2027-03-14/lunch/family")
    house.do("receive", line("butter", date_mark=use_by(12), order=ORDER), person=PORTER)
    assert is_held(house)
    against = house.question("on_hold").against
    assert against == "It keeps until 2027-03-12, and is wanted for 2027-03-14/lunch/family."


@pytest.mark.parametrize("mark", [use_by(14), best_before(14)])
def test_AL1_what_keeps_through_its_last_service_goes_in(house, mark):
    butter_for(house, "2027-03-12/dinner/family", "2027-03-14/lunch/family")
    house.do("receive", line("butter", date_mark=mark, order=ORDER), person=PORTER)
    assert not is_held(house)


def test_AL1_a_best_before_that_ends_before_its_service_is_asked_about_too(house):
    butter_for(house, "2027-03-14/lunch/family")
    house.do("receive", line("butter", date_mark=best_before(13), order=ORDER), person=PORTER)
    assert is_held(house)


def test_AL1_a_chef_may_accept_it_and_says_why(house):
    butter_for(house, "2027-03-14/lunch/family")
    short = line("butter", date_mark=best_before(13), order=ORDER, reason="baked on Friday")
    house.do("receive", short, person=CHEF)
    assert not is_held(house)
    assert house.row(ReceiptRow).reason == "baked on Friday"


def test_a_date_that_nobody_waits_for_is_nobodys_question(house):
    butter_for(house)
    house.do("receive", line("butter", date_mark=use_by(10), order=ORDER), person=PORTER)
    assert not is_held(house)


def test_SL5_what_was_bought_frozen_is_judged_as_frozen_whatever_its_group(house):
    bones = {"area": "Freezer", "date_mark": best_before(30), "temperature_c": "3"}
    house.do("receive", line("chicken-bones", **bones))
    assert "hold:freezer" in house.balances("b")


def test_SL5_what_is_frozen_in_the_house_came_fresh(house):
    bones = {"area": "Freezer", "date_mark": use_by(12), "temperature_c": "3"}
    house.do("receive", line("chicken-bones", **bones))
    assert "area:freezer" in house.balances("b")


@pytest.mark.parametrize(("high_risk", "warmth"), [(False, None), (True, "refuse")])
def test_SL5_what_stands_at_room_temperature_is_judged_only_where_it_is_high_risk(
    house, high_risk, warmth
):
    house.set_item("salmon", high_risk=high_risk)
    house.do("receive", line("salmon", area="Pantry", temperature_c="15"))
    assert house.row(ReceiptRow).warmth == warmth


def test_SL5_nobody_releases_what_came_past_the_last_limit(house):
    house.do("receive", line("chicken-bones", temperature_c="8.1"))
    refused = house.refuses("release", {"batch": "b", "reason": "looks fine"}, person=CHEF)
    assert refused.code == "too_warm"
    assert "release" not in house.question("on_hold").answers
    assert is_held(house)


def test_SL5_what_the_chef_is_asked_about_the_chef_may_release(house):
    house.do("receive", line("chicken-bones", temperature_c="8"))
    assert is_held(house)
    house.do("release", {"batch": "b", "reason": "ten minutes on the yard"}, person=CHEF)
    assert not is_held(house)


@pytest.mark.parametrize(
    ("temperature", "warmth"),
    [(None, None), ("4", "accept"), ("4.1", "ask"), ("8", "ask"), ("8.1", "refuse")],
)
def test_SL5_how_a_temperature_was_judged_is_kept_and_one_not_taken_is_none(
    house, temperature, warmth
):
    more = {} if temperature is None else {"temperature_c": temperature}
    house.do("receive", line("chicken-bones", **more))
    assert house.row(ReceiptRow).warmth == warmth


def instead(**change):
    """Walnuts came where butter was ordered."""
    of = {"item": "Butter"} | change
    return line("walnuts", order=ORDER, date_mark={"kind": "none"}, instead=of)


@pytest.mark.parametrize("person", [PORTER, MANAGER])
def test_AL3_what_came_instead_waits_for_the_chef_who_is_told_its_allergens(house, person):
    butter_for(house, "2027-03-12/dinner/family")
    house.do("receive", instead(), person=person)
    assert is_held(house)
    against = house.question("on_hold").against
    assert "It came instead of Butter." in against
    assert "Unlike Butter, it contains nuts: read the label." in against


def test_AL3_what_nobody_knows_of_it_is_told_too(house):
    butter_for(house)
    came = line("pancake-batter", quantity="1 l", order=ORDER, instead={"item": "Butter"})
    house.do("receive", came, person=PORTER)
    assert "nobody knows whether it is free of nuts" in house.question("on_hold").against


def test_AL3_what_is_no_worse_is_not_told(house):
    butter_for(house)
    came = line("whole-milk", quantity="1 l", order=ORDER, instead={"item": "Butter"})
    house.do("receive", came, person=PORTER)
    assert house.question("on_hold").against == "It came instead of Butter."


@pytest.mark.parametrize(
    ("agreed", "said"),
    [
        ("never", "Its supplier is to send nothing in place of what is ordered."),
        ("ask_first", "Its supplier was to ask before sending another thing."),
        ("allowed", None),
        (None, None),
    ],
)
def test_PL2_the_chef_is_told_what_was_agreed_of_sending_another_thing(house, agreed, said):
    house.do("set_terms", {"supplier": "hill-dairy", "substitution": agreed}, person=MANAGER)
    butter_for(house)
    came = line("whole-milk", quantity="1 l", order=ORDER, instead={"item": "Butter"})
    house.do("receive", came, person=PORTER)
    assert is_held(house)
    told = ["It came instead of Butter.", *([said] if said else [])]
    assert house.question("on_hold").against == " ".join(told)


def test_a_chef_at_the_door_decides_on_a_substitute_at_once(house):
    butter_for(house)
    house.do("receive", instead(), person=CHEF)
    assert not is_held(house)


def test_what_was_ordered_stays_awaited_where_another_thing_came(house):
    butter_for(house)
    house.do("receive", instead(), person=PORTER)
    awaited, receipt = house.row(OrderLineRow), house.row(ReceiptRow)
    assert (awaited.closed, awaited.received) == (False, 0)
    assert (receipt.purchase_order, receipt.instead) == (ORDER, awaited.pack)


def test_what_is_replaced_is_awaited_no_more_until_that_is_taken_back(house):
    butter_for(house)
    command = house.do("receive", instead(replaces=True), person=PORTER)
    assert (house.row(OrderLineRow).closed, house.row(OrderRow).state) == (True, "received")
    house.do("correct", {"command": command, "reason": "mistake"}, person=PORTER)
    assert (house.row(OrderLineRow).closed, house.row(OrderRow).state) == (False, "open")


def test_another_thing_that_is_refused_replaces_nothing(house):
    butter_for(house)
    refused = instead(replaces=True) | {"verdict": "refuse", "reason": "wrong goods"}
    house.do("receive", refused, person=PORTER)
    assert (house.row(OrderLineRow).closed, house.row(ReceiptRow).replaces) == (False, False)


def test_an_item_that_nobody_knows_was_not_ordered(house):
    assert house.keeps("receive", instead(item="quince"), person=PORTER).code == "item_unknown"


def test_LG4_a_refused_line_is_taken_back_too(house):
    butter_for(house)
    command = house.do("receive", line("butter", verdict="refuse", reason="warm"), person=PORTER)
    house.do("correct", {"command": command, "reason": "mistake"}, person=PORTER)
    assert house.rows(ReceiptRow) == []
    again = house.refuses("correct", {"command": command, "reason": "mistake"}, person=PORTER)
    assert again.code == "reversed_already"


def test_MS1_two_chickens_are_counted_and_weighed(house):
    birds = {"value": "3.46", "unit": "kg", "pieces": "2"}
    house.do("receive", line("chicken-bones", quantity=birds))
    row = house.batch("b")
    assert (row.quantity, row.pieces, row.usable_until) == (3_460_000, 2_000, end_of(19))


@pytest.mark.parametrize(("mark", "millilitres"), [(",", 1_500_000), (".", 1_500)])
def test_MS2_a_point_before_three_figures_is_read_by_the_mark_of_the_house(
    house, mark, millilitres
):
    house.set_decimal_mark(mark)
    house.do("receive", line("whole-milk", quantity="1.500 l"))
    assert house.batch("b").quantity == 1_000 * millilitres
