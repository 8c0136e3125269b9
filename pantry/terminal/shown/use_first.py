"""What should be used first, and what could use it."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, first_of, table
from pantry.terminal.words import Words

_DISHES = 2


def use_first(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each batch that dies soon and is promised to nobody, the soonest first."""
    if not rows:
        terminal.print("Nothing that is promised to nobody dies within a fortnight.")
        return
    lines = table("Item, batch", "Where", "Available>", "How long|", "Could use it")
    for row in rows:
        add(
            lines,
            f"{row['item']} {row['label']}",
            row["area"],
            words.amount(row["available"]),
            words.left(row["usable_until"], row["good_until"]),
            could_use(words, row),
        )
    terminal.print(lines)


def could_use(words: Words, row: Row) -> str:
    """The first dishes that could use a batch, each with the next service it is planned for."""
    if row["past"] == "usable_until":
        return "nothing: throw it away"
    services: dict[str, str | None] = {}
    for use in row["could_use"]:
        services.setdefault(use["dish"], use.get("service"))
    dishes = [
        f"{dish} ({words.service(service)})" if service else dish
        for dish, service in services.items()
    ]
    said = first_of(dishes, _DISHES) or "no dish of the house"
    return f"taste it first\n{said}" if row["past"] == "good_until" else said
