"""The sheet for the household on A4: what is proposed, to be ticked, then the new recipes."""

import io
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime
from zoneinfo import ZoneInfo

from reportlab.lib.utils import ImageReader
from reportlab.pdfgen.canvas import Canvas

from pantry.paper.breaking import paged
from pantry.paper.fitting import one_line
from pantry.paper.fonts import BOLD, PLAIN, legible, wrapped
from pantry.reports.menu_answers import in_words
from pantry.reports.sheet_shown import CAUTION, RecipeShown, ServiceShown, SheetShown
from pantry.reports.sheet_words import (
    day_words,
    in_it_words,
    meal_words,
    sentence,
    standing_words,
    title,
)
from pantry.rules.menu import ServiceState

_MM = 72 / 25.4
_PAGE = (210 * _MM, 297 * _MM)
_LEFT, _RIGHT, _TOP, _BOTTOM = 24 * _MM, 24 * _MM, 20 * _MM, 24 * _MM
_WIDE = _PAGE[0] - _LEFT - _RIGHT
_HEAD = 34.0
_ROOM = _PAGE[1] - _TOP - _BOTTOM - _HEAD
_BOX = 3.6 * _MM
_INDENT = 7 * _MM
_LEADING = 1.32
_PICTURE = 62 * _MM
_SOFT = 0.32
"""How grey what is beside the matter is printed; 0 is black."""

Picture = Callable[[str], bytes | None]
"""The bytes of a picture by its id, or None where it has not arrived."""


@dataclass(frozen=True, slots=True)
class _Line:
    """A line of text; `box` before it is for a pen, `room` is left free above it, in points."""

    text: str
    font: str = PLAIN
    size: float = 11.0
    indent: float = 0.0
    room: float = 0.0
    box: bool = False
    soft: bool = False
    rule: bool = False
    right: str = ""
    picture: bytes | None = None

    @property
    def high(self) -> float:
        """How high it is with what is free above it, in points."""
        return self.room + (_PICTURE if self.picture else self.size * _LEADING)


def sheet_pdf(sheet: SheetShown, zone: ZoneInfo, now: datetime, picture: Picture) -> bytes:
    """The PDF of a sheet: its days, then on pages of their own the recipes of what is new."""
    written = io.BytesIO()
    canvas = Canvas(written, pagesize=_PAGE, invariant=1)
    canvas.setTitle(legible(f"{title(sheet)}, {sheet.house}"))
    menus = list(paged(_days(sheet, zone, now), _ROOM, _wrapped))
    recipes = list(paged(_recipes(sheet, picture), _ROOM, _wrapped)) if sheet.recipes else []
    pages = [(title(sheet), page) for page in menus]
    pages += [("New to you: the recipes", page) for page in recipes]
    for number, (heading, page) in enumerate(pages, start=1):
        _draw(canvas, sheet, heading, page, f"{number} of {len(pages)}")
    canvas.save()
    return written.getvalue()


def _days(sheet: SheetShown, zone: ZoneInfo, now: datetime) -> Iterator[list[_Line]]:
    """What stays together on a page: each meal, the first of a day under its heading."""
    day = None
    for service in sheet.services:
        heading = []
        if service.day != day:
            day = service.day
            heading = [_Line(day_words(day), BOLD, 15, room=16, rule=True)]
        yield [*heading, *_service(service, sheet, zone, now)]


def _service(
    service: ServiceShown, sheet: SheetShown, zone: ZoneInfo, now: datetime
) -> Iterator[_Line]:
    yield _Line(meal_words(service, zone), BOLD, 12, room=9)
    yield _Line(standing_words(service, sheet, zone, now), size=9.5, soft=True)
    if service.answer:
        said = "; ".join(in_words(service.answer))
        yield _Line(f"Received from {service.answer['by']}: {said}", size=10.5, room=3)
    proposed = service.state == ServiceState.PROPOSED
    for course in service.courses:
        dishes = [dish for dish in course.dishes if proposed or dish.chosen]
        if not dishes:
            continue
        yield _Line(sentence(course.name), PLAIN, 9.5, room=6, soft=True)
        for dish in dishes:
            new = "  (new: its recipe follows)" if dish.is_new else ""
            unsuited = f"  – {', '.join(dish.not_for)}" if dish.not_for else ""
            text = dish.words + new + unsuited
            yield _Line(text, BOLD, 11.5, _INDENT, room=2, box=proposed)
            yield _Line(in_it_words(dish), PLAIN, 9, _INDENT, soft=True)
    if proposed:
        yield _Line("Something else, or how many you are: " + "_" * 34, PLAIN, 9.5, room=7)


def _recipes(sheet: SheetShown, picture: Picture) -> Iterator[list[_Line]]:
    for recipe in sheet.recipes:
        yield list(_recipe(recipe, picture(recipe.picture) if recipe.picture else None))


def _recipe(recipe: RecipeShown, picture: bytes | None) -> Iterator[_Line]:
    yield _Line(recipe.name, BOLD, 15, room=16, rule=True)
    yield _Line(f"For {recipe.portions} portions.", size=9.5, soft=True)
    if picture:
        yield _Line("", room=6, picture=picture)
    for number, (item, amount) in enumerate(recipe.lines):
        yield _Line(item, right=amount, indent=_INDENT, room=0 if number else 6)
    for number, paragraph in enumerate(recipe.method.splitlines()):
        yield _Line(paragraph, room=3 if number else 8)


def _wrapped(line: _Line) -> Iterator[_Line]:
    if line.picture or not line.text.strip():
        yield line
        return
    wide = _WIDE - line.indent - (40 * _MM if line.right else 0)
    for number, text in enumerate(wrapped(legible(line.text), line.font, line.size, wide)):
        first = number == 0
        yield replace(
            line,
            text=text,
            room=line.room if first else 0.0,
            box=line.box and first,
            rule=line.rule and first,
            right=legible(line.right) if first else "",
        )


def _draw(
    canvas: Canvas, sheet: SheetShown, heading: str, page: Sequence[_Line], number: str
) -> None:
    at = _PAGE[1] - _TOP
    canvas.setFillGray(0)
    canvas.setFont(BOLD, one_line(legible(heading), BOLD, _WIDE, 18.0))
    canvas.drawString(_LEFT, at - 14, legible(heading))
    canvas.setFont(PLAIN, 9.5)
    canvas.setFillGray(_SOFT)
    to = f", for {sheet.to}" if sheet.to else ""
    canvas.drawString(_LEFT, at - 29, legible(f"{sheet.house}{to}. From {sheet.sent_by}."))
    at -= _HEAD
    for line in page:
        at -= line.high
        _draw_line(canvas, line, at)
    _draw_foot(canvas, number)
    canvas.showPage()


def _draw_line(canvas: Canvas, line: _Line, at: float) -> None:
    if line.picture:
        image = ImageReader(io.BytesIO(line.picture))
        wide, high = image.getSize()
        scale = min(_WIDE / wide, _PICTURE / high)
        canvas.drawImage(image, _LEFT, at, wide * scale, high * scale)
        return
    canvas.setFillGray(_SOFT if line.soft else 0)
    canvas.setFont(line.font, line.size)
    canvas.drawString(_LEFT + line.indent, at, line.text)
    if line.right:
        canvas.drawRightString(_PAGE[0] - _RIGHT, at, line.right)
    canvas.setStrokeGray(_SOFT)
    canvas.setLineWidth(0.7)
    if line.rule:
        above = at + line.size + 5
        canvas.line(_LEFT, above, _PAGE[0] - _RIGHT, above)
    if line.box:
        canvas.rect(_LEFT, at - 1.2, _BOX, _BOX, stroke=1, fill=0)


def _draw_foot(canvas: Canvas, number: str) -> None:
    canvas.setFillGray(_SOFT)
    canvas.setFont(PLAIN, 8)
    for line, text in enumerate(wrapped(CAUTION, PLAIN, 8, _WIDE - 20 * _MM)):
        canvas.drawString(_LEFT, _BOTTOM - 16 - line * 10, text)
    canvas.drawRightString(_PAGE[0] - _RIGHT, _BOTTOM - 16, number)
