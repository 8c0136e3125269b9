"""What of each storage area is to be counted, in the order in which it stands there (LG3)."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cached_property

from pantry.records.read.counts import ever_stood, last_counted
from pantry.records.read.worth import worth_by_item
from pantry.records.rows import every
from pantry.records.tables import AreaRow, BatchRow, CountedRow, ItemRow, QuestionRow
from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View
from pantry.rules.count_differences import of_high_value, tolerance
from pantry.rules.counts_due import Due, by_the_books, by_the_calendar
from pantry.rules.house_time import local_date
from pantry.rules.stock import AreaKind


def counts(view: View) -> list[Row]:
    """A row for each storage area, in the order of the areas.

    Its lines are what stands there by the books, and what stood there before and may stand there
    still; those in the order they were counted in last, then the others by group and name. Items
    that nobody counts have a level instead. What the books have is not said: a count is blind.
    """
    seen = _Seen(view)
    areas = every(view.connection, AreaRow, house=view.id)
    return [_row(seen, area) for area in sorted(areas, key=lambda row: (row.shelf_order, row.name))]


@dataclass(frozen=True)
class _Seen:
    """A house and what is read once for all of its storage areas."""

    view: View

    @cached_property
    def items(self) -> Mapping[str, ItemRow]:
        rows = every(self.view.connection, ItemRow, house=self.view.id)
        return {row.id: row for row in rows}

    @cached_property
    def counted(self) -> Mapping[tuple[str, str], CountedRow]:
        return last_counted(self.view.connection, self.view.id)

    @cached_property
    def ever(self) -> set[tuple[str, str]]:
        return ever_stood(self.view.connection, self.view.id)

    @cached_property
    def there(self) -> Mapping[tuple[str, str], list[tuple[BatchRow, int]]]:
        """By storage area and item, the batches that stand there and how much of each."""
        found: dict[tuple[str, str], list[tuple[BatchRow, int]]] = {}
        for row in self.view.batches:
            standing = self.view.standing.get(row.id)
            for place, quantity in (standing.by_area if standing else {}).items():
                found.setdefault((place, row.item), []).append((row, quantity))
        return found

    @cached_property
    def of_high_value(self) -> frozenset[str]:
        worth = worth_by_item(self.view.batches, self.view.standing)
        return of_high_value(self.view.policy, worth)

    @cached_property
    def again(self) -> frozenset[str]:
        """What a second count is awaited of: a storage area's shelf and a batch."""
        rows = every(self.view.connection, QuestionRow, house=self.view.id, kind="count_again")
        return frozenset(row.about for row in rows if row.settled_at is None)

    @cached_property
    def soon(self) -> Mapping[str, int]:
        """What of each batch is promised to services of today and tomorrow."""
        today = local_date(self.view.now, self.view.zone)
        days = {today.isoformat(), (today + timedelta(days=1)).isoformat()}
        found: dict[str, int] = {}
        for row in self.view.held:
            if row.service.split("/")[0] in days:
                found[row.batch] = found.get(row.batch, 0) + row.quantity
        return found


def _row(seen: _Seen, area: AreaRow) -> Row:
    counted = [row for (place, _), row in seen.counted.items() if place == area.id and row.command]
    last = max(counted, key=lambda row: row.at, default=None)
    lines = [_line(seen, area, item) for item in _items_in(seen, area.id)]
    return {
        "area": area.name,
        "area_id": area.id,
        "kind": area.kind,
        "counted_at": instant(last.at) if last else None,
        "counted_by": last.person if last else None,
        "due": sum(line["why"] is not None for line in lines),
        "lines": lines,
        "levels": [
            {"item": item.name, "item_id": item.id, "level": item.level}
            for item in sorted(seen.items.values(), key=lambda item: item.name)
            if not item.measured and item.area == area.id
        ],
    }


def _items_in(seen: _Seen, area: str) -> list[ItemRow]:
    stands = {item for place, item in seen.there if place == area}
    stood = {
        item for place, item in seen.ever if place == area and _is_remembered(seen, area, item)
    }
    known = [item for place, item in seen.counted if place == area]
    rows = [seen.items[item] for item in stands | stood if seen.items[item].measured]
    place_of = {item: place for place, item in enumerate(known)}
    return sorted(
        rows, key=lambda row: (place_of.get(row.id, len(known)), row.group, row.name, row.id)
    )


def _is_remembered(seen: _Seen, area: str, item: str) -> bool:
    """Whether it belongs there, and nobody has found yet that nothing of it stands there any more.

    What was never counted belongs where the item does: it may have stood elsewhere on its way.
    """
    last = seen.counted.get((area, item))
    if last is None or not last.command:
        return seen.items[item].area == area
    return last.quantity > 0


def _line(seen: _Seen, area: AreaRow, item: ItemRow) -> Row:
    view = seen.view
    there = seen.there.get((area.id, item.id), [])
    last = seen.counted.get((area.id, item.id))
    closely = item.high_risk or item.id in seen.of_high_value
    return {
        "item": item.name,
        "item_id": item.id,
        "unit": item.base_unit,
        "closely": closely,
        "tolerance": tolerance(view.policy, item.group, high_risk=item.high_risk),
        "counted_at": instant(last.at) if last and last.command else None,
        "why": _why(seen, area, item, there, closely=closely),
        "promised_soon": [
            {"batch": row.id, "quantity": amount(seen.soon[row.id], view.items[item.id])}
            for row, _ in there
            if row.id in seen.soon
        ],
    }


def _why(
    seen: _Seen,
    area: AreaRow,
    item: ItemRow,
    there: list[tuple[BatchRow, int]],
    *,
    closely: bool,
) -> Due | None:
    view = seen.view
    if any(f"area:{area.id}|{row.id}" in seen.again for row, _ in there):
        return Due.AGAIN
    stands = sum(quantity for _, quantity in there)
    by_books = by_the_books(stands, found_before=True)
    last = seen.counted.get((area.id, item.id))
    since = _since(last, (row for row, _ in there))
    if by_books or since is None:
        return by_books
    first, today = local_date(since, view.zone), local_date(view.now, view.zone)
    return by_the_calendar(view.policy, AreaKind(area.kind), first, today, closely=closely)


def _since(last: CountedRow | None, rows: Iterable[BatchRow]) -> datetime | None:
    """When it was counted last; where it never was, when the oldest of it came."""
    if last and last.command:
        return last.at
    return min((row.since for row in rows), default=None)
