"""The order desk in words."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, plain, table
from pantry.terminal.words import Words

SENT = {
    "email": "by e-mail",
    "telephone": "by telephone",
    "message": "by message",
    "by_hand": "by hand",
    "portal": "at the supplier's own page",
}
"""How an order was sent, in words."""


def orders(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each order with its lines, how it was sent and what the supplier said."""
    if not rows:
        terminal.print("No order is open, and none came in the last two weeks.")
        return
    for row in rows:
        state = "" if row["state"] == "open" else f", {row['state']}"
        head = f"\n{row['supplier']}, for {words.moment(row['delivery'])}{state}: {row['order']}"
        terminal.print(plain(head, "bold"))
        lines = table("Packs>", "Pack", "Item", "Cost>")
        for line in row["lines"]:
            cost = words.money(line["cost"])
            add(lines, str(line["packs"]), line["pack"], line["item"], cost)
        for line in row["free"]:
            add(lines, "", line["amount"] or "", line["words"], "")
        terminal.print(lines)
        for said in (*_sent(words, row), *_answers(words, row)):
            terminal.print(plain(f"  {said}"))


def _sent(words: Words, row: Row) -> list[str]:
    if not row["sent"]:
        return ["Not sent yet, as far as anybody wrote down."] if row["state"] == "open" else []
    return [
        f"Sent {SENT[sent['how']]} to {sent['to_whom']} by {sent['person']}, "
        f"{words.moment(sent['at'])}{'' if sent['stands'] else '; changed since'}"
        for sent in row["sent"]
    ]


def _answers(words: Words, row: Row) -> list[str]:
    found = []
    for answer in row["answers"]:
        if answer["moved_from"]:
            found.append(f"Comes at another time than {words.moment(answer['moved_from'])}")
        for line in answer["lines"]:
            of = f"{line['packs']} of {line['ordered']} x {line['pack']} {line['item']}"
            instead = ""
            if line["instead"]:
                instead = f", {line['instead_packs']} x {line['instead']} instead"
            price = f", now {words.money(line['price'])}" if line["price"] else ""
            found.append(f"The supplier said: {of}{instead}{price}")
    return found


def prices(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each pack with its price and the last change of it."""
    if not rows:
        terminal.print("No supplier sells anything yet.")
        return
    lines = table("Supplier", "Item", "Pack", "Price>", "Before>", "Since|")
    for row in rows:
        last = row["changes"][-1] if row["changes"] else None
        add(
            lines,
            row["supplier"],
            row["item"],
            row["pack"],
            words.money(row["price"]),
            words.money(last["before"]) if last else "",
            words.moment(last["at"]) if last else "",
        )
    terminal.print(lines)


def budget(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each week with what is ordered of it and what is left of the budget."""
    lines = table("Week of", "Orders>", "Ordered>", "Budget>", "Left>")
    for row in rows:
        limit = row["budget"]
        left = None
        if limit:
            left = limit | {"minor": limit["minor"] - row["ordered"]["minor"]}
        add(
            lines,
            words.day(row["week"]),
            str(row["orders"]),
            words.money(row["ordered"]),
            words.money(limit) if limit else "none is set",
            words.money(left) if left else "",
        )
    terminal.print(lines)
