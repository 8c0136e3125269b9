"""What a scanned code says, and what in this house carries it: packs, items, batches."""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from functools import cached_property

from pantry.records.read.labels import carrier
from pantry.records.rows import every
from pantry.records.tables import BatchRow, ItemRow
from pantry.refusals import UnreadableInput
from pantry.reports.report import Row, amount
from pantry.reports.view import View
from pantry.rules.codes import Scan, read_code
from pantry.rules.codes.stated import DIGITS, numbers, stated_quantity
from pantry.rules.house_time import local_date
from pantry.rules.stock import Item
from pantry.rules.supply import Pack


def code(view: View, text: str) -> list[Row]:
    """One row `{read, matches}`: what the code says as `read-code` does, and all that carries it.

    A number may be on several things (a single and its case, an item sold by two suppliers): all
    of them match, packs first, then items, then batches of those items that carry the code's lot,
    or the one batch whose label it is. `quantity` is what the code itself says of it (a weighed
    pack, so many inside a case), or else what the pack holds, or what there is of the batch; null
    where neither is known or the item lacks the density to convert it. Lot and date are in `read`.

    Raises:
        UnreadableInput: as `read_code`, unless the text is the label of a batch of the house.
    """
    labelled = _labelled(view, text.strip())
    scan = _read(text, local_date(view.now, view.zone), is_label=bool(labelled))
    if scan.label is not None and not labelled:
        # what a scanner says in front of a label is not of the label
        labelled = _labelled(view, scan.label)
    found = _Matches(view, scan)
    matches = [*found.packs(), *found.items(), *found.lots(), *map(found.batch, labelled)]
    return [{"read": scan.as_json(), "matches": matches}]


def _labelled(view: View, label: str) -> list[BatchRow]:
    found = carrier(view.connection, view.id, label)
    return [] if found is None else [found]


def _read(text: str, today: date, *, is_label: bool) -> Scan:
    """The scan; a label of the house may be written as no code would be."""
    try:
        return read_code(text, today)
    except UnreadableInput:
        if is_label:
            return Scan(label=text.strip())
        raise


@dataclass(frozen=True)
class _Matches:
    """What carries the number of a scan."""

    view: View
    scan: Scan

    def packs(self) -> Iterator[Row]:
        """The packs with the number, by supplier and size."""
        for pack in self._packs:
            item = self.view.items[pack.item]
            stated = stated_quantity(self.scan, item, pack.quantity)
            yield _match("pack", pack.id, item) | {
                "pack": pack.name,
                "pack_id": pack.id,
                "supplier": self.view.supplier_names[pack.supplier],
                "quantity": amount(pack.quantity if stated is None else stated, item),
            }

    def items(self) -> Iterator[Row]:
        """The items with the number."""
        for item in self._items:
            stated = stated_quantity(self.scan, item)
            yield _match("item", item.id, item) | {
                "quantity": None if stated is None else amount(stated, item)
            }

    def lots(self) -> Iterator[Row]:
        """What stands of the scan's lot, of an item that is matched."""
        lot = self.scan.lot
        if lot is None:
            return
        matched = {pack.item for pack in self._packs} | {item.id for item in self._items}
        for row in every(self.view.connection, BatchRow, house=self.view.id, lot=lot):
            if row.item in matched and row.id in self.view.standing:
                yield self.batch(row)

    def batch(self, row: BatchRow) -> Row:
        """A batch with what there is of it."""
        item, standing = self.view.items[row.item], self.view.standing.get(row.id)
        return _match("batch", row.id, item) | {
            "label": row.label,
            "quantity": amount(standing.on_hand if standing else 0, item),
        }

    @cached_property
    def _packs(self) -> list[Pack]:
        return [pack for pack in self.view.packs if self._carries(pack.gtin)]

    @cached_property
    def _items(self) -> list[Item]:
        rows = every(self.view.connection, ItemRow, house=self.view.id)
        return [self.view.items[row.id] for row in rows if self._carries(row.gtin)]

    def _carries(self, gtin: str | None) -> bool:
        return gtin is not None and gtin.zfill(DIGITS) in self._numbers

    @cached_property
    def _numbers(self) -> frozenset[str]:
        return numbers(self.scan)


def _match(kind: str, id_: str, item: Item) -> Row:
    """A match of which only the item is known yet."""
    return {
        "kind": kind,
        "id": id_,
        "item": item.name,
        "item_id": item.id,
        "pack": None,
        "pack_id": None,
        "supplier": None,
        "quantity": None,
        "label": None,
    }
