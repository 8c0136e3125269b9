"""What suppliers sell, in what packs, at what price, and how that changed."""

from fractions import Fraction

from pantry.records.rows import every, grouped
from pantry.records.tables import PackPriceRow, PackRow
from pantry.reports.report import Row, amount, instant, money
from pantry.reports.view import View


def prices(view: View) -> list[Row]:
    """A row for each pack, by supplier and item."""
    kept = every(view.connection, PackPriceRow, house=view.id)
    changes = grouped(kept, lambda row: row.pack)
    rows = [
        _row(view, pack, sorted(changes.get(pack.id, []), key=lambda row: (row.at, row.command)))
        for pack in every(view.connection, PackRow, house=view.id)
        if pack.item in view.items
    ]
    return sorted(rows, key=lambda row: (row["supplier"], row["item"], row["pack"]))


def _row(view: View, pack: PackRow, changes: list[PackPriceRow]) -> Row:
    item = view.items[pack.item]
    return {
        "supplier": view.supplier_names.get(pack.supplier, pack.supplier),
        "supplier_id": pack.supplier,
        "item": item.name,
        "item_id": item.id,
        "pack": pack.name,
        "pack_id": pack.id,
        "quantity": amount(pack.quantity, item),
        "counted": item.measured,
        "price": money(pack.price, view),
        "version": pack.version,
        "dearer_permille": dearer_permille(changes[-1].before, changes[-1].price)
        if changes
        else None,
        "changes": [
            {
                "at": instant(each.at),
                "before": money(each.before, view),
                "price": money(each.price, view),
            }
            for each in changes
        ],
    }


def dearer_permille(before: int, price: int) -> int | None:
    """How much dearer a price is than before, in whole thousandths, half-even; None: of nothing."""
    return round(Fraction(1000 * (price - before), before)) if before else None
