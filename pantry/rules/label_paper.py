"""Paper that labels are printed on, named by its measures: sheets of labels, and rolls.

`a4/3x8/70x37` is a sheet of A4 with three columns and eight rows of labels 70 mm wide and 37 mm
high; where the first label begins (`/0x0.5`, from the left and from the top) and how far the next
begins from it (`/70x37`) may follow. `62x29` is a roll: one label a page. All in millimetres.
"""

import re
from dataclasses import dataclass
from decimal import Decimal

from pantry.refusals import UnreadableInput, declare

PAPER_UNREADABLE = declare("paper_unreadable", "The measures of the label paper cannot be read.")
PAPER_TOO_SMALL = declare(
    "paper_too_small", "The labels do not fit on their page, or are too small."
)
START_OFF_SHEET = declare("start_off_sheet", "The sheet has no label at that place.")

PAGES = {"a4": (Decimal(210), Decimal(297)), "letter": (Decimal("215.9"), Decimal("279.4"))}
"""ISO 216; ANSI/ASME Y14.1 (8.5 by 11 inches)."""

NARROWEST, LOWEST, LARGEST = Decimal(48), Decimal(25), Decimal(300)
"""Below this neither the codes nor the dates can be read any more."""

SHEETS = (
    "a4/3x8/70x37/0x0.5",
    "a4/3x7/63.5x38.1/7.2x15.1/66x38.1",
    "a4/2x7/99.1x38.1/4.7x15.1/101.6x38.1",
    "a4/4x10/48.5x25.4/8x21.5",
    "a4/2x8/105x37/0x0.5",
    "a4/2x4/105x74/0x0.5",
    "letter/3x10/66.7x25.4/4.8x12.7/69.85x25.4",
)
ROLLS = ("62x29", "57x32", "50x25", "70x50")
"""Common measures of label paper: common practice, no source."""

_OF_PAGE = 2
"""Strokes in the name of a sheet that says nothing of where its labels begin."""

_MEASURE = r"([0-9]{1,3}(?:\.[0-9]{1,2})?)x([0-9]{1,3}(?:\.[0-9]{1,2})?)"
_ROLL = re.compile(_MEASURE)
_SHEET = re.compile(
    rf"(a4|letter)/([0-9]{{1,2}})x([0-9]{{1,2}})/{_MEASURE}(?:/{_MEASURE}(?:/{_MEASURE})?)?"
)


@dataclass(frozen=True, slots=True)
class Paper:
    """Where labels stand on a page, in millimetres from its left and upper edge."""

    name: str
    page: tuple[Decimal, Decimal]
    columns: int
    rows: int
    label: tuple[Decimal, Decimal]
    first: tuple[Decimal, Decimal]
    next: tuple[Decimal, Decimal]

    @property
    def on_page(self) -> int:
        """How many labels a page has."""
        return self.columns * self.rows

    def place(self, at: int) -> tuple[Decimal, Decimal]:
        """The left and upper edge of a label; they are counted row by row, the first being 0."""
        row, column = divmod(at % self.on_page, self.columns)
        return self.first[0] + column * self.next[0], self.first[1] + row * self.next[1]


def read_paper(text: str) -> Paper:
    """The paper of these measures; what is not said of a sheet is centred, label beside label.

    Raises:
        UnreadableInput: `paper_unreadable`, `paper_too_small`.
    """
    written = text.strip().casefold()
    if roll := _ROLL.fullmatch(written):
        size = (Decimal(roll[1]), Decimal(roll[2]))
        zero = (Decimal(0), Decimal(0))
        return _checked(Paper(written, size, 1, 1, size, zero, size))
    is_short = written.count("/") == _OF_PAGE
    known = next((each for each in SHEETS if is_short and each.startswith(written)), written)
    found = _SHEET.fullmatch(known)
    if found is None:
        raise UnreadableInput(
            PAPER_UNREADABLE,
            f"{text!r} are no measures of label paper.",
            "Write a sheet as a4/3x8/70x37 or a roll as 62x29, in millimetres.",
            value=text,
            field="paper",
        )
    page, columns, rows = PAGES[found[1]], int(found[2]), int(found[3])
    label = (Decimal(found[4]), Decimal(found[5]))
    step = (Decimal(found[8]), Decimal(found[9])) if found[8] else label
    first = (
        (Decimal(found[6]), Decimal(found[7])) if found[6] else _centred(page, columns, rows, label)
    )
    return _checked(Paper(written, page, columns, rows, label, first, step))


def _centred(
    page: tuple[Decimal, Decimal], columns: int, rows: int, label: tuple[Decimal, Decimal]
) -> tuple[Decimal, Decimal]:
    return (page[0] - columns * label[0]) / 2, (page[1] - rows * label[1]) / 2


def _checked(paper: Paper) -> Paper:
    (width, height), (left, top), (right, down) = paper.label, paper.first, paper.next
    fits = (
        paper.on_page > 0
        and left >= 0
        and top >= 0
        and left + (paper.columns - 1) * right + width <= paper.page[0]
        and top + (paper.rows - 1) * down + height <= paper.page[1]
        and (paper.columns == 1 or right >= width)
        and (paper.rows == 1 or down >= height)
    )
    if fits and NARROWEST <= width <= LARGEST and LOWEST <= height <= LARGEST:
        return paper
    raise UnreadableInput(
        PAPER_TOO_SMALL,
        f"Labels of {width} by {height} mm do not stand on {paper.name}, or are too small to read.",
        f"Measure the sheet again; a label is at least {NARROWEST} by {LOWEST} mm.",
        value=paper.name,
        field="paper",
    )


def check_start(paper: Paper, start: int) -> None:
    """See to it that a begun sheet has a label at this place, the first being 1.

    Raises:
        UnreadableInput: `start_off_sheet`.
    """
    if not 1 <= start <= paper.on_page:
        raise UnreadableInput(
            START_OFF_SHEET,
            f"There is no label number {start} among {paper.on_page}.",
            f"Count from the left and from the top: 1 to {paper.on_page}.",
            value=str(start),
            field="start",
        )
