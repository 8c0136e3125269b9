"""Every report as a sheet, told to the roles that are told the report."""

import csv
import io

from tests.commands.larkfield import CHEF, PORTER


def test_a_report_s_rows_come_as_a_sheet_without_what_the_role_is_not_told(site):
    milk = {"batch": "m", "item": "whole-milk", "quantity": "2 l", "area": "cold-room"}
    mark = {"kind": "use_by", "date": "2027-03-12"}
    given = site.command("receive", milk | {"verdict": "accept", "date_mark": mark})
    site.as_(PORTER).post("/api/commands", json=[given])
    told = site.as_(PORTER).get("/api/reports/stock.csv")
    assert told.headers["content-type"] == "text/csv; charset=utf-8"
    (row,) = csv.DictReader(io.StringIO(told.text))
    assert (row["item"], row["on_hand"], row["on_hand unit"]) == ("Whole milk", "2000", "ml")
    assert "value minor" not in row
    assert site.as_(PORTER).get("/api/reports/waste.csv").status_code == 403
    assert site.as_(CHEF).get("/api/reports/waste.csv?from=2027-03-01").status_code == 200
    assert site.as_(CHEF).get("/api/reports/nothing.csv").status_code == 404


def test_a_report_s_rows_come_as_a_workbook_too(site):
    """A workbook is a ZIP archive (ECMA-376, part 2): it begins with `PK`."""
    told = site.as_(CHEF).get("/api/reports/reorder.xlsx")
    assert told.status_code == 200
    assert told.headers["content-type"].startswith("application/vnd.openxmlformats")
    assert told.content.startswith(b"PK")
    assert site.as_(PORTER).get("/api/reports/reorder.xlsx").status_code == 403


def test_what_is_to_be_ordered_and_an_order_come_on_paper(site):
    assert site.as_(CHEF).get("/api/reorder.pdf").content.startswith(b"%PDF")
    assert site.as_(PORTER).get("/api/reorder.pdf").status_code == 403
    lines = [{"item": "Whole milk", "pack": "2 l bottle", "packs": 2}]
    order = {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": lines}
    placed = site.command("place_order", order, person=CHEF)
    (answer,) = site.as_(CHEF).post("/api/commands", json=[placed]).json()
    assert answer["outcome"] == "applied", answer
    paper = site.as_(CHEF).get("/api/orders.pdf?order=hill-dairy/2027-03-09")
    assert paper.content.startswith(b"%PDF")
    assert site.as_(CHEF).get("/api/orders.pdf?order=nobody/2027-03-09").status_code == 404


def test_invoices_come_on_paper_to_who_may_see_them(site):
    assert site.as_(CHEF).get("/api/invoices.pdf").content.startswith(b"%PDF")
    assert site.as_(PORTER).get("/api/invoices.pdf").status_code == 403
    assert site.as_(CHEF).get("/api/reports/invoices.xlsx").status_code == 200
