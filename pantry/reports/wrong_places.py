"""What stands in the wrong place, and where it is moved to."""

from collections.abc import Iterator

from pantry.records.rows import every
from pantry.records.tables import AreaRow, BatchRow, ItemRow
from pantry.reports.report import Row, amount
from pantry.reports.view import View
from pantry.rules.stock import AreaKind, State
from pantry.rules.wrong_place import BELONGS, Wrong, wrong_place

_ORDER = list(Wrong)


def wrong_places(view: View) -> list[Row]:
    """A row for each batch and storage area it does not belong in, the most urgent first.

    `into` is where it is moved to: its item's own place where that is of the right kind, else the
    first such place; null: the house has none.
    """
    rows = every(view.connection, AreaRow, house=view.id)
    areas = {row.id: row for row in sorted(rows, key=lambda row: (row.shelf_order, row.name))}
    homes = {row.id: row.area for row in every(view.connection, ItemRow, house=view.id)}
    found = [row for batch in view.batches for row in _of(view, batch, areas, homes[batch.item])]
    return sorted(
        found, key=lambda row: (_ORDER.index(row["wrong"]), row["area"], row["item"], row["label"])
    )


def _of(view: View, batch: BatchRow, areas: dict[str, AreaRow], home: str | None) -> Iterator[Row]:
    item = view.items[batch.item]
    for place, quantity in view.standing[batch.id].by_area.items():
        wrong = wrong_place(
            AreaKind(areas[place].kind),
            State(batch.state),
            home=AreaKind(areas[home].kind) if home else None,
            was_thawed=batch.was_thawed,
            high_risk=item.high_risk,
        )
        if wrong is None or quantity <= 0:
            continue
        into = _into(areas, home, wrong)
        yield {
            "wrong": wrong.value,
            "item": item.name,
            "item_id": item.id,
            "batch": batch.id,
            "label": batch.label,
            "state": batch.state,
            "area": areas[place].name,
            "area_id": place,
            "quantity": amount(quantity, item),
            "into": into and into.name,
            "into_id": into and into.id,
        }


def _into(areas: dict[str, AreaRow], home: str | None, wrong: Wrong) -> AreaRow | None:
    kind = BELONGS[wrong]
    if home and (wrong is Wrong.NOT_FROZEN or areas[home].kind == kind):
        return areas[home]
    return next((area for area in areas.values() if area.kind == kind), None)
