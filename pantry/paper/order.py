"""An order on A4, as its supplier reads it."""

from collections.abc import Iterator
from datetime import datetime

from pantry.paper.pages import Line, Paper, printed
from pantry.reports.order_text import day, heeded
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.house_time import local_date, read_instant

_COLUMN = 46.0


def order_pdf(view: View, row: Row) -> bytes:
    """The PDF of an order, as the report tells it: no price stands on it."""
    today = local_date(view.now, view.zone)
    beside = f"{view.house.name}, {today.day} {today:%B %Y}"
    foot = "Please confirm it, and tell us at once what will be short or comes at another price."
    paper = Paper(f"Order for {row['supplier']}", beside, foot)
    delivery = read_instant(row["delivery"]).astimezone(view.zone)
    return printed(paper, [list(_head(row, delivery)), *_lines(row), list(_heeded(row))])


def _head(row: Row, delivery: datetime) -> Iterator[Line]:
    yield Line(f"For delivery on {day(delivery)}", bold=True, size=13)
    yield Line(f"Our reference: {row['order']}", room=2)
    if row["state"] != "open":
        yield Line(f"THIS ORDER IS {row['state'].upper()}", bold=True, room=6)


def _lines(row: Row) -> Iterator[list[Line]]:
    head = Line("What", left="Packs", bold=True, size=9, indent=_COLUMN, room=14)
    rows = [
        Line(
            f"{line['item']}: {line['pack']}",
            left=f"{line['packs']} ×",
            size=11.5,
            indent=_COLUMN,
            room=7,
            rule=True,
        )
        for line in row["lines"]
    ]
    rows += [
        Line(
            line["words"] + (f": {line['amount']}" if line["amount"] else ""),
            size=11.5,
            indent=_COLUMN,
            room=7,
            rule=True,
        )
        for line in row["free"]
    ]
    first, *rest = rows or [Line("Nothing is ordered any more.", indent=_COLUMN, room=7)]
    yield [head, first]
    yield from ([line] for line in rest)


def _heeded(row: Row) -> Iterator[Line]:
    for number, text in enumerate(heeded(row)):
        yield Line(text, bold=True, room=0 if number else 16, rule=not number)
