"""Invoices as they are told: rows in shape, in words, as a sheet and on paper."""

import pypdfium2
import pytest

from pantry.paper.invoices import invoices_pdf
from pantry.records.database import reading
from pantry.reports.as_csv import as_csv
from pantry.reports.credits_owed import credits_owed
from pantry.reports.invoice_words import agreed_said, difference_said
from pantry.reports.invoices import invoices
from pantry.reports.view import view
from pantry.terminal.words import Words
from tests.commands.house import at, use_by
from tests.commands.larkfield import ID, MANAGER, PORTER
from tests.reports.asking import told

ORDER = "hill-dairy/2027-03-09"
BOTTLE = 215


def gbp(minor):
    return {"minor": minor, "currency": "GBP"}


@pytest.fixture
def billed(lodge):
    """Two bottles of milk were ordered, one came; two are billed, dearer, and a crate."""
    lines = [{"item": "whole milk", "pack": "2 l bottle", "packs": 2}]
    body = {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": lines}
    lodge.do("place_order", body | {"free": [{"words": "Goat curd"}]})
    lodge.now = at(9)
    lodge.receive("m", "whole-milk", "2 l", use_by(15), order=ORDER, person=PORTER)
    lodge.do("close_delivery", {"order": ORDER}, person=PORTER)
    lines = [
        {"item": "Whole milk", "pack": "2 l bottle", "packs": 2, "amount": gbp(2 * BOTTLE + 20)},
        {"text": "goat curd", "amount": gbp(480)},
        {"text": "Crate", "amount": gbp(150)},
    ]
    body = {"supplier": "Hill Dairy", "number": "88/27", "date": "2027-03-09", "lines": lines}
    lodge.do("record_invoice", body | {"total": gbp(2 * BOTTLE + 650)}, person=MANAGER)
    return lodge


def words_of(house):
    zone = house.now.tzinfo
    return Words(zone, house.now)


def test_what_was_ordered_in_words_and_billed_so_is_as_agreed(billed):
    (row,) = told(billed, invoices)
    assert [each["kind"] for each in row["differences"]] == [
        "more_than_received",
        "price",
        "in_words",
    ]
    assert row["should_be"] == gbp(BOTTLE + 480)


def test_PL7_total_is_what_it_should_be_and_its_differences(billed):
    (row,) = told(billed, invoices)
    amounts = [each["amount"]["minor"] for each in row["differences"]]
    assert row["should_be"]["minor"] + sum(amounts) == row["total"]["minor"]
    for each in row["differences"]:
        of = each["billed"]["minor"] - each["held_against"]["minor"]
        assert of == each["amount"]["minor"]


def test_each_difference_is_said_in_a_sentence_with_what_it_is_held_against(billed):
    (row,) = told(billed, invoices)
    words = words_of(billed)
    said = [difference_said(each, words.money, words.amount) for each in row["differences"]]
    assert said == [
        "Whole milk: 2 l more billed than came",
        "Whole milk: billed 4.50 GBP, agreed 4.30 GBP (2.15 GBP a pack, as it was ordered)",
        "Crate: nothing in the books stands against it",
    ]


def test_what_is_agreed_is_said_with_who_agreed(billed):
    (row,) = told(billed, invoices)
    assert [agreed_said(each) for each in row["differences"]] == ["", "", ""]
    short, dearer, crate = (each["difference"] for each in row["differences"])
    answers = [
        {"difference": short, "agreed": "credit"},
        {"difference": dearer, "agreed": "paid", "words": "feed is dear"},
        {"difference": crate, "agreed": "credit"},
    ]
    body = {"invoice": row["invoice"], "differences": answers}
    billed.do("settle_invoice", body, person=MANAGER)
    (row,) = told(billed, invoices)
    assert row["state"] == "settled"
    assert [agreed_said(each) for each in row["differences"]] == [
        f"a credit is asked for, {MANAGER}",
        f"paid as it is, {MANAGER}: feed is dear",
        f"a credit is asked for, {MANAGER}",
    ]
    owed = {
        row["words"] or row["item"]: row["value"]["minor"] for row in told(billed, credits_owed)
    }
    assert owed == {"Whole milk": BOTTLE, "Crate was billed and is not in the books": 150}


def test_as_a_sheet_an_invoice_is_a_line(billed):
    heading, line, *rest = as_csv(told(billed, invoices)).splitlines()
    assert rest == []
    assert {"number", "total minor", "should_be minor", "state"} <= set(heading.split(","))
    assert "more_than_received; price; in_words" in line


def test_on_paper_stands_what_differs_and_where_to_look_it_up(billed):
    with reading(billed.engine) as connection:
        seen = view(connection, ID, billed.now)
        pdf = invoices_pdf(seen, invoices(seen))
        nothing = invoices_pdf(seen, [])
    (page,) = [each.get_textpage().get_text_range() for each in pypdfium2.PdfDocument(pdf)]
    for said in ("Hill Dairy, invoice 88/27 of 9 Mar 2027", "differs", "Should be", ORDER):
        assert said in page
    (page,) = [each.get_textpage().get_text_range() for each in pypdfium2.PdfDocument(nothing)]
    assert "No invoice is recorded." in page


def test_older_invoices_are_told_only_while_something_of_them_is_open(billed):
    billed.now = at(9).replace(month=9)
    (row,) = told(billed, invoices)
    answers = [{"difference": each["difference"], "agreed": "paid"} for each in row["differences"]]
    body = {"invoice": row["invoice"], "differences": answers}
    billed.do("settle_invoice", body, person=MANAGER)
    assert told(billed, invoices) == []
