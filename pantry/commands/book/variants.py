"""The sheets `variants` and `substitutes`: what a recipe or an item may give way to."""

from collections.abc import Mapping

from pantry.commands.book import cells
from pantry.commands.book.reading import Line, Reading
from pantry.commands.book.recipes import exact_amount
from pantry.records.slugs import slug
from pantry.records.tables import SubstituteRow, VariantRow
from pantry.refusals import declare
from pantry.rules.menu import Change
from pantry.rules.variants import VARIANT_LINE_MISSING, VARIANT_UNCLEAR

SUBSTITUTE_OF_ITSELF = declare("substitute_of_itself", "An item cannot take its own place.")

Lines = Mapping[str, list[str]]
"""The items each recipe is made of, by the recipe's id."""


class _Variants:
    """The variants read so far: the lines that each has by now, and how its name is written."""

    def __init__(self, lines: Lines) -> None:
        self.recipes = lines
        self.names: dict[tuple[str, str], str] = {}
        self.now: dict[tuple[str, str], list[str]] = {}
        self.count: dict[tuple[str, str], int] = {}

    def begin(self, recipe: str, name: str) -> tuple[str, str]:
        """The key of a variant, which begins as the recipe stands."""
        key = recipe, slug(name)
        self.names.setdefault(key, name)
        self.now.setdefault(key, list(self.recipes.get(recipe, ())))
        self.count[key] = self.count.get(key, -1) + 1
        return key


def read_variants(reading: Reading, lines: Lines) -> dict[str, list[str]]:
    """Every row of `variants`; the names of the variants of each recipe of the book.

    Changes apply in their order, so a later one may change what an earlier one has added.
    """
    known = _Variants(lines)
    for line in reading.lines("variants"):
        recipe = line.refer("recipe", reading.recipes)
        line.identity("variant")
        key = known.begin(recipe, line.text("variant"))
        reading.rows.append(_change(line, known, key))
    names: dict[str, list[str]] = {}
    for (recipe, _), name in known.names.items():
        names.setdefault(recipe, []).append(name)
    return names


def _change(line: Line, known: _Variants, key: tuple[str, str]) -> VariantRow:
    reading = line.reading
    change = Change(line.read("change", cells.one_of(*Change), Change.ADD.value))
    item = line.refer("ingredient", reading.items)
    with_item = line.optional("with", reading.items)
    amount = exact_amount(line, "amount", with_item or item, key[0])
    now = known.now[key]
    if not line.faulty:
        _refuse_misfit(line, change, (item, with_item), now)
    if change is Change.ADD:
        now.append(with_item or item)
    elif item in now:
        now.remove(item)
        now.extend([with_item or item] if change is Change.REPLACE else [])
    counts = change is not Change.LEAVE_OUT and (line.text("amount") or change is Change.ADD)
    return VariantRow(
        house=reading.house.id,
        recipe=key[0],
        variant=known.names[key],
        line=known.count[key],
        change=change.value,
        item=item,
        with_item=with_item,
        written=line.text("amount") or None,
        amount=str(amount) if counts else None,
    )


def _refuse_misfit(
    line: Line, change: Change, items: tuple[str, str | None], now: list[str]
) -> None:
    """Refuse a change of what the recipe does not have, or one that does not say enough."""
    item, with_item = items
    if change is not Change.ADD and item not in now:
        line.fault(
            "ingredient",
            VARIANT_LINE_MISSING,
            f"{line.text('recipe')} has no {line.text('ingredient')} to change.",
            "Name an ingredient of the recipe, or add it.",
        )
    elif change is Change.LEAVE_OUT:
        _refuse_more(line)
    elif not line.text("amount"):
        _refuse_less(line, change, item, with_item)


def _refuse_more(line: Line) -> None:
    for column in ("with", "amount"):
        if line.text(column):
            line.fault(
                column,
                VARIANT_UNCLEAR,
                "What is left out has nothing in its place, and no amount.",
                "Empty the cell, or write replace.",
            )


def _refuse_less(line: Line, change: Change, item: str, with_item: str | None) -> None:
    """Refuse a change without an amount where the recipe's own cannot stand for it."""
    known = line.reading.items.things
    old, new = known.get(item), known.get(with_item or item)
    if old is None or new is None or not new.measured:
        return
    if change is Change.ADD:
        line.missing("amount", "How much is added is not said.")
    elif with_item is None:
        line.missing("with", "What takes its place, or how much of it there is, is not said.")
    elif old.base_unit is not new.base_unit or not old.measured:
        line.missing(
            "amount",
            f"{new.name} is measured in {new.base_unit}, what it replaces is not.",
        )


def read_substitutes(reading: Reading) -> None:
    """Every row of `substitutes`."""
    seen: dict[tuple[str, ...], int] = {}
    for line in reading.lines("substitutes"):
        item = line.refer("item", reading.items)
        substitute = line.refer("substitute", reading.items)
        line.once(seen, item, substitute, column="substitute")
        if item and item == substitute:
            line.fault(
                "substitute",
                SUBSTITUTE_OF_ITSELF,
                f"{line.text('item')} cannot take its own place.",
                "Name another item.",
            )
        reading.rows.append(
            SubstituteRow(
                house=reading.house.id,
                item=item,
                substitute=substitute,
                ratio=str(line.read("ratio", cells.decimal, None) or 1),
                condition=line.text("when"),
            )
        )
