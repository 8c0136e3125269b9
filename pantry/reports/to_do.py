"""What the kitchen has to do before a service: pull from the freezer, make (RQ2, RQ3)."""

from collections.abc import Iterable, Iterator
from datetime import datetime
from decimal import Decimal
from operator import itemgetter

from pantry.reports.ahead import Ahead
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.house_time import read_instant
from pantry.rules.measure import Quantity
from pantry.rules.menu import ServiceState
from pantry.rules.stock import BaseUnit

Job = tuple[datetime, Row]
"""The latest moment for it, and what it is."""


def pulls(ahead: Ahead) -> list[Job]:
    """What has to be out of the freezer at the latest when: once for each batch and service."""
    view = ahead.view
    found: dict[tuple[str, str, str], Row] = {}
    for row, part in thaws(view, ahead.coverage):
        places = view.standing[part["batch"]].shelf
        job = {
            "batch": part["batch"],
            "label": part["label"],
            "item": row["item"],
            "area": ", ".join(view.areas.get(place, place) for place in places) or None,
            "quantity": part["quantity"],
            "service": row["service"],
        }
        add(found, (part["thaw_from"], part["batch"], row["service"]), job)
    return _jobs(found)


def thaws(view: View, coverage: Iterable[Row]) -> Iterator[tuple[Row, Row]]:
    """What is given from a freezer and thaws first; what is cooked from frozen does not."""
    for row, part in given(view, coverage):
        if "thaw_from" in part and part["thaw_from"] < row["wanted_by"]:
            yield row, part


def makes(ahead: Ahead) -> list[Job]:
    """What has to be ready when: once for each making and dish that it goes into."""
    found: dict[tuple[str, str, str], Row] = {}
    for row, part in given(ahead.view, ahead.coverage):
        if "making" in part:
            job = {
                "item": row["item"],
                "quantity": part["quantity"],
                "dish": row["dish"],
                "service": row["service"],
            }
            key = f"{row['item']}|{row['service']}"
            add(found, (row["wanted_by"], key, row["dish"]), job)
    return _jobs(found)


def given(view: View, coverage: Iterable[Row]) -> Iterator[tuple[Row, Row]]:
    """Everything that dishes of confirmed services to come are given, with the row it stands in."""
    to_come = {
        service.id
        for service in view.services
        if service.state is ServiceState.CONFIRMED and service.at >= view.now
    }
    for row in coverage:
        if row["service"] in to_come:
            for part in row["from"]:
                yield row, part


def add(found: dict[tuple[str, str, str], Row], key: tuple[str, str, str], job: Row) -> None:
    """Put a job to the others, the quantities of one that is there already together."""
    known = found.get(key)
    if known is not None:
        job = job | {"quantity": _sum(known["quantity"], job["quantity"])}
    found[key] = job


def _sum(one: Row, other: Row) -> Row:
    total = in_thousandths(one) + in_thousandths(other)
    return dict(Quantity(total, BaseUnit(one["unit"])).as_json())


def in_thousandths(quantity: Row) -> int:
    """A quantity as data, in thousandths of its unit."""
    return int(Decimal(quantity["value"]) * 1000)


def _jobs(found: dict[tuple[str, str, str], Row]) -> list[Job]:
    return [(read_instant(key[0]), job) for key, job in sorted(found.items(), key=itemgetter(0))]
