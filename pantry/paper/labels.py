"""Labels as a PDF: sheets and rolls, of batches and of numbers that are bound to a batch later."""

import io
from collections.abc import Sequence
from dataclasses import dataclass

from reportlab.pdfgen.canvas import Canvas

from pantry.paper.codes import bars_of, draw_bars, draw_square
from pantry.paper.fitting import LEADING, SMALLEST, Line, fitted, one_line
from pantry.paper.fonts import BOLD, PLAIN, legible
from pantry.rules.label import LabelWords
from pantry.rules.label_codes import LabelCodes
from pantry.rules.label_paper import Paper

_MM = 72 / 25.4
_LOOK_UP = "Allergens: scan the code"

_BAR_HEIGHT = 0.2
"""Of the label's height, at most `_HIGHEST_BARS` millimetres."""
_HIGHEST_BARS = 11.0
_SMALLEST_SQUARE, _LARGEST_SQUARE = 14.0, 26.0
_GAP = 1.0


@dataclass(frozen=True, slots=True)
class Printed:
    """One label: what a person reads, and what a camera does."""

    words: LabelWords
    codes: LabelCodes


@dataclass(frozen=True, slots=True)
class _Box:
    """Where one label is drawn, its edge left free; millimetres from the lower left corner."""

    left: float
    low: float
    width: float
    height: float


def labels_pdf(labels: Sequence[Printed], paper: Paper, start: int, title: str) -> bytes:
    """The PDF of these labels, the first at the place `start` of its sheet, counted from 1."""
    written = io.BytesIO()
    page = (float(paper.page[0]) * _MM, float(paper.page[1]) * _MM)
    canvas = Canvas(written, pagesize=page, invariant=1)
    canvas.setTitle(legible(title))
    for at, label in enumerate(labels, start=start - 1):
        if at % paper.on_page == 0 and at >= start:
            canvas.showPage()
        _draw(canvas, label, _box(paper, at))
    canvas.showPage()
    canvas.save()
    return written.getvalue()


def _box(paper: Paper, at: int) -> _Box:
    left, top = paper.place(at)
    width, height = paper.label
    free = 1.5 if paper.on_page == 1 else 2.0
    low = float(paper.page[1] - top - height)
    return _Box(float(left) + free, low + free, float(width) - 2 * free, float(height) - 2 * free)


def _draw(canvas: Canvas, label: Printed, box: _Box) -> None:
    bars = bars_of(label.codes, box.width)
    high = 0.0 if bars is None else min(_HIGHEST_BARS, box.height * _BAR_HEIGHT)
    if bars is not None:
        draw_bars(canvas, bars, (box.left, box.low, box.width, high))
    low = box.low + (high + _GAP if high else 0)
    room = box.low + box.height - low
    square = min(_LARGEST_SQUARE, max(_SMALLEST_SQUARE, room * 0.72), box.width * 0.42, room - 3)
    left = box.left + box.width - square
    draw_square(canvas, label.codes.square, left, low + room - square, square)
    _draw_label(canvas, label.words.label, _Box(left, low, square, room - square))
    _draw_words(canvas, label.words, _Box(box.left, low, box.width - square - _GAP, room))


def _draw_label(canvas: Canvas, label: str, box: _Box) -> None:
    """The label, as large as it has room: it is what a person types."""
    text = legible(label)
    size = one_line(text, BOLD, box.width * _MM, min(26.0, box.height * _MM / 0.9))
    canvas.setFont(BOLD, size)
    middle = (box.left + box.width / 2) * _MM
    canvas.drawCentredString(middle, (box.low + box.height / 2) * _MM - size * 0.36, text)


def _draw_words(canvas: Canvas, words: LabelWords, box: _Box) -> None:
    scale = min(2.2, max(1.0, box.height / 24))
    placed = fitted(_lines(words, scale), box.width * _MM, box.height * _MM)
    at = (box.low + box.height) * _MM
    for each in placed:
        canvas.setFont(each.font, each.size)
        canvas.drawString(box.left * _MM, at - each.size * 0.93, each.text)
        at -= each.size * LEADING


def _lines(words: LabelWords, scale: float) -> list[Line]:
    first, *more = words.dates or ("",)
    small = 7.0 * scale
    lines = [
        Line(legible(words.item), BOLD, 11.0 * scale),
        Line(words.warning.upper(), BOLD, 9.0 * scale),
        Line(first, BOLD, 9.0 * scale),
        *(Line(each, PLAIN, small, weight=1) for each in more),
        Line(words.done, PLAIN, small),
        *(Line(legible(each), PLAIN, small, instead=_LOOK_UP) for each in words.allergens[:1]),
        *(Line(legible(each), PLAIN, small, instead="") for each in words.allergens[1:]),
        Line(legible(words.area), PLAIN, small, weight=2),
        Line(legible(words.house), PLAIN, max(SMALLEST, 6.0 * scale), weight=3),
    ]
    return [line for line in lines if line.text]
