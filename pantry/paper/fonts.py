"""The fonts that are embedded: DejaVu Sans Condensed, the whole of Latin, Greek and Cyrillic.

Free to embed and to pass on; their licence stands beside them.
"""

from functools import cache
from importlib.resources import files
from itertools import pairwise
from typing import Any

from reportlab.pdfbase import pdfmetrics
from reportlab.pdfbase.ttfonts import TTFont
from reportlab.pdfgen.canvas import Canvas

PLAIN = "ChoosebyPlain"
BOLD = "ChoosebyBold"

_FILES = {PLAIN: "DejaVuSansCondensed.ttf", BOLD: "DejaVuSansCondensed-Bold.ttf"}


@cache
def _font(name: str) -> Any:  # noqa: ANN401 - reportlab's own
    with (files("pantry.paper") / "fonts" / _FILES[name]).open("rb") as file:
        font = TTFont(name, file)
    pdfmetrics.registerFont(font)
    return font


def write_in(canvas: Canvas, name: str, size: float) -> None:
    """What a canvas writes next is in this font; its file is read when it is first wanted."""
    _font(name)
    canvas.setFont(name, size)


def width(text: str, name: str, size: float) -> float:
    """How wide a text is, in points."""
    return float(_font(name).stringWidth(text, size))


def legible(text: str) -> str:
    """A text on one line, in letters that the fonts have; any other is a question mark."""
    known = _font(PLAIN).face.charToGlyph
    plain = " ".join(text.split())
    return "".join(letter if ord(letter) in known else "?" for letter in plain)


def wrapped(text: str, name: str, size: float, most: float) -> list[str]:
    """A text in lines none of which is wider than `most` points; a longer word is broken."""
    lines = [""]
    for word in text.split():
        longer = f"{lines[-1]} {word}".strip()
        if width(longer, name, size) <= most:
            lines[-1] = longer
            continue
        *broken, rest = _broken(word, name, size, most)
        lines += [*broken, rest]
    return [line for line in lines if line]


def _broken(word: str, name: str, size: float, most: float) -> list[str]:
    """A word in parts that are narrow enough, of one letter at least."""
    ends = [0]
    for end in range(1, len(word) + 1):
        if end - ends[-1] > 1 and width(word[ends[-1] : end], name, size) > most:
            ends.append(end - 1)
    return [word[first:last] for first, last in pairwise([*ends, len(word)])]
