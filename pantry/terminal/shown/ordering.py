"""The order desk in words."""

from rich.console import Console

from pantry.reports.cut_offs import by_deadline
from pantry.reports.reorder import together
from pantry.reports.report import Row
from pantry.terminal.printing import add, plain, table
from pantry.terminal.shown.plan import deadline
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


def reorder(terminal: Console, words: Words, rows: list[Row]) -> None:
    """What cannot be had any more, then order by order with what each comes to."""
    if not rows:
        terminal.print("Everything is in the house or on its way: nothing is to be ordered.")
        return
    for row in rows:
        if row["alert"] == "missed":
            said = f"{row['item']}, wanted by {words.moment(row['wanted_by'])}"
            terminal.print(plain(f"Cannot be had any more in time: {said}"))
    for order in by_deadline(rows):
        _to_order(terminal, words, order)


def _to_order(terminal: Console, words: Words, order: list[Row]) -> None:
    first = order[0]
    terminal.print(plain(f"\n{deadline(words, order)}", "bold"))
    lines = table("Packs>", "Pack", "Item", "Price>", "Cost>")
    for row in order:
        price = words.money(row["price"]) if row["price"] else ""
        add(lines, str(row["packs"]), row["pack"], row["item"], price, words.money(row["cost"]))
    terminal.print(lines)
    of, currency = together(order), first["cost"]["currency"]
    sums = [("Goods", of.goods), ("delivery", of.charge), ("together", of.total)]
    said = ", ".join(
        f"{name} {words.money({'minor': minor, 'currency': currency})}" for name, minor in sums
    )
    terminal.print(plain(f"  {said}"))
    if of.below_minimum:
        below = words.money({"minor": of.below_minimum, "currency": currency})
        terminal.print(plain(f"  {below} below their minimum"))
    if first["order"]:
        terminal.print(plain(f"  Added to the order {first['order']}"))


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
