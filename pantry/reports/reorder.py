"""What must be ordered, by deadline and supplier, with what it costs: the report one prints."""

from dataclasses import dataclass

from pantry.records.rows import every
from pantry.records.tables import OrderRow, PackRow
from pantry.reports.plan import plan
from pantry.reports.report import Row, money
from pantry.reports.view import View
from pantry.rules.house_time import write_instant

_TOLD = (
    "order_by",
    "alert",
    "supplier",
    "delivery",
    "item",
    "packs",
    "pack",
    "net",
    "cost",
    "because",
    "wanted_by",
    "at_risk",
)


@dataclass(frozen=True, slots=True)
class Together:
    """What the lines for one delivery come to, in minor units; a charge paid already is none."""

    goods: int
    charge: int
    below_minimum: int

    @property
    def total(self) -> int:
        """Goods and charge."""
        return self.goods + self.charge


def reorder(view: View) -> list[Row]:
    """A row for each line, by deadline, supplier and item; what no delivery can make is last.

    `order` is the open order for the same delivery, to which the line is added: its charge is paid
    already. `charge` and `minimum` are those of the whole delivery, on each of its lines.
    """
    known = {row.name: row for row in view.suppliers.values()}
    prices = {
        (view.supplier_names.get(row.supplier), view.item_name(row.item), row.name): row.price
        for row in every(view.connection, PackRow, house=view.id)
    }
    placed = _placed(view)
    rows = []
    for row in plan(view):
        supplier = known.get(row["supplier"])
        order = placed.get((row["supplier"], row["delivery"]))
        price = prices.get((row["supplier"], row["item"], row["pack"]))
        rows.append(
            {name: row[name] for name in _TOLD}
            | {
                "price": None if price is None else money(price, view),
                "order": order,
                "charge": money(supplier.charge if supplier and not order else 0, view),
                "minimum": money(supplier.minimum if supplier else 0, view),
            }
        )
    return sorted(rows, key=_by_deadline)


def _by_deadline(row: Row) -> tuple[bool, str, str, str]:
    is_missed = row["alert"] == "missed"
    return (is_missed, row["order_by"] or row["wanted_by"], row["supplier"] or "", row["item"])


def _placed(view: View) -> dict[tuple[str, str], str]:
    """The first open order for each delivery, by the supplier's name and the instant."""
    found: dict[tuple[str, str], str] = {}
    for row in every(view.connection, OrderRow, house=view.id, state="open"):
        key = (view.supplier_names[row.supplier], write_instant(row.delivery_at))
        found.setdefault(key, row.id)
    return found


def together(lines: list[Row]) -> Together:
    """What the lines of one delivery come to; the minimum is that of a new order alone."""
    first = lines[0]
    goods = sum(line["cost"]["minor"] for line in lines)
    short = 0 if first["order"] else max(0, first["minimum"]["minor"] - goods)
    return Together(goods, first["charge"]["minor"], short)
