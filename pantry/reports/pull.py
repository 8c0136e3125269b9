"""The pull list: what is taken out of the freezer today to thaw, for what, and by when (RQ2)."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cached_property

from pantry.records import accounts
from pantry.records.read.lives import life_of
from pantry.records.rows import every, one
from pantry.records.tables import (
    AreaRow,
    BatchParentRow,
    BatchRow,
    ItemRow,
    MovementRow,
    NeedRow,
    PromisedRow,
)
from pantry.reports.coverage import of_confirmed
from pantry.reports.report import Row, amount, instant
from pantry.reports.to_do import add, in_thousandths, thaws
from pantry.reports.view import View
from pantry.rules.house_time import local_date, read_instant
from pantry.rules.shelf_life import thawed
from pantry.rules.stock import AreaKind, Item, State
from pantry.rules.unfinished import day_to_pull


def pull(view: View) -> list[Row]:
    """A row for each batch that is to be out of the freezer before tomorrow's sheet is read.

    What should have been out before now comes first, then freezer by freezer as one walks, then
    what has been taken out today already. `take` is what comes out: whole containers, since what
    was frozen together thaws together.
    """
    found = _Pulling(view)
    due = sorted(found.due(), key=lambda row: (not row["late"], found.walk(row), row["out_by"]))
    return [*due, *sorted(found.done(), key=lambda row: (row["done"]["at"], row["label"]))]


@dataclass(frozen=True)
class _Pulling:
    """Finds what is to be pulled today, and what was."""

    view: View

    def due(self) -> Iterator[Row]:
        view = self.view
        today = local_date(view.now, view.zone)
        by_batch: dict[str, list[tuple[Row, Row]]] = {}
        for row, part in thaws(view, of_confirmed(view)):
            if day_to_pull(read_instant(part["thaw_from"]), view.now, view.zone) <= today:
                by_batch.setdefault(part["batch"], []).append((row, part))
        batches = {row.id: row for row in view.batches}
        for batch, wanted in by_batch.items():
            yield self._due(batches[batch], wanted)

    def _due(self, batch: BatchRow, wanted: list[tuple[Row, Row]]) -> Row:
        view, item = self.view, self.view.items[batch.item]
        needed = sum(in_thousandths(part["quantity"]) for _, part in wanted)
        shelf = view.standing[batch.id].shelf
        taken = min(_whole(needed, batch.sealed_quantity), sum(shelf.values()))
        lead = view.lives.thaw_time(item, taken)
        out_by = min(read_instant(part["thaw_from"]) for _, part in wanted)
        until = max(service.at for service in view.services if service.id in _services(wanted))
        usable_until = self._usable_until(batch, item, taken)
        row = self._of(batch, amount(needed, item), max(shelf, key=lambda place: shelf[place]))
        return row | {
            "take": amount(taken, item),
            "container": amount(batch.sealed_quantity, item) if batch.sealed_quantity else None,
            "out_by": instant(out_by),
            "late": out_by < view.now,
            "not_before": instant(_not_before(view.now, usable_until, until)),
            "thawed_at": instant(view.now + lead),
            "usable_until": instant(usable_until),
            "wanted": _together(
                {
                    "service": row["service"],
                    "dish": row["dish"],
                    "quantity": part["quantity"],
                    "wanted_by": row["wanted_by"],
                }
                for row, part in wanted
            ),
            "done": None,
        }

    def _usable_until(self, batch: BatchRow, item: Item, quantity: int) -> datetime | None:
        """Until when it may be used if it is taken out now (SL3)."""
        lives = self.view.lives
        return thawed(
            life_of(batch),
            self.view.now,
            lives.thawed_hours(item),
            self.view.zone,
            lives.thaw_time(item, quantity),
            thawing_counts=lives.policy.thawing_counts,
        ).usable_until

    def done(self) -> Iterator[Row]:
        """What was taken out of a freezer today and stands in the house still."""
        view = self.view
        today = local_date(view.now, view.zone)
        for batch in view.batches:
            if batch.state == State.THAWED and local_date(batch.state_at, view.zone) == today:
                links = every(view.connection, BatchParentRow, house=view.id, batch=batch.id)
                if len(links) == 1 and view.standing[batch.id].on_hand:
                    yield self._done(batch, links[0].parent)

    def _done(self, batch: BatchRow, parent: str) -> Row:
        view, item = self.view, self.view.items[batch.item]
        begun = next(
            row
            for row in every(view.connection, MovementRow, house=view.id, batch=batch.id)
            if row.source == accounts.MADE_INTO
        )
        of_command = {"house": view.id, "command": begun.command, "batch": parent}
        left = every(view.connection, MovementRow, **of_command)
        of = one(view.connection, BatchRow, house=view.id, id=parent)
        row = self._of(of, amount(batch.quantity, item), accounts.place(left[0].source))
        return row | {
            "take": row["quantity"],
            "container": None,
            "out_by": instant(begun.at),
            "late": False,
            "not_before": None,
            "thawed_at": instant(begun.at + view.lives.thaw_time(item, batch.quantity)),
            "usable_until": instant(batch.usable_until),
            "wanted": _together(self._given(batch, item)),
            "done": {
                "command": begun.command,
                "at": instant(begun.at),
                "child": batch.id,
                "label": batch.label,
            },
        }

    def _given(self, batch: BatchRow, item: Item) -> Iterator[Row]:
        """What the services ahead hold of it."""
        view = self.view
        for held in every(view.connection, PromisedRow, house=view.id, batch=batch.id):
            need = one(view.connection, NeedRow, house=view.id, id=held.need)
            yield {
                "service": held.service,
                "dish": view.recipes[need.dish].name,
                "quantity": amount(held.quantity, item),
                "wanted_by": instant(need.wanted_by),
            }

    def _of(self, batch: BatchRow, quantity: Row, area: str) -> Row:
        return {
            "item": self.view.item_name(batch.item),
            "item_id": batch.item,
            "batch": batch.id,
            "label": batch.label,
            "quantity": quantity,
            "area": self.view.areas.get(area, area),
            "into": self._into(batch),
        }

    @cached_property
    def _areas(self) -> dict[str, AreaRow]:
        rows = every(self.view.connection, AreaRow, house=self.view.id)
        return {row.id: row for row in sorted(rows, key=lambda row: (row.shelf_order, row.name))}

    def _into(self, batch: BatchRow) -> str | None:
        """Where it thaws: where its item belongs if that is chilled, else the first that is."""
        own = one(self.view.connection, ItemRow, house=self.view.id, id=batch.item).area
        if own is not None and self._areas[own].kind == AreaKind.CHILLED:
            return self._areas[own].name
        chilled = (row.name for row in self._areas.values() if row.kind == AreaKind.CHILLED)
        return next(chilled, None)

    def walk(self, row: Row) -> int:
        """Where its freezer stands in the order in which one walks."""
        names = [area.name for area in self._areas.values()]
        return names.index(row["area"]) if row["area"] in names else len(names)


def _whole(quantity: int, container: int | None) -> int:
    """So much in whole containers, in thousandths."""
    return -(-quantity // container) * container if container else quantity


def _together(wanted: Iterable[Row]) -> list[Row]:
    """What one dish of one service wants by one instant, its variants together."""
    found: dict[tuple[str, str, str], Row] = {}
    for row in wanted:
        add(found, (row["service"], row["dish"], row["wanted_by"]), row)
    return list(found.values())


def _services(wanted: list[tuple[Row, Row]]) -> set[str]:
    return {row["service"] for row, _ in wanted}


def _not_before(now: datetime, usable_until: datetime | None, until: datetime) -> datetime | None:
    """From when on it may be taken out, where taken out now it would die before its service."""
    if usable_until is None or usable_until >= until:
        return None
    return now + _in_minutes(until - usable_until)


def _in_minutes(span: timedelta) -> timedelta:
    """Whole minutes, a started one full: nobody takes anything out on the second."""
    return timedelta(minutes=-(-span // timedelta(minutes=1)))
