"""A recipe of a command as sheets of a house book, so that one reader looks at both.

Rows are counted from 1: the fault of row 3 of `ingredients` is in the third line of the recipe.
"""

from collections.abc import Iterable, Mapping
from datetime import datetime

from sqlalchemy import Connection

from pantry.commands.book.check import Checked, read_all
from pantry.commands.book.known import known
from pantry.commands.book.reading import ALREADY_THERE
from pantry.commands.book.sheets import SHEETS, HouseBook, Sheet
from pantry.commands.recipe_decisions import SetSubstitutes, WriteRecipe
from pantry.commands.recipe_parts import ChangePart, IngredientPart, NewItemPart, SubstitutePart
from pantry.records.slugs import slug
from pantry.refusals import Fault, FaultyBook, declare

RECIPE_FAULTY = declare("recipe_faulty", "The recipe has faults, and nothing of it was taken.")

Row = Mapping[str, str | None]


def read_recipe(connection: Connection, house: str, body: WriteRecipe, at: datetime) -> Checked:
    """The recipe as the house reads it, with its lines, its variants and its new items.

    Raises:
        FaultyBook: `recipe_faulty`, with every fault by sheet, line and column.
    """
    sheets = {
        "items": [_item(part) for part in body.items],
        "recipes": [_recipe(body)],
        "ingredients": [_ingredient(body.recipe, part) for part in body.ingredients],
        "variants": [_change(body.recipe, part) for part in body.variants],
    }
    return _read(connection, house, sheets, at)


def read_substitutes(
    connection: Connection, house: str, body: SetSubstitutes, at: datetime
) -> Checked:
    """What may stand in for an item as the house reads it.

    Raises:
        FaultyBook: `recipe_faulty`, with every fault by line and column.
    """
    rows = [_substitute(body.item, part) for part in body.substitutes]
    return _read(connection, house, {"substitutes": rows}, at)


def _read(
    connection: Connection, house: str, sheets: Mapping[str, Iterable[Row]], at: datetime
) -> Checked:
    stands = known(connection, house)
    book = HouseBook({name: _sheet(name, rows) for name, rows in sheets.items()})
    checked = read_all(book, stands, at)
    faults = [*checked.faults, *_already_there(book, stands.items)]
    if faults:
        count = len(faults)
        raise FaultyBook(
            RECIPE_FAULTY,
            f"The recipe has {count} {'fault' if count == 1 else 'faults'}.",
            "Correct the lines that are named; nothing of it was taken.",
            value=faults[0].value,
            field="body",
            faults=tuple(faults),
        )
    return checked


def _sheet(name: str, rows: Iterable[Row]) -> Sheet:
    numbered = tuple(
        (number, {column: text for column, text in row.items() if text})
        for number, row in enumerate(rows, start=1)
    )
    return Sheet(name, SHEETS[name].every, numbered)


def _already_there(book: HouseBook, items: Mapping[str, object]) -> Iterable[Fault]:
    """A new item must not take the place of one that the house has."""
    sheet = book.sheets.get("items")
    for number, cells in sheet.rows if sheet else ():
        name = cells.get("item", "")
        if slug(name) in items:
            yield Fault(
                "items",
                number,
                "item",
                name,
                ALREADY_THERE,
                f"The house has an item called {name!r} already.",
                "Choose it, or give the new one another name.",
            )


def _recipe(body: WriteRecipe) -> Row:
    return {
        "recipe": body.recipe,
        "kind": body.kind,
        "yield": body.yields,
        "dates": body.dates,
        "life_days": None if body.life_days is None else str(body.life_days),
        "lead": body.lead,
        "full_recipes": _yes(said=body.full_recipes),
        "area": body.area,
        "season_from": body.season_from,
        "season_to": body.season_to,
        "unit_system": body.unit_system,
        "method": body.method,
    }


def _ingredient(recipe: str, part: IngredientPart) -> Row:
    return {
        "recipe": recipe,
        "ingredient": part.ingredient,
        "amount": part.amount,
        "as": "trimmed" if part.trimmed else "as_bought",
        "trimming_yield": part.trimming_yield,
        "scaling": part.scaling,
    }


def _change(recipe: str, part: ChangePart) -> Row:
    return {
        "recipe": recipe,
        "variant": part.variant,
        "change": part.change,
        "ingredient": part.ingredient,
        "with": part.instead,
        "amount": part.amount,
    }


def _item(part: NewItemPart) -> Row:
    return {
        "item": part.item,
        "base_unit": part.base_unit,
        "counted": _yes(said=part.counted),
        "area": part.area,
        "group": part.group,
        "density_g_per_ml": part.density_g_per_ml,
        "piece_weight_g": part.piece_weight_g,
        "contains": part.contains,
        "may_contain": part.may_contain,
    }


def _substitute(item: str, part: SubstitutePart) -> Row:
    return {
        "item": item,
        "substitute": part.substitute,
        "ratio": part.ratio,
        "when": part.when,
    }


def _yes(*, said: bool) -> str:
    return "yes" if said else "no"
