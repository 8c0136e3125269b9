"""Invoices in words: what each comes to, what it should, and what differs."""

from rich.console import Console

from pantry.reports.invoice_words import agreed_said, difference_said
from pantry.reports.report import Row
from pantry.terminal.printing import plain
from pantry.terminal.words import Words, many


def invoices(terminal: Console, words: Words, rows: list[Row]) -> None:
    """Each invoice with its differences, and how many still differ."""
    if not rows:
        terminal.print("No invoice is recorded.")
        return
    for row in rows:
        head = f"\n{row['supplier']}, invoice {row['number']} of {words.day(row['dated'])}"
        terminal.print(plain(f"{head}: {row['state']}", "bold"))
        sums = f"  Billed {words.money(row['total'])}"
        if row["differences"]:
            sums += f", should be {words.money(row['should_be'])}"
        terminal.print(plain(sums))
        for each in row["differences"]:
            said = difference_said(each, words.money, words.amount)
            terminal.print(plain(f"  {words.money(each['amount'])}  {said}"))
            if agreed := agreed_said(each):
                terminal.print(plain(f"    {agreed}"))
    differ = sum(row["state"] == "differs" for row in rows)
    terminal.print(f"\n{many(len(rows), 'invoice')}, {differ or 'none'} to be settled.")
