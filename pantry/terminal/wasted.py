"""What was lost, asked on the command line: in words, as JSON, or as a sheet."""

import click

from pantry.reports.as_csv import as_csv
from pantry.reports.asked import ask
from pantry.terminal import shown
from pantry.terminal.printing import json_option
from pantry.terminal.reporting import answer, looking
from pantry.terminal.settings import from_environment


@click.command("waste")
@click.option("--from", "first", metavar="DATE", help="The first day; twelve weeks by default.")
@click.option("--to", "last", metavar="DATE", help="The last day; today by default.")
@click.option("--csv", "as_sheet", is_flag=True, help="Answer as CSV.")
@json_option
def waste_command(first: str | None, last: str | None, *, as_sheet: bool, as_json: bool) -> None:
    """What was lost, week by week: why, of what, from where, where it went, at what cost."""
    days = {name: day for name, day in (("from", first), ("to", last)) if day}
    if not as_sheet:
        answer("waste", shown.waste, as_json=as_json, **days)
        return
    with looking(from_environment()) as seen:
        click.echo(as_csv(ask(seen, "waste", **days)["rows"]), nl=False)
