"""The morning sheet: what today brings, what it asks, and what was left unfinished."""

from collections.abc import Iterable, Iterator
from datetime import datetime

from pantry.records.rows import every
from pantry.records.tables import OrderLineRow, ServiceRow
from pantry.reports.ahead import Ahead
from pantry.reports.cold_places import temperatures
from pantry.reports.cut_offs import passed
from pantry.reports.days import days_of
from pantry.reports.expected import outstanding
from pantry.reports.questions import questions
from pantry.reports.report import Row, instant
from pantry.reports.view import View
from pantry.rules.house_time import read_instant
from pantry.rules.measure import show
from pantry.rules.menu import ServiceState
from pantry.rules.unfinished import batch_left, cut_off_left, delivery_left, service_left

UNSERVED = "unserved"
"""The kind of the question that a service raises by its time having passed (LG5)."""


def morning(view: View) -> list[Row]:
    """The rows of today as in `days`, a delivery with its lines; then what was left, as `left`.

    A row that is `left` is `{what, kind, key, since, text, owner}`: a delivery of an earlier day
    that has not come, a service of an earlier day that nobody recorded, a cut-off that passed
    while something was wanted, a batch that died on an earlier day and stands there still, a
    round in which nobody looked how warm a place is, an open question. `owner` is the role that
    settles a question.
    """
    return morning_of(Ahead(view))


def morning_of(ahead: Ahead) -> list[Row]:
    """The same, of what is known of the days ahead already."""
    lines = {order.id: lines for order, lines in ahead.orders}
    today = [
        row | {"lines": _lines(ahead.view, lines[row["order"]])}
        if row["what"] == "delivery"
        else row
        for row in days_of(ahead, 1)
    ]
    view = ahead.view
    left = [
        *_deliveries(ahead),
        *_services(view),
        *_cut_offs(ahead),
        *_died(view),
        *_rounds(view),
        *_questions(view),
    ]
    return [*today, *sorted(left, key=lambda row: (row["since"], row["key"]))]


def _lines(view: View, lines: Iterable[OrderLineRow]) -> list[Row]:
    """What of an order is still awaited."""
    return [
        {
            "item": view.item_name(line.item),
            "pack": view.pack_names[line.pack],
            "packs": line.packs,
        }
        for line in lines
        if outstanding(line)
    ]


def _left(kind: str, key: str, since: str | None, text: str, owner: str | None = None) -> Row:
    return {
        "what": "left",
        "kind": kind,
        "key": key,
        "since": since,
        "text": text,
        "owner": owner,
    }


def _deliveries(ahead: Ahead) -> Iterator[Row]:
    view = ahead.view
    for order, lines in ahead.orders:
        awaited = sum(outstanding(line) for line in lines)
        if delivery_left(order.delivery_at, awaited, view.now, view.zone):
            names = _listed(view.item_name(line.item) for line in lines if outstanding(line))
            text = f"Still awaited from {view.supplier_names[order.supplier]}: {names}."
            yield _left("delivery", order.id, instant(order.delivery_at), text)


def _services(view: View) -> Iterator[Row]:
    for row in _unrecorded(view):
        table = view.tables[row.dining_table].name
        text = f"Nobody has recorded that {row.meal} for {table} was served."
        yield _left("service", row.id, instant(row.at), text)


def _unrecorded(view: View) -> list[ServiceRow]:
    confirmed = ServiceState.CONFIRMED
    rows = every(view.connection, ServiceRow, house=view.id, state=confirmed.value)
    return [row for row in rows if service_left(confirmed, row.at, view.now, view.zone)]


def _cut_offs(ahead: Ahead) -> Iterator[Row]:
    view = ahead.view
    for order in passed(ahead.plan):
        first = order[0]
        needed_at = (at for row in order for at in _needed_at(view, row))
        if cut_off_left(read_instant(first["order_by"]), needed_at, view.now):
            key = f"{first['supplier']}/{first['delivery']}"
            names = _listed(row["item"] for row in order)
            text = f"Not ordered in time of {first['supplier']}: {names}."
            yield _left("cut_off", key, first["order_by"], text)


def _needed_at(view: View, row: Row) -> Iterator[datetime]:
    """When the services that a row is for take place."""
    return (service.at for service in view.services if service.id in row["because"])


def _died(view: View) -> Iterator[Row]:
    for batch in view.batches:
        standing, at = view.standing[batch.id], batch.usable_until
        if at is not None and standing.on_hand > 0 and batch_left(at, view.now, view.zone):
            item = view.items[batch.item]
            text = (
                f"{item.name} {batch.label}, {show(standing.on_hand, item.base_unit)}: "
                "it has died and is not to be used; record it as waste."
            )
            yield _left("batch", batch.id, instant(at), text)


def _rounds(view: View) -> Iterator[Row]:
    missed: dict[str, list[str]] = {}
    ends: dict[str, str] = {}
    for place in temperatures(view):
        for each in place["rounds"]:
            if not each["taken"] and read_instant(each["end"]) <= view.now:
                key = f"{each['day']}/{each['number']}"
                missed.setdefault(key, []).append(place["area"])
                ends[key] = each["end"]
    for key, places in missed.items():
        text = f"Nobody took the temperature of {_listed(places)}."
        yield _left("round", key, ends[key], text)


def _listed(names: Iterable[str]) -> str:
    return "; ".join(dict.fromkeys(names))


def _questions(view: View) -> Iterator[Row]:
    """Open questions, without those about a service that stands among what was left itself."""
    services = {row.id for row in _unrecorded(view)}
    for row in questions(view):
        if row["kind"] != UNSERVED or row["about"] not in services:
            text = f"{row['recorded']} {row['against']}"
            yield _left("question", row["question"], row["opened_at"], text, row["owner"])
