"""Dates and times as a barcode writes them: two digits of year, and the present decides which."""

import calendar
from datetime import date, time

from pantry.refusals import UnreadableInput, declare

NO_SUCH_DATE = declare("no_such_date", "A date or time in a code stands in no calendar.")

READ_THE_PACK = "Read the date printed on the pack and enter it by hand."


def full_year(two_digits: int, today: date) -> int:
    """The year that two digits mean on `today`.

    51 to 99 years ahead is the previous century, 50 to 99 years back the next, else this one
    (GS1 General Specifications, section 7.12).
    """
    century = today.year - today.year % 100
    ahead = two_digits - today.year % 100
    if ahead >= 51:
        return century - 100 + two_digits
    if ahead <= -50:
        return century + 100 + two_digits
    return century + two_digits


def read_date(digits: str, today: date, *, whole_month: bool = False) -> date:
    """The date that six digits, YYMMDD, mean on `today`.

    Args:
        digits: six digits.
        today: the civil date that decides the century.
        whole_month: whether day 00 may stand, and means the last day of the month (GS1 General
            Specifications, section 3.4).

    Raises:
        UnreadableInput: `no_such_date`.
    """
    try:
        year = full_year(int(digits[:2]), today)
        month, day = int(digits[2:4]), int(digits[4:])
        if whole_month and day == 0:
            day = calendar.monthrange(year, month)[1]
        return date(year, month, day)
    except ValueError as error:
        raise UnreadableInput(
            NO_SUCH_DATE, f"There is no date {digits} (YYMMDD).", READ_THE_PACK, value=digits
        ) from error


def read_time(digits: str) -> time:
    """The wall time of two, four or six digits: hours, minutes, seconds.

    Raises:
        UnreadableInput: `no_such_date`.
    """
    padded = digits.ljust(6, "0")
    try:
        return time(int(padded[:2]), int(padded[2:4]), int(padded[4:]))
    except ValueError as error:
        raise UnreadableInput(
            NO_SUCH_DATE, f"There is no time {digits} (HHMM).", READ_THE_PACK, value=digits
        ) from error
