"""What was lost of which no batch is known: apart from the ledger's waste, and without a cost."""

from pantry.reports.waste import waste
from pantry.reports.waste_without_batch import waste_without_batch
from tests.commands.larkfield import PORTER
from tests.reports.asking import told

BACK = {"reason": "came back from the table", "destination": "compost"}


def lose(lodge, **what):
    return lodge.do("waste_without_batch", BACK | what, person=PORTER)


def test_a_row_is_one_record_of_whom_nothing_is_said(lodge):
    command = lose(lodge, dish="rice-pudding", quantity="2")
    (row,) = told(lodge, waste_without_batch)
    assert (row["what"], row["dish_id"], row["item_id"]) == ("Rice pudding", "rice-pudding", None)
    assert (row["quantity"], row["weight"]) == ({"value": "2", "unit": "each"}, None)
    assert (row["command"], row["avoidable"], row["week"]) == (command, True, "2027-W10")
    assert PORTER not in str(row)


def test_it_weighs_what_was_weighed_or_what_the_item_says(lodge):
    lose(lodge, words="gravy", quantity="300 g")
    lose(lodge, item="butter", quantity="0.2 kg")
    lose(lodge, words="soup", quantity="1 l")
    rows = told(lodge, waste_without_batch)
    weights = {row["what"]: row["weight"] for row in rows}
    grams = {"value": "300", "unit": "g"}
    assert weights == {"gravy": grams, "Butter": grams | {"value": "200"}, "soup": None}


def test_the_waste_of_the_ledger_knows_nothing_of_it(lodge):
    lose(lodge, item="butter", quantity="0.2 kg")
    assert told(lodge, waste) == []


def test_only_the_days_that_are_asked_for_and_nothing_that_was_taken_back(lodge):
    command = lose(lodge, words="gravy", quantity="300 g")
    assert told(lodge, waste_without_batch, "2027-03-09", "2027-03-20") == []
    assert told(lodge, waste_without_batch, "2027-03-08", "2027-03-08")
    lodge.do("correct", {"command": command, "reason": "eaten"}, person=PORTER)
    assert told(lodge, waste_without_batch) == []
