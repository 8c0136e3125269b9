"""Numbers of labels that are printed beforehand: a number, a hyphen, and a check digit.

The check digit is Damm's (H. M. Damm, Total anti-symmetrische Quasigruppen, Marburg 2004): one
wrong figure is always noticed, and so are two neighbours that changed places.
"""

import re

from pantry.refusals import UnreadableInput, declare

LABEL_MISREAD = declare("label_misread", "The check digit of a numbered label does not fit.")

FIRST = 1001
"""The first number of a house: four figures, so that no two labels differ by a leading zero."""

_NUMBERED = re.compile("([0-9]{4,9})-([0-9])")
_TYPED = re.compile("([0-9]{4,9})-?([0-9])")

_QUASIGROUP = (
    "0317598642",
    "7092154863",
    "4206871359",
    "1750983426",
    "6123045978",
    "3674209581",
    "5869720134",
    "8945362017",
    "9438617205",
    "2581436790",
)


def numbered(number: int) -> str:
    """How a number stands on its label: 1001 is `1001-` and its check digit."""
    return f"{number}-{_check(str(number))}"


def number_in(label: str) -> int | None:
    """The number on a label; None for a label that has none of ours on it.

    Raises:
        UnreadableInput: `label_misread`.
    """
    found = _NUMBERED.fullmatch(label)
    if found is None:
        return None
    if _check(found[1]) != found[2]:
        raise UnreadableInput(
            LABEL_MISREAD,
            f"The check digit of {label} does not fit: a figure of it is wrong.",
            "Read the label again, or scan it.",
            value=label,
        )
    return int(found[1])


def as_printed(typed: str) -> str | None:
    """A numbered label as it is printed, if this is one; the hyphen may have been left out."""
    found = _TYPED.fullmatch(typed.strip())
    if found is None or _check(found[1]) != found[2]:
        return None
    return f"{found[1]}-{found[2]}"


def _check(digits: str) -> str:
    interim = 0
    for digit in digits:
        interim = int(_QUASIGROUP[interim][int(digit)])
    return str(interim)
