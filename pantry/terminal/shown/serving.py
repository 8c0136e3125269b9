"""What is served today, and what was given to whom."""

from rich.console import Console

from pantry.reports.conflict_words import called, conflict_said
from pantry.reports.report import Row
from pantry.terminal.printing import add, plain, table
from pantry.terminal.words import NEVER, Words, many


def serving(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each service with its dishes and what it holds; what was served says so."""
    if not rows:
        terminal.print("Nothing is served today.")
        return
    for row in rows:
        state = "served" if row["done"] or row["state"] == "served" else "not recorded as served"
        covers = many(row["covers"], "cover")
        head = f"\n{words.service(row['service'])} {words.time(row['at'])}: {covers}, {state}"
        terminal.print(plain(head, "bold"))
        lines = table("Dish", "Portions>", "Left over")
        for dish in row["dishes"]:
            add(lines, called(dish), str(_portions(dish)), _left(words, row, dish))
        terminal.print(lines)
        for dish in row["dishes"]:
            for each in dish["conflicts"]:
                terminal.print(plain(conflict_said(each, called(dish), words.moment), "bold"))
        for batch in row["batches"]:
            of = f"{words.amount(batch['quantity'])} {batch['item']} {batch['label']}"
            terminal.print(plain(f"  {of}, {batch['area'] or 'in the kitchen'}"))


def _portions(dish: Row) -> int:
    return int(dish["portions"] if dish["served"] is None else dish["served"])


def _left(words: Words, row: Row, dish: Row) -> str:
    left = [each for each in row["left_overs"] if each["dish"] == dish["name"]]
    said = (
        f"{many(each['portions'], 'portion')} as {each['label']}, "
        f"use by {words.moment(each['usable_until'])}"
        for each in left
        if each["variant"] == dish["variant"]
    )
    return "\n".join(said) or NEVER


def served(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each dish that was served, service by service."""
    if not rows:
        terminal.print("Nothing was served in these days.")
        return
    lines = table("Service", "Dish", "Portions>", "Left>", "Confirmed by")
    told = ""
    for row in rows:
        add(
            lines,
            words.service(row["service"]) if row["service"] != told else "",
            called(row),
            f"{row['portions']} of {row['covers']}",
            str(row["left_over"] or NEVER),
            row["confirmed_by"] or NEVER,
        )
        told = row["service"]
    terminal.print(lines)


def instead(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each dish that could be served instead, what is safe for the table first."""
    if not rows:
        terminal.print("No other dish is approved.")
        return
    lines = table("Dish", "Who cannot eat it", "Season", "Last served")
    for row in rows:
        add(
            lines,
            row["name"],
            "\n".join(f"{each['person']}: {each['cannot_eat']}" for each in row["against"])
            or ("not everything is declared" if row["unknown"] else NEVER),
            "" if row["in_season"] else "out of season",
            words.day(row["last_served"]),
        )
    terminal.print(lines)
