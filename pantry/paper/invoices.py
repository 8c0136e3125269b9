"""The invoices that are not settled yet, and those of the last quarter, on A4."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date
from decimal import Decimal
from functools import partial
from typing import Any

from pantry.handbook.currencies import CURRENCIES
from pantry.paper.pages import Line, Paper, printed
from pantry.reports.invoice_words import agreed_said, difference_said
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.house_time import local_date
from pantry.rules.measure import show
from pantry.rules.stock import BaseUnit


def invoices_pdf(view: View, rows: Sequence[Row]) -> bytes:
    """The PDF of the report: invoice by invoice, with what differs and what was agreed."""
    today = local_date(view.now, view.zone)
    beside = f"{view.house.name}, as of {today:%a} {today.day} {today:%b %Y}"
    blocks = [list(_invoice(view, row)) for row in rows]
    return printed(Paper("Invoices", beside), blocks or [[Line("No invoice is recorded.")]])


def _invoice(view: View, row: Row) -> Iterator[Line]:
    dated = date.fromisoformat(row["dated"])
    yield Line(
        f"{row['supplier']}, invoice {row['number']} of {dated.day} {dated:%b %Y}",
        right=row["state"],
        bold=True,
        size=12,
        room=14,
    )
    yield Line("Billed", right=_money(row["total"]), room=4, rule=True)
    if not row["differences"]:
        return
    yield Line("Should be", right=_money(row["should_be"]), room=4, rule=True)
    amount = partial(_amount, view)
    for each in row["differences"]:
        said = difference_said(each, _money, amount)
        yield Line(said, right=_money(each["amount"]), indent=14, room=4, rule=True)
        if named := ", ".join([*each["orders"], agreed_said(each)]).strip(", "):
            yield Line(named, size=9, indent=14)


def _amount(view: View, quantity: Mapping[str, str]) -> str:
    thousandths = int(Decimal(quantity["value"]) * 1000)
    return show(thousandths, BaseUnit(quantity["unit"]), decimal_mark=view.row.decimal_mark or ".")


def _money(sum_of: Mapping[str, Any]) -> str:
    code = sum_of["currency"]
    decimals = CURRENCIES[code].decimals if code in CURRENCIES else 2
    return f"{Decimal(sum_of['minor']).scaleb(-decimals):.{decimals}f} {code}"
