"""The sheet `items`, and the items that the house's own preparations are."""

import json
from dataclasses import replace
from fractions import Fraction

from pantry.commands.book import amounts, cells
from pantry.commands.book.declared import read_declared
from pantry.commands.book.reading import Line, Reading
from pantry.commands.set_par import PAR_UPSIDE_DOWN
from pantry.records.tables import ItemRow
from pantry.refusals import MissingFact, declare
from pantry.rules.recipes import piece_of
from pantry.rules.stock import BaseUnit, Item

BASE_UNIT_FIXED = declare("base_unit_fixed", "An item stays measured in what it is measured in.")
GTIN_TAKEN = declare("gtin_taken", "Two items have the same product number.")

PREPARATIONS = "preparations"
"""The group of an item that is in the house only because a recipe makes it."""

_AT_LEAST_ONE = cells.whole(1)


def read_items(reading: Reading) -> None:
    """Every row of `items`; amounts in it are of the item itself."""
    for line in reading.lines("items"):
        identity = line.name("item", reading.items)
        item = _item(line, identity)
        if line.faulty:
            reading.doubtful.add(identity)
        _refuse_another_unit(line, item)
        _refuse_unknown_piece(line, item)
        reading.items.things[identity] = item
        item = _with_levels(line, item)
        reading.items.things[identity] = item
        row = as_row(reading, item, line.text("group"), line.optional("area", reading.areas))
        row.gtin = product_number(line, identity)
        reading.rows.append(row)


def _item(line: Line, identity: str) -> Item:
    return Item(
        id=identity,
        name=line.text("item"),
        base_unit=BaseUnit(line.read("base_unit", cells.one_of(*BaseUnit), "g")),
        measured=line.says("counted", otherwise=True),
        whole=line.says("whole"),
        density=line.read("density_g_per_ml", cells.decimal, None),
        piece_weight=line.read("piece_weight_g", cells.decimal, None),
        opened_life_days=line.read("opened_life_days", _AT_LEAST_ONE, None),
        thawed_life_hours=line.read("thawed_life_hours", _AT_LEAST_ONE, None),
        frozen_life_days=line.read("frozen_life_days", _AT_LEAST_ONE, None),
        high_risk=line.says("high_risk"),
        declared=read_declared(line),
    )


def _with_levels(line: Line, item: Item) -> Item:
    """The item with its floor, the level an order brings it back to, and its daily use."""
    floor, level, daily = (
        amounts.quantity(line, column, item, least=0) if line.text(column) else None
        for column in ("floor", "order_up_to", "daily_per_head")
    )
    if floor is not None and level is not None and level < floor and not line.faulty:
        line.fault(
            "order_up_to",
            PAR_UPSIDE_DOWN,
            f"{item.name} would be ordered up to less than its floor.",
            "Order up to the floor or above.",
        )
    return replace(item, floor=floor, order_up_to=level, daily_per_head=daily or 0)


def _refuse_another_unit(line: Line, item: Item) -> None:
    """What stands of an item would be another quantity in another unit."""
    stands = line.reading.known.items.get(item.id)
    if stands and stands.base_unit is not item.base_unit and "base_unit" not in line.faulty:
        line.fault(
            "base_unit",
            BASE_UNIT_FIXED,
            f"{item.name} is measured in {stands.base_unit} in this house.",
            f"Write {stands.base_unit}, or give the new item another name.",
        )


def _refuse_unknown_piece(line: Line, item: Item) -> None:
    """What is taken in whole pieces needs to be known by the piece (MS3)."""
    try:
        piece_of(item)
    except MissingFact as refusal:
        if not line.faulty:
            line.refused(
                "piece_weight_g" if item.piece_weight is None else "density_g_per_ml", refusal
            )


def made_here(line: Line, identity: str, unit: BaseUnit, area: str | None) -> Item:
    """The item that a preparation is, where no sheet names it: made and kept like any other."""
    reading = line.reading
    item = Item(id=identity, name=line.text("recipe"), base_unit=unit)
    reading.items.things[identity] = item
    if line.faulty:
        reading.doubtful.add(identity)
    reading.rows.append(as_row(reading, item, PREPARATIONS, area))
    return item


def as_row(reading: Reading, item: Item, group: str, area: str | None) -> ItemRow:
    """An item as it is kept."""
    declared = item.declared
    return ItemRow(
        house=reading.house.id,
        id=item.id,
        name=item.name,
        base_unit=item.base_unit.value,
        group=group,
        area=area,
        measured=item.measured,
        whole=item.whole,
        density=_written(item.density),
        piece_weight=_written(item.piece_weight),
        opened_life_days=item.opened_life_days,
        thawed_life_hours=item.thawed_life_hours,
        frozen_life_days=item.frozen_life_days,
        high_risk=item.high_risk,
        contains=json.dumps(sorted(declared.contains)),
        may_contain=json.dumps(sorted(declared.may_contain)),
        free_of=json.dumps(sorted(declared.free_of)),
        floor=item.floor,
        order_up_to=item.order_up_to,
        daily_per_head=item.daily_per_head,
    )


def _written(number: Fraction | None) -> str | None:
    return None if number is None else str(number)


def product_number(line: Line, item: str) -> str | None:
    """The product number of a row, which is of one item, or a scan could not tell which."""
    number = line.read("gtin", cells.gtin, None)
    if number is None or item not in line.reading.items.things:
        return number
    before = line.reading.numbers.setdefault(number, item)
    if before != item:
        line.fault(
            "gtin",
            GTIN_TAKEN,
            f"{line.text('gtin')} is the product number of {before} too.",
            "Copy the digits below the barcode again.",
        )
    return number
