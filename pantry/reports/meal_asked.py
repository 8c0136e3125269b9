"""A meal that somebody asks about, as it is written: its day, hour, name and table."""

from dataclasses import dataclass
from datetime import date, datetime, time

from pantry.records.slugs import slug
from pantry.refusals import NotThere, UnreadableInput, declare
from pantry.reports.view import View
from pantry.rules.house_time import instant_of

MEAL_UNREADABLE = declare("meal_unreadable", "The day or the hour of a meal cannot be read.")
TABLE_NOT_THERE = declare("table_not_there", "The house has no table of that name.")


@dataclass(frozen=True, slots=True)
class MealAsked:
    """One meal of one table, whether or not anything stands there yet."""

    date: date
    meal: str
    table: str
    at: datetime

    @property
    def id(self) -> str:
        """What its service is called, or would be."""
        return f"{self.date.isoformat()}/{self.meal}/{self.table}"


def table_asked(view: View, table: str) -> str:
    """The id of the table that is meant, by its name or id.

    Raises:
        NotThere: `table_not_there`.
    """
    named = slug(table)
    if named not in view.tables:
        raise NotThere(
            TABLE_NOT_THERE,
            f"The house has no table {table!r}.",
            "Name one of: " + ", ".join(each.name for each in view.tables.values()) + ".",
            value=table,
            field="table",
        )
    return named


def meal_asked(view: View, *, on: str, meal: str, table: str, clock: str) -> MealAsked:
    """The meal that is meant.

    Args:
        view: the house, whose tables and zone count.
        on: `YYYY-MM-DD`.
        meal: by its name.
        table: by its name or id.
        clock: the hour on the house's clocks, `HH:MM`.

    Raises:
        NotThere: `table_not_there`.
        UnreadableInput: `meal_unreadable`.
    """
    named = table_asked(view, table)
    try:
        day, hour = date.fromisoformat(on), time.fromisoformat(clock)
    except ValueError as error:
        raise UnreadableInput(
            MEAL_UNREADABLE,
            f"{error}.",
            "Write the date as 2027-03-10 and the time as 19:30.",
            value=f"{on} {clock}",
            field="date or time",
        ) from error
    return MealAsked(day, slug(meal), named, instant_of(day, hour, view.zone))
