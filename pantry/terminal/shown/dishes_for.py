"""What each dish would come to at a meal, in words."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, table
from pantry.terminal.words import Words

_COVERING = {
    "covered": "covered",
    "to_buy": "to be bought",
    "too_late": "too late to begin it",
    "cannot_be_had": "cannot be had",
    "unclear": "cannot be worked out",
}
_ORDER = {covering: place for place, covering in enumerate(_COVERING)}


def dishes_for(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each dish, what is covered first; below it what it lacks and would use up."""
    if not rows:
        terminal.print("The house has no dish.")
        return
    lines = table("Dish", "It is", "Choose by", "What to know")
    for row in sorted(rows, key=lambda row: _ORDER[row["covering"]]):
        add(
            lines,
            row["name"] + (f" ({row['variant']})" if row["variant"] else ""),
            _COVERING[row["covering"]],
            words.moment(row["choose_by"]) + (", earlier than usual" if row["early"] else ""),
            "\n".join(_notes(words, row)),
        )
    terminal.print(lines)


def _notes(words: Words, row: Row) -> list[str]:
    notes = [
        f"lacks {words.amount(each['quantity'])} {each['item']}"
        + (f", order by {words.moment(each['order_by'])}" if each["order_by"] else "")
        for each in row["lacking"]
    ]
    notes += [
        f"uses {words.amount(each['quantity'])} {each['item']}, {each['label']}, "
        f"until {words.moment(each['usable_until'] or each['good_until'])}"
        for each in row["dies"]
    ]
    notes += [
        f"from the garden: {words.amount(each['quantity'])} of {words.amount(each['left'])} "
        f"{each['item']}"
        for each in row["garden"]
    ]
    notes += [
        f"{each['person']} cannot eat it: {each['cannot_eat']} ({each['certainty']})".replace(
            "_", " "
        )
        for each in row["against"]
    ]
    if row["problem"]:
        notes.append(row["problem"])
    if row["unknown"] and not row["problem"]:
        notes.append("not everything in it is declared")
    if not row["in_season"]:
        notes.append("out of season")
    if not row["approved"]:
        notes.append("its recipe is not approved")
    if row["last_served"]:
        notes.append(f"last served {words.day(row['last_served'])}")
    return notes
