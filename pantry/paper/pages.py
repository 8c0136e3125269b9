"""Lines of text on A4, page by page: a heading, columns, and a foot on every page."""

import io
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from reportlab.pdfgen.canvas import Canvas

from pantry.paper.breaking import paged
from pantry.paper.fonts import BOLD, PLAIN, legible, width, wrapped, write_in

_MM = 72 / 25.4
_PAGE = (210 * _MM, 297 * _MM)
_LEFT, _RIGHT, _TOP, _BOTTOM = 20 * _MM, 20 * _MM, 18 * _MM, 20 * _MM
_WIDE = _PAGE[0] - _LEFT - _RIGHT
_HEAD = 34.0
_ROOM = _PAGE[1] - _TOP - _BOTTOM - _HEAD
_LEADING = 1.35
_GAP = 8.0


@dataclass(frozen=True, slots=True)
class Line:
    """A line of text, `left` in a column of `indent` points before it, `right` at the edge.

    `room` is left free above it, in points; `rule`: a thin line is drawn above it.
    """

    text: str
    left: str = ""
    right: str = ""
    bold: bool = False
    size: float = 10.5
    indent: float = 0.0
    room: float = 0.0
    rule: bool = False

    @property
    def font(self) -> str:
        """Its font's name."""
        return BOLD if self.bold else PLAIN

    @property
    def high(self) -> float:
        """How high it is with what is free above it, in points."""
        return self.size * _LEADING + self.room


@dataclass(frozen=True, slots=True)
class Paper:
    """What stands on every page: its title, what stands beside that, and the foot."""

    title: str
    beside: str
    foot: str = ""


def printed(paper: Paper, blocks: Sequence[Sequence[Line]]) -> bytes:
    """The PDF; a block stays together unless it is longer than a page."""
    written = io.BytesIO()
    canvas = Canvas(written, pagesize=_PAGE, invariant=1)
    canvas.setTitle(legible(f"{paper.title}, {paper.beside}"))
    pages = list(paged(blocks, _ROOM, _wrapped))
    for number, page in enumerate(pages, start=1):
        of = f", {number} of {len(pages)}" if len(pages) > 1 else ""
        _draw(canvas, replace(paper, beside=paper.beside + of), page)
    canvas.save()
    return written.getvalue()


def _wrapped(line: Line) -> Iterator[Line]:
    """A line in as many as it needs; what stands beside it stands beside the first."""
    beside = width(legible(line.right), line.font, line.size) + _GAP if line.right else 0
    most = max(_WIDE / 4, _WIDE - line.indent - beside)
    texts = wrapped(legible(line.text), line.font, line.size, most) or [""]
    yield replace(line, text=texts[0])
    for text in texts[1:]:
        yield replace(line, text=text, left="", right="", room=0.0, rule=False)


def _draw(canvas: Canvas, paper: Paper, page: Sequence[Line]) -> None:
    at = _PAGE[1] - _TOP
    write_in(canvas, BOLD, 16)
    canvas.drawString(_LEFT, at - 12, legible(paper.title))
    write_in(canvas, PLAIN, 9)
    canvas.drawRightString(_PAGE[0] - _RIGHT, at - 12, legible(paper.beside))
    at -= _HEAD
    for line in page:
        if line.rule:
            canvas.setLineWidth(0.4)
            top = at - line.room / 2
            canvas.line(_LEFT, top, _PAGE[0] - _RIGHT, top)
        at -= line.high
        write_in(canvas, line.font, line.size)
        canvas.drawString(_LEFT + line.indent, at, line.text)
        canvas.drawString(_LEFT, at, legible(line.left))
        if line.right:
            canvas.drawRightString(_PAGE[0] - _RIGHT, at, legible(line.right))
    write_in(canvas, PLAIN, 8)
    for number, text in enumerate(wrapped(legible(paper.foot), PLAIN, 8, _WIDE)):
        canvas.drawString(_LEFT, _BOTTOM - 14 - number * 10, text)
    canvas.showPage()
