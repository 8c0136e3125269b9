"""What the garden gave, weighed in."""

from datetime import date

from pantry.records.database import writing
from pantry.records.rows import add
from pantry.records.tables import HarvestRow
from tests.commands.house import at
from tests.commands.larkfield import ID, PORTER


def picked(**more):
    return {"batch": "r", "item": "Rhubarb", "quantity": "3 kg", "area": "Cold room"} | more


def estimate(house, first=8, last=12, quantity=10_000_000):
    row = HarvestRow(
        house=ID,
        item="rhubarb",
        first=date(2027, 3, first),
        last=date(2027, 3, last),
        quantity=quantity,
    )
    with writing(house.engine) as connection:
        add(connection, row)


def test_a_harvest_is_a_batch_without_a_date_mark(house):
    house.do("harvest", picked(), person=PORTER)
    row = house.batch("r")
    assert (row.state, row.date_kind, row.usable_until) == ("sealed", "none", None)
    assert house.balances("r") == {"area:cold-room": 3_000_000, "garden": -3_000_000}


def test_what_was_gathered_is_no_longer_expected(house):
    estimate(house)
    house.do("harvest", picked())
    assert house.row(HarvestRow).gathered == 3_000_000


def test_only_the_estimate_of_that_day_is_fulfilled(house):
    estimate(house, 1, 7)
    house.do("harvest", picked())
    assert house.row(HarvestRow).gathered == 0
    house.do("harvest", picked(batch="s"), at=at(7))
    assert house.row(HarvestRow).gathered == 3_000_000


def test_what_cannot_be_read_is_asked_about(house):
    assert house.keeps("harvest", picked(item="?")).code == "item_unknown"
    assert house.keeps("harvest", picked(area="?")).code == "area_unknown"
    house.do("harvest", picked())
    assert house.keeps("harvest", picked()).code == "batch_taken"
