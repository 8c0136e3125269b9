"""Bars and squares as rectangles: sharp at any resolution, each with its quiet zone."""

from itertools import groupby

import segno
from barcode.codex import Code128, Gs1_128
from reportlab.pdfgen.canvas import Canvas

from pantry.rules.label_codes import LabelCodes

NARROWEST_BAR, WIDEST_BAR = 0.3, 0.375
"""Millimetres of one module. The widest is three dots at 203 to the inch: at that resolution one in
a hundred codes of 0.3 mm is read at the second try only (measured with 150 labels); GS1 asks for at
least 0.25 mm (GS1 General Specifications, figure 5.12.3.1-1, from memory)."""

QUIET_BARS = 10
"""Modules without print beside a Code 128 (ISO/IEC 15417, from memory)."""
QUIET_SQUARE = 4
"""Modules without print around a QR code (ISO/IEC 18004, from memory)."""

_MM = 72 / 25.4


def bars_of(codes: LabelCodes, most: float) -> str | None:
    """The modules of the widest bar code that has room in `most` millimetres; None: there is none.

    `1` is a dark module. The product's own code is taken before the label's.
    """
    product = codes.product_bars
    drawn = [] if product is None else [Gs1_128(product)]
    drawn.append(Code128(codes.bars))
    for each in drawn:
        modules: str = each.build()[0]
        if (len(modules) + 2 * QUIET_BARS) * NARROWEST_BAR <= most:
            return modules
    return None


def draw_bars(canvas: Canvas, modules: str, box: tuple[float, float, float, float]) -> None:
    """Draw bars into a box of left, lower edge, width, height in millimetres, at its left."""
    left, low, most, high = box
    module = min(most / (len(modules) + 2 * QUIET_BARS), WIDEST_BAR)
    at = left + QUIET_BARS * module
    for dark, run in groupby(modules):
        wide = len(list(run)) * module
        if dark == "1":
            canvas.rect(at * _MM, low * _MM, wide * _MM, high * _MM, stroke=0, fill=1)
        at += wide


def draw_square(canvas: Canvas, text: str, left: float, low: float, side: float) -> None:
    """Draw a QR code with its quiet zone into a square, in millimetres."""
    matrix = segno.make_qr(text, error="m").matrix
    module = side / (len(matrix) + 2 * QUIET_SQUARE)
    for row, modules in enumerate(matrix):
        low_edge = low + side - (QUIET_SQUARE + row + 1) * module
        at = left + QUIET_SQUARE * module
        for dark, run in groupby(modules):
            wide = len(list(run)) * module
            if dark:
                canvas.rect(at * _MM, low_edge * _MM, wide * _MM, module * _MM, stroke=0, fill=1)
            at += wide
