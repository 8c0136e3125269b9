"""A supplier's pack is another product now: its allergens are its own, and the chef is asked."""

import json

from pantry.commands import base
from pantry.commands.decisions import ChangeProduct
from pantry.commands.given import Given
from pantry.commands.safe_tables import ask_about_conflicts, menus_to_come
from pantry.records.books import Books
from pantry.records.questions import ask
from pantry.records.rows import find
from pantry.records.slugs import slug
from pantry.records.tables import PackRow
from pantry.refusals import NotThere, Refusal, declare
from pantry.rules.codes import read_code
from pantry.rules.house_time import local_date

PACK_NOT_THERE = declare("pack_not_there", "No pack has that id.")


def change_product(books: Books, given: Given[ChangeProduct]) -> None:
    """Write what the new label says; product, not item, carries allergens.

    Raises:
        NotThere: `pack_not_there`.
        Moved: `base_moved`.
        UnreadableInput: the GTIN's check digit is wrong.
    """
    body = given.body
    named = "/".join(slug(part) for part in body.pack.split("/"))
    row = find(books.connection, PackRow, house=books.id, id=named)
    if row is None:
        raise NotThere(
            PACK_NOT_THERE,
            f"There is no pack {body.pack!r}.",
            "Name it as SUPPLIER/ITEM/PACK.",
            value=body.pack,
            field="body.pack",
        )
    base.check(books, given, row, row.id)
    base.next_version(
        books,
        row,
        "pack",
        gtin=row.gtin if body.gtin is None else _gtin(books, body.gtin),
        contains=json.dumps(sorted(body.contains or [])),
        may_contain=json.dumps(sorted(body.may_contain or [])),
    )
    recorded = f"{row.name} of {row.item} is another product now"
    ask_about_conflicts(books, menus_to_come(books), recorded)
    ask(
        books,
        "changed_product",
        "chef",
        f"{row.id}|{row.version + 1}",
        recorded=f"{row.name} of {row.item} from {row.supplier} is another product now.",
        against="It may contain what somebody at a table cannot eat.",
        answers=("it is safe for every table", "do not serve it to some"),
    )


def _gtin(books: Books, written: str) -> str | None:
    try:
        return read_code(written, local_date(books.now, books.zone)).gtin
    except Refusal as refusal:
        raise refusal.at("body.gtin") from refusal
