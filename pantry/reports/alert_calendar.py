"""The deadlines as a calendar that any program reads (RFC 5545, RFC 7986).

Each is an event that ends with its order-by, and not a task (VTODO): what programs show of a
calendar they subscribe to is its events, and several leave tasks out. It takes up no time. Its
alarm is at the last call; not every program rings for a calendar that somebody else writes, so that
it stands beside the letters and does not take their place.

Instants are in UTC, which every reader reads alike, and the house's wall clock stands in the words:
of the same VTIMEZONE two readers made hours that were one apart.
"""

import hashlib
from collections.abc import Iterator
from dataclasses import dataclass
from datetime import UTC, datetime, timedelta

from icalendar import Alarm, Calendar, Event

from pantry.records.rows import every
from pantry.records.tables import AlertRow
from pantry.reports.alert_words import AlertWords, words_of
from pantry.reports.alerts import rows_of
from pantry.reports.due import due
from pantry.reports.plan import planned
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.alerts import Why, begins
from pantry.rules.deadlines import Alert
from pantry.rules.house_time import local_date, read_instant, start_of_day

DOMAIN = "chooseby.invalid"
"""Ends what events are known by: the house may have no domain (RFC 2606)."""

DRAWN = timedelta(minutes=15)
"""How long an event is drawn."""

KEPT = timedelta(days=14)
"""So long what is done with still stands in a calendar, as done with."""

READ_AGAIN = timedelta(hours=1)

_DONE = {
    Why.ORDERED: "Ordered",
    Why.NOT_NEEDED: "Not needed any more",
    Why.PASSED: "Passed",
}


def calendar(view: View) -> bytes:
    """The calendar of a house; the same as long as nothing in it changes, on one day."""
    made = Calendar()
    made.add("prodid", "-//Chooseby//deadlines//EN")
    made.add("version", "2.0")
    made.add("calscale", "GREGORIAN")
    made.add("method", "PUBLISH")
    name = f"{view.row.name}: order by"
    made.add("name", name)
    made.add("x-wr-calname", name)
    made.add("x-wr-timezone", view.zone.key)
    made.add("refresh-interval", READ_AGAIN, parameters={"VALUE": "DURATION"})
    for event in _Events(view, words_of(view), _turns(view)).all():
        made.add_component(event)
    return bytes(made.to_ical())


def _turns(view: View) -> dict[str, list[AlertRow]]:
    found: dict[str, list[AlertRow]] = {}
    for row in every(view.connection, AlertRow, house=view.id):
        found.setdefault(row.id, []).append(row)
    return found


@dataclass(frozen=True)
class _Events:
    """Writes the events; `turns` are all of every alert, the last one last."""

    view: View
    words: AlertWords
    turns: dict[str, list[AlertRow]]

    def all(self) -> Iterator[Event]:
        """What is to be done, then what is done with."""
        view = self.view
        found = planned(view)
        last = {id_: turns[-1] for id_, turns in self.turns.items()}
        rows = rows_of(view, found, due(view, found), last)
        for row in rows:
            if row["order_by"]:
                yield self._open(row)
        told = {row["alert"] for row in rows}
        for id_, alert in last.items():
            order_by = alert.order_by
            if id_ not in told and order_by is not None and order_by > view.now - KEPT:
                yield self._done(alert, order_by)

    def _open(self, row: Row) -> Event:
        order_by = read_instant(row["order_by"])
        missed = row["stage"] == Alert.MISSED
        title = self.words.title(row) if missed else self.words.what(row)
        event = self._event(row["alert"], order_by, title)
        event.add("description", "\n".join(self.words.lines(row)))
        event.add("status", "CONFIRMED")
        if not missed:
            event.add_component(self._alarm(order_by, title))
        return event

    def _done(self, alert: AlertRow, order_by: datetime) -> Event:
        done = _DONE[Why(alert.why or Why.NOT_NEEDED)]
        supplier = self.view.supplier_names.get(alert.supplier or "", "")
        event = self._event(alert.id, order_by, f"{done}: {supplier}")
        event.add("status", "CANCELLED")
        return event

    def _event(self, id_: str, order_by: datetime, title: str) -> Event:
        turns = self.turns.get(id_, [])
        view = self.view
        today = start_of_day(local_date(view.now, view.zone), view.zone)
        changed_at = turns[-1].changed_at if turns else today
        event = Event()
        event.add("uid", self._uid(id_))
        event.add("sequence", sum(turn.sequence + 1 for turn in turns))
        event.add("dtstamp", changed_at.astimezone(UTC))
        event.add("last-modified", changed_at.astimezone(UTC))
        event.add("dtstart", (order_by - DRAWN).astimezone(UTC))
        event.add("dtend", order_by.astimezone(UTC))
        event.add("summary", title)
        event.add("transp", "TRANSPARENT")
        event.add("class", "CONFIDENTIAL")
        return event

    def _alarm(self, order_by: datetime, title: str) -> Alarm:
        last_call = begins(order_by, self.view.house, self.view.zone)[Alert.LAST_CALL]
        alarm = Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("description", f"Last call: {title}")
        alarm.add("trigger", last_call.astimezone(UTC))
        return alarm

    def _uid(self, id_: str) -> str:
        whole = f"{self.view.id}|{self.view.row.epoch}|{id_}"
        return f"{hashlib.sha256(whole.encode()).hexdigest()[:32]}@{DOMAIN}"
