"""The reorder report: lines by deadline, what they come to, as sheet, workbook and paper."""

import io
from decimal import Decimal

import pypdfium2
import pytest
from openpyxl import load_workbook

from pantry.paper.reorder import reorder_pdf
from pantry.records.database import reading, writing
from pantry.records.rows import change
from pantry.records.tables import SupplierRow
from pantry.reports.as_xlsx import as_xlsx
from pantry.reports.cut_offs import by_deadline
from pantry.reports.plan import plan
from pantry.reports.reorder import reorder, together
from pantry.reports.view import view
from tests.commands.larkfield import ID
from tests.reports.asking import told as asked

DINNER = "2027-03-10/dinner/family"
MILK = {"item": "Whole milk", "pack": "2 l bottle", "packs": 1}


def supplier_with(lodge, **terms):
    """As its house book would say it."""
    with writing(lodge.engine) as connection:
        change(connection, SupplierRow, {"house": ID, "id": "hill-dairy"}, **terms)


def dairy(lodge):
    orders = by_deadline(asked(lodge, reorder))
    return next(lines for lines in orders if lines[0]["supplier"] == "Hill Dairy")


def test_PL5_it_has_every_line_of_the_plan_by_deadline(told):
    rows, planned = told(reorder), told(plan)
    assert len(rows) == len(planned)
    ahead = [row for row in rows if row["alert"] != "missed"]
    assert ahead
    assert [row["order_by"] for row in ahead] == sorted(row["order_by"] for row in ahead)
    assert all(row["cost"]["minor"] == row["packs"] * row["price"]["minor"] for row in ahead)


def test_a_delivery_comes_to_its_goods_and_its_charge_and_says_what_the_minimum_lacks(lodge):
    supplier_with(lodge, charge=450, minimum=5_000)
    lodge.menu(DINNER, "rice-pudding")
    lines = dairy(lodge)
    of = together(lines)
    assert of.goods == sum(line["cost"]["minor"] for line in lines)
    assert (of.total, of.below_minimum) == (of.goods + 450, 5_000 - of.goods)


def test_PL2_what_is_added_to_an_order_pays_no_second_charge(lodge):
    supplier_with(lodge, charge=450, minimum=5_000)
    lodge.menu(DINNER, "rice-pudding")
    at = dairy(lodge)[0]["delivery"]
    lodge.do("place_order", {"supplier": "Hill Dairy", "delivery": at, "lines": [MILK]})
    lines = [row for row in asked(lodge, reorder) if row["delivery"] == at]
    assert lines
    assert {line["order"] for line in lines} == {f"hill-dairy/{at[:10]}"}
    assert (together(lines).charge, together(lines).below_minimum) == (0, 0)


def test_on_paper_stands_each_order_with_its_deadline_and_sum(lodge):
    lodge.menu(DINNER, "rice-pudding")
    with reading(lodge.engine) as connection:
        seen = view(connection, ID, lodge.now)
        pdf = reorder_pdf(seen, reorder(seen))
    (page,) = [each.get_textpage().get_text_range() for each in pypdfium2.PdfDocument(pdf)]
    for said in ("What must be ordered", "Hill Dairy, comes", "order by", "Together", "GBP"):
        assert said in page
    assert "Wed 10 Mar dinner, family" in page


def test_an_empty_one_says_so_on_paper(lodge):
    with reading(lodge.engine) as connection:
        pdf = reorder_pdf(view(connection, ID, lodge.now), [])
    (page,) = [each.get_textpage().get_text_range() for each in pypdfium2.PdfDocument(pdf)]
    assert "nothing is to be ordered" in page


@pytest.fixture
def sheet():
    """What another program reads of a workbook: rows of values, formulas as such."""

    def read(rows):
        book = load_workbook(io.BytesIO(as_xlsx("reorder", rows)))
        return [list(row) for row in book.active.iter_rows()]

    return read


def test_a_workbook_has_numbers_as_numbers_and_money_in_its_own_unit(sheet):
    row = {
        "item": "Cream",
        "packs": 3,
        "cost": {"minor": 1_240, "currency": "GBP"},
        "net": {"value": "1250.5", "unit": "ml"},
        "at_risk": False,
        "because": ["par", "daily use"],
        "lines": [{"left": "out"}],
    }
    heading, line = sheet([row])
    values = dict(zip([cell.value for cell in heading], [cell.value for cell in line], strict=True))
    assert values == {
        "item": "Cream",
        "packs": 3,
        "cost": 12.4,
        "cost currency": "GBP",
        "net": 1250.5,
        "net unit": "ml",
        "at_risk": "no",
        "because": "par; daily use",
    }
    cost = line[2]
    assert Decimal(str(cost.value)) == Decimal("12.4")
    assert cost.number_format == "0.00"


def test_OWASP_no_text_of_a_workbook_is_a_formula(sheet):
    """OWASP, CSV Injection: what begins with = + - @ must not be calculated."""
    words = ["=1+1", "+1", "-1", "@SUM(A1)"]
    _, line = sheet([{f"column {place}": word for place, word in enumerate(words)}])
    assert [cell.value for cell in line] == words
    assert {cell.data_type for cell in line} == {"s"}
