"""In what an invoice differs, said in a sentence; on the terminal and on paper alike."""

from collections.abc import Callable, Mapping
from typing import Any

from pantry.reports.report import Row

PRICE_FROM = {
    "confirmed": "as the supplier confirmed",
    "ordered": "as it was ordered",
    "last_price": "as it cost last",
}
"""Where an agreed price is from, in words."""

Money = Callable[[Mapping[str, Any]], str]
Amount = Callable[[Mapping[str, str]], str]


_SAID = {
    "price": "{item}: billed {billed}, agreed {held} ({price} a pack, {price_from})",
    "not_received": "{item}: {quantity} billed and did not come",
    "more_than_received": "{item}: {quantity} more billed than came",
    "not_billed": "{item}: {quantity} came and is not billed",
    "charge": "Delivery: billed {billed}, the terms say {held}",
    "minimum": "Small order: billed {billed}, {held} lacked of the minimum",
    "in_words": "{words}: nothing in the books stands against it",
    "credit_left": "A credit of {owed} was owed and is not taken off",
    "credit_other": "{off} is taken off, and a credit of {owed} was owed",
    "credit_unknown": "{off} is taken off, and no credit was expected",
}


def difference_said(row: Row, money: Money, amount: Amount) -> str:
    """What differs, with what is billed and what it is held against.

    Args:
        row: one difference, as the report has it.
        money: says a sum.
        amount: says a quantity.
    """
    return _SAID[row["kind"]].format(
        item=row["item"],
        words=row["words"],
        quantity=amount(row["quantity"]) if row["quantity"] else "it",
        billed=money(row["billed"]),
        held=money(row["held_against"]),
        off=money(_turned(row["billed"])),
        owed=money(_turned(row["held_against"])),
        price=money(row["price"]) if row["price"] else "",
        price_from=PRICE_FROM.get(row["price_from"], ""),
    )


def agreed_said(row: Row) -> str:
    """What is agreed of a difference; empty where nothing is yet."""
    credit = row["credit"]
    if credit and credit["is_recorded"]:
        return f"credited: {credit['note']}" if credit["note"] else "written off"
    if row["agreed"] is None:
        return ""
    said = "paid as it is" if row["agreed"] == "paid" else "a credit is asked for"
    return f"{said}, {row['agreed_by']}" + (
        f": {row['agreed_words']}" if row["agreed_words"] else ""
    )


def _turned(sum_of: Mapping[str, Any]) -> Mapping[str, Any]:
    return {**sum_of, "minor": -sum_of["minor"]}
