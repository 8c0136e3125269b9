"""The order desk at the command line: alerts, what must be ordered, orders, prices, the budget."""

from pathlib import Path

import click

from pantry.paper.reorder import reorder_pdf
from pantry.terminal import shown
from pantry.terminal.printing import json_option
from pantry.terminal.reporting import answer
from pantry.terminal.written_to import FILE, write_files


@click.command("alerts")
@json_option
def alerts_command(*, as_json: bool) -> None:
    """What presses: what to order by when, what was missed, and who sees to it."""
    answer("alerts", shown.alerts, as_json=as_json)


@click.command("orders")
@json_option
def orders_command(*, as_json: bool) -> None:
    """The orders as they stand: what is on them, how they were sent, what the supplier said."""
    answer("orders", shown.orders, as_json=as_json)


@click.command("prices")
@json_option
def prices_command(*, as_json: bool) -> None:
    """What suppliers sell, in what packs, at what price, and what has become dearer."""
    answer("prices", shown.prices, as_json=as_json)


@click.command("budget")
@json_option
def budget_command(*, as_json: bool) -> None:
    """What the deliveries of each week cost, against what the house means to spend."""
    answer("budget", shown.budget, as_json=as_json)


@click.command("reorder")
@click.option("--csv", type=FILE, help="Write the lines to this file, as CSV.")
@click.option("--xlsx", type=FILE, help="Write the lines to this file, as a workbook.")
@click.option("--pdf", type=FILE, help="Write the report to this file, on A4.")
@json_option
def reorder_command(
    csv: Path | None, xlsx: Path | None, pdf: Path | None, *, as_json: bool
) -> None:
    """What must be ordered, by deadline and supplier, and what it comes to."""
    if csv is None and xlsx is None and pdf is None:
        answer("reorder", shown.reorder, as_json=as_json)
        return
    write_files("reorder", reorder_pdf, csv=csv, xlsx=xlsx, pdf=pdf)
