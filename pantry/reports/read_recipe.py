"""Somebody else's recipe against this house's items: what is sure, and what a person decides."""

from collections.abc import Iterable, Mapping
from fractions import Fraction

from pantry.refusals import Refusal
from pantry.reports.report import Row, amount
from pantry.reports.view import View
from pantry.rules.amounts import UnitSystem, read_amount
from pantry.rules.ingredient_lines import ReadLine, Shelf, read_line
from pantry.rules.measure import Quantity, in_base_units, to_thousandths
from pantry.rules.pack_words import words_of
from pantry.rules.recipe_documents import Document, recipes_in
from pantry.rules.stock import BaseUnit, Item
from pantry.rules.units import Dimension, dimension_of, factor_of

_BASE = {
    Dimension.MASS: BaseUnit.G,
    Dimension.VOLUME: BaseUnit.ML,
    Dimension.COUNT: BaseUnit.EACH,
}


def read_recipe(view: View, text: str, system: UnitSystem | None = None) -> list[Row]:
    """The recipes of a document, each line with how sure it is; nothing is written.

    Args:
        view: the house.
        text: JSON-LD, a saved page with it, or lines.
        system: whose cups and pints, where a person has said it; None: the house's are shown and
            every line that depends on it is doubtful.

    Raises:
        UnreadableInput: `document_unreadable`.
    """
    shelf = _shelf(view)
    return [_document(view, shelf, each, system) for each in recipes_in(text)]


def _shelf(view: View) -> Shelf:
    mark = view.house.decimal_mark
    return Shelf(view.items, words_of(view.packs), mark if mark == "," else None)


def _document(view: View, shelf: Shelf, found: Document, system: UnitSystem | None) -> Row:
    whose = system or UnitSystem(view.house.unit_system)
    return {
        "name": found.name,
        "yields": found.yields,
        "yields_written": found.yields_written,
        "lead": found.lead,
        "unit_system": whose.value,
        "method": found.method,
        "not_believed": list(found.not_believed),
        "lines": [
            _line(view, read_line(line, shelf, whose, system_said=system is not None))
            for line in found.ingredients
        ],
    }


def _line(view: View, line: ReadLine) -> Row:
    return {
        "written": line.written,
        "amount": line.amount,
        "measured": _plain(*line.measured) if line.measured else None,
        "in_item": _rounded(line.in_item, view.items[line.item]) if line.item else None,
        "item": view.item_name(line.item) if line.item else None,
        "candidates": [view.item_name(each) for each in line.candidates],
        "note": line.note,
        "sureness": line.sureness.value,
        "doubts": [doubt.value for doubt in line.doubts],
    }


def _rounded(exact: Fraction | None, item: Item) -> Mapping[str, str] | None:
    return None if exact is None else _safely(exact, item.base_unit)


def _plain(exact: Fraction, dimension: Dimension) -> Mapping[str, str] | None:
    return _safely(exact, _BASE[dimension])


def _safely(exact: Fraction, unit: BaseUnit) -> Mapping[str, str] | None:
    try:
        return Quantity(to_thousandths(exact), unit).as_json()
    except Refusal:
        return None


def read_amounts(view: View, lines: Iterable[tuple[str, str]], system: UnitSystem) -> list[Row]:
    """What amounts come to, each of the item named beside it, while somebody writes a recipe.

    `measured` is the amount by itself (`1 1/2 cups` in ml), `in_item` of the item; `problem` and
    `todo` say why there is none. An item that is not known yet has the first alone.
    """
    shelf = _shelf(view)
    named = {item.name.casefold(): item for item in view.items.values()}
    return [
        _understood(shelf, named.get(name.strip().casefold()), written, system)
        for name, written in lines
    ]


def _understood(shelf: Shelf, item: Item | None, written: str, system: UnitSystem) -> Row:
    said: Row = {"measured": None, "in_item": None, "problem": None, "todo": None}
    if item is not None and not item.measured:
        return said
    try:
        read = read_amount(written, system, decimal_mark=shelf.decimal_mark)
        if read.dimension is not Dimension.WORD:
            said["measured"] = _plain(read.value * factor_of(read.unit), dimension_of(read.unit))
        if item is not None:
            exact = in_base_units(
                read,
                item.base_unit,
                density=item.density,
                piece_weight=item.piece_weight,
                words=shelf.words.get(item.id, {}),
                item_name=item.name,
            )
            said["in_item"] = amount(to_thousandths(exact), item)
    except Refusal as refusal:
        said |= {"problem": refusal.problem, "todo": refusal.todo}
    return said
