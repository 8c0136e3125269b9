"""The version a decision was taken on (SY3)."""

import json
from typing import Any, Protocol, TypeVar

from sqlmodel import SQLModel

from pantry.commands.given import Given
from pantry.records.books import Books
from pantry.records.journal import kept
from pantry.records.rows import change
from pantry.refusals import Moved, Stands, declare

BASE_MOVED = declare("base_moved", "What the decision was taken on is no longer what stands.")
BASE_MISSING = declare("base_missing", "A decision from a device must say what it was taken on.")


class Versioned(Protocol):
    """Something decisions are taken on: its version, and the command that gave it that version."""

    id: str
    version: int
    last_command: str


_Row = TypeVar("_Row", bound=SQLModel)


def check(books: Books, given: Given[Any], stands: Versioned, called: str) -> None:
    """Refuse a decision whose base is not what stands now.

    The base is a version, or the id of one's own earlier command, which must be the last that
    changed the thing. At a desk a base may be left out: the person sees what stands. What was
    applied before its journal was lost had the right base then: the ids and versions it names
    may be lost with commands of others (SY7).

    Raises:
        Moved: `base_moved` with both versions, or `base_missing`.
    """
    if given.again:
        return
    if given.base is None:
        if given.at_desk:
            return
        raise Moved(
            BASE_MISSING,
            f"This decision on {called} does not say which version it was taken on.",
            "Send the version that was on the screen as `base`.",
            field="base",
            stands=_stands(books, stands),
        )
    if given.base in (stands.version, stands.last_command):
        return
    raise Moved(
        BASE_MOVED,
        f"{called} was changed meanwhile: this was decided on {_said(books, given.base)}, "
        f"and version {stands.version} stands, by the command {stands.last_command}.",
        "Look at what stands now and decide again.",
        value=str(given.base),
        field="base",
        stands=_stands(books, stands),
    )


def _stands(books: Books, stands: Versioned) -> Stands | None:
    """The command that made it what it is; None where the journal of this house has it not."""
    row = kept(books, stands.last_command)
    if row is None:
        return None
    body = "" if row.kind == "import_book" else json.dumps(json.loads(row.envelope)["body"])
    return Stands(stands.version, row.id, row.kind, row.person, row.at, body)


def _said(books: Books, base: int | str) -> str:
    if isinstance(base, int):
        return f"version {base}"
    row = kept(books, base)
    return f"the command {base}" + ("" if row else ", which is not in the journal")


def next_version(books: Books, row: _Row, what: str, **to: object) -> _Row:
    """Write a thing's new state as its next version, note the change, and answer the row as it is.

    Args:
        books: the books.
        row: the thing as it stands, with `id`, `version` and `last_command`.
        what: what the change feed calls it.
        to: the columns that change.
    """
    stands: Any = row
    to |= {"version": stands.version + 1, "last_command": books.command}
    change(books.connection, type(row), {"house": books.id, "id": stands.id}, **to)
    books.note(what, stands.id)
    return row.model_copy(update=to)
