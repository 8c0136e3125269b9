"""What was shown to the household, and what they answered."""

from rich.console import Console

from pantry.reports.menu_answers import in_words
from pantry.reports.report import Row
from pantry.terminal.printing import add, plain, table
from pantry.terminal.words import NEVER, Words


def sheets(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each sheet with its services, when it was sent and read, what was answered."""
    if not rows:
        terminal.print("No menu was shown to the household.")
        return
    for row in rows:
        to = f" to {row['to']}" if row["to"] else ""
        read = f", read {words.moment(row['read_at'])}" if row["read_at"] else ""
        how = (read or ", not read yet") if row["has_link"] else ", on paper"
        said = f"\nSent{to} {words.moment(row['sent_at'])} by {row['sent_by']}{how}"
        terminal.print(plain(f"{said}; {_state(words, row)}", "bold"))
        lines = table("Service", "State", "Answer by|", "Answered")
        for service in row["services"]:
            add(
                lines,
                words.service(service["service"]),
                service["state"].replace("_", " "),
                words.moment(service["answer_by"]) if service["answer_by"] else NEVER,
                _answered(words, service["answer"]),
            )
        terminal.print(lines)


def _state(words: Words, row: Row) -> str:
    return f"until {words.moment(row['until'])}" if row["state"] == "shown" else str(row["state"])


def _answered(words: Words, answer: Row | None) -> str:
    if answer is None:
        return "not yet"
    head = f"{answer['by']}, {words.moment(answer['at'])}"
    return "\n".join([head, *in_words(answer)])
