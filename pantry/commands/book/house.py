"""The sheet `house`: the settings of the house, one row."""

from datetime import datetime, timedelta
from typing import Any

from pantry.commands.book import cells
from pantry.commands.book.known import Known
from pantry.commands.book.reading import NAME_TWICE, Line, Reading
from pantry.commands.book.sheets import HouseBook
from pantry.handbook.allergens import allergen_list
from pantry.handbook.currencies import CURRENCIES
from pantry.records.slugs import slug
from pantry.refusals import Fault, UnreadableInput, declare
from pantry.rules.house_time import Span, write_span, zone
from pantry.rules.measure import UnitSystem
from pantry.rules.money import CURRENCY_UNKNOWN
from pantry.rules.supply import House

HOUSE_MISSING = declare("house_missing", "The book does not say what house it is of.")
ANOTHER_HOUSE = declare("another_house", "The book is of another house.")
HOUSE_FIXED = declare("house_fixed", "A house keeps its currency and its time zone.")

_DECIMAL_MARKS = {"point": ".", "comma": ","}
_HOURS = timedelta(hours=1)
_UNSAID = House(
    id="",
    name="",
    zone="UTC",
    currency="",
    unit_system=UnitSystem.US,  # the one in which every word of measure has a size
    notice=Span(exact=72 * _HOURS),
    warning=Span(exact=24 * _HOURS),
    last_call=Span(exact=2 * _HOURS),
    receiving_margin=Span(),
    policy="uk",
    allergen_list="eu14",
)
"""What stands in for settings that are not known, so that the other sheets can still be checked;
and the defaults of those that may be left out."""


def open_book(book: HouseBook, known: Known, at: datetime) -> Reading:
    """Begin to read a book: its house, by whose settings everything else is read."""
    stands = known.house or _UNSAID
    reading = Reading(book, known, stands, known.policy(stands.policy), at)
    lines = list(reading.lines("house"))
    if lines:
        reading.house = _settings(lines[0], stands)
        reading.policy = known.policy(reading.house.policy)
        reading.zone = zone(reading.house.zone)
        for line in lines[1:]:
            line.fault(
                "", NAME_TWICE, "A book is of one house.", f"Keep row {lines[0].number} alone."
            )
        if known.house:
            _refuse_moving(lines[0], known.house)
    elif known.house is None and reading.is_whole("house", "name"):
        reading.faults.append(_no_house())
    reading.decimal_mark = _mark_said(reading, lines)
    reading.has_currency = reading.house.currency != ""
    return reading


def _settings(line: Line, stands: House) -> House:
    return House(
        id=stands.id or line.identity("name"),
        name=line.text("name"),
        zone=line.read("time_zone", lambda text: zone(text).key, stands.zone),
        currency=line.read("currency", _currency, stands.currency),
        unit_system=line.read("unit_system", cells.one_of(*UnitSystem), stands.unit_system),
        notice=line.read("notice", cells.span, stands.notice),
        warning=line.read("warning", cells.span, stands.warning),
        last_call=line.read("last_call", cells.span, stands.last_call),
        receiving_margin=line.read("receiving_margin", cells.span, stands.receiving_margin),
        policy=line.read(
            "policy", lambda text: line.reading.known.policy(text).name, stands.policy
        ),
        allergen_list=line.read(
            "allergen_list", lambda text: allergen_list(text).name, stands.allergen_list
        ),
        people=line.read("people", cells.whole(), stands.people),
        decimal_mark=line.read("decimal_mark", _decimal_mark, stands.decimal_mark),
    )


def _decimal_mark(text: str) -> str:
    return _DECIMAL_MARKS[cells.one_of(*_DECIMAL_MARKS)(text)]


def _mark_said(reading: Reading, lines: list[Line]) -> str | None:
    """The decimal mark that somebody has said (MS2).

    A house's comma is one that a book has said; its point may be nobody's, and decides nothing.
    """
    mark = reading.house.decimal_mark
    said_here = bool(lines and lines[0].text("decimal_mark"))
    return mark if said_here or mark == _DECIMAL_MARKS["comma"] else None


def _currency(text: str) -> str:
    code = text.upper()
    if code in CURRENCIES:
        return code
    raise UnreadableInput(
        CURRENCY_UNKNOWN,
        f"{text!r} is no currency of ISO 4217.",
        "Write its three letters, such as GBP, EUR or USD.",
        value=text,
    )


def _refuse_moving(line: Line, stands: House) -> None:
    """Refuse the book of another house, and what would give everything kept another meaning."""
    house = line.reading.house
    if slug(house.name) != slug(stands.name):
        line.fault(
            "name",
            ANOTHER_HOUSE,
            f"The book is of {house.name!r}, and this is {stands.name}.",
            "Import it into its own house, or correct the name.",
        )
    for column, new, old in (
        ("currency", house.currency, stands.currency),
        ("time_zone", house.zone, stands.zone),
    ):
        if new != old:
            line.fault(
                column,
                HOUSE_FIXED,
                f"{stands.name} is kept in {old}, and the book says {new}.",
                f"Write {old}, or bring the book to a new house.",
            )


def _no_house() -> Fault:
    return Fault(
        "house",
        1,
        "",
        "",
        HOUSE_MISSING,
        "The book has no sheet house with a row in it.",
        "Add the sheet house with the name, time zone, currency and settings of the house.",
    )


def as_columns(house: House) -> dict[str, Any]:
    """The settings as the columns of the house's row."""
    return {
        "name": house.name,
        "zone": house.zone,
        "currency": house.currency,
        "unit_system": house.unit_system,
        "notice": write_span(house.notice),
        "warning": write_span(house.warning),
        "last_call": write_span(house.last_call),
        "receiving_margin": write_span(house.receiving_margin),
        "policy": house.policy,
        "allergen_list": house.allergen_list,
        "people": house.people,
        "decimal_mark": house.decimal_mark,
    }
