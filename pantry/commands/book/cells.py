"""What the text of one cell says: whole numbers, decimals, words of a list, dates, barcodes."""

import re
from collections.abc import Callable
from datetime import date, datetime, time, timedelta
from fractions import Fraction
from zoneinfo import ZoneInfo

from pantry.commands.naming import DATE_UNREADABLE
from pantry.refusals import UnreadableInput, declare
from pantry.rules.codes.product_numbers import PLAIN, WRONG_NUMBER_OF_DIGITS
from pantry.rules.codes.values import WRONG_CHECK_DIGIT, check_digit_holds
from pantry.rules.date_marks import DATE_MARK_UNREADABLE, read_date_mark
from pantry.rules.house_time import Span, instant_of, read_instant, read_span, start_of_day
from pantry.rules.numbers import NUMBER_UNREADABLE, leading_number, tokens_of
from pantry.rules.stock import DateKind, DateMark

WORD_UNKNOWN = declare("word_unknown", "A cell has a word that its column does not know.")
NUMBER_NOT_WHOLE = declare("number_not_whole", "A number must be whole and not too small or large.")
NUMBER_NOTHING = declare("number_nothing", "A number must be above nothing.")
YES_OR_NO = declare("yes_or_no", "A cell must say yes or no.")
MONTH_DAY_UNREADABLE = declare("month_day_unreadable", "A season's end is no month and day.")

SPAN_TOO_LONG = declare("span_too_long", "A length of time is longer than a year.")

MOST = 1_000_000
"""No count of days, minutes, people or packs in a house is larger."""

LONGEST_SPAN = timedelta(days=366)

YEARS = range(1900, 2200)
"""Dates outside are slips of the hand, and would lead calendars out of their own range."""

_ISO_DAY = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_ISO_MARK = re.compile(r"[0-9]{4}(-[0-9]{2}){0,2}")
_WALL_INSTANT = re.compile(r"([0-9]{4}-[0-9]{2}-[0-9]{2})[T ]([0-9]{2}:[0-9]{2}(?::[0-9]{2})?)")
_MONTH_DAY = re.compile(r"(?:[0-9]{4}-)?([0-9]{2}-[0-9]{2})")
_YES = frozenset({"yes", "y", "true", "1", "x"})
_NO = frozenset({"no", "n", "false", "0"})


def whole(least: int = 0, most: int = MOST) -> Callable[[str], int]:
    """A reader of whole numbers from `least` to `most`, or `number_not_whole`."""

    def read(text: str) -> int:
        if re.fullmatch("[0-9]{1,7}", text) and least <= int(text) <= most:
            return int(text)
        raise UnreadableInput(
            NUMBER_NOT_WHOLE,
            f"{text!r} is no whole number from {least} to {most}.",
            f"Write a whole number such as {max(least, 3)}.",
            value=text,
        )

    return read


def decimal(text: str) -> Fraction:
    """A number above nothing, exactly: `0.80`, `1,5`, `1/2`, `80 %`; a point is a decimal point.

    Raises:
        UnreadableInput: `number_unreadable`, `number_ambiguous`, `number_nothing`.
    """
    plain = text.removesuffix("%").strip()
    number, rest = leading_number(tokens_of(plain), "." if "." in plain else None)
    if rest:
        raise UnreadableInput(
            NUMBER_UNREADABLE, f"{text!r} is no number.", "Write figures, such as 0.85.", text
        )
    if number <= 0:
        raise UnreadableInput(
            NUMBER_NOTHING,
            f"{text!r} is nothing.",
            "Write a number above nothing, or leave the cell empty.",
            value=text,
        )
    return number / 100 if plain != text else number


def yes_no(text: str) -> bool:
    """Yes or no, or `yes_or_no`."""
    plain = text.casefold()
    if plain in _YES or plain in _NO:
        return plain in _YES
    raise UnreadableInput(
        YES_OR_NO, f"{text!r} is neither yes nor no.", "Write yes or no.", value=text
    )


def one_of(*words: str) -> Callable[[str], str]:
    """A reader of one of these words, whatever its case and spacing, or `word_unknown`."""

    def read(text: str) -> str:
        plain = "_".join(re.split(r"[\s_-]+", text.casefold()))
        if plain in words:
            return plain
        raise UnreadableInput(
            WORD_UNKNOWN,
            f"{text!r} is none of the words of this column.",
            f"Write one of: {', '.join(words)}.",
            value=text,
        )

    return read


def listed(text: str) -> list[str]:
    """The parts of a list: separated by `;`, or by `,` where there is no `;`."""
    parts = text.split(";" if ";" in text else ",")
    return [part.strip() for part in parts if part.strip()]


def day(text: str) -> date:
    """An ISO 8601 date that a house can live to see, or `date_unreadable`."""
    try:
        if _ISO_DAY.fullmatch(text) and int(text[:4]) in YEARS:
            return date.fromisoformat(text)
    except ValueError:
        pass
    raise UnreadableInput(
        DATE_UNREADABLE,
        f"{text!r} is no date from {YEARS[0]} to {YEARS[-1]}.",
        "Write it as 2027-03-10.",
        value=text,
    )


def moment(zone: ZoneInfo) -> Callable[[str], datetime]:
    """A reader of instants; a date alone is its beginning, a wall time that of the house.

    Raises:
        UnreadableInput: `date_unreadable`, `instant_unreadable`.
    """

    def read(text: str) -> datetime:
        wall = _WALL_INSTANT.fullmatch(text)
        if wall is None:
            begins = start_of_day(day(text[:10] if ":" in text else text), zone)
            return read_instant(text) if ":" in text else begins
        try:
            return instant_of(day(wall[1]), time.fromisoformat(wall[2]), zone)
        except ValueError:
            return read_instant(text)

    return read


def mark(kind: DateKind) -> Callable[[str], DateMark]:
    """A reader of date marks in ISO 8601; a best-before may be a month or a year alone.

    Raises:
        UnreadableInput: `date_mark_unreadable`, `day_needed`.
    """

    def read(text: str) -> DateMark:
        is_iso = _ISO_MARK.fullmatch(text) and int(text[:4]) in YEARS
        if kind is DateKind.NONE or is_iso:
            return read_date_mark(text, kind, read_on=date.min)
        raise UnreadableInput(
            DATE_MARK_UNREADABLE,
            f"{text!r} is no date mark.",
            "Write it as 2027-03-20; a best-before without its day as 2027-03 or 2027.",
            value=text,
        )

    return read


def span(text: str) -> Span:
    """A length of time of at most a year, such as a notice period or a lead time.

    Raises:
        UnreadableInput: `span_unreadable`, `span_too_long`.
    """
    found = read_span(text)
    if timedelta(days=found.days) + found.exact > LONGEST_SPAN:
        raise UnreadableInput(
            SPAN_TOO_LONG,
            f"{text!r} is longer than a year.",
            "Write a length of time such as 72 h, 3 days or 90 min.",
            value=text,
        )
    return found


def month_day(text: str) -> str:
    """A month and day as `MM-DD`, whatever year a spreadsheet put before it.

    Raises:
        UnreadableInput: `month_day_unreadable`.
    """
    found = _MONTH_DAY.fullmatch(text)
    try:
        if found:
            date.fromisoformat(f"2000-{found[1]}")  # a leap year: 29 February is a day
            return found[1]
    except ValueError:
        pass
    raise UnreadableInput(
        MONTH_DAY_UNREADABLE,
        f"{text!r} is no month and day.",
        "Write month and day, such as 04-23.",
        value=text,
    )


def gtin(text: str) -> str:
    """A product number of 8, 12, 13 or 14 digits, filled to 14 with zeros.

    Source: GS1 General Specifications, section 7.9.

    Raises:
        UnreadableInput: `wrong_number_of_digits`, `wrong_check_digit`.
    """
    digits = text.replace(" ", "").replace("-", "")
    if not PLAIN.fullmatch(digits):
        raise UnreadableInput(
            WRONG_NUMBER_OF_DIGITS,
            f"{text!r} is no product number of 8, 12, 13 or 14 digits.",
            "Copy every digit below the barcode; in a spreadsheet make the cell text, so that it "
            "keeps its zeros.",
            value=text,
        )
    if not check_digit_holds(digits):
        raise UnreadableInput(
            WRONG_CHECK_DIGIT,
            f"The check digit of {text} does not agree with its other digits.",
            "Copy the digits below the barcode again.",
            value=text,
        )
    return digits.zfill(14)
