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
