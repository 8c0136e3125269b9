"""A guest joins a table, with what they cannot eat: what is chosen already is looked at again."""

import json
from collections.abc import Iterable
from itertools import chain, count

from pantry.commands import naming
from pantry.commands.decisions import AddGuest
from pantry.commands.given import Given
from pantry.commands.safe_tables import ask_about_conflicts, menus_to_come
from pantry.records.books import Books
from pantry.records.rows import add, every, remove
from pantry.records.slugs import slug
from pantry.records.tables import ConstraintRow


def add_guest(books: Books, given: Given[AddGuest]) -> None:
    """Write the constraint beside what is known already, and ask the chef about every menu (AL3).

    For the same days the foods are added up, other days are kept by themselves: what somebody said
    before is not lost by saying more. Only `instead` puts it in the place of all that is known of
    the person at the table.

    Raises:
        NotThere: `table_unknown`.
        UnreadableInput: `date_unreadable`.
    """
    body = given.body
    table = naming.dining_table(books, body.table)
    first = None if body.first is None else naming.day(body.first, "body.first")
    last = None if body.last is None else naming.day(body.last, "body.last")
    known = _known(books, table.id, body.person)
    person = known[0].person if known else body.person  # one spelling, or they are two people
    if body.instead:
        _forget(books, known)
        known = []
    same = next((row for row in known if (row.first, row.last) == (first, last)), None)
    foods = set(body.cannot_eat) | set(json.loads(same.cannot_eat) if same else ())
    if same:
        remove(books.connection, ConstraintRow, house=books.id, id=same.id)
    if foods:
        row = ConstraintRow(
            house=books.id,
            id=same.id if same else _free_id(known, table.id, body.person),
            person=person,
            dining_table=table.id,
            cannot_eat=json.dumps(sorted(foods)),
            first=first,
            last=last,
        )
        add(books.connection, row)
        books.note("constraint", row.id)
    look_again(books, table.id, person)


def _known(books: Books, table: str, person: str) -> list[ConstraintRow]:
    rows = every(books.connection, ConstraintRow, house=books.id, dining_table=table)
    return [row for row in rows if slug(row.person) == slug(person)]


def _forget(books: Books, rows: Iterable[ConstraintRow]) -> None:
    for row in rows:
        remove(books.connection, ConstraintRow, house=books.id, id=row.id)
        books.note("constraint", row.id)


def _free_id(known: Iterable[ConstraintRow], table: str, person: str) -> str:
    taken = {row.id for row in known}
    own = f"{table}|{slug(person)}"
    numbered = (f"{own}|{number}" for number in count(2))
    return next(each for each in chain([own], numbered) if each not in taken)


def look_again(books: Books, table: str, person: str) -> None:
    """Every menu of the table that is not over yet, held against what the guest cannot eat."""
    menus = menus_to_come(books, dining_table=table)
    ask_about_conflicts(books, menus, f"{person} joins the table", only=person)
