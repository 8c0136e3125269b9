"""What the deliveries of a week cost, against what the house means to spend in one."""

from datetime import date, timedelta

from pantry.records.rows import among, every, find
from pantry.records.tables import BudgetRow, FreeLineRow, OrderLineRow, OrderRow
from pantry.reports.report import Row, money
from pantry.reports.view import View
from pantry.rules.house_time import local_date

BACK, AHEAD = 3, 3
"""So many weeks before and after the present one are told."""

_WEEK = timedelta(days=7)


def budget(view: View) -> list[Row]:
    """A row for each week, the earliest first; a delivery's charge counts once.

    What was cancelled costs nothing; what nobody priced is counted and not guessed.
    """
    row = find(view.connection, BudgetRow, house=view.id)
    this = monday(local_date(view.now, view.zone))
    weeks = [this + _WEEK * number for number in range(-BACK, AHEAD + 1)]
    orders = [
        order
        for order in every(view.connection, OrderRow, house=view.id)
        if order.state != "cancelled" and _week_of(view, order) in weeks
    ]
    ids = [order.id for order in orders]
    lines = among(view.connection, OrderLineRow, view.id, "purchase_order", ids)
    free = among(view.connection, FreeLineRow, view.id, "purchase_order", ids)
    return [
        {"week": week.isoformat()}
        | _sums(view, [order for order in orders if _week_of(view, order) == week], lines, free)
        | {
            "budget": money(row.amount, view) if row and row.amount is not None else None,
            "version": row.version if row else 0,
        }
        for week in weeks
    ]


def _sums(
    view: View, orders: list[OrderRow], lines: list[OrderLineRow], free: list[FreeLineRow]
) -> Row:
    named = {order.id for order in orders}
    prices = {pack.id: pack.price for pack in view.packs}
    of_week = [line for line in lines if line.purchase_order in named]
    in_words = [line for line in free if line.purchase_order in named]
    goods = sum(line.packs * prices.get(line.pack, 0) for line in of_week)
    deliveries = {(order.supplier, order.delivery_at) for order in orders}
    charges = sum(view.suppliers[supplier].charge for supplier, _ in deliveries)
    unpriced = sum(not prices.get(line.pack) for line in of_week) + len(in_words)
    return {
        "orders": len(orders),
        "ordered": money(goods + charges, view),
        "unpriced": unpriced,
    }


def _week_of(view: View, order: OrderRow) -> date:
    return monday(local_date(order.delivery_at, view.zone))


def monday(day: date) -> date:
    """The Monday of a day's week (ISO 8601)."""
    return day - timedelta(days=day.weekday())
