"""The days that a report is asked about, from one to another."""

from datetime import date

from pantry.refusals import UnreadableInput, declare

DAY_UNREADABLE = declare("day_unreadable", "A day of the report cannot be read.")
DAYS_TURNED = declare("days_turned", "The last day of the report is before its first.")


def days_asked(
    first: str | None, last: str | None, otherwise: tuple[date, date]
) -> tuple[date, date]:
    """The first and the last day that are asked about; where nobody says which, the others.

    Raises:
        UnreadableInput: `day_unreadable`, `days_turned`.
    """
    until = day_asked(last, "to") if last else otherwise[1]
    since = day_asked(first, "from") if first else otherwise[0]
    if until < since:
        raise UnreadableInput(
            DAYS_TURNED,
            f"The report would end on {until}, before it begins on {since}.",
            "Give the earlier day first.",
            value=until.isoformat(),
            field="to",
        )
    return since, until


def day_asked(text: str, field: str) -> date:
    """A civil date as somebody writes it.

    Raises:
        UnreadableInput: `day_unreadable`.
    """
    try:
        found = date.fromisoformat(text)
    except ValueError:
        found = None
    # a year on either side stays a date, whatever the zone and the week make of it
    if found is None or not date.min.year + 1 < found.year < date.max.year:
        raise UnreadableInput(
            DAY_UNREADABLE,
            f"{text!r} is no day.",
            "Write year, month and day, such as 2027-03-10.",
            value=text,
            field=field,
        )
    return found
