"""What the back door asks for and nobody has seen to yet: what has run out, and other things."""

from pantry.records.rows import every
from pantry.records.tables import AskedForRow
from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View


def asked_for(view: View) -> list[Row]:
    """A row for each thing that is asked for, what is wanted first before the others.

    `words` is what was asked for that is not stocked, or what was said of the item. `on_hand` is
    what the books say of the item all the same, `wanted_by` when the first confirmed service wants
    some of it.
    """
    rows = every(view.connection, AskedForRow, house=view.id, closed_at=None)
    found = [_row(view, row) for row in rows]
    return sorted(found, key=lambda row: (row["wanted_by"] or "9999", row["at"], row["asked"]))


def _row(view: View, row: AskedForRow) -> Row:
    item = view.items.get(row.item or "")
    needs = [need for need in view.needs if need.item == row.item and need.until >= view.now]
    first = min(needs, key=lambda need: (need.wanted_by, need.id), default=None)
    return {
        "asked": row.id,
        "item": item.name if item else None,
        "item_id": row.item,
        "counted": item.measured if item else None,
        "words": row.words,
        "person": row.person,
        "at": instant(row.at),
        "on_hand": amount(_on_hand(view, item.id), item) if item and item.measured else None,
        "wanted_by": instant(first.wanted_by) if first else None,
        "wanted_for": first.service if first else None,
        "version": row.version,
    }


def _on_hand(view: View, item: str) -> int:
    batches = [row.id for row in view.batches if row.item == item]
    return sum(view.standing[batch].on_hand for batch in batches if batch in view.standing)
