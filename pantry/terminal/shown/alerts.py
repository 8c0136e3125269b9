"""What has to be ordered by when, or cannot be had any more."""

from rich.console import Console

from pantry.reports.order_given import order_given_words
from pantry.reports.report import Row
from pantry.reports.ways_words import ways_out
from pantry.terminal.printing import plain
from pantry.terminal.shown.plan import ALERTS, because
from pantry.terminal.words import Words


def alerts(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each alert: its deadline, what is to be ordered, what is left, who sees to it."""
    if not rows:
        terminal.print("Nothing presses: no order is due.")
    for row in rows:
        terminal.print(plain(f"\n{_title(words, row)}", "bold"))
        if row["nobody"]:
            terminal.print(plain(f"  Nobody is in the house {nobody_words(row['nobody'])}."))
        for line in row["lines"]:
            what = f"{line['packs']} x {line['pack']} " if line["packs"] else ""
            what = what or f"{words.amount(line['lacking'])} "
            terminal.print(plain(f"  {what}{line['item']}: {because(words, line)}"))
        if row["stage"] != "missed" and (how := order_given_words(row["order_given"])):
            terminal.print(plain(f"  {how}"))
        for way in ways_out(words, row["ways_out"]):
            terminal.print(plain(f"  What is left: {way}"))
        terminal.print(plain(f"  {_seen_to(words, row)}"))


def _title(words: Words, row: Row) -> str:
    stage = ALERTS[row["stage"]]
    if row["nobody"]:
        return (
            f"Tell {row['supplier']} by {words.moment(row['order_by'])} to bring nothing "
            f"{words.moment(row['delivery'])}: {stage}"
        )
    if row["supplier"] is None:
        return f"Nobody brings it in time: {stage}"
    return (
        f"Order by {words.moment(row['order_by'])} of {row['supplier']}, "
        f"for {words.moment(row['delivery'])}: {stage}"
    )


def nobody_words(nobody: Row) -> str:
    """`from 2027-05-03 to 2027-05-09`."""
    first, last = nobody["first"], nobody["last"]
    return f"on {first}" if first == last else f"from {first} to {last}"


def _seen_to(words: Words, row: Row) -> str:
    by = row["seen_to"]
    if by:
        return f"{by['person']} sees to it, since {words.moment(by['at'])}"
    if row["raised_at"] is None:
        return "Not told yet: the server tells it"
    return f"Told {words.moment(row['raised_at'])}; nobody has said that they see to it"
