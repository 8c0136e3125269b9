"""Food that was lost and that no batch in the books is known of."""

import pytest

from pantry.records.tables import WasteWithoutBatchRow
from tests.commands.house import use_by
from tests.commands.larkfield import PORTER

BACK = {"reason": "came back from the table", "destination": "compost"}


def lost(house, **what):
    return house.do("waste_without_batch", BACK | what, person=PORTER)


@pytest.mark.parametrize(
    ("what", "kept"),
    [
        ({"dish": "rice-pudding", "quantity": "3"}, ("Rice pudding", 3_000, "each")),
        ({"dish": "Rice pudding", "quantity": "1 lb"}, ("Rice pudding", 453_592, "g")),
        ({"words": " a pot of soup ", "quantity": "1.5 l"}, ("a pot of soup", 1_500_000, "ml")),
        ({"item": "butter", "quantity": "0.2 kg"}, ("Butter", 200_000, "g")),
    ],
)
def test_what_stood_in_no_batch_is_kept_in_what_it_was_weighed_or_counted_in(house, what, kept):
    command = lost(house, **what)
    row = house.row(WasteWithoutBatchRow)
    assert (row.what, row.quantity, row.unit) == kept
    assert (row.command, row.reason, row.destination) == (command, *BACK.values())


def test_LG1_it_moves_no_stock(house):
    house.receive("b", "butter", "1 kg", use_by(12))
    command = lost(house, item="butter", quantity="200 g")
    assert house.movements(command) == []
    assert house.available("b") == 1_000_000


def test_LG4_it_is_taken_back_once_and_is_gone(house):
    command = lost(house, words="gravy", quantity="300 g")
    house.do("correct", {"command": command, "reason": "it was eaten"}, person=PORTER)
    assert house.rows(WasteWithoutBatchRow) == []
    again = house.refuses("correct", {"command": command, "reason": "it was eaten"})
    assert again.code == "reversed_already"


@pytest.mark.parametrize(
    ("what", "code"),
    [
        ({"quantity": "1"}, "what_is_lost"),
        ({"quantity": "1", "words": " "}, "what_is_lost"),
        ({"quantity": "1", "words": "soup", "item": "butter"}, "what_is_lost"),
        ({"quantity": "1", "dish": "nobody-cooks-it"}, "recipe_unknown"),
        ({"quantity": "1 kg", "item": "nobody-has-it"}, "item_unknown"),
        ({"quantity": "0 g", "words": "soup"}, "quantity_nothing"),
        ({"quantity": "a lot", "words": "soup"}, "unit_unknown"),
        ({"quantity": {"value": "x", "unit": "g"}, "words": "soup"}, "quantity_malformed"),
    ],
)
def test_SY3_what_cannot_be_read_is_kept_and_asked_about(house, what, code):
    assert house.keeps("waste_without_batch", BACK | what).code == code
