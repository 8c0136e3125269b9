"""What stands in the house: on hand = available + promised + on hold + emergency meal."""

from pantry.records.read.stock import Standing
from pantry.records.read.worth import worth
from pantry.records.tables import BatchRow
from pantry.reports.report import Row, amount, instant, money
from pantry.reports.view import View
from pantry.rules.measure import Quantity
from pantry.rules.stock import BaseUnit


def stock(view: View) -> list[Row]:
    """A row for each batch of which something stands in the house, by item and what dies first."""
    rows = [row for row in view.batches if _stands(view, row)]
    rows.sort(key=lambda row: (view.item_name(row.item), _dies(row), row.label))
    return [_row(view, row, view.standing[row.id]) for row in rows]


def _stands(view: View, row: BatchRow) -> bool:
    standing = view.standing.get(row.id)
    return standing is not None and (standing.on_hand != 0 or bool(standing.held))


def _dies(row: BatchRow) -> tuple[bool, str, bool, str]:
    usable, good = instant(row.usable_until), instant(row.good_until)
    return (usable is None, usable or "", good is None, good or "")


def _pieces(row: BatchRow, standing: Standing) -> Row | None:
    """How many pieces stand there, of what is counted while weighed (MS1)."""
    held = row.pieces is not None or standing.pieces != 0
    return Quantity(standing.pieces, BaseUnit.EACH).as_json() if held else None


def _row(view: View, row: BatchRow, standing: Standing) -> Row:
    item = view.items[row.item]
    promised = view.promised.get(row.id, 0)
    held = sum(standing.held.values())
    usable = not row.recalled and (row.usable_until is None or row.usable_until >= view.now)
    places = standing.by_area
    main = max(places, key=lambda place: (places[place], place), default=None)
    return {
        "item": item.name,
        "item_id": item.id,
        "batch": row.id,
        "label": row.label,
        "numbered": view.numbered_labels.get(row.id, []),
        "area": view.areas.get(main, main) if main else None,
        "areas": {
            view.areas.get(place, place): amount(quantity, item)
            for place, quantity in sorted(places.items())
        },
        "state": row.state,
        "was_thawed": row.was_thawed,
        "date_mark": {
            "kind": row.date_kind,
            "date": row.mark_date.isoformat() if row.mark_date else None,
        },
        "usable_until": instant(row.usable_until),
        "good_until": instant(row.good_until),
        "left": row.left,
        "on_hand": amount(standing.on_hand, item),
        "pieces": _pieces(row, standing),
        "promised": amount(promised, item),
        "on_hold": amount(held, item),
        "emergency": amount(standing.emergency, item),
        "available": amount(standing.usable - promised, item),
        "usable": usable,
        "flagged": row.good_until is not None and row.good_until < view.now,
        "lot": row.lot,
        "value": money(worth(row, standing), view),
    }
