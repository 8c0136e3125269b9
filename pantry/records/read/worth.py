"""What the stock cost that stands in the house, in minor units."""

from collections.abc import Iterable, Mapping

from pantry.records.costs import cost_between
from pantry.records.read.stock import Standing
from pantry.records.tables import BatchRow


def worth(row: BatchRow, standing: Standing) -> int:
    """What the rest of a batch cost: its cost less what has been carried away (MS1)."""
    in_kitchen = sum(standing.kitchen.values())
    gone = row.quantity - sum((*standing.shelf.values(), *standing.held.values(), in_kitchen))
    return row.cost - cost_between(row, 0, gone - standing.emergency)


def worth_by_item(rows: Iterable[BatchRow], stands: Mapping[str, Standing]) -> dict[str, int]:
    """The same of all batches of each item of which something stands in the house."""
    found: dict[str, int] = {}
    for row in rows:
        if row.id in stands:
            found[row.item] = found.get(row.item, 0) + worth(row, stands[row.id])
    return found
