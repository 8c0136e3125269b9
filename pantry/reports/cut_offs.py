"""The rows of the plan put together to orders, each with its deadline."""

from collections.abc import Iterable
from itertools import groupby

from pantry.reports.report import Row


def by_deadline(rows: Iterable[Row]) -> list[list[Row]]:
    """The rows to be ordered, those of one order together, in the order of their deadlines."""
    return _by_order(row for row in rows if row["alert"] != "missed")


def passed(rows: Iterable[Row]) -> list[list[Row]]:
    """The rows that can be had no more because an order-by has passed, by that deadline (PL5)."""
    return _by_order(row for row in rows if row["alert"] == "missed" and row["order_by"])


def _by_order(rows: Iterable[Row]) -> list[list[Row]]:
    orders = sorted(rows, key=_order)
    return [list(order) for _, order in groupby(orders, key=_order)]


def _order(row: Row) -> tuple[str, str, str]:
    return (row["order_by"], row["supplier"], row["delivery"])
