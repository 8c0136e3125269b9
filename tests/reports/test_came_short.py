"""What a delivery left short, to whom it is told, and what it is worth."""

from pantry.reports.credits_owed import credits_owed
from pantry.reports.expected import expected
from pantry.reports.questions import questions
from tests.commands.house import at, use_by
from tests.commands.larkfield import MANAGER, PORTER
from tests.reports.asking import told

ORDER = "hill-dairy/2027-03-09"
DINNER = "2027-03-09/dinner/family"


def coming(lodge, packs=2):
    """Butter comes tomorrow, on which dinner waits; it is tomorrow."""
    lodge.menu(DINNER, "rice-pudding")
    lines = [{"item": "butter", "pack": "250 g block", "packs": packs}]
    lodge.do("place_order", {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": lines})
    lodge.now = at(9)


def leaves(lodge, **more):
    return lodge.do("close_delivery", {"order": ORDER} | more, person=PORTER)


def grams(value):
    return {"value": value, "unit": "g"}


def test_a_credit_is_worth_what_did_not_come(lodge):
    coming(lodge, packs=4)
    lodge.receive("b", "butter", "250 g", use_by(19), order=ORDER, person=PORTER)
    leaves(lodge, driver="Ines")
    (row,) = told(lodge, credits_owed)
    price = row["value"]["minor"] // 3
    assert row["value"] == {"minor": 3 * price, "currency": "GBP"}
    assert price == lodge.batch("b").cost
    assert (row["missing"], row["ordered"]) == (grams("750"), grams("1000"))
    assert (row["supplier"], row["driver"], row["refused"]) == ("Hill Dairy", "Ines", [])


def test_what_comes_later_makes_it_smaller_until_nothing_is_left(lodge):
    coming(lodge)
    leaves(lodge)
    (whole,) = told(lodge, credits_owed)
    lodge.receive("b", "butter", "250 g", use_by(19), order=ORDER, person=PORTER)
    (half,) = told(lodge, credits_owed)
    assert 2 * half["value"]["minor"] == whole["value"]["minor"]
    lodge.receive("c", "butter", "250 g", use_by(19), order=ORDER, person=PORTER)
    assert told(lodge, credits_owed) == []


def test_it_says_what_was_refused_and_is_gone_once_recorded(lodge):
    coming(lodge)
    body = {"batch": "b", "item": "butter", "quantity": "500 g", "area": "Cold room"}
    refusal = {"verdict": "refuse", "order": ORDER, "reason": "too warm"}
    lodge.do("receive", body | refusal, person=PORTER)
    leaves(lodge)
    (row,) = told(lodge, credits_owed)
    assert row["refused"] == ["too warm"]
    written_off = {"credit": row["credit"], "reason": "settled at the door"}
    lodge.do("record_credit", written_off, base=row["version"], person=MANAGER)
    assert told(lodge, credits_owed) == []


def test_PL5_the_chef_is_told_who_goes_without_and_what_can_replace_it(lodge):
    coming(lodge)
    leaves(lodge)
    (row,) = told(lodge, questions)
    (line,) = row["short"]
    assert (line["item"], line["missing"]) == ("Butter", grams("500"))
    assert DINNER in {dish["service"] for dish in line["dishes"]}
    assert all(dish["ways_out"] for dish in line["dishes"])


def test_PL5_what_was_refused_is_lacking_though_it_is_still_awaited(lodge):
    coming(lodge)
    body = {"batch": "b", "item": "butter", "quantity": "500 g", "area": "Cold room"}
    lodge.do("receive", body | {"verdict": "refuse", "order": ORDER}, person=PORTER)
    (row,) = told(lodge, questions)
    (line,) = row["short"]
    assert (line["missing"], bool(line["dishes"])) == (grams("500"), True)


def test_what_stands_on_the_shelf_meanwhile_leaves_nobody_without(lodge):
    coming(lodge)
    leaves(lodge)
    lodge.receive("b", "butter", "500 g", use_by(19))
    (row,) = told(lodge, questions)
    (line,) = row["short"]
    assert (line["missing"], line["dishes"]) == (grams("500"), [])


def test_the_last_drivers_of_a_supplier_are_offered(lodge):
    coming(lodge)
    for name in ("Ines", "Tom", "Ines"):
        left = leaves(lodge, driver=name)
        lodge.do("correct", {"command": left, "reason": "still there"}, person=PORTER)
        assert told(lodge, expected)[0]["drivers"] == []
    leaves(lodge, driver="Tom")
    lodge.now = at(9, 8)
    lines = [{"item": "butter", "pack": "250 g block", "packs": 1}]
    lodge.do("place_order", {"supplier": "Hill Dairy", "delivery": "2027-03-10", "lines": lines})
    assert told(lodge, expected)[0]["drivers"] == ["Tom"]
