"""Every recipe the kitchen cooks by, or one of them in full."""

from rich.console import Console

from pantry.reports.conflict_words import conflict_said, table_said
from pantry.reports.report import Row
from pantry.terminal.printing import add, plain, table
from pantry.terminal.shown.items import contents
from pantry.terminal.words import NEVER, Words, many


def recipes(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each recipe: what it yields, what it contains, what it costs."""
    if not rows:
        terminal.print("No recipe is known yet.")
        return
    lines = table("Recipe", "Yields", "Contains", "Costs")
    for row in rows:
        cost = row["cost"]["per_cover"] or row["cost"]["in_all"]
        each = " a cover" if row["cost"]["per_cover"] else " in all"
        named = row["recipe"] if row["approved"] else f"{row['recipe']} (not approved)"
        add(lines, named, _yields(row), contents(row), words.money(cost) + each)
    terminal.print(lines)
    terminal.print(f"{many(len(rows), 'recipe', 'recipes')}.")


def recipe(terminal: Console, words: Words, rows: list[Row]) -> None:
    """One recipe: its lines as written and scaled, its method, what it contains, what it costs."""
    (row,) = rows
    terminal.print(f"{row['recipe']}, {_covers(row)}")
    lines = table("Ingredient", "As written", "Taken", "Costs")
    taken = {need["item_id"]: need["quantity"] for need in row["needs"]}
    costs = {line["item"]: line["cost"] for line in row["cost"]["lines"]}
    for line in row["lines"]:
        of_item, cost = taken.get(line["item_id"]), costs.get(line["item"])
        add(
            lines,
            line["item"],
            line["amount"] or NEVER,
            words.amount(of_item) if of_item else NEVER,
            words.money(cost) if cost else NEVER,
        )
    terminal.print(lines)
    for text in (row["method"], contents(row)):
        if text:
            terminal.print(text)
    for conflict in row["conflicts"]:
        where = table_said(conflict, words.day)
        said = conflict_said(conflict, row["recipe"], words.moment, where=where)
        terminal.print(plain(said, "bold"))
    if row["cost"]["unknown"]:
        terminal.print(f"Without a price: {', '.join(row['cost']['unknown'])}.")


def _yields(row: Row) -> str:
    return f"{row['yields']} {row['unit'] or 'portions'}"


def _covers(row: Row) -> str:
    return f"for {row['covers']} {row['unit'] or 'covers'}"
