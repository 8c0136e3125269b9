"""Rows of a book in the place of those the house had: what a sheet does not say stays as it was."""

from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from typing import Any

from sqlmodel import SQLModel

from pantry.commands import prices
from pantry.commands.book.terms import TERMS
from pantry.records.books import Books
from pantry.records.rows import add, every, remove, table
from pantry.records.slugs import slug
from pantry.records.tables import (
    AnswersForRow,
    AreaRow,
    ClosureRow,
    ConstraintRow,
    DeliveryRuleRow,
    DiningTableRow,
    HarvestRow,
    IngredientRow,
    ItemRow,
    PackRow,
    PersonRow,
    RecipeRow,
    SubstituteRow,
    SupplierRow,
    SupplierTermsRow,
    VariantRow,
)

Key = Callable[[Any], Hashable]


@dataclass(frozen=True, slots=True)
class _Kind:
    """How rows of one table take the place of others.

    Attributes:
        what: what the change feed calls the thing a row is of.
        thing: its id.
        same: rows of the book and of the house with the same value are about the same.
        kept: columns that no sheet has, which stay as they were.
    """

    what: str
    thing: Callable[[Any], str]
    same: Key
    kept: tuple[str, ...] = ()


def _id(row: Any) -> str:  # noqa: ANN401 - a row of any table that has an id
    return str(row.id)


def _of_supplier(row: Any) -> str:  # noqa: ANN401 - a row of a table with suppliers
    return str(row.supplier)


def _of_recipe(row: Any) -> str:  # noqa: ANN401 - a row of a table with recipes
    return str(row.recipe)


def _of_item(row: Any) -> str:  # noqa: ANN401 - a row of a table with items
    return str(row.item)


def _of_person(row: Any) -> str:  # noqa: ANN401 - a row of a table with people
    return str(row.person)


_KINDS: dict[type[SQLModel], _Kind] = {
    AreaRow: _Kind("area", _id, _id),
    ItemRow: _Kind("item", _id, _id, ("level",)),
    SupplierRow: _Kind("supplier", _id, _id),
    SupplierTermsRow: _Kind("supplier", _of_supplier, _of_supplier, TERMS),
    DeliveryRuleRow: _Kind("supplier", _of_supplier, _of_supplier),
    ClosureRow: _Kind("supplier", _of_supplier, _of_supplier),
    PackRow: _Kind("pack", _id, _id, ("contains", "may_contain")),
    RecipeRow: _Kind("recipe", _id, _id, ("picture", "put_away_by", "renamed_by", "renamed_from")),
    IngredientRow: _Kind("recipe", _of_recipe, _of_recipe),
    VariantRow: _Kind("recipe", _of_recipe, _of_recipe),
    SubstituteRow: _Kind("item", _of_item, lambda row: (row.item, row.substitute)),
    DiningTableRow: _Kind("table", _id, _id),
    PersonRow: _Kind("person", _id, _id, ("active",)),
    AnswersForRow: _Kind("person", _of_person, _of_person),
    ConstraintRow: _Kind("constraint", _id, lambda row: (row.dining_table, slug(row.person))),
    HarvestRow: _Kind("item", _of_item, lambda row: (row.item, row.first), ("gathered",)),
}


def replace(books: Books, rows: Iterable[SQLModel]) -> None:
    """Write rows, each in the place of what the house had of the same, and note what changed.

    A recipe whose ingredients the book has loses its variants too, but for those in the book: they
    were changes of ingredients that may be gone.
    """
    by_model: dict[type[SQLModel], list[SQLModel]] = {model: [] for model in _KINDS}
    for row in rows:
        by_model[type(row)].append(row)
    changed = {
        (kind.what, kind.thing(row)) for model, kind in _KINDS.items() for row in by_model[model]
    }
    cooked_anew = {_of_recipe(row) for row in by_model[IngredientRow]}
    for model, of_model in by_model.items():
        if of_model or (model is VariantRow and cooked_anew):
            _replace(books, model, of_model, cooked_anew if model is VariantRow else ())
    for what, thing in sorted(changed):
        books.note(what, thing)


def _replace(
    books: Books, model: type[SQLModel], rows: Sequence[SQLModel], also: Iterable[Hashable]
) -> None:
    """Take away what the house had of the same, or of what is named besides, and write the rows."""
    kind = _KINDS[model]
    given = {kind.same(row) for row in rows} | set(also)
    stood = every(books.connection, model, house=books.id)
    before = {kind.same(row): row for row in stood}
    keys = table(model).primary_key.columns.keys()
    for row in stood:
        if kind.same(row) in given:
            remove(books.connection, model, **{column: getattr(row, column) for column in keys})
    for row in rows:
        _carry_on(books, row, before.get(kind.same(row)), kind.kept)
        _keep_name(row, before.get(kind.same(row)))
        _keep_price(books, row, before.get(kind.same(row)))
    add(books.connection, *rows)


def _carry_on(books: Books, row: Any, before: Any, kept: Iterable[str]) -> None:  # noqa: ANN401 - as above
    """Give a row the next version, and what no sheet says of it as it was."""
    if "last_command" in row.model_fields_set or "last_command" in type(row).model_fields:
        row.last_command = books.command
        row.version = before.version + 1 if before else 1
    for column in kept if before else ():
        if column not in row.model_fields_set:
            setattr(row, column, getattr(before, column))


def _keep_name(row: SQLModel, before: SQLModel | None) -> None:
    """A recipe that was renamed keeps its name, whatever it is called in a book of before."""
    if isinstance(row, RecipeRow) and isinstance(before, RecipeRow) and before.renamed_by:
        row.name = before.name


def _keep_price(books: Books, row: SQLModel, before: SQLModel | None) -> None:
    if isinstance(row, PackRow) and isinstance(before, PackRow) and row.price != before.price:
        prices.keep_before(books, before, row.price, books.now)
