"""An order as it is printed: its text read back from the PDF by PDFium."""

from copy import deepcopy

import pypdfium2

from pantry.paper.order import order_pdf
from pantry.records.database import reading
from pantry.reports.orders import one_order
from pantry.reports.view import view
from tests.commands.larkfield import ID

ORDER = "hill-dairy/2027-03-09"
MILK = {"item": "Whole milk", "pack": "2 l bottle", "packs": 2}


def place(lodge):
    free = [{"words": "goat curd", "amount": "3 small tubs"}]
    body = {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": [MILK], "free": free}
    lodge.do("place_order", body)


def texts(lodge, change=lambda row: row):
    with reading(lodge.engine) as connection:
        seen = view(connection, ID, lodge.now)
        pdf = order_pdf(seen, change(one_order(seen, ORDER)))
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(pdf)]


def test_it_says_of_whom_for_when_what_and_our_reference(lodge):
    place(lodge)
    (page,) = texts(lodge)
    for said in (
        "Order for Hill Dairy",
        "Larkfield Lodge, 8 March 2027",
        "For delivery on Tuesday 9 March 2027, 06:45",
        f"Our reference: {ORDER}",
        "2 ×",
        "Whole milk: 2 l bottle",
        "goat curd: 3 small tubs",
        "no other product",
    ):
        assert said in page
    assert "GBP" not in page


def test_AL3_what_must_be_free_of_something_is_said_on_paper(lodge):
    place(lodge)

    def asked(row):
        return row | {"lines": [row["lines"][0] | {"free_from": ["gluten"]}]}

    (page,) = texts(lodge, asked)
    assert "Whole milk must be free of gluten" in page


def test_an_order_that_was_cancelled_says_so(lodge):
    place(lodge)
    lodge.do("cancel_order", {"order": ORDER, "reason": "no boat"})
    (page,) = texts(lodge)
    assert "THIS ORDER IS CANCELLED" in page


def test_nothing_runs_over_an_edge_however_much_there_is(lodge):
    place(lodge)

    def much(row):
        lines = [
            deepcopy(row["lines"][0]) | {"item": f"Item {n} " + "long " * n} for n in range(90)
        ]
        return row | {"lines": lines}

    pages = texts(lodge, much)
    assert len(pages) > 3
    assert all(f"Item {n} " in "".join(pages).replace("\r\n", " ") for n in range(90))
    assert f"2 of {len(pages)}" in pages[1]
