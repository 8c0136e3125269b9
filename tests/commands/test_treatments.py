"""Open, freeze, thaw, decant, vacuum pack: child batches with lives of their own (SL3)."""

import pytest

from pantry.records.tables import BatchParentRow
from tests.commands.house import HOUR, at, best_before, end_of, use_by
from tests.commands.larkfield import PORTER

TREATMENTS = ("open", "decant", "freeze", "thaw", "vacuum_pack")


def part(batch="p", quantity="1 kg", child="c", **more):
    return {"batch": batch, "quantity": quantity, "child": child} | more


def salmon(house, mark=None, **more):
    house.receive("p", "salmon", "2 kg", mark or use_by(12), **more)


@pytest.mark.parametrize("kind", TREATMENTS)
def test_SL3_part_of_a_batch_becomes_a_child_and_the_rest_stays(house, kind):
    salmon(house)
    house.do(kind, part(quantity="500 g"), person=PORTER)
    assert house.balances("p") == {
        "area:cold-room": 1_500_000,
        "made_into": 500_000,
        "supplier": -2_000_000,
    }
    child = house.batch("c")
    assert (child.item, child.quantity) == ("salmon", 500_000)
    assert sum(house.balances("c").values()) == 0
    link = house.row(BatchParentRow)
    assert (link.batch, link.parent, link.quantity, link.link) == ("c", "p", 500_000, "scanned")


@pytest.mark.parametrize("kind", TREATMENTS)
def test_a_child_keeps_origin_lot_age_and_its_share_of_the_cost(house, kind):
    price = {"minor": 3001, "currency": "GBP"}
    salmon(house, lot="S7", supplier="Corner shop", cost=price, at=at(7))
    house.do(kind, part(quantity="1 kg"))
    child = house.batch("c")
    assert (child.lot, child.supplier, child.since) == ("S7", "Corner shop", at(7))
    assert child.cost == 1500


@pytest.mark.parametrize("kind", TREATMENTS)
def test_a_child_needs_an_id_of_its_own_and_a_parent(house, kind):
    salmon(house)
    assert house.keeps(kind, part(child="p")).code == "batch_taken"
    assert house.keeps(kind, part(batch="?")).code == "batch_unknown"
    assert house.keeps(kind, part(quantity="nothing")).field == "body.quantity"
    assert house.keeps(kind, part(area="Attic")).code == "area_unknown"
    assert "made_into" not in house.balances("p")


def test_SL3_opened_it_keeps_its_opened_life_from_the_day_of_opening(house):
    house.receive("p", "whole-milk", "4 l", use_by(20))
    house.do("open", part(quantity="2 l"), at=at(8, 9))
    child = house.batch("c")
    assert (child.state, child.usable_until) == ("opened", end_of(10))
    assert house.batch("p").usable_until == end_of(20)


def test_SL3_opened_it_never_outlives_the_pack(house):
    house.receive("p", "whole-milk", "4 l", use_by(9))
    house.do("open", part(quantity="2 l"))
    assert house.batch("c").usable_until == end_of(9)


def test_SL3_opening_what_has_no_opened_life_changes_nothing(house):
    house.receive("p", "plain-flour", "2 kg", best_before(20))
    house.do("open", part(quantity="1 kg"))
    child = house.batch("c")
    assert (child.usable_until, child.good_until) == (None, end_of(20))


def test_SL3_frozen_its_date_gives_way_and_the_clock_stops(house):
    salmon(house)
    house.do("freeze", part(), at=at(10, 9))
    child = house.batch("c")
    assert (child.state, child.usable_until, child.left) == ("frozen", None, "P3D")
    assert (child.date_kind, child.mark_date) == ("none", None)
    assert house.balances("c")["area:freezer"] == 1_000_000


def test_SL3_freezing_after_the_use_by_is_recorded_and_held(house):
    salmon(house)
    house.now = at(13)
    house.do("freeze", part())
    assert house.balances("c")["hold:freezer"] == 1_000_000
    assert house.available("c") == 0
    asked = house.question("unsafe")
    assert (asked.about, asked.owner) == ("c", "chef")


def test_SL3_what_was_left_counts_on_from_the_thaw(house):
    salmon(house)
    house.do("freeze", part(child="f"), at=at(11, 9))
    house.now = at(20)
    house.do("thaw", part(batch="f", child="c"))
    child = house.batch("c")
    # two days were left; 24 h from the end of thawing (a night for a kilogram) are less
    assert child.state == "thawed"
    assert at(21) <= child.usable_until <= at(22)
    assert child.was_thawed
    assert house.balances("c")["area:cold-room"] == 1_000_000


def test_SL3_raw_food_that_was_thawed_is_not_frozen_again(house):
    salmon(house)
    house.do("freeze", part(child="f"))
    house.do("thaw", part(batch="f", child="t"))
    house.do("freeze", part(batch="t", child="c"))
    assert house.balances("c")["hold:freezer"] == 1_000_000
    assert "frozen and thawed before" in house.question("unsafe").against


def test_SL3_what_was_cooked_from_thawed_food_is_frozen_once(house):
    house.receive("b", "chicken-bones", "1 kg", use_by(12))
    house.do("freeze", part(batch="b", child="f"))
    house.do("thaw", part(batch="f", child="t"))
    used = [{"batch": "t", "quantity": "1 kg"}]
    stock = {"recipe": "Chicken stock", "quantity": "2 l", "child": "s", "used": used}
    house.do("make", stock | {"area": "Cold room"})
    house.do("freeze", part(batch="s", quantity="2 l", child="fs"))
    assert "area:freezer" in house.balances("fs")
    house.do("thaw", part(batch="fs", quantity="2 l", child="ts"))
    house.do("freeze", part(batch="ts", quantity="2 l", child="again"))
    assert "hold:freezer" in house.balances("again")


def test_SL3_decanted_from_a_sealed_pack_it_is_open(house):
    house.receive("p", "whole-milk", "2 l", use_by(20), lot="C1")
    house.do("decant", part(quantity="1 l"))
    child = house.batch("c")
    assert (child.state, child.lot, child.usable_until) == ("opened", "C1", end_of(10))
    assert child.date_kind == "use_by"


def test_SL3_decanting_what_is_open_changes_nothing_but_the_jar(house):
    house.receive("p", "whole-milk", "2 l", use_by(20))
    house.do("open", part(quantity="1 l", child="o"))
    house.now = at(9)
    house.do("decant", part(batch="o", quantity="1 l"))
    assert house.batch("c").usable_until == house.batch("o").usable_until == end_of(10)


def test_SL3_vacuum_packed_it_has_its_own_life_and_never_more_than_the_packs(house):
    salmon(house, use_by(30))
    house.do("vacuum_pack", part())
    assert house.batch("c").usable_until == end_of(17)
    house.do("vacuum_pack", part(batch="c", child="d"), at=at(15))
    assert house.batch("d").usable_until == end_of(17)


def test_SL3_what_is_opened_or_packed_in_the_freezer_is_frozen_still(house):
    salmon(house, area="Freezer")
    house.do("open", part(quantity="500 g", child="o"))
    house.do("vacuum_pack", part(quantity="500 g", child="v"))
    for child in ("o", "v"):
        assert house.batch(child).state == "frozen"
        assert house.batch(child).left is not None
        assert "area:freezer" in house.balances(child)


def test_a_part_of_what_is_on_hold_is_on_hold(house):
    salmon(house, verdict="hold")
    house.do("open", part())
    assert house.balances("c")["hold:cold-room"] == 1_000_000


def test_LG3_opening_what_was_promised_moves_the_promise_to_the_child(house):
    house.receive("p", "whole-milk", "2 l", use_by(20))
    house.menu("2027-03-09/dinner/family", "rice-pudding")
    assert house.promised("p") == {"2027-03-09/dinner/family": 1_000_000}
    house.do("open", part(quantity="2 l"))
    assert house.promised("p") == {}
    assert house.promised("c") == {"2027-03-09/dinner/family": 1_000_000}


def test_LG3_more_can_be_opened_than_the_books_have_and_that_is_asked(house):
    salmon(house)
    house.do("open", part(quantity="3 kg"))
    assert house.balances("p")["area:cold-room"] == -1_000_000
    assert house.question("overdrawn").about == "p|area:cold-room"
    assert house.available("c") == 3_000_000


def test_SL3_what_is_moved_out_of_the_freezer_thaws(house):
    salmon(house, area="Freezer")
    house.now = at(9)
    command = house.do("move", {"batch": "p", "quantity": "1 kg", "area": "Cold room"})
    child = house.batch(command)
    assert (child.state, child.was_thawed) == ("thawed", True)
    assert at(9) + 24 * HOUR <= child.usable_until <= at(9) + 60 * HOUR
    assert house.balances(command)["area:cold-room"] == 1_000_000


def test_SL3_what_is_put_into_the_freezer_is_frozen(house):
    salmon(house)
    command = house.do("move", {"batch": "p", "quantity": "1 kg", "area": "Freezer"})
    child = house.batch(command)
    assert (child.state, child.left, child.usable_until) == ("frozen", "P5D", None)


def test_SL3_what_is_taken_out_of_the_freezer_for_a_service_thaws(house):
    salmon(house, area="Freezer")
    house.menu("2027-03-12/dinner/family", "baked-salmon")
    house.now = at(11)
    out = {"batch": "p", "quantity": "600 g", "service": "2027-03-12/dinner/family"}
    command = house.do("take_out", out)
    assert house.batch(command).state == "thawed"
    assert house.balances(command)["kitchen:2027-03-12/dinner/family"] == 600_000
    assert house.promised("p") == {}
