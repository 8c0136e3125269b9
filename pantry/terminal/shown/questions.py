"""What the records contradict, for a person to settle."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import listed, plain
from pantry.terminal.words import Words, many


def questions(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each question with whose it is, what was recorded, what speaks against it, the answers."""
    if not rows:
        terminal.print("Nobody has to settle anything.")
        return
    for row in rows:
        terminal.print(
            plain(f"\nFor the {row['owner']}, since {words.moment(row['opened_at'])}", "bold")
        )
        terminal.print(plain(f"  Recorded: {row['recorded']}"))
        terminal.print(plain(f"  Against it: {row['against']}"))
        terminal.print(plain(f"  Answers: {listed(row['answers'], 'or')}"))
        terminal.print(plain(f"  Its name: {row['question']}"))
    terminal.print(f"\n{many(len(rows), 'question')} open.")
