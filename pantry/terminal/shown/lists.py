"""What is taken out to thaw, and what is brought to the kitchen."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, table
from pantry.terminal.words import Words


def pull(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each batch to be taken out of a freezer today, and for each that was."""
    if not rows:
        terminal.print("Nothing is to be taken out before tomorrow morning.")
        return
    lines = table("Take out", "Of", "From, into", "By", "For")
    for row in rows:
        add(
            lines,
            words.amount(row["take"]),
            f"{row['item']} {row['label']}",
            f"{row['area']}, {row['into'] or 'no chilled place'}",
            _by(words, row),
            "\n".join(_wanted(words, part) for part in row["wanted"]),
        )
    terminal.print(lines)


def _by(words: Words, row: Row) -> str:
    if row["done"]:
        return f"taken out {words.time(row['done']['at'])}"
    by = words.moment(row["out_by"])
    if row["late"]:
        return f"{by}: no longer in time, tell the chef"
    return f"{by}, not before {words.moment(row['not_before'])}" if row["not_before"] else by


def _wanted(words: Words, part: Row) -> str:
    return f"{words.amount(part['quantity'])} for {part['dish']}, {words.service(part['service'])}"


def pick(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each batch to be brought to the kitchen for today and tomorrow, meal by meal."""
    if not rows:
        terminal.print("Nothing is to be brought to the kitchen today or tomorrow.")
        return
    lines = table("For", "From", "Bring", "Of", "")
    for row in rows:
        made = f", {row['preparation']}" if row["preparation"] else ""
        add(
            lines,
            words.service(row["service"]) + made,
            row["area"] or "the kitchen",
            _brought(words, row),
            f"{row['item']} {row['label']}",
            f"brought {words.time(row['done']['at'])}" if row["done"] else "",
        )
    terminal.print(lines)


def _brought(words: Words, row: Row) -> str:
    """What is brought, and what is wanted of it where that is less than a whole piece."""
    taken = words.amount(row["take"])
    return (
        taken
        if row["take"] == row["quantity"]
        else f"{taken} ({words.amount(row['quantity'])} wanted)"
    )
