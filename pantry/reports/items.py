"""Everything that is stocked, with the packs it is sold in; no price stands here (SY10)."""

from collections.abc import Mapping, Sequence

from pantry.records.read.lives import food_of
from pantry.records.rows import every
from pantry.records.tables import ItemRow
from pantry.reports.allergens import Allergens
from pantry.reports.report import Row, amount
from pantry.reports.view import View
from pantry.rules.house_time import Span, write_span
from pantry.rules.stock import BaseUnit, Item
from pantry.rules.supply import Pack


def items(view: View) -> list[Row]:
    """A row for each item, by name.

    `counted` is false for what nobody measures; that has a `level` (plenty, low, out) and what is
    counted has none. `food` is what it is received as, where the food-safety policy has limits for
    its group; `in_pieces` whether it is weighed and counted both. Allergens are those of the item
    and of every product of it; what a preparation contains comes from its recipe. What is `unknown`
    is not free (AL3). `lives` are those by which the date of what is opened, frozen or thawed is
    reckoned where the house is not asked.
    """
    packs: dict[str, list[Pack]] = {}
    for pack in view.packs:
        packs.setdefault(pack.item, []).append(pack)
    allergens = Allergens(view)
    rows = every(view.connection, ItemRow, house=view.id)
    return [
        _row(view, row, packs.get(row.id, ()), allergens.of_item(row.id))
        for row in sorted(rows, key=lambda row: (row.name, row.id))
    ]


def _row(
    view: View, row: ItemRow, packs: Sequence[Pack], allergens: Mapping[str, list[str]]
) -> Row:
    return {
        "id": row.id,
        "item": row.name,
        "version": row.version,
        "unit": row.base_unit,
        "group": row.group,
        "area": view.areas.get(row.area) if row.area else None,
        "area_id": row.area,
        "counted": row.measured,
        "level": None if row.measured else row.level,
        "food": food_of(view.policy, row.group),
        "in_pieces": row.base_unit != BaseUnit.EACH and (row.whole or row.piece_weight is not None),
        "high_risk": row.high_risk,
        "whole": row.whole,
        "gtin": row.gtin,
        "density_g_per_ml": row.density,
        "piece_weight_g": row.piece_weight,
        **allergens,
        "lives": _lives(view, row),
        "packs": [_pack(view, pack) for pack in packs],
    }


def _lives(view: View, row: ItemRow) -> Row:
    lives, item = view.lives, view.items[row.id]
    days, hours = lives.opened(item)
    by_weight = item.base_unit is not BaseUnit.EACH and not _is_piece_known(item)
    return {
        "opened_days": days,
        "opened_hours": hours,
        "frozen_days": row.frozen_life_days,
        "thawed_hours": lives.thawed_hours(item),
        "thaw_time": None if by_weight else write_span(Span(exact=lives.thaw_time(item, 0))),
    }


def _is_piece_known(item: Item) -> bool:
    is_mass = item.base_unit is BaseUnit.G or item.density is not None
    return item.whole and item.piece_weight is not None and is_mass


def _pack(view: View, pack: Pack) -> Row:
    return {
        "id": pack.id,
        "pack": pack.name,
        "supplier": view.supplier_names[pack.supplier],
        "supplier_id": pack.supplier,
        "quantity": amount(pack.quantity, view.items[pack.item]),
        "gtin": pack.gtin,
    }
