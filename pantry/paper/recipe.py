"""A recipe on A4, for the kitchen wall and for who asks what a new dish is."""

import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction

from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from pantry.paper.fonts import BOLD, PLAIN, legible, wrapped
from pantry.records.rows import find
from pantry.records.tables import PictureRow
from pantry.reports.conflict_words import conflict_said, table_said
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.house_time import local_date
from pantry.rules.measure import show
from pantry.rules.stock import BaseUnit

_MM = 72 / 25.4
_PAGE = (210 * _MM, 297 * _MM)
_LEFT, _RIGHT, _TOP, _BOTTOM = 18 * _MM, 14 * _MM, 16 * _MM, 22 * _MM
_WIDE = _PAGE[0] - _LEFT - _RIGHT
_LEADING = 1.35
_PICTURE = (70 * _MM, 52 * _MM)
_TRACES = (
    "Ask the kitchen about anything you cannot eat: traces can never be ruled out. "
    "The label in the hand, local codes and licensed practice come first."
)


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of text, another at the right edge, room above it in points."""

    text: str
    font: str = PLAIN
    size: float = 11
    right: str = ""
    room: float = 0.0

    @property
    def high(self) -> float:
        """How high it is with what is free above it, in points."""
        return self.size * _LEADING + self.room


def recipe_sheet(view: View, rows: Sequence[Row]) -> bytes:
    """The PDF of recipes as the report tells them, each on a page of its own; no cost stands here.

    A picture that has not arrived, or that cannot be drawn, is left out.
    """
    written = io.BytesIO()
    canvas = Canvas(written, pagesize=_PAGE, invariant=1)
    names = ", ".join(row["recipe"] for row in rows)
    canvas.setTitle(legible(f"{names}, {view.house.name}")[:200])
    for row in rows:
        pages = list(_pages(list(_lines(view, row)), _picture(view, row)))
        for number, page in enumerate(pages, start=1):
            picture = _picture(view, row) if number == 1 else None
            _draw(canvas, view, page, picture, f"{number} of {len(pages)}")
    canvas.save()
    return written.getvalue()


def _lines(view: View, row: Row) -> Iterator[_Line]:
    yield _Line(row["recipe"], BOLD, 18)
    yield _Line(_for_how_many(row), room=2)
    yield _Line("Ingredients", BOLD, 12, room=10)
    taken = {need["item_id"]: need["quantity"] for need in row["needs"]}
    for line in row["lines"]:
        quantity = taken.get(line["item_id"])
        once = Fraction(row["covers"]) == Fraction(row["yields"]) and not line["fixed"]
        written = f" ({line['amount']})" if once and line["amount"] else ""
        trimmed = Fraction(line["trimming_yield"]) != 1
        kept = f", trimmed {_amount(view, line['scaled'])}" if trimmed else ""
        said = _amount(view, quantity) if quantity else line["amount"] or "to taste"
        yield _Line(f"{line['item']}{kept}{written if quantity else ''}", right=said)
    if row["method"]:
        yield _Line("Method", BOLD, 12, room=10)
        for paragraph in row["method"].splitlines():
            yield _Line(paragraph, room=3)
    yield from _variants(row)
    yield _Line("What is in it", BOLD, 12, room=10)
    yield _Line(f"Contains: {', '.join(row['contains']) or 'nothing of the list is declared'}")
    if row["may_contain"]:
        yield _Line(f"May contain: {', '.join(row['may_contain'])}")
    if row["unknown"]:
        yield _Line(f"Not known whether it contains: {', '.join(row['unknown'])}")
    for conflict in row["conflicts"] or ():
        where = table_said(conflict, lambda day: f"{date.fromisoformat(day):%a %d %b}")
        yield _Line(conflict_said(conflict, row["recipe"], str, where=where), BOLD)


def _variants(row: Row) -> Iterator[_Line]:
    words = {"replace": "instead of", "leave_out": "without", "add": "with"}
    if row["variants"]:
        yield _Line("Variants", BOLD, 12, room=10)
    for change in row["variants"]:
        other = f"{change['instead']} " if change["instead"] else ""
        amount = f" ({change['amount']})" if change["amount"] else ""
        what = f"{other}{words[change['change']]} {change['ingredient']}{amount}"
        yield _Line(f"{change['variant']}: {what}")


def _for_how_many(row: Row) -> str:
    unit = row["unit"] or ("cover" if row["covers"] == "1" else "covers")
    return f"For {row['covers']} {unit}"


def _amount(view: View, quantity: Row) -> str:
    thousandths = int(Decimal(quantity["value"]) * 1000)
    return show(thousandths, BaseUnit(quantity["unit"]), decimal_mark=view.row.decimal_mark)


def _picture(view: View, row: Row) -> ImageReader | None:
    """The picture of a recipe, where it has arrived and can be drawn."""
    kept = row["picture"] and find(view.connection, PictureRow, house=view.id, id=row["picture"])
    if not kept:
        return None
    try:
        picture = ImageReader(io.BytesIO(kept.content))
        picture.getRGBData()  # type: ignore[no-untyped-call]
    except OSError:
        return None
    return picture


def _pages(lines: Sequence[_Line], picture: ImageReader | None) -> Iterator[list[_Line]]:
    """The lines page by page, wrapped."""
    room = _PAGE[1] - _TOP - _BOTTOM
    left = room - (_PICTURE[1] + 10 if picture else 0)
    page: list[_Line] = []
    for line in lines:
        for part in _wrapped(line):
            if part.high > left:
                yield page
                page, left = [], room
            page.append(part)
            left -= part.high
    yield page


def _wrapped(line: _Line) -> Iterator[_Line]:
    wide = _WIDE - (45 * _MM if line.right else 0)
    for number, text in enumerate(wrapped(legible(line.text), line.font, line.size, wide)):
        first = number == 0
        right, room = (line.right, line.room) if first else ("", 0.0)
        yield _Line(text, line.font, line.size, legible(right), room)


def _draw(
    canvas: Canvas, view: View, page: Sequence[_Line], picture: ImageReader | None, number: str
) -> None:
    at = _PAGE[1] - _TOP
    if picture is not None:
        wide, high = picture.getSize()
        scale = min(_PICTURE[0] / wide, _PICTURE[1] / high)
        at -= high * scale
        canvas.drawImage(picture, _LEFT, at, wide * scale, high * scale)
        at -= 10
    for line in page:
        at -= line.high
        canvas.setFont(line.font, line.size)
        canvas.drawString(_LEFT, at, line.text)
        if line.right:
            canvas.drawRightString(_PAGE[0] - _RIGHT, at, line.right)
    today = local_date(view.now, view.zone)
    foot = f"{view.house.name}, {today:%a} {today.day} {today:%b %Y}, {number}"
    canvas.setFont(PLAIN, 7.5)
    below = [*wrapped(_TRACES, PLAIN, 7.5, _WIDE), legible(foot)]
    for place, text in enumerate(below):
        canvas.drawString(_LEFT, _BOTTOM - 14 - place * 9, text)
    canvas.showPage()
