"""What was lost: every line of it, once, with what it weighed and had cost."""

import csv
import io
import sqlite3
from fractions import Fraction

import pytest

from pantry.refusals import UnreadableInput
from pantry.reports.as_csv import as_csv
from pantry.reports.waste import waste, weight
from pantry.rules.stock import BaseUnit, Item
from tests.commands.house import use_by
from tests.reports.asking import told

TRIMMED = {"reason": "trimmings", "destination": "compost"}
DIED = {"reason": "out of date", "destination": "bin"}


def lose(lodge, batch, quantity, more, **when):
    return lodge.do("waste", {"batch": batch, "quantity": quantity} | more, **when)


def cost(minor):
    return {"cost": {"minor": minor, "currency": "GBP"}}


def minor(row):
    return row["value"]["minor"]


def test_a_row_is_of_a_week_a_reason_an_item_a_place_and_a_destination(lodge):
    lodge.receive("m", "whole-milk", "2 l", use_by(12), **cost(250))
    first = lose(lodge, "m", "300 ml", DIED)
    lose(lodge, "m", "200 ml", DIED)
    lose(lodge, "m", "1 l", TRIMMED)
    died, trimmed = told(lodge, waste)
    assert died["quantity"] == {"value": "500", "unit": "ml"}
    assert (died["week"], died["monday"], died["times"]) == ("2027-W10", "2027-03-08", 2)
    assert (died["avoidable"], trimmed["avoidable"]) == (True, False)
    assert (died["area"], died["destination"]) == ("Cold room", "bin")
    assert died["parts"][0]["command"] == first
    assert "person" not in str(died)


def test_MS1_the_parts_of_a_batch_cost_no_more_and_no_less_than_the_batch(lodge):
    """Worked by hand: a third of 100 is 33, the next third takes 33, the last the 34 left."""
    lodge.receive("b", "butter", "300 g", use_by(12), **cost(100))
    for _ in range(3):
        lose(lodge, "b", "100 g", DIED)
    (row,) = told(lodge, waste)
    assert [part["value"]["minor"] for part in row["parts"]] == [33, 33, 34]
    assert minor(row) == 100


def test_LG4_what_was_taken_back_is_not_in_it(lodge):
    lodge.receive("b", "butter", "300 g", use_by(12), **cost(100))
    mistaken = lose(lodge, "b", "200 g", DIED)
    lodge.do("correct", {"command": mistaken, "reason": "the wrong batch"})
    lose(lodge, "b", "100 g", DIED)
    (row,) = told(lodge, waste)
    assert (row["quantity"]["value"], row["times"], minor(row)) == ("100", 1, 33)


def test_what_nobody_can_weigh_has_no_weight_and_another_reason_no_class(lodge):
    lodge.receive("b", "butter", "300 g", use_by(12))
    lodge.receive("e", "eggs", "6 each", use_by(12))
    lose(lodge, "b", "100 g", DIED | {"reason": "The dog had it"})
    lose(lodge, "e", "2 each", TRIMMED)
    butter, eggs = told(lodge, waste)
    assert butter["weight"] == {"value": "100", "unit": "g"}
    assert eggs["weight"] is None
    assert (butter["avoidable"], eggs["avoidable"]) == (None, False)


def test_volume_is_weighed_by_density_and_count_by_the_weight_of_one():
    """Milk 1.03 g/ml, a medium egg without its shell 50 g: from memory."""
    milk = Item("m", "Milk", BaseUnit.ML, density=Fraction(103, 100))
    eggs = Item("e", "Eggs", BaseUnit.EACH, piece_weight=Fraction(50))
    assert weight(500_000, milk) == {"value": "515", "unit": "g"}
    assert weight(2_500, eggs) == {"value": "125", "unit": "g"}


def test_only_the_days_that_are_asked_for(lodge):
    lodge.receive("b", "butter", "300 g", use_by(12))
    lose(lodge, "b", "100 g", DIED)
    assert told(lodge, waste, "2027-03-08", "2027-03-08")
    assert told(lodge, waste, "2027-03-09", "2027-03-20") == []
    for days in (("8 March", None), ("2027-03-09", "2027-03-08"), ("0001-01-01", None)):
        with pytest.raises(UnreadableInput):
            told(lodge, waste, *days)


def test_the_sheet_has_what_sqlite_sums_of_the_ledger_itself(lodge, tmp_path):
    """Read by the csv module and summed by SQLite, neither of which knows the report."""
    lodge.receive("b", "butter", "300 g", use_by(12), **cost(100))
    lodge.receive("m", "whole-milk", "2 l", use_by(12), **cost(250))
    for batch, quantity in (("b", "120 g"), ("m", "1.5 l"), ("b", "30 g")):
        lose(lodge, batch, quantity, DIED)
    rows = list(csv.DictReader(io.StringIO(as_csv(told(lodge, waste)))))
    found = {row["item"]: (row["quantity"], row["quantity unit"]) for row in rows}
    with sqlite3.connect(tmp_path / "lodge.db") as books:
        summed = books.execute(
            "SELECT item.name, sum(movement.quantity) / 1000, item.base_unit FROM movement"
            " JOIN batch ON batch.id = movement.batch JOIN item ON item.id = batch.item"
            " WHERE target = 'waste' GROUP BY item.id"
        ).fetchall()
    assert found == {name: (str(quantity), unit) for name, quantity, unit in summed}


def test_no_cell_of_a_sheet_is_a_formula():
    """The characters: OWASP, CSV Injection."""
    words = ["=1+1", "+1 cup", "-", "@home", "\tx", 'said "no", twice', "-12.5"]
    (line,) = csv.DictReader(io.StringIO(as_csv([{str(at): w for at, w in enumerate(words)}])))
    assert list(line.values()) == [*(f"'{word}" for word in words[:5]), *words[5:]]
