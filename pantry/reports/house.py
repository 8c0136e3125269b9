"""The house itself: what it is set to, its places, its tables, who sells to it, what it has yet."""

from datetime import timedelta

from pantry.handbook.policies import CAUTION, Policy, Stricter
from pantry.records.read.house import numbers_of
from pantry.records.rows import every
from pantry.records.tables import AreaRow, LabelRangeRow, SupplierRow
from pantry.reports.report import Row
from pantry.reports.shop_runs import shops
from pantry.reports.view import View
from pantry.rules.house_time import Span, write_span
from pantry.rules.temperature import degrees


def house(view: View) -> list[Row]:
    """One row: settings, storage areas in the order of the shelves, tables by rank, suppliers.

    `receiving` is how warm each food may come in by the food-safety policy of the house, with the
    `caution` that stands wherever it is shown (SL5); `lives` how long food keeps by it.
    `shops` are those that somebody went to, the last one first. `numbers_printed` tells a label
    that was printed here from any other number.
    `notice` is an ISO 8601 duration, temperature limits are degrees Celsius as decimal text. `has`
    is how much there is of what a house begins with; `people` those who may give commands.
    """
    return [
        {
            "name": view.house.name,
            "zone": view.house.zone,
            "currency": view.house.currency,
            "unit_system": view.house.unit_system,
            "decimal_mark": view.row.decimal_mark,
            "notice": write_span(view.house.notice),
            "people": view.house.people,
            "areas": _areas(view),
            "tables": _tables(view),
            "suppliers": _suppliers(view),
            "shops": shops(view),
            "numbers_printed": _numbers_printed(view),
            "receiving": [_received(view.policy, food) for food in view.policy.names("receiving")],
            "lives": _lives(view),
            "caution": CAUTION,
            "has": numbers_of(view.connection, view.id),
        }
    ]


def _received(rules: Policy, food: str) -> Row:
    accept = rules.number(f"receiving.{food}.accept")
    refuse = rules.number(f"receiving.{food}.refuse")
    return {
        "food": food,
        "hot": refuse.stricter is Stricter.HIGHER,
        "accept_c": degrees(accept.amount),
        "accept": accept.written,
        "accept_source": accept.source,
        "refuse_c": degrees(refuse.amount),
        "refuse": refuse.written,
        "refuse_source": refuse.source,
    }


def _lives(view: View) -> Row:
    lives = view.lives
    water = lives.policy.number("thawing.water.highest")
    return {
        "vacuum_days": lives.vacuum_days(),
        "thaw_weight_g": lives.policy.number("thawing.step.weight").amount,
        "thaw_step": write_span(
            Span(exact=timedelta(hours=lives.policy.number("thawing.step.time").amount))
        ),
        "thawing_counts": lives.policy.thawing_counts,
        "thaw_water": water.written,
        "thaw_water_source": water.source,
    }


def _areas(view: View) -> list[Row]:
    rows = every(view.connection, AreaRow, house=view.id)
    return [
        {
            "id": row.id,
            "area": row.name,
            "kind": row.kind,
            "min_c": None if row.min_tenths is None else degrees(row.min_tenths),
            "max_c": None if row.max_tenths is None else degrees(row.max_tenths),
        }
        for row in sorted(rows, key=lambda row: (row.shelf_order, row.name))
    ]


def _tables(view: View) -> list[Row]:
    tables = sorted(view.tables.values(), key=lambda table: (table.rank, table.name))
    return [
        {
            "id": table.id,
            "table": table.name,
            "rank": table.rank,
            "usual_covers": table.usual_covers,
        }
        for table in tables
    ]


def _numbers_printed(view: View) -> list[Row]:
    """What was reserved, in as few ranges as can be: mostly one, as each goes on after the last."""
    found: list[Row] = []
    for row in sorted(
        every(view.connection, LabelRangeRow, house=view.id), key=lambda it: it.first
    ):
        if found and row.first <= found[-1]["last"] + 1:
            found[-1]["last"] = max(row.last, found[-1]["last"])
        else:
            found.append({"first": row.first, "last": row.last})
    return found


def _suppliers(view: View) -> list[Row]:
    """Each with its version, on which the decision to order of it is taken."""
    rows = every(view.connection, SupplierRow, house=view.id)
    return [
        {"id": row.id, "supplier": row.name, "version": row.version}
        for row in sorted(rows, key=lambda row: row.name)
    ]
