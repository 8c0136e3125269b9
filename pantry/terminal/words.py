"""How the answers' data are said to a person: local times, quantities, lengths of time, money."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

from pantry.handbook.currencies import CURRENCIES
from pantry.rules.house_time import Span, local_date, read_instant, read_span
from pantry.rules.measure import show
from pantry.rules.stock import BaseUnit

NEVER = "-"
LONGEST = 5
"""A drawn length has at most so many days; an arrow says that it goes on."""


@dataclass(frozen=True, slots=True)
class Words:
    """Says what stands in an answer, at one instant of one house.

    Attributes:
        zone: the house's.
        now: aware, in UTC.
        decimal_mark: the house's.
        unicode: the terminal can show a drawn line.
    """

    zone: ZoneInfo
    now: datetime
    decimal_mark: str = "."
    unicode: bool = True

    @property
    def today(self) -> date:
        """The house's civil date."""
        return local_date(self.now, self.zone)

    def day(self, written: str | date | None) -> str:
        """`Fri 12 Mar`; `12 Mar 2028` where it is not this year."""
        if written is None:
            return NEVER
        day = written if isinstance(written, date) else date.fromisoformat(written)
        if day.year == self.today.year:
            return f"{day:%a} {day.day} {day:%b}"
        return f"{day.day} {day:%b} {day.year}"

    def moment(self, instant: str | datetime | None) -> str:
        """`Fri 12 Mar 22:00`, as the house's clock shows it."""
        if instant is None:
            return NEVER
        local = _aware(instant).astimezone(self.zone)
        return f"{self.day(local.date())} {local:%H:%M}"

    def time(self, instant: str | datetime) -> str:
        """`22:00` where it is of today or later, or else the whole moment."""
        local = _aware(instant).astimezone(self.zone)
        return f"{local:%H:%M}" if local.date() >= self.today else self.moment(instant)

    def is_past(self, instant: str | datetime) -> bool:
        """Whether it is now or was before."""
        return _aware(instant) <= self.now

    def amount(self, quantity: Mapping[str, str] | None) -> str:
        """`1.25 kg`, `350 g`, `3`."""
        if quantity is None:
            return NEVER
        thousandths = int(Decimal(quantity["value"]) * 1000)
        return show(thousandths, BaseUnit(quantity["unit"]), decimal_mark=self.decimal_mark)

    def money(self, sum_of: Mapping[str, object]) -> str:
        """`12.40 GBP`."""
        code, minor = str(sum_of["currency"]), int(str(sum_of["minor"]))
        decimals = CURRENCIES[code].decimals if code in CURRENCIES else 2
        figures = f"{Decimal(minor).scaleb(-decimals):.{decimals}f}"
        return f"{figures.replace('.', self.decimal_mark)} {code}"

    def service(self, name: str | None) -> str:
        """`Sat 13 Mar dinner, family` for `2027-03-13/dinner/family`; anything else as it is."""
        parts = (name or NEVER).split("/")
        try:
            return f"{self.day(parts[0])} {parts[1]}, {parts[2]}"
        except (ValueError, IndexError):
            return name or NEVER

    def left(self, usable_until: str | None, good_until: str | None) -> str:
        """How long is left, drawn and in words; each stroke is a day begun.

        `━━━ use by Fri 12 Mar` is safety, `━━━ best until Fri 12 Mar` quality.
        """
        usable, good = (
            None if at is None else read_instant(at) for at in (usable_until, good_until)
        )
        if usable is not None and usable < self.now:
            return f"{self._cross} not to be used since {self._date(usable)}"
        said = []
        if good is not None and good < self.now:
            said.append(f"{self._cross} past its best since {self._date(good)}")
        if usable is not None:
            said.append(f"{self._drawn(usable)} use by {self._date(usable)}")
        elif good is not None and not said:
            said.append(f"{self._drawn(good)} best until {self._date(good)}")
        return "; ".join(said) or "no date"

    def _date(self, instant: datetime) -> str:
        """The day, with its time of day where it is not the end of the day."""
        local = instant.astimezone(self.zone)
        day = "today" if local.date() == self.today else self.day(local.date())
        return day if (local.hour, local.minute) == (23, 59) else f"{day} {local:%H:%M}"

    def _drawn(self, end: datetime) -> str:
        days = (local_date(end, self.zone) - self.today).days
        stroke, arrow = ("━", "▸") if self.unicode else ("=", ">")
        return stroke * min(days + 1, LONGEST) + (arrow if days >= LONGEST else "")

    @property
    def _cross(self) -> str:
        return "×" if self.unicode else "x"


def _aware(instant: str | datetime) -> datetime:
    return read_instant(instant) if isinstance(instant, str) else instant


def length(written: str | Span | None) -> str:
    """`PT163H` as `6 days 19 h`; `PT45M` as `45 min`."""
    if written is None:
        return "no time is enough"
    span = written if isinstance(written, Span) else read_span(written)
    return elapsed(timedelta(days=span.days) + span.exact)


def elapsed(time: timedelta) -> str:
    """A length of time to the minute, in days, hours and minutes: `6 days 19 h`, `0 min`."""
    minutes = int(time.total_seconds()) // 60
    days, minutes = divmod(minutes, 24 * 60)
    hours, minutes = divmod(minutes, 60)
    parts = ((days, "day" if days == 1 else "days"), (hours, "h"), (minutes, "min"))
    said = [f"{number} {unit}" for number, unit in parts if number]
    return " ".join(said) or "0 min"


def many(number: int, one: str, several: str = "") -> str:
    """`1 batch`, `3 batches`."""
    return f"{number} {one if number == 1 else several or one + 's'}"
