"""Who went to which shop, what was paid, and what was bought: the petty cash, week by week."""

from collections.abc import Iterable, Mapping
from datetime import timedelta

from pantry.records import pictures
from pantry.records.rows import among, every
from pantry.records.tables import BatchRow, ShopRunLineRow, ShopRunRow
from pantry.reports.report import Row, amount, instant, money
from pantry.reports.view import View
from pantry.rules.house_time import local_date

LOOK_BACK = timedelta(weeks=13)
"""Older shop runs are in the journal; nobody settles petty cash of a quarter ago from a screen."""

_MOST_SHOPS = 8


def shop_runs(view: View) -> list[Row]:
    """A row for each shop run of the last quarter, the last one first.

    `week` is the Monday of its week in the house. `total` is what was paid in all, null where
    nobody said; so is a line's `cost`, which is never worked out of the total. `others` is what the
    house has no item of, in words.
    """
    runs = [row for row in _runs(view) if row.at >= view.now - LOOK_BACK]
    ids = [run.command for run in runs]
    lines = among(view.connection, ShopRunLineRow, view.id, "command", ids)
    bought = [line.batch for line in lines if line.batch]
    batches = {row.id: row for row in among(view.connection, BatchRow, view.id, "id", bought)}
    return [
        _row(view, run, [line for line in lines if line.command == run.command], batches)
        for run in runs
    ]


def shops(view: View) -> list[str]:
    """The shops that somebody went to, the last one first."""
    return list(dict.fromkeys(run.shop for run in _runs(view)))[:_MOST_SHOPS]


def _runs(view: View) -> list[ShopRunRow]:
    rows = every(view.connection, ShopRunRow, house=view.id)
    return sorted(rows, key=lambda row: (row.at, row.command), reverse=True)


def _row(
    view: View, run: ShopRunRow, lines: Iterable[ShopRunLineRow], batches: Mapping[str, BatchRow]
) -> Row:
    day = local_date(run.at, view.zone)
    return {
        "run": run.command,
        "at": instant(run.at),
        "week": (day - timedelta(days=day.weekday())).isoformat(),
        "person": run.person,
        "shop": run.shop,
        "total": None if run.total is None else money(run.total, view),
        "lines": [_line(view, line, batches[line.batch]) for line in lines if line.batch],
        "others": [line.words for line in lines if line.words],
        "photos": pictures.named_by(view.connection, view.id, [run.command]),
    }


def _line(view: View, line: ShopRunLineRow, batch: BatchRow) -> Row:
    item = view.items[batch.item]
    return {
        "item": item.name,
        "label": batch.label,
        "counted": item.measured,
        "quantity": amount(batch.quantity, item),
        "cost": None if line.cost is None else money(line.cost, view),
    }
