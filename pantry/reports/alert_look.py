"""A look at the plan: which alerts rise or close now, and the letters that tell of them."""

import hashlib
from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import date, datetime, time, timedelta
from functools import cached_property

from pantry.records.alerts import Found, last_turns, standing
from pantry.records.rows import find
from pantry.records.tables import LetterRow, PersonRow
from pantry.reports.alert_words import AlertWords, passed_over, words_of
from pantry.reports.alerts import alerts_of, digest_at, readers
from pantry.reports.due import due
from pantry.reports.plan import planned
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.alerts import Rise, begins, closed, next_moment, risen
from pantry.rules.deadlines import Alert
from pantry.rules.house_time import instant_of, local_date, read_instant

AT_ONCE = (Alert.LAST_CALL, Alert.MISSED)
"""The stages that are told by a letter of their own; *open* is told with the next of the day."""

LATE = timedelta(hours=3)
"""So long after its hour a letter of the day still goes out, where the server slept meanwhile."""

_DAY = timedelta(days=1)


def look(
    view: View, *, told_to: frozenset[str] | None, clock: datetime, address: str = ""
) -> Found:
    """What there is to write now.

    Args:
        view: the house.
        told_to: the roles that are told alerts by letter; None: the house sends none.
        clock: the server's own time, in which letters are tried.
        address: where the house's screens are reached; empty: nobody has said.
    """
    found = planned(view)
    all_due = due(view, found)
    kept = last_turns(view.connection, view.id)
    before = standing(kept)
    deadlines = [each.deadline for each in all_due]
    rises = risen(deadlines, before)
    rows = {row["alert"]: row for row in alerts_of(view, found, all_due, kept)}
    post = _Post(view, rows, told_to or frozenset(), clock, address)
    letters = [] if told_to is None else post.new([*post.at_once(rises), *post.of_the_day()])
    moments = (
        next_moment(deadlines, view.house, view.zone, view.now),
        None if told_to is None else post.next_day_letter,
    )
    return Found(
        view.row.change,
        rises,
        closed(deadlines, before, view.placed, view.now),
        letters,
        min((moment for moment in moments if moment is not None), default=None),
    )


@dataclass(frozen=True)
class _Post:
    """Writes the letters: `rows` are the open alerts, by id."""

    view: View
    rows: dict[str, Row]
    roles: frozenset[str]
    clock: datetime
    address: str

    @cached_property
    def words(self) -> AlertWords:
        """The words of the house."""
        return words_of(self.view)

    @cached_property
    def readers(self) -> list[PersonRow]:
        """Who of the house is told, has an address, and has not declined letters."""
        return readers(self.view, self.roles)

    def new(self, letters: Iterable[LetterRow]) -> list[LetterRow]:
        """Those of the letters that were not written before."""
        connection, house = self.view.connection, self.view.id
        return [
            each for each in letters if not find(connection, LetterRow, house=house, id=each.id)
        ]

    def at_once(self, rises: Iterable[Rise]) -> Iterator[LetterRow]:
        """A letter to each reader for each alert that presses."""
        for rise in rises:
            row = self.rows.get(rise.deadline.id)
            if row is None or rise.stage not in AT_ONCE:
                continue
            told = [*self.words.lines(row), "", passed_over(rise.passed_over)]
            named = f"{rise.deadline.id}|{rise.turn}|{rise.stage.value}"
            for reader in self.readers:
                yield self._letter(reader, named, self.words.title(row), told)

    def of_the_day(self) -> Iterator[LetterRow]:
        """The letter of today to each reader, where something stood when its hour came."""
        hour = self._hour
        due = self._at(self._today, hour) if hour is not None else self.view.now
        if hour is None or not due <= self.view.now <= due + LATE or not self._stood(due):
            return
        told = [f"What is to be done, {self.view.row.name}:"]
        for row in self.rows.values():
            told += ["", self.words.title(row), *self.words.lines(row)]
        stands = len(self.rows)
        subject = "1 deadline" if stands == 1 else f"{stands} deadlines"
        for reader in self.readers:
            yield self._letter(reader, f"day|{self._today}", f"Today: {subject}", told)

    def _stood(self, at: datetime) -> bool:
        """Whether one of the alerts was open by then; what opens later is told tomorrow."""
        return any(
            begins(read_instant(row["order_by"]), self.view.house, self.view.zone)[Alert.OPEN] <= at
            if row["order_by"]
            else row["raised_at"] is None or read_instant(row["raised_at"]) <= at
            for row in self.rows.values()
        )

    @property
    def next_day_letter(self) -> datetime | None:
        """When the next letter of the day is due."""
        hour = self._hour
        if hour is None:
            return None
        today = self._at(self._today, hour)
        return today if self.view.now < today else self._at(self._today + _DAY, hour)

    @cached_property
    def _hour(self) -> time | None:
        written = digest_at(self.view)
        return time.fromisoformat(written) if written else None

    @property
    def _today(self) -> date:
        return local_date(self.view.now, self.view.zone)

    def _at(self, day: date, hour: time) -> datetime:
        return instant_of(day, hour, self.view.zone)

    @property
    def _to_decline(self) -> str:
        """Where whoever reads it says that they want no more of these letters."""
        where = f" ({self.address}/alerts)" if self.address else ""
        return f"You can decline these letters under Alerts{where}, By e-mail."

    def _letter(
        self, reader: PersonRow, named: str, subject: str, told: Iterable[str]
    ) -> LetterRow:
        whole = f"{self.view.id}|{self.view.row.epoch}|{named}|{reader.id}"
        return LetterRow(
            house=self.view.id,
            id=hashlib.sha256(whole.encode()).hexdigest()[:40],
            person=reader.id,
            address=reader.email or "",
            subject=subject,
            text="\n".join([*told, "", self._to_decline]).strip() + "\n",
            written_at=self.clock,
            next_try_at=self.clock,
        )
