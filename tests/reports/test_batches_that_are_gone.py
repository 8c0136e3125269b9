"""What every report but the trace leaves out: batches of which nothing stands in the house."""

import pytest
from sqlalchemy import event

from pantry.reports.coverage import coverage
from pantry.reports.notice import notice
from pantry.reports.plan import plan
from pantry.reports.stock import stock
from pantry.reports.trace import trace
from pantry.reports.use_first import use_first
from pantry.reports.view import view
from tests.commands.house import House, use_by
from tests.commands.larkfield import ID, found_database, open_copy


@pytest.fixture(scope="module")
def house(tmp_path_factory):
    """A house in which one batch of milk was poured away, and of another half is left."""
    folder = tmp_path_factory.mktemp("gone")
    found_database(folder / "founded.db")
    engine = open_copy(folder / "founded.db", folder / "house.db")
    lodge = House(engine)
    lodge.receive("gone", "whole-milk", "2 l", use_by(12), lot="L-7")
    lodge.receive("left", "whole-milk", "2 l", use_by(13), lot="L-7")
    lodge.do("waste", {"batch": "gone", "quantity": "2 l", "reason": "spoiled", "destination": "x"})
    lodge.do("waste", {"batch": "left", "quantity": "1 l", "reason": "spoiled", "destination": "x"})
    yield lodge
    engine.dispose()


def asked(house, question, *arguments):
    with house.books() as connection:
        return question(view(connection, ID, house.now), *arguments)


def test_what_is_gone_is_traced_all_the_same(house):
    rows = asked(house, trace, "L-7")
    assert [(row["direction"], row["batch"]) for row in rows] == [
        ("back", "gone"),
        ("back", "left"),
        ("forward", "gone"),
        ("forward", "left"),
    ]


def test_what_is_gone_is_in_no_stock(house):
    assert [row["batch"] for row in asked(house, stock)] == ["left"]


@pytest.mark.parametrize("question", [stock, use_first, plan, coverage, notice])
def test_no_report_of_the_days_ahead_reads_what_is_gone(house, question):
    read = []
    with house.books() as connection:
        seen = view(connection, ID, house.now)
        event.listen(connection, "before_cursor_execute", lambda *told: read.append(told[2]))
        question(seen)
        assert {row.id for row in seen.batches} == {"left"}
    of_batches = [each for each in read if "FROM batch" in each]
    assert all("AS stands" in each for each in of_batches)
