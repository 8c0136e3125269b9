"""What must be ordered, by deadline and supplier, on A4."""

from collections.abc import Iterator, Sequence
from datetime import date
from decimal import Decimal

from pantry.handbook.currencies import CURRENCIES
from pantry.paper.pages import Line, Paper, printed
from pantry.reports.cut_offs import by_deadline
from pantry.reports.reorder import together
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.house_time import local_date, read_instant

_COLUMN = 46.0


def reorder_pdf(view: View, rows: Sequence[Row]) -> bytes:
    """The PDF of the report: first what cannot be had any more, then order by order."""
    today = local_date(view.now, view.zone)
    beside = f"{view.house.name}, as of {today:%a} {today.day} {today:%b %Y}"
    missed = [row for row in rows if row["alert"] == "missed"]
    blocks = [list(_missed(view, missed))] if missed else []
    blocks += [list(_order(view, order)) for order in by_deadline(rows)]
    nothing = [[Line("Everything is in the house or on its way: nothing is to be ordered.")]]
    return printed(Paper("What must be ordered", beside), blocks or nothing)


def _missed(view: View, rows: Sequence[Row]) -> Iterator[Line]:
    yield Line("Cannot be had any more in time", bold=True, size=13)
    for row in rows:
        yield Line(f"{row['item']}, wanted by {_moment(view, row['wanted_by'])}", room=5, rule=True)
        yield Line(f"for {because(row)}", size=9)


def _order(view: View, lines: list[Row]) -> Iterator[Line]:
    first = lines[0]
    yield Line(
        f"{first['supplier']}, comes {_moment(view, first['delivery'])}",
        right=f"order by {_moment(view, first['order_by'])}",
        bold=True,
        size=12,
        room=14,
    )
    for line in lines:
        yield Line(
            f"{line['item']}: {line['pack']}",
            left=f"{line['packs']} ×",
            right=_money(line["cost"]),
            indent=_COLUMN,
            room=5,
            rule=True,
        )
        yield Line(f"for {because(line)}", size=9, indent=_COLUMN)
    yield from _sums(first, lines)


def _sums(first: Row, lines: list[Row]) -> Iterator[Line]:
    of = together(lines)
    currency = first["cost"]["currency"]

    def said(minor: int) -> str:
        return _money({"minor": minor, "currency": currency})

    if first["order"]:
        yield Line(f"Added to the order {first['order']}", size=9, indent=_COLUMN, room=4)
    if of.charge:
        yield Line("Delivery", right=said(of.charge), indent=_COLUMN, room=4, rule=True)
    yield Line("Together", right=said(of.total), bold=True, indent=_COLUMN, room=2)
    if of.below_minimum:
        yield Line(f"{said(of.below_minimum)} below their minimum", indent=_COLUMN)


def because(row: Row) -> str:
    """`Sat 13 Mar dinner, family; par` for the services and reasons of a row."""
    return "; ".join(_service(each) for each in row["because"])


def _service(name: str) -> str:
    if name.count("/") != 2:
        return "what is kept in" if name == "par" else name
    day, meal, table = name.split("/")
    on = date.fromisoformat(day)
    return f"{on:%a} {on.day} {on:%b} {meal}, {table.replace('-', ' ')}"


def _moment(view: View, written: str) -> str:
    at = read_instant(written).astimezone(view.zone)
    return f"{at:%a} {at.day} {at:%b} {at:%H:%M}"


def _money(sum_of: Row) -> str:
    code = sum_of["currency"]
    decimals = CURRENCIES[code].decimals if code in CURRENCIES else 2
    return f"{Decimal(sum_of['minor']).scaleb(-decimals):.{decimals}f} {code}"
