"""What a command names, found by its name, id or label."""

from datetime import date
from typing import TypeVar

from sqlmodel import SQLModel

from pantry.commands.parts import ServicePart, Which, Written
from pantry.records.books import Books
from pantry.records.read.labels import carrier
from pantry.records.read.stock import item as as_item
from pantry.records.rows import every, find
from pantry.records.slugs import slug
from pantry.records.tables import (
    AreaRow,
    BatchRow,
    DiningTableRow,
    ItemRow,
    RecipeRow,
    ServiceRow,
    SupplierRow,
)
from pantry.refusals import NotThere, Refusal, UnreadableInput, declare
from pantry.rules.amounts import UnitSystem
from pantry.rules.measure import quantity_from_json, read_quantity
from pantry.rules.stock import BaseUnit, Item

ITEM_UNKNOWN = declare("item_unknown", "No item has that name or id.")
AREA_UNKNOWN = declare("area_unknown", "No storage area has that name or id.")
BATCH_UNKNOWN = declare("batch_unknown", "No batch has that id or label.")
SUPPLIER_UNKNOWN = declare("supplier_unknown", "No supplier has that name or id.")
RECIPE_UNKNOWN = declare("recipe_unknown", "No recipe has that name or id.")
TABLE_UNKNOWN = declare("table_unknown", "No table has that name or id.")
SERVICE_UNKNOWN = declare("service_unknown", "No service stands on that date, meal and table.")
DATE_UNREADABLE = declare("date_unreadable", "The date is not ISO 8601.")
QUANTITY_NOTHING = declare("quantity_nothing", "The quantity is nothing, and something is needed.")

_ONE_EACH = Item("each", "each", BaseUnit.EACH)

_Named = TypeVar("_Named", bound=SQLModel)


def _named(
    books: Books, model: type[_Named], code: str, thing: str, name: str, field: str
) -> _Named:
    row = find(books.connection, model, house=books.id, id=slug(name))
    if row is None:
        raise NotThere(
            code,
            f"No {thing} is called {name!r} in this house.",
            "Write its name as the house book has it, or enter it first.",
            value=name,
            field=field,
        )
    return row


def item(books: Books, name: str, field: str = "body.item") -> ItemRow:
    """The item of that name or id, or `item_unknown`."""
    return _named(books, ItemRow, ITEM_UNKNOWN, "item", name, field)


def area(books: Books, name: str, field: str = "body.area") -> AreaRow:
    """The storage area of that name or id, or `area_unknown`."""
    return _named(books, AreaRow, AREA_UNKNOWN, "storage area", name, field)


def supplier(books: Books, name: str, field: str = "body.supplier") -> SupplierRow:
    """The supplier of that name or id, or `supplier_unknown`."""
    return _named(books, SupplierRow, SUPPLIER_UNKNOWN, "supplier", name, field)


def recipe(books: Books, name: str, field: str = "body.recipe") -> RecipeRow:
    """The recipe of that name or id, or `recipe_unknown`."""
    called = recipe_called(books, name)
    return _named(books, RecipeRow, RECIPE_UNKNOWN, "recipe", called.id if called else name, field)


def recipe_called(books: Books, name: str) -> RecipeRow | None:
    """The recipe of that name or id; one that was renamed is found by either."""
    row = find(books.connection, RecipeRow, house=books.id, id=slug(name))
    if row is None:
        rows = every(books.connection, RecipeRow, house=books.id)
        row = next((each for each in rows if slug(each.name) == slug(name)), None)
    return row


def dining_table(books: Books, name: str, field: str = "body.table") -> DiningTableRow:
    """The table of that name or id, or `table_unknown`."""
    return _named(books, DiningTableRow, TABLE_UNKNOWN, "table", name, field)


def batch(books: Books, name: str, field: str = "body.batch") -> BatchRow:
    """The batch of that id or label, or `batch_unknown`."""
    row = find(books.connection, BatchRow, house=books.id, id=name) or carrier(
        books.connection, books.id, name
    )
    if row is None:
        raise NotThere(
            BATCH_UNKNOWN,
            f"No batch has the id or label {name!r}.",
            "Read the label again, or find the batch by its item.",
            value=name,
            field=field,
        )
    return row


def service_id(which: Which, books: Books) -> str:
    """`DATE/MEAL/TABLE`, with the table by its id."""
    if isinstance(which, ServicePart):
        table = dining_table(books, which.table, "body.service.table").id
        return f"{day(which.date, 'body.service.date').isoformat()}/{slug(which.meal)}/{table}"
    parts = [part.strip() for part in which.split("/")]
    return "/".join([parts[0], *(slug(part) for part in parts[1:])])


def service(books: Books, which: Which, field: str = "body.service") -> ServiceRow:
    """The service named, or `service_unknown`."""
    identity = service_id(which, books)
    row = find(books.connection, ServiceRow, house=books.id, id=identity)
    if row is None:
        raise NotThere(
            SERVICE_UNKNOWN,
            f"No service stands at {identity}.",
            "Propose it first, or correct its date, meal or table.",
            value=identity,
            field=field,
        )
    return row


def day(written: str, field: str) -> date:
    """An ISO 8601 date, or `date_unreadable`."""
    try:
        return date.fromisoformat(written)
    except ValueError as error:
        raise UnreadableInput(
            DATE_UNREADABLE,
            f"{written!r} is no date.",
            "Write it as 2027-03-10.",
            value=written,
            field=field,
        ) from error


def quantity(
    books: Books, written: Written, of: ItemRow, field: str = "body.quantity", *, least: int = 1
) -> int:
    """A quantity in thousandths of the item's base unit, at least `least`.

    What nobody measures comes to nothing, whatever is written (MS3).
    """
    thing = as_item(of)
    try:
        if isinstance(written, str):
            system = UnitSystem(books.house.unit_system)
            mark = books.house.decimal_mark
            amount = read_quantity(written, thing, system, decimal_mark=mark)
        else:
            amount = quantity_from_json({"value": written.value, "unit": written.unit}, thing)
    except Refusal as refusal:
        raise refusal.at(field) from refusal
    if amount < least and thing.measured:
        raise UnreadableInput(
            QUANTITY_NOTHING,
            f"{_shown(written)} of {of.name} comes to nothing.",
            "Give a quantity above nothing.",
            value=_shown(written),
            field=field,
        )
    return amount


def pieces(written: Written, field: str = "body.quantity") -> int | None:
    """Thousandths of an each, where a quantity says how many pieces it was too (MS1).

    Raises:
        UnreadableInput: `quantity_malformed`.
    """
    if isinstance(written, str) or written.pieces is None:
        return None
    try:
        return quantity_from_json({"value": written.pieces, "unit": "each"}, _ONE_EACH)
    except Refusal as refusal:
        raise refusal.at(f"{field}.pieces") from refusal


def _shown(written: Written) -> str:
    return written if isinstance(written, str) else f"{written.value} {written.unit}"
