"""Public holidays of a country, by the `holidays` library, and where they move a delivery (PL2)."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum
from functools import lru_cache
from types import MappingProxyType

from pantry.refusals import UnreadableInput, declare

COUNTRY_UNKNOWN = declare(
    "country_unknown", "The public holidays of that country or part of it are not known."
)

_DAY = timedelta(days=1)
_AN_ORDINARY_YEAR = 2027
_FARTHEST = 14
"""So many days on, a delivery that no day takes is given up."""


class HolidayDelivery(StrEnum):
    """What becomes of a delivery on a public holiday."""

    FALLS_AWAY = "falls_away"
    DAY_BEFORE = "day_before"
    DAY_AFTER = "day_after"


@dataclass(frozen=True, slots=True)
class HolidayRule:
    """Which public holidays a supplier keeps, and what becomes of a delivery on one (PL2).

    Attributes:
        country: ISO 3166-1, two letters.
        subdivision: ISO 3166-2 without the country (`SCT`, `BY`); None: of the whole country.
        delivery: falls away, or comes on the nearest working day before or after.
        orders_taken: whether orders are taken on a holiday; if not, a cut-off moves to before it.
    """

    country: str
    subdivision: str | None
    delivery: HolidayDelivery
    orders_taken: bool = False


def check_country(country: str, subdivision: str | None) -> None:
    """See to it that the holidays are known.

    Raises:
        UnreadableInput: `country_unknown`.
    """
    names(country, subdivision, _AN_ORDINARY_YEAR)


@lru_cache(maxsize=256)
def names(country: str, subdivision: str | None, year: int) -> Mapping[date, str]:
    """The public holidays of a year by their date.

    Raises:
        UnreadableInput: `country_unknown`.
    """
    return MappingProxyType(dict(sorted(_kept(country, subdivision, year))))


def _kept(country: str, subdivision: str | None, year: int) -> list[tuple[date, str]]:
    import holidays  # noqa: PLC0415 - takes half a second, and few suppliers keep holidays

    try:
        found = holidays.country_holidays(country, subdiv=subdivision, years=[year])
    except NotImplementedError as error:
        where = f"{country}-{subdivision}" if subdivision else country
        raise UnreadableInput(
            COUNTRY_UNKNOWN,
            f"No public holidays of {where!r} are known.",
            "Give the country's two letters (GB, IE, FR), and the part as ISO 3166-2 has it (SCT).",
            value=where,
        ) from error
    return list(found.items())


@lru_cache(maxsize=256)
def moved(
    rule: HolidayRule, weekdays: frozenset[int], first_year: int, last_year: int
) -> Mapping[date, date | None]:
    """By holiday, the day on which its delivery comes instead; None: it falls away.

    Saturdays and Sundays count as working days only where the supplier delivers on them anyway.
    """
    holidays = {
        day
        for year in range(first_year, last_year + 1)
        for day in names(rule.country, rule.subdivision, year)
    }
    working = weekdays | frozenset(range(5))
    return MappingProxyType({day: _instead(day, rule, holidays, working) for day in holidays})


def _instead(
    day: date, rule: HolidayRule, holidays: set[date], working: frozenset[int]
) -> date | None:
    if rule.delivery is HolidayDelivery.FALLS_AWAY:
        return None
    step = _DAY if rule.delivery is HolidayDelivery.DAY_AFTER else -_DAY
    for distance in range(1, _FARTHEST):
        found = day + distance * step
        if found not in holidays and found.weekday() in working:
            return found
    return None
