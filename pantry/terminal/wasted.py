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
@click.option(
    "--without-batch", is_flag=True, help="What came back from the table, or stood in no batch."
)
@click.option("--csv", "as_sheet", is_flag=True, help="Answer as CSV.")
@json_option
def waste_command(
    first: str | None, last: str | None, *, without_batch: bool, as_sheet: bool, as_json: bool
) -> None:
    """What was lost, week by week: why, of what, from where, where it went, at what cost."""
    days = {name: day for name, day in (("from", first), ("to", last)) if day}
    report = "waste-without-batch" if without_batch else "waste"
    if not as_sheet:
        said = shown.waste_without_batch if without_batch else shown.waste
        answer(report, said, as_json=as_json, **days)
        return
    with looking(from_environment()) as seen:
        click.echo(as_csv(ask(seen, report, **days)["rows"]), nl=False)
