"""What suppliers owe."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import listed, plain
from pantry.terminal.words import Words, many


def owed(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each open credit: of whom, how much, for what, why."""
    if not rows:
        terminal.print("No supplier owes anything.")
        return
    for row in rows:
        if row["delivery"]:
            of = f"delivery of {words.moment(row['delivery'])}"
            about = f"{row['item']}: {_missing(words, row)} {_why(row)}"
        else:
            of, about = f"invoice {row['invoice']}", row["words"]
        said = f"\n{row['supplier']}, {of}: {words.money(row['value'])}"
        terminal.print(plain(said, "bold"))
        terminal.print(plain(f"  {about}"))
        terminal.print(plain(f"  Open since {words.moment(row['opened_at'])}"))
    terminal.print(f"\n{many(len(rows), 'credit')} expected.")


def _missing(words: Words, row: Row) -> str:
    if not row["counted"]:
        return str(row["pack"])
    return f"{words.amount(row['missing'])} of {words.amount(row['ordered'])}"


def _why(row: Row) -> str:
    reasons = [reason for reason in row["refused"] if reason]
    told = []
    if row["refused"]:
        told.append("refused" + (f" ({listed(reasons, 'and')})" if reasons else ""))
    if row["instead"]:
        told.append(f"{listed(row['instead'], 'and')} came instead")
    return listed(told, "and") if told else "did not come"
