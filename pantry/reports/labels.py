"""What a label says of every batch that stands in the house, and which batches lack one."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from sqlalchemy import bindparam, text

from pantry.records.rows import among, every
from pantry.records.tables import BatchRow, ItemRow, PrintedLabelRow, ReceiptRow
from pantry.reports.allergens import Allergens
from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View
from pantry.rules.house_time import local_date
from pantry.rules.label import Labelled, words_of
from pantry.rules.label_codes import Product
from pantry.rules.label_numbers import as_printed
from pantry.rules.stock import DateKind, DateMark, State

TREATED = frozenset(
    {"decant", "freeze", "harvest", "left_over", "make", "open", "thaw", "vacuum_pack"}
)
"""What has no label that still holds, or never had one."""

CAME = frozenset({"receive", "shop_run"})

_GTIN_DIGITS = 14

_MADE_BY = text(
    "SELECT movement.batch, journal.kind FROM movement"
    " JOIN journal ON journal.house = movement.house AND journal.id = movement.command"
    " WHERE movement.house = :house AND movement.batch IN :batches ORDER BY movement.number DESC"
).bindparams(bindparam("batches", expanding=True))


def labels(view: View) -> list[Row]:
    """A row for each batch that stands in the house, what came last first.

    `wants` is whether a label should be printed for it: it was treated, made or picked here, or
    came today without a code, and has neither a printed label nor a numbered one.
    """
    known = Labels(view)
    rows = [row for row in view.batches if _on_hand(view, row)]
    rows.sort(key=lambda row: (row.state_at, row.id), reverse=True)
    return [known.row(row) for row in rows]


def _on_hand(view: View, row: BatchRow) -> int:
    standing = view.standing.get(row.id)
    return standing.on_hand if standing else 0


@dataclass(frozen=True)
class Labels:
    """What is known of the labels of one house."""

    view: View

    def row(self, row: BatchRow) -> Row:
        """One batch as the report tells it."""
        item, words = self.view.items[row.item], words_of(self.labelled(row), self.view.zone)
        return {
            "item": item.name,
            "item_id": item.id,
            "batch": row.id,
            "label": row.label,
            "numbered": self.view.numbered_labels.get(row.id, []),
            "area": words.area,
            "on_hand": amount(_on_hand(self.view, row), item),
            "done": self._made_by.get(row.id),
            "at": instant(row.state_at),
            "dates": list(words.dates),
            "printed_at": instant(self._printed.get(row.id)),
            "wants": self._wants(row),
        }

    def labelled(self, row: BatchRow) -> Labelled:
        """What a label says of a batch."""
        view, said = self.view, self._allergens.of_item(row.item)
        standing = view.standing.get(row.id)
        places = {**standing.held, **standing.shelf} if standing else {}
        main = max(places, key=lambda place: (places[place], place), default=None)
        return Labelled(
            item=view.item_name(row.item),
            label=row.label,
            house=view.house.name,
            area=view.areas.get(main, main) if main else "",
            state=State(row.state),
            done=self._made_by.get(row.id, ""),
            done_at=row.state_at,
            mark=DateMark(DateKind(row.date_kind), row.mark_date),
            usable_until=row.usable_until,
            good_until=row.good_until,
            usable=not row.recalled and (row.usable_until is None or row.usable_until >= view.now),
            held=bool(standing and standing.held),
            contains=tuple(said["contains"]),
            may_contain=tuple(said["may_contain"]),
            unknown=tuple(said["unknown"]),
            all_unknown=len(said["unknown"]) == self._allergens.listed,
        )

    def product(self, row: BatchRow) -> Product | None:
        """The number, date and lot that the pack itself carries, where it is sealed still."""
        gtin = self._gtin(row)
        if gtin is None or row.lot is None or row.state != State.SEALED:
            return None
        mark = DateMark(DateKind(row.date_kind), row.mark_date)
        return Product(gtin.zfill(_GTIN_DIGITS), mark, row.lot)

    def _gtin(self, row: BatchRow) -> str | None:
        if self._made_by.get(row.id) not in CAME:
            return None
        pack = self._packs.get(row.id)
        of_pack = next((each.gtin for each in self.view.packs if each.id == pack), None)
        return of_pack or self._gtins.get(row.item)

    def _wants(self, row: BatchRow) -> bool:
        has_one = row.id in self._printed or row.id in self.view.numbered_labels
        if has_one or as_printed(row.label):
            return False
        made_by = self._made_by.get(row.id)
        is_of_today = local_date(row.since, self.view.zone) == local_date(
            self.view.now, self.view.zone
        )
        came_bare = made_by in CAME and is_of_today and self._gtin(row) is None
        return made_by in TREATED or came_bare

    @cached_property
    def _allergens(self) -> Allergens:
        return Allergens(self.view)

    @cached_property
    def _made_by(self) -> Mapping[str, str]:
        """The kind of the command that each batch began with: its first movement's."""
        of = {"house": self.view.id, "batches": [row.id for row in self.view.batches]}
        found = self.view.connection.execute(_MADE_BY, of)
        return {str(batch): str(kind) for batch, kind in found}

    @cached_property
    def _printed(self) -> Mapping[str, datetime]:
        rows = every(self.view.connection, PrintedLabelRow, house=self.view.id)
        return {row.batch: row.at for row in rows}

    @cached_property
    def _packs(self) -> Mapping[str, str]:
        """The pack that each batch came in."""
        ids = [row.id for row in self.view.batches]
        rows = among(self.view.connection, ReceiptRow, self.view.id, "batch", ids)
        return {row.batch: row.pack for row in rows if row.pack}

    @cached_property
    def _gtins(self) -> Mapping[str, str]:
        rows = every(self.view.connection, ItemRow, house=self.view.id)
        return {row.id: row.gtin for row in rows if row.gtin}
