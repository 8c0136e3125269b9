"""What a row of `batches` becomes: state, life, unopened units, origin."""

from datetime import UTC, datetime

import pytest

from pantry.commands.book.check import read_all
from pantry.commands.book.known import NOTHING
from pantry.commands.book.sheets import from_body
from tests.commands.cottage import NOW, body


def end_of(day, month=3, year=2027):
    return datetime(year, month, day, 23, 59, 59, tzinfo=UTC)


def read(*, items=None, **cells):
    """The batch that one row of the cottage's sheet becomes; `items` are changes of its item."""
    sheets = body()
    blank = dict.fromkeys(sheets["batches"][0], "")
    row = blank | {"label": "T-1", "item": "Whole milk", "area": "Fridge", "date_kind": "none"}
    sheets["batches"] = [row | {"quantity": "1 l"} | cells]
    if items:
        found = next(each for each in sheets["items"] if each["item"] == cells["item"])
        found |= items
    checked = read_all(from_body(sheets), NOTHING, NOW)
    assert checked.faults == ()
    return checked.standing[0].row


def test_SL1_a_sealed_batch_has_the_life_of_its_mark_and_nothing_else():
    row = read(date_kind="use_by", date="2027-03-14")
    assert (row.state, row.usable_until, row.good_until) == ("sealed", end_of(14), None)
    row = read(date_kind="best_before", date="2027-09")
    assert (row.usable_until, row.good_until) == (
        None,
        datetime(2027, 9, 30, 22, 59, 59, tzinfo=UTC),
    )
    row = read(date_kind="best_before", date="2028")
    assert row.good_until == end_of(31, 12, 2028)
    assert read().usable_until is None


@pytest.mark.parametrize("written", ["2027-03-09", "2027-03-09T21:15", "2027-03-09T21:15:00Z"])
def test_SL3_an_opened_batch_has_its_opened_life_the_day_of_opening_being_day_1(written):
    # Whole milk keeps three days once opened: 9, 10 and 11 March.
    row = read(date_kind="use_by", date="2027-03-14", state="opened", state_date=written)
    assert (row.state, row.usable_until, row.sealed_quantity) == ("opened", end_of(11), 0)


def test_SL3_an_opened_batch_never_outlives_its_mark():
    row = read(date_kind="use_by", date="2027-03-10", state="opened", state_date="2027-03-09")
    assert row.usable_until == end_of(10)


def test_SL3_opening_what_has_no_opened_life_changes_nothing_and_needs_no_day():
    row = read(item="Rhubarb", quantity="1 kg", state="opened")
    assert (row.state, row.usable_until) == ("opened", None)


def test_SL5_high_risk_food_without_an_opened_life_of_its_own_has_the_policy_s():
    row = read(
        items={"opened_life_days": ""}, item="Whole milk", state="opened", state_date="2027-03-09"
    )
    assert row.usable_until is not None


def test_SL3_a_frozen_batch_keeps_what_was_left_of_its_use_by():
    # Frozen on the 1st with a use-by of the 2nd: the 1st and the 2nd were left.
    row = read(
        item="Hake fillet",
        quantity="1 kg",
        area="Freezer",
        date_kind="use_by",
        date="2027-03-02",
        state="frozen",
        state_date="2027-03-01",
    )
    assert (row.state, row.left, row.usable_until) == ("frozen", "P2D", None)
    # Ninety days of quality, 1 March being the first: until 29 May, an hour earlier in UTC.
    assert row.good_until == datetime(2027, 5, 29, 22, 59, 59, tzinfo=UTC)


def test_what_stands_in_a_freezer_is_frozen_whether_or_not_the_row_says_so():
    for state in ("", "sealed"):
        row = read(
            item="Hake fillet",
            quantity="1 kg",
            area="Freezer",
            date_kind="use_by",
            date="2027-03-12",
            state=state,
        )
        assert row.state == "frozen"
        assert row.left == "P3D", "10, 11 and 12 March, counted from the day of the import"


def test_what_was_bought_frozen_keeps_its_best_before():
    row = read(
        item="Rhubarb", quantity="1 kg", area="Freezer", date_kind="best_before", date="2028-02"
    )
    assert (row.state, row.good_until) == ("frozen", end_of(29, 2, 2028))


def test_SL3_a_best_before_gives_way_to_the_frozen_life_where_that_is_known():
    cells = {"quantity": "1 kg", "area": "Freezer", "date_kind": "best_before"}
    cells |= {"date": "2027-03-05", "state": "frozen", "state_date": "2027-03-01"}
    row = read(item="Hake fillet", **cells)
    assert row.good_until == datetime(2027, 5, 29, 22, 59, 59, tzinfo=UTC)
    assert read(item="Rhubarb", **cells).good_until == end_of(5)


def test_SL3_what_was_opened_in_the_freezer_is_frozen_with_its_opened_life_left():
    row = read(area="Freezer", state="opened", state_date="2027-03-09")
    assert (row.state, row.left, row.sealed_quantity) == ("frozen", "P3D", 0)


def test_SL3_a_thawed_batch_has_its_thawed_life_from_the_end_of_thawing():
    cells = {"item": "Hake fillet", "quantity": "1 kg", "state": "thawed"}
    row = read(**cells, state_date="2027-03-10T06:00")
    assert row.was_thawed
    # A kilogram takes its time in the cold room, then 24 hours are left.
    assert datetime(2027, 3, 11, 6, tzinfo=UTC) < row.usable_until < end_of(13)
    by_day = read(**cells, state_date="2027-03-10")
    assert row.usable_until - by_day.usable_until == row.state_at - by_day.state_at
    marked = read(**cells, state_date="2027-03-10", date_kind="use_by", date="2027-03-10")
    assert marked.usable_until == end_of(10)


def test_SL4_a_made_batch_has_the_life_of_its_recipe_the_day_of_making_being_day_1():
    row = read(item="Pancake batter", quantity="1 pint", state="made", state_date="2027-03-10")
    assert (row.usable_until, row.made_by, row.cooked) == (end_of(11), "pancake-batter", False)
    assert row.quantity == 568_261, "an imperial pint is 568.26125 ml exactly"


def test_SL4_a_label_can_shorten_the_life_of_what_was_made_and_never_lengthen_it():
    cells = {"item": "Pancake batter", "state": "made", "state_date": "2027-03-10"}
    row = read(**cells, date_kind="use_by", date="2027-03-10")
    assert row.usable_until == end_of(10)
    row = read(**cells, date_kind="use_by", date="2027-03-20")
    assert row.usable_until == end_of(11)
    row = read(**cells, date_kind="best_before", date="2027-03-11")
    assert (row.usable_until, row.good_until) == (end_of(11), end_of(11))


def test_SL4_what_no_recipe_of_the_house_makes_has_the_policy_s_life():
    row = read(item="Rhubarb", quantity="1 kg", state="made", state_date="2027-03-09")
    assert row.usable_until is not None
    assert row.made_by is None


def test_SL3_a_vacuum_packed_batch_has_the_policy_s_life_within_its_mark():
    cells = {"item": "Hake fillet", "quantity": "1 kg", "state": "vacuum packed"}
    row = read(**cells, state_date="2027-03-09", date_kind="use_by", date="2027-03-12")
    assert (row.state, row.usable_until) == ("vacuum_packed", end_of(12))
    row = read(**cells, state_date="2027-03-09")
    assert end_of(12) < row.usable_until < end_of(31)


@pytest.mark.parametrize(
    ("item", "quantity", "more", "sealed"),
    [
        ("Whole milk", "2 x 1 l", {}, 1_000_000),  # as written
        ("Whole milk", "3 x 2 l", {}, 2_000_000),
        ("Whole milk", "6 l", {}, 1_000_000),  # the smallest unit it is sold in
        ("Whole milk", "1.5 l", {}, None),  # no whole number of these: one container
        ("Red wine", "2.25 l", {}, 750_000),  # a bottle of the case of 6
        ("Rhubarb", "2 kg", {}, None),  # sold by nobody
        ("Eggs", "24", {}, None),
        ("Eggs", "60", {}, 30_000),
        ("Whole milk", "1 l", {"state": "opened", "state_date": "2027-03-10"}, 0),
    ],
)
def test_what_one_unopened_unit_of_a_batch_holds(item, quantity, more, sealed):
    assert read(item=item, quantity=quantity, **more).sealed_quantity == sealed


def test_MS1_a_batch_s_quantity_is_rounded_once_and_its_cost_is_whole_minor_units():
    row = read(quantity="1/3 l", cost="€1.05", lot="L1", supplier="bay DAIRY")
    assert (row.quantity, row.cost, row.lot, row.supplier) == (333_333, 105, "L1", "bay-dairy")


@pytest.mark.parametrize(("written", "pieces"), [("2", 2_000), ("", None)])
def test_MS1_what_is_counted_while_weighed_has_its_pieces_beside_the_weight(written, pieces):
    row = read(item="Rhubarb", quantity="3.46 kg", pieces=written)
    assert (row.quantity, row.pieces) == (3_460_000, pieces)
