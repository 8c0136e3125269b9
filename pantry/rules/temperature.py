"""Temperatures as a thermometer shows them: whole tenths of a degree Celsius."""

import re
from fractions import Fraction

from pantry.handbook.policies import tenths
from pantry.refusals import UnreadableInput, declare

TEMPERATURE_UNREADABLE = declare("temperature_unreadable", "The temperature cannot be read.")

_TEMPERATURE = re.compile(
    r"(?P<sign>[+-])?(?P<degrees>[0-9]{1,3}(?:\.[0-9]{1,6})?) ?(?:°? ?(?P<scale>[CF]))?",
    re.IGNORECASE,
)


def read_temperature(text: str) -> int:
    """A temperature as people write it, in tenths of a degree Celsius, rounded half-even once.

    `4.5`, `4,5 °C`, `-18`, `−18 C`, `41 F`, `41 °F`; Celsius where no scale is named.

    Raises:
        UnreadableInput: `temperature_unreadable`.
    """
    match = _TEMPERATURE.fullmatch(text.strip().replace("−", "-").replace(",", "."))
    if match is None:
        raise UnreadableInput(
            TEMPERATURE_UNREADABLE,
            f"{text!r} is no temperature.",
            "Write degrees Celsius such as 4.5 or -18, or add F as in 41 F.",
            value=text,
        )
    degrees = Fraction(match["degrees"])
    if match["sign"] == "-":
        degrees = -degrees
    return tenths(degrees, fahrenheit=(match["scale"] or "").upper() == "F")


def degrees(temperature: int) -> str:
    """Tenths of a degree Celsius as decimal text: `4.5`, `-18`."""
    whole, rest = divmod(abs(temperature), 10)
    sign = "-" if temperature < 0 else ""
    return f"{sign}{whole}.{rest}" if rest else f"{sign}{whole}"


def write_temperature(temperature: int) -> str:
    """Tenths of a degree Celsius for people: `4.5 °C`, `−18 °C`."""
    return f"{degrees(temperature).replace('-', '−')} °C"
