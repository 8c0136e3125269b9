"""Items and batches, as the rules see them."""

import json
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from sqlalchemy import Connection, bindparam, select, text

from pantry.records import accounts
from pantry.records.rows import among, every, made, table
from pantry.records.tables import BatchRow, ItemRow
from pantry.rules.fefo import Source
from pantry.rules.house_time import read_span
from pantry.rules.stock import BaseUnit, Declared, Item, State

_OF_HOUSE = (
    "SELECT batch, account, quantity, pieces FROM balance WHERE house = :house AND quantity <> 0"
)
_STANDING = " UNION ALL ".join(
    f"{_OF_HOUSE} AND account >= '{kind}:' AND account < '{kind};'"
    for kind in sorted(accounts.PHYSICAL)
)
"""What stands in the house, by kind of account, as ranges of the index (`;` follows `:`).

Where batches came from and went to is never empty again; what stands is only ever as much as the
house holds. Reading the one without the other keeps every question as quick after ten years as on
the first day.
"""
_TAKEN_OUT = text(
    "SELECT t.item, SUM(b.quantity) FROM balance b"
    " JOIN batch t ON t.house = b.house AND t.id = b.batch"
    " WHERE b.house = :house AND b.account = :account AND b.quantity <> 0 GROUP BY t.item"
)
_ALL = text(_STANDING)
_OF = text(_OF_HOUSE + " AND batch IN :batches").bindparams(bindparam("batches", expanding=True))
_ALL_ROWS = (
    select(table(BatchRow))
    .where(table(BatchRow).c.house == bindparam("house"))
    .where(text(f"batch.id IN (SELECT batch FROM ({_STANDING}) AS stands)"))  # noqa: S608 - ours
    .order_by(table(BatchRow).c.id)
)
_ROWS = _ALL_ROWS.where(table(BatchRow).c.item.in_(bindparam("items", expanding=True)))


@dataclass(slots=True)
class Standing:
    """What stands of one batch in the house, by area, in thousandths.

    Attributes:
        kept: the emergency meal.
        pieces: how many pieces that is in all, of what is counted while weighed (MS1).
    """

    shelf: dict[str, int] = field(default_factory=dict)
    held: dict[str, int] = field(default_factory=dict)
    kept: dict[str, int] = field(default_factory=dict)
    kitchen: dict[str, int] = field(default_factory=dict)
    pieces: int = 0

    @property
    def emergency(self) -> int:
        """The emergency meal, wherever it stands."""
        return sum(self.kept.values())

    @property
    def by_area(self) -> dict[str, int]:
        """All that stands in each storage area, as a count of it finds it."""
        found: dict[str, int] = {}
        for places in (self.held, self.shelf, self.kept):
            for place, quantity in places.items():
                found[place] = found.get(place, 0) + quantity
        return found

    @property
    def usable(self) -> int:
        """What stands in storage areas and is not on hold, promised or not.

        What was taken out for a preparation counts until the preparation is made; what was taken
        out for a service is that service's.
        """
        for_preparations = sum(q for place, q in self.kitchen.items() if "/" not in place)
        return sum(self.shelf.values()) + for_preparations

    @property
    def on_hand(self) -> int:
        """All that physically stands there, on hold and emergency meal included."""
        return self.usable + sum(self.held.values()) + self.emergency


def fraction(written: str | None) -> Fraction | None:
    """A fraction kept as text."""
    return None if written is None else Fraction(written)


def item(row: ItemRow) -> Item:
    """One item."""
    return Item(
        id=row.id,
        name=row.name,
        base_unit=BaseUnit(row.base_unit),
        measured=row.measured,
        whole=row.whole,
        density=fraction(row.density),
        piece_weight=fraction(row.piece_weight),
        opened_life_days=row.opened_life_days,
        thawed_life_hours=row.thawed_life_hours,
        frozen_life_days=row.frozen_life_days,
        high_risk=row.high_risk,
        declared=Declared(
            contains=frozenset(json.loads(row.contains)),
            may_contain=frozenset(json.loads(row.may_contain)),
            free_of=frozenset(json.loads(row.free_of)),
        ),
        floor=row.floor,
        order_up_to=row.order_up_to,
        daily_per_head=row.daily_per_head,
    )


def items(connection: Connection, house: str, ids: Sequence[str] | None = None) -> dict[str, Item]:
    """The items of these ids, or all, by id."""
    if ids is None:
        rows = every(connection, ItemRow, house=house)
    else:
        rows = among(connection, ItemRow, house, "id", ids)
    return {row.id: item(row) for row in rows}


def batch_rows(
    connection: Connection, house: str, of_items: Sequence[str] | None = None
) -> list[BatchRow]:
    """The batches of these items, or of all, of which something stands in the house."""
    if of_items is None:
        result = connection.execute(_ALL_ROWS, {"house": house})
    else:
        result = connection.execute(_ROWS, {"house": house, "items": list(of_items)})
    return made(BatchRow, result)


def standing(
    connection: Connection, house: str, batches: Sequence[str] | None = None
) -> dict[str, Standing]:
    """What stands of these batches, or of all, by batch; those with nothing are left out."""
    if batches is not None and not batches:
        return {}
    if batches is None:
        rows = connection.execute(_ALL, {"house": house})
    else:
        rows = connection.execute(_OF, {"house": house, "batches": list(batches)})
    found: dict[str, Standing] = {}
    for batch, account, quantity, pieces in rows:
        kind = accounts.kind(account)
        if kind in accounts.PHYSICAL:
            stands = found.setdefault(batch, Standing())
            _put(stands, kind, accounts.place(account), quantity)
            stands.pieces += pieces
    return found


def _put(into: Standing, kind: str, place: str, quantity: int) -> None:
    match kind:
        case accounts.EMERGENCY:
            into.kept[place] = quantity
        case "area":
            into.shelf[place] = quantity
        case "hold":
            into.held[place] = quantity
        case _:
            into.kitchen[place] = quantity


def taken_out(connection: Connection, house: str, service: str) -> dict[str, int]:
    """What stands taken out for a service, by item, in thousandths."""
    of = {"house": house, "account": accounts.kitchen(service)}
    return {item: max(0, int(taken)) for item, taken in connection.execute(_TAKEN_OUT, of)}


def source(row: BatchRow, available: int) -> Source:
    """A batch as something a need can be given from.

    Only what is still sealed is opened by using it; frozen food in no known pack is taken out
    portion by portion.
    """
    sealed: int | None = 0
    if row.state == State.SEALED:
        sealed = row.sealed_quantity
    elif row.state == State.FROZEN:
        sealed = row.sealed_quantity or 0
    return Source(
        kind="batch",
        id=row.id,
        item=row.item,
        quantity=available,
        usable_until=row.usable_until,
        good_until=row.good_until,
        since=row.since,
        sealed_quantity=sealed,
        opened=row.state == State.OPENED,
        frozen=row.state == State.FROZEN,
        left=None if row.left is None else read_span(row.left),
    )


def sources(rows: Iterable[BatchRow], stands: Mapping[str, Standing]) -> dict[str, list[Source]]:
    """What can be given of each item: never on hold, recalled, in transit or emergency (AL1)."""
    found: dict[str, list[Source]] = {}
    for row in rows:
        usable = stands[row.id].usable if row.id in stands else 0
        if usable > 0 and not row.recalled:
            found.setdefault(row.item, []).append(source(row, usable))
    return found
