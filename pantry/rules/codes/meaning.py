"""What elements mean for a kitchen: product, lot, dates, amounts, price."""

from collections.abc import Mapping, Sequence
from dataclasses import replace
from datetime import date, time

from pantry.handbook.application_identifiers import application_identifiers
from pantry.handbook.currencies import CURRENCY_NUMBERS
from pantry.refusals import UnreadableInput
from pantry.rules.codes.dates import NO_SUCH_DATE, READ_THE_PACK, read_date, read_time
from pantry.rules.codes.element_strings import Reading
from pantry.rules.codes.pairing import pairing_warnings, refuse_contradictions
from pantry.rules.codes.price import decimal_text, price_of
from pantry.rules.codes.product_numbers import NOT_FOOD_NUMBER, with_product_number
from pantry.rules.codes.scan import Harvest, Measure, Price, Scan
from pantry.rules.codes.store_numbers import StoreNumber
from pantry.rules.stock import DateKind, DateMark

NET_MEASURES = {
    "310": "kg",
    "315": "l",
    "320": "lb",
    "357": "fl oz",
    "360": "qt",
    "361": "gal",
}
"""Net weights and volumes of food by the first three digits; the fourth is the decimals."""


def with_meaning(scan: Scan, reading: Reading, today: date, layouts: Sequence[StoreNumber]) -> Scan:
    """The scan with what its elements say.

    AI 12 is the due date of a bill and no date of food; it stays among the elements.

    Raises:
        UnreadableInput: what `refuse_contradictions` and `with_product_number` refuse;
            `no_such_date` for a harvest that ends before it begins.
    """
    refuse_contradictions(reading.elements)
    said = {one.ai: one.value for one in reading.elements}
    scan = replace(
        scan,
        lot=said.get("10"),
        quantity=_quantity(said),
        count=_count(said),
        serial=said.get("21"),
        variant=said.get("20", said.get("22")),
        sscc=said.get("00"),
        content_gtin=said.get("02"),
        price=_price(said),
        elements=reading.elements,
        unread=reading.unread,
    )
    scan = _with_dates(scan, said, today)
    scan = scan.warned(*reading.warnings, *pairing_warnings(reading.elements))
    number = said.get("01", said.get("03"))
    if number is not None:
        return with_product_number(scan, number, layouts)
    return scan.warned(NOT_FOOD_NUMBER) if _names_no_food(said) else scan


def _with_dates(scan: Scan, said: Mapping[str, str], today: date) -> Scan:
    def day(ai: str) -> date | None:
        return read_date(said[ai][:6], today, whole_month=True) if ai in said else None

    mark, at = _mark(day("17"), day("7003"), day("15"), said.get("7003", "")[6:])
    return replace(
        scan,
        date_mark=mark,
        use_by_time=at,
        best_before=day("15"),
        sell_by=day("16"),
        produced=day("11") or day("8008"),
        packed=day("13"),
        frozen=day("7006"),
        harvested=_harvest(said.get("7007", ""), today),
    )


def _mark(
    use_by: date | None, expiry: date | None, best_before: date | None, clock: str
) -> tuple[DateMark | None, time | None]:
    """The earlier of both use-by dates, its time where it has one; or else the best-before date."""
    limits = [day for day in (use_by, expiry) if day is not None]
    if limits:
        day = min(limits)
        at = read_time(clock) if day == expiry else None
        return DateMark(DateKind.USE_BY, day), at
    if best_before is not None:
        return DateMark(DateKind.BEST_BEFORE, best_before), None
    return None, None


def _harvest(digits: str, today: date) -> Harvest | None:
    if not digits:
        return None
    first = read_date(digits[:6], today)
    last = read_date(digits[6:], today) if digits[6:] else first
    if last < first:
        raise UnreadableInput(
            NO_SUCH_DATE,
            f"A harvest cannot end on {last} before it begins on {first}.",
            READ_THE_PACK,
            value=digits,
        )
    return Harvest(first, last)


def _quantity(said: Mapping[str, str]) -> Measure | None:
    for beginning, unit in NET_MEASURES.items():
        for ai, digits in said.items():
            if ai.startswith(beginning):
                return Measure(decimal_text(digits, int(ai[3])), unit)
    return None


def _count(said: Mapping[str, str]) -> int | None:
    digits = said.get("37", said.get("30"))
    return None if digits is None else int(digits)


def _price(said: Mapping[str, str]) -> Price | None:
    """Of AI 392n and 393n; 390n and 391n are amounts of a bill, 395n is a price per kilogram."""
    for ai, digits in said.items():
        if ai.startswith("392"):
            return price_of(digits, int(ai[3]), None)
        if ai.startswith("393"):
            return price_of(digits[3:], int(ai[3]), CURRENCY_NUMBERS[digits[:3]])
    return None


def _names_no_food(said: Mapping[str, str]) -> bool:
    """Whether the only keys are of places, assets, documents or people."""
    known = application_identifiers()
    keys = {ai for ai in said if known[ai].qualifiers is not None}
    return bool(keys) and "00" not in said and "02" not in said
