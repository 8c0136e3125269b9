"""The preparation list on A4: day by day, to be ticked and hung up in the kitchen."""

import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal

from reportlab.pdfgen.canvas import Canvas

from pantry.handbook.policies import CAUTION
from pantry.paper.breaking import paged
from pantry.paper.fonts import BOLD, PLAIN, legible, wrapped
from pantry.reports.conflict_words import called, conflict_said
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.house_time import local_date, read_instant
from pantry.rules.measure import show
from pantry.rules.stock import BaseUnit

_MM = 72 / 25.4
_PAGE = (210 * _MM, 297 * _MM)
_LEFT, _RIGHT, _TOP, _BOTTOM = 18 * _MM, 14 * _MM, 16 * _MM, 18 * _MM
_BOX = 4.5 * _MM
_INDENT = 8 * _MM
_LEADING = 1.3
_ROOM = _PAGE[1] - _TOP - _BOTTOM - 24 * _LEADING


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of text; `box` before it is for a pen, `room` is left free above it, in points."""

    text: str
    font: str = PLAIN
    size: float = 10.5
    indent: float = _INDENT
    box: bool = False
    room: float = 0.0

    @property
    def high(self) -> float:
        """How high it is with what is free above it, in points."""
        return self.size * _LEADING + self.room


def preparation_list(view: View, rows: Sequence[Row]) -> bytes:
    """The PDF of what is to be made, as the report tells it; what was made already is left out."""
    written = io.BytesIO()
    canvas = Canvas(written, pagesize=_PAGE, invariant=1)
    canvas.setTitle(legible(f"Preparation list, {view.house.name}"))
    blocks = _blocks(view, [row for row in rows if not row["done"]])
    pages = list(paged(blocks, _ROOM, _wrapped))
    for number, page in enumerate(pages, start=1):
        _draw(canvas, view, page, f"{number} of {len(pages)}")
    canvas.save()
    return written.getvalue()


def _blocks(view: View, rows: Sequence[Row]) -> Iterator[list[_Line]]:
    """What stays together on a page: each preparation, the first of a day under its heading."""
    if not rows:
        yield [_Line("Nothing is to be made in these days.")]
    day = None
    for row in rows:
        heading = []
        if row["day"] != day:
            day = row["day"]
            at = local_date(read_instant(row["start"]), view.zone)
            heading = [_Line(f"{at:%A} {at.day} {at:%B}", BOLD, 14, 0, room=10)]
        yield [*heading, *_preparation(view, row)]


def _preparation(view: View, row: Row) -> Iterator[_Line]:
    begins, ready = (_clock(view, row[name]) for name in ("start", "ready"))
    late = ", NOT READY IN TIME" if row["late"] else ""
    whole = f" ({row['recipes']} full recipes)" if row["full_recipes"] else ""
    name = f"{_amount(view, row['quantity'])} {row['preparation']}{whole}"
    yield _Line(name, BOLD, 12, box=True, room=8)
    yield _Line(f"Begin {begins}, ready {ready}{late}. Into: {row['area']}.")
    for part in row["wanted"]:
        into = f"{part['into']}, " if part["into"] else ""
        yield _Line(f"For {into}{part['dish']}, {_service(part['service'])}")
        for conflict in part["conflicts"]:
            dish = called({"name": conflict["dish"], "variant": conflict["variant"]})
            said = conflict_said(conflict, dish, lambda at: _moment(view, at))
            yield _Line(said, BOLD, indent=_INDENT + 6 * _MM)
    for line in row["lines"]:
        yield _Line(_of(view, line), indent=_INDENT + 6 * _MM)
    if row["contains"]:
        yield _Line(f"Contains: {', '.join(row['contains'])}", BOLD)
    if row["unknown"]:
        yield _Line(f"Not known whether it contains: {', '.join(row['unknown'])}")
    if row["is_cooked"]:
        yield _Line("Cooled by: ____ : ____   ____ °C     ____ : ____   ____ °C")


def _of(view: View, line: Row) -> str:
    places = [
        f"{part['label']}, {part['area']}" if part["area"] else part["label"]
        for part in line["from"]
        if "label" in part
    ]
    short = int(Decimal(line["short"]["value"]) * 1000)
    lacking = f", {_amount(view, line['short'])} SHORT" if short else ""
    return f"{_amount(view, line['need'])} {line['item']}: {'; '.join(places) or '-'}{lacking}"


def _service(name: str) -> str:
    """`Wed 10 Mar dinner, family` for `2027-03-10/dinner/family`."""
    day, meal, table = name.split("/")
    on = date.fromisoformat(day)
    return f"{on:%a} {on.day} {on:%b} {meal}, {table.replace('-', ' ')}"


def _amount(view: View, quantity: Row) -> str:
    thousandths = int(Decimal(quantity["value"]) * 1000)
    mark = view.row.decimal_mark
    return show(thousandths, BaseUnit(quantity["unit"]), decimal_mark=mark)


def _clock(view: View, written: str) -> str:
    return f"{read_instant(written).astimezone(view.zone):%a %H:%M}"


def _moment(view: View, written: str) -> str:
    at = read_instant(written).astimezone(view.zone)
    return f"{at:%a} {at.day} {at:%b %H:%M}"


def _wrapped(line: _Line) -> Iterator[_Line]:
    wide = _PAGE[0] - _LEFT - _RIGHT - line.indent
    for number, text in enumerate(wrapped(legible(line.text), line.font, line.size, wide)):
        first = number == 0
        box, room = line.box and first, line.room if first else 0.0
        yield _Line(text, line.font, line.size, line.indent, box, room)


def _draw(canvas: Canvas, view: View, page: Sequence[_Line], number: str) -> None:
    at = _PAGE[1] - _TOP
    today = local_date(view.now, view.zone)
    canvas.setFont(BOLD, 16)
    canvas.drawString(_LEFT, at - 12, "Preparation list")
    canvas.setFont(PLAIN, 9)
    head = legible(f"{view.house.name}, as of {today:%a} {today.day} {today:%b %Y}, {number}")
    canvas.drawRightString(_PAGE[0] - _RIGHT, at - 12, head)
    at -= 24
    for line in page:
        at -= line.high
        canvas.setFont(line.font, line.size)
        canvas.drawString(_LEFT + line.indent, at, line.text)
        if line.box:
            canvas.rect(_LEFT, at - 0.5, _BOX, _BOX, stroke=1, fill=0)
    canvas.setFont(PLAIN, 7.5)
    for number_of, text in enumerate(wrapped(CAUTION, PLAIN, 7.5, _PAGE[0] - _LEFT - _RIGHT)):
        canvas.drawString(_LEFT, _BOTTOM - 14 - number_of * 9, text)
    canvas.showPage()
