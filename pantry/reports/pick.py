"""The pick list: what is brought to the kitchen for today's and tomorrow's cooking (AL2, LG2)."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import timedelta
from functools import cached_property

from pantry.records import accounts
from pantry.records.rows import every
from pantry.records.tables import AreaRow, BatchRow, MovementRow
from pantry.reports.coverage import of_confirmed
from pantry.reports.report import Row, amount, instant
from pantry.reports.to_do import given, in_thousandths
from pantry.reports.view import View
from pantry.rules.house_time import local_date, read_instant
from pantry.rules.menu import Service
from pantry.rules.stock import BaseUnit, Item

_TOMORROW = timedelta(days=1)
_PIECE = 1000
"""A whole piece, in thousandths."""


@dataclass(frozen=True, slots=True)
class _Purpose:
    """What is brought to the kitchen together.

    Attributes:
        service: the service it is cooked for.
        preparation: the item that is made of it; empty: it goes into a dish of the service.
    """

    service: str
    preparation: str = ""


def pick(view: View) -> list[Row]:
    """A row for each batch and what it is brought for, area by area as one walks.

    What is wanted by the end of tomorrow; what must thaw first is on the pull list instead. What
    was brought already stands behind it, one row for each time somebody went, until it is served.
    """
    found = _Picking(view)
    rows = [*found.due(), *found.brought()]
    return sorted(rows, key=lambda row: (row["at"], row["service"], found.walk(row), row["item"]))


@dataclass(frozen=True)
class _Picking:
    """Finds what is to be brought, and what was."""

    view: View

    def due(self) -> Iterator[Row]:
        """What is to be brought still."""
        there = self._there()
        for (purpose, batch_id), (wanted_by, quantity) in self._wanted.items():
            batch = self._batches[batch_id]
            item = self.view.items[batch.item]
            place = accounts.kitchen(purpose.preparation)
            known = min(quantity, there.get((place, item.id), 0)) if purpose.preparation else 0
            if known:
                there[place, item.id] -= known
            if quantity > known:
                row = self._of(purpose, batch, quantity - known, wanted_by)
                yield row | {"others": list(self._others(batch, item)), "done": None}

    @cached_property
    def _wanted(self) -> Mapping[tuple[_Purpose, str], tuple[str, int]]:
        """By purpose and batch: by when it is wanted first, and how much of it in all."""
        view, found = self.view, dict[tuple[_Purpose, str], tuple[str, int]]()
        last = local_date(view.now, view.zone) + _TOMORROW
        names = {item.name: item.id for item in view.items.values()}
        for row, part in given(view, of_confirmed(view)):
            at = row["wanted_by"]
            if local_date(read_instant(at), view.zone) > last or not _stands(part, at):
                continue
            made = names[row["for"]] if row["for"] else ""
            key = (_Purpose(row["service"], made), part["batch"])
            known, quantity = found.get(key, (at, 0))
            found[key] = (min(known, at), quantity + in_thousandths(part["quantity"]))
        return found

    def _there(self) -> dict[tuple[str, str], int]:
        """What was taken out for preparations already, by its account and item."""
        found: dict[tuple[str, str], int] = {}
        for batch, standing in self.view.standing.items():
            for place, quantity in standing.kitchen.items():
                key = (accounts.kitchen(place), self._batches[batch].item)
                found[key] = found.get(key, 0) + quantity
        return found

    def _others(self, batch: BatchRow, item: Item) -> Iterator[Row]:
        """The other batches of the item on the shelves that may be used, what dies first first."""
        view = self.view
        for source in sorted(view.sources.get(item.id, ()), key=lambda each: each.id):
            row = self._batches.get(source.id)
            if row is None or row.id == batch.id or source.frozen != (batch.state == "frozen"):
                continue
            shelf = view.standing[row.id].shelf
            if not shelf or (row.usable_until is not None and row.usable_until < view.now):
                continue
            yield {
                "batch": row.id,
                "label": row.label,
                "area": self._area(shelf),
                "left": amount(sum(shelf.values()), item),
                "usable_until": instant(row.usable_until),
            }

    def brought(self) -> Iterator[Row]:
        """What was taken out for the services ahead, and for the preparations on the list."""
        purposes = {service: _Purpose(service) for service in self._ahead}
        for purpose, _ in self._wanted:
            if purpose.preparation:
                purposes[purpose.preparation] = purpose
        for batch, standing in self.view.standing.items():
            into = {place: purposes[place] for place in standing.kitchen if place in purposes}
            if into:
                yield from self._brought(self._batches[batch], into)

    def _brought(self, batch: BatchRow, into: Mapping[str, _Purpose]) -> Iterator[Row]:
        moved = every(self.view.connection, MovementRow, house=self.view.id, batch=batch.id)
        back = {row.reverses for row in moved}
        for row in moved:
            kind, place = accounts.kind(row.target), accounts.place(row.target)
            if kind != "kitchen" or place not in into or row.number in back or row.reverses:
                continue
            at = instant(self._ahead[into[place].service].at) or ""
            told = self._of(into[place], batch, row.quantity, at)
            told["take"] = told["quantity"]
            if accounts.kind(row.source) == "area":
                told["area"] = self.view.areas.get(accounts.place(row.source))
            done = {"command": row.command, "at": instant(row.at)}
            yield told | {"others": [], "done": done}

    def _of(self, purpose: _Purpose, batch: BatchRow, quantity: int, wanted_by: str) -> Row:
        view = self.view
        service, item = self._ahead[purpose.service], view.items[batch.item]
        made = purpose.preparation
        return {
            "service": service.id,
            "at": instant(service.at),
            "day": service.date.isoformat(),
            "meal": service.meal,
            "table": view.tables[service.table].name,
            "preparation": view.preparations[made].name if made else None,
            "wanted_by": wanted_by,
            "area": self._area(view.standing[batch.id].shelf),
            "batch": batch.id,
            "label": batch.label,
            "item": item.name,
            "item_id": item.id,
            "quantity": amount(quantity, item),
            "take": amount(self._take(batch, item, quantity), item),
            "usable_until": instant(batch.usable_until),
        }

    def _take(self, batch: BatchRow, item: Item, quantity: int) -> int:
        """What is brought for so much: whole pieces, but no more than stand there."""
        if item.base_unit is not BaseUnit.EACH:
            return quantity
        there = sum(self.view.standing[batch.id].shelf.values())
        return max(quantity, min(-(-quantity // _PIECE) * _PIECE, there))

    def _area(self, shelf: Mapping[str, int]) -> str | None:
        """The area in which most of it stands; None where it stands in the kitchen."""
        most = max(shelf, key=lambda place: (shelf[place], place), default=None)
        return self.view.areas.get(most, most) if most else None

    @cached_property
    def _batches(self) -> Mapping[str, BatchRow]:
        return {row.id: row for row in self.view.batches}

    @cached_property
    def _ahead(self) -> Mapping[str, Service]:
        return {service.id: service for service in self.view.services}

    @cached_property
    def _order(self) -> Mapping[str, int]:
        return {row.name: row.shelf_order for row in self._areas}

    @property
    def _areas(self) -> list[AreaRow]:
        return every(self.view.connection, AreaRow, house=self.view.id)

    def walk(self, row: Row) -> tuple[bool, str, int, str]:
        """Where it comes in the walk: for the dishes first, what is brought already last."""
        return (
            row["done"] is not None,
            row["preparation"] or "",
            self._order.get(row["area"], len(self._order)),
            row["area"] or "",
        )


def _stands(part: Row, wanted_by: str) -> bool:
    """Whether it stands there as it is used; what thaws first is pulled, and then stands there."""
    return "batch" in part and part.get("thaw_from", wanted_by) >= wanted_by
