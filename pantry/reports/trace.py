"""Where a lot came from and where it went, one step back and forward, and so on to the end.

Each link says whether it was *scanned* or *assumed by FEFO*. For a recall the batches of the same
item that stood on the shelf without a known lot, or with another, are for a person to look at.

Source of the duty: Regulation (EC) No 178/2002, Article 18, one step back and one forward.
"""

from collections.abc import Iterable

from sqlalchemy import text

from pantry.records import accounts
from pantry.records.read.labels import carrier
from pantry.records.rows import every
from pantry.records.tables import BatchParentRow, BatchRow
from pantry.refusals import NotThere, declare
from pantry.reports.report import Row, amount
from pantry.reports.view import View
from pantry.rules.stock import Item

TRACED_NOTHING = declare("traced_nothing", "No batch has that lot, label or id.")

_ORIGINS = frozenset({accounts.SUPPLIER, accounts.GARDEN, accounts.OPENING_STOCK})
_ENDS = frozenset({"served", "transit", accounts.WASTE, accounts.COUNT_DIFFERENCE})

_FLOWS = text(
    "SELECT source, target, link, SUM(quantity) FROM movement"
    " WHERE house = :house AND batch = :batch GROUP BY source, target, link"
    " ORDER BY source, target, link"
)


def trace(view: View, name: str) -> list[Row]:
    """Rows back from and forward to everything a lot, a label or a batch id touches.

    Raises:
        NotThere: `traced_nothing`.
    """
    begun = [row for row in view.every_batch.values() if name in (row.lot, row.label, row.id)]
    labelled = carrier(view.connection, view.id, name)
    if labelled is not None and labelled.id not in {row.id for row in begun}:
        begun.append(labelled)
    if not begun:
        raise NotThere(
            TRACED_NOTHING,
            f"No batch has the lot, label or id {name!r}.",
            "Read it again; goods decanted without their lot are found by their item.",
            value=name,
        )
    links = every(view.connection, BatchParentRow, house=view.id)
    back = _reached(view, begun, [(link.batch, link.parent) for link in links])
    forward = _reached(view, begun, [(link.parent, link.batch) for link in links])
    rows = [_back(view, row, links) for row in back]
    rows += [_forward(view, row, links) for row in forward]
    return rows + [_beside(view, row) for row in _same_items(view, begun, forward)]


def _reached(view: View, begun: list[BatchRow], steps: Iterable[tuple[str, str]]) -> list[BatchRow]:
    """The batches reached from the first ones, those first, each once."""
    onward: dict[str, list[str]] = {}
    for source, target in steps:
        onward.setdefault(source, []).append(target)
    found = dict.fromkeys(row.id for row in begun)
    waiting = list(found)
    for batch in waiting:
        new = [target for target in onward.get(batch, ()) if target not in found]
        found |= dict.fromkeys(new)
        waiting.extend(new)
    return [view.every_batch[name] for name in found]


def _row(view: View, direction: str, row: BatchRow, link: str) -> Row:
    return {
        "direction": direction,
        "item": view.item_name(row.item),
        "batch": row.id,
        "label": row.label,
        "lot": row.lot,
        "link": link,
    }


def _back(view: View, row: BatchRow, links: list[BatchParentRow]) -> Row:
    """What a batch came from: its parents, or its supplier, the garden, the first stock."""
    parents = [link for link in links if link.batch == row.id]
    origins: list[Row] = [
        {
            "batch": link.parent,
            "label": view.every_batch[link.parent].label,
            "link": link.link,
            "quantity": amount(link.quantity, _item_of(view, link.parent)),
        }
        for link in parents
    ]
    assumed = any(link.link == "assumed" for link in parents)
    return _row(view, "back", row, "assumed" if assumed else "scanned") | {
        "from": origins or _origins(view, row)
    }


def _origins(view: View, row: BatchRow) -> list[Row]:
    supplier = view.supplier_names.get(row.supplier or "", row.supplier)
    return [
        {
            "account": accounts.kind(source),
            "supplier": supplier,
            "quantity": amount(quantity, view.items[row.item]),
        }
        for source, _, _, quantity in _flows(view, row)
        if accounts.kind(source) in _ORIGINS
    ]


def _forward(view: View, row: BatchRow, links: list[BatchParentRow]) -> Row:
    """Where a batch went: into batches, to services, to waste, and what still stands."""
    item = view.items[row.item]
    destinations: list[Row] = [
        {
            "batch": link.batch,
            "label": view.every_batch[link.batch].label,
            "link": link.link,
            "quantity": amount(link.quantity, item),
        }
        for link in links
        if link.parent == row.id
    ]
    destinations += [
        {
            "account": accounts.kind(target),
            "service": accounts.place(target) or None,
            "link": link,
            "quantity": amount(quantity, item),
        }
        for _, target, link, quantity in _flows(view, row)
        if accounts.kind(target) in _ENDS
    ]
    assumed = any(each["link"] == "assumed" for each in destinations)
    return _row(view, "forward", row, "assumed" if assumed else "scanned") | {
        "to": destinations + _stands(view, row)
    }


def _stands(view: View, row: BatchRow) -> list[Row]:
    """What of a batch still stands in the house, area by area."""
    standing = view.standing.get(row.id)
    if standing is None:
        return []
    return [
        {
            "area": view.areas.get(place, place),
            "on_hold": place in standing.held,
            "quantity": amount(quantity, view.items[row.item]),
        }
        for place, quantity in (standing.shelf | standing.held).items()
    ]


def _flows(view: View, row: BatchRow) -> list[tuple[str, str, str, int]]:
    found = view.connection.execute(_FLOWS, {"house": view.id, "batch": row.id})
    return [(source, target, link, int(quantity)) for source, target, link, quantity in found]


def _item_of(view: View, batch: str) -> Item:
    return view.items[view.every_batch[batch].item]


def _same_items(view: View, begun: list[BatchRow], forward: list[BatchRow]) -> list[BatchRow]:
    """Other batches of the same items that stand in the house: FEFO may have mistaken one."""
    items, known = {row.item for row in begun}, {row.id for row in forward}
    return [
        row
        for row in view.batches
        if row.item in items and row.id not in known and view.standing.get(row.id)
    ]


def _beside(view: View, row: BatchRow) -> Row:
    return _row(view, "beside", row, "assumed") | {"to": _stands(view, row)}
