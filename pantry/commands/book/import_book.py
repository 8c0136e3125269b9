"""Import a house book: all of it, or nothing."""

from collections.abc import Sequence
from uuid import UUID, uuid5

from pantry.commands import menu_needs
from pantry.commands.book.batches import Standing
from pantry.commands.book.check import Checked, read_all, refuse_faulty
from pantry.commands.book.house import as_columns
from pantry.commands.book.known import known
from pantry.commands.book.orders import Ordered
from pantry.commands.book.replacing import replace
from pantry.commands.book.sayings import write_sayings
from pantry.commands.book.services import Meal
from pantry.commands.book.sheets import from_body
from pantry.commands.decisions import ImportBook
from pantry.commands.given import Given
from pantry.commands.safe_tables import conflicts_of
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement, post
from pantry.records.questions import ask
from pantry.records.rows import add, change, every
from pantry.records.tables import HouseRow, ItemRow, ServiceRow, ServingRow
from pantry.rules.menu import ServiceState
from pantry.rules.services import lapsed


def import_book(books: Books, given: Given[ImportBook]) -> None:
    """Take a house book into the house: what it names takes the place of what had the same name.

    Batches, services and orders are new; what stands of them already is a fault. Confirmed services
    want what they want from now on, and are promised it when the command has been done.

    Raises:
        FaultyBook: `book_faulty`, with every fault by sheet, row and column.
    """
    checked = read_all(from_body(given.body.sheets), known(books.connection, books.id), given.at)
    refuse_faulty(checked)
    _write_settings(books, checked)
    replace(books, checked.reading.rows)
    write_sayings(books, given, checked.said)
    _write_batches(books, given, checked.standing)
    _write_services(books, checked.meals)
    _write_orders(books, checked.orders)
    books.settings_changed()
    confirmed = _confirmed(books)
    menu_needs.write(books, *confirmed)
    _look_for_conflicts(books, confirmed)
    books.touched |= {row.id for row in every(books.connection, ItemRow, house=books.id)}


def _write_settings(books: Books, checked: Checked) -> None:
    settings = as_columns(checked.reading.house)
    if all(getattr(books.house, column) == value for column, value in settings.items()):
        return
    version = books.house.version + 1
    settings |= {"version": version, "last_command": books.command}
    change(books.connection, HouseRow, {"id": books.id}, **settings)
    books.note("house", books.id)


def _write_batches(books: Books, given: Given[ImportBook], standing: list[Standing]) -> None:
    """Put every batch where it stands; its id follows from the command's and its label."""
    for each in standing:
        each.row.id = str(uuid5(UUID(given.id), each.row.label))
    add(books.connection, *(each.row for each in standing))
    for each in standing:
        place = accounts.area(each.area)
        row, source = each.row, accounts.OPENING_STOCK
        post(books, Movement(row.id, row.quantity, source, place, given.at, row.pieces))


def _write_services(books: Books, meals: list[Meal]) -> None:
    for meal in meals:
        meal.row.last_command = books.command
        books.note("service", meal.row.id)
    add(books.connection, *(meal.row for meal in meals))
    add(books.connection, *(serving for meal in meals for serving in meal.menu()))


def _write_orders(books: Books, orders: list[Ordered]) -> None:
    for order in orders:
        order.row.last_command = books.command
        books.note("order", order.row.id)
    add(books.connection, *(order.row for order in orders))
    add(books.connection, *(line for order in orders for line in order.lines))


def _confirmed(books: Books) -> list[ServiceRow]:
    """The confirmed services that are still to come, or only just over."""
    state = ServiceState.CONFIRMED.value
    rows = every(books.connection, ServiceRow, house=books.id, state=state)
    return [row for row in rows if not lapsed(row.at, books.now)]


def _look_for_conflicts(books: Books, services: Sequence[ServiceRow]) -> None:
    """Ask the chef about every menu that somebody at its table cannot eat (AL3)."""
    menus = [
        (service, every(books.connection, ServingRow, house=books.id, service=service.id))
        for service in services
    ]
    for service, refusal in conflicts_of(books, menus):
        ask(
            books,
            "allergen",
            "chef",
            service.id,
            recorded=f"{service.id} is confirmed, and a house book was imported.",
            against=str(refusal),
            answers=("swap the dish", "cook them their own", "it is safe"),
        )
