"""Set on what terms a supplier sells, and how they take orders."""

from typing import Any

from pantry.commands import base, naming
from pantry.commands.given import Given
from pantry.commands.order_decisions import SetTerms
from pantry.commands.prices import in_house_currency
from pantry.commands.set_calendar import reckon_deadlines
from pantry.records.books import Books
from pantry.records.rows import add, change, find
from pantry.records.tables import SupplierTermsRow
from pantry.refusals import Refusal
from pantry.rules.mail_addresses import address


def set_terms(books: Books, given: Given[SetTerms]) -> None:
    """Write all of a supplier's terms, and reckon deadlines anew; its calendar stays.

    Raises:
        NotThere: `supplier_unknown`.
        Moved: `base_moved`.
        UnreadableInput: `currency_foreign`, `address_unreadable`.
    """
    body = given.body
    row = naming.supplier(books, body.supplier)
    base.check(books, given, row, row.name)
    terms: dict[str, Any] = {
        "fails_percent": body.fails_percent,
        "order_given": body.order_given,
        "order_words": _words(body.order_words),
        "substitution": body.substitution,
        "fallback_shop": _words(body.fallback_shop),
    }
    own: dict[str, Any] = {
        "email": _address(body.email),
        "minimum": in_house_currency(books, body.minimum, "body.minimum") or 0,
        "charge": in_house_currency(books, body.charge, "body.charge") or 0,
        "may_fail": body.may_fail,
        "send_minutes": body.send_minutes,
    }
    key: dict[str, Any] = {"house": books.id, "supplier": row.id}
    if find(books.connection, SupplierTermsRow, **key):
        change(books.connection, SupplierTermsRow, key, **terms)
    else:
        add(books.connection, SupplierTermsRow(**key, **terms))
    base.next_version(books, row, "supplier", **own)
    reckon_deadlines(books, row.id)


def _words(written: str | None) -> str | None:
    return (written or "").strip() or None


def _address(written: str | None) -> str | None:
    if not _words(written):
        return None
    try:
        return address(written or "")
    except Refusal as refusal:
        raise refusal.at("body.email") from refusal
