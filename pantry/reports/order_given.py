"""How an order is given to a supplier, and what they may send in place of what is ordered."""

from pantry.records.rows import find
from pantry.records.tables import SupplierRow
from pantry.reports.report import Row
from pantry.reports.view import View

_DO = {
    "telephone": "Telephone",
    "email": "Send it by e-mail",
    "portal": "Order on their own page",
    "by_hand": "Give it by hand",
}


def order_given(view: View, supplier: str | None) -> Row | None:
    """By what way, in which words and to what address; None where nothing of it is known."""
    row = find(view.connection, SupplierRow, house=view.id, id=supplier) if supplier else None
    if row is None:
        return None
    terms = view.terms.get(row.id)
    way = terms.order_given if terms else None
    words = terms.order_words if terms else None
    way = way or ("email" if row.email else None)
    return {"way": way, "words": words, "email": row.email} if way or words else None


def order_given_words(row: Row | None) -> str:
    """`Telephone: 01632 960 010, ask for Moira.`; empty where nothing is known."""
    if row is None:
        return ""
    address = row["email"] if row["way"] == "email" else None
    said = ", ".join(part for part in (address, row["words"]) if part)
    what = _DO.get(row["way"] or "", "How they take orders")
    return f"{what}: {said}." if said else f"{what}."


def substitution_of(view: View, supplier: str) -> str | None:
    """`ask_first`, `never`, `allowed`, or None where nothing was agreed."""
    terms = view.terms.get(supplier)
    return terms.substitution if terms else None
