"""What can be bought once a menu is chosen, and what must be kept in."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.rules.house_time import WEEKDAYS, read_span
from pantry.terminal.printing import add, listed, plain, table
from pantry.terminal.words import NEVER, Words, elapsed, length, many


def notice(terminal: Console, words: Words, rows: list[Row]) -> None:
    """What must be kept in, with the meals it fails for; then what can be bought in, by name."""
    kept = [row for row in rows if row["verdict"] == "kept_in"]
    bought = [row for row in rows if row["verdict"] == "bought_in"]
    if kept:
        terminal.print(plain("\nKept in: the notice is not always long enough to buy it", "bold"))
        lines = table("Item", "Notice needed", "Fails for", "Proposed floor and level")
        for row in kept:
            add(lines, row["item"], length(row["needed"]), _fails(row), _levels(words, row))
        terminal.print(lines)
    _spells(terminal, words, [row for row in rows if row["spells"]])
    if bought:
        terminal.print(
            plain(f"\nBought in once the menu is chosen: {many(len(bought), 'item')}", "bold")
        )
        lines = table("Item", "Notice needed")
        for row in bought:
            add(lines, row["item"], length(row["needed"]))
        terminal.print(lines)
    if not rows:
        terminal.print("Nothing is bought yet, and no recipe uses anything that is measured.")


def _fails(row: Row) -> str:
    """The weekdays on which it fails, for some meal, and by how much at the worst."""
    days = list(dict.fromkeys(fail["weekday"][:3].title() for fail in row["fails"]))
    by = [read_span(fail["by"]).exact for fail in row["fails"] if fail["by"]]
    said = "every day" if len(days) == len(WEEKDAYS) else listed(days)
    return f"{said}, by up to {elapsed(max(by))}" if by else said


def _levels(words: Words, row: Row) -> str:
    if row["floor"] is None:
        return NEVER
    return f"{words.amount(row['floor'])}, order up to {words.amount(row['order_up_to'])}"


def _spells(terminal: Console, words: Words, rows: list[Row]) -> None:
    """The days on which few or none are in the house, and what brings back what was run down."""
    for number, spell in enumerate(rows[0]["spells"] if rows else ()):
        terminal.print(plain(f"\n{_spell(words, spell)}", "bold"))
        lines = table("Item", "Last delivery before more are there", "Order by")
        for row in rows:
            own = row["spells"][number]
            brought = (
                words.moment(own["delivery"]) if own["delivery"] else "none can be ordered yet"
            )
            add(lines, row["item"], brought, words.moment(own["order_by"]))
        terminal.print(lines)


def _spell(words: Words, spell: Row) -> str:
    days = f"from {words.day(spell['first'])} to {words.day(spell['last'])}"
    if spell["house"] == "empty":
        return f"Nobody is in the house {days}: nothing is ordered up to its level for these days"
    people = many(spell["people"], "person", "people")
    return f"Few are in the house {days}, {people} at most: what is kept in is ordered for them"
