"""What the kitchen makes and what it served, asked on the command line."""

from pathlib import Path

import click

from pantry.paper.preparation_list import preparation_list
from pantry.reports.as_csv import as_csv
from pantry.reports.asked import ask
from pantry.reports.preparations import DAYS
from pantry.reports.view import LOOK_AHEAD
from pantry.terminal import shown
from pantry.terminal.printing import json_option
from pantry.terminal.reporting import answer, looking
from pantry.terminal.settings import from_environment


@click.command("preparations")
@click.option(
    "--days",
    "number",
    type=click.IntRange(min=1, max=LOOK_AHEAD.days),
    default=DAYS,
    show_default=True,
    help="How many, today being the first.",
)
@click.option("--pdf", type=click.Path(path_type=Path), help="Write the list to this file, on A4.")
@json_option
def preparations_command(number: int, pdf: Path | None, *, as_json: bool) -> None:
    """What is to be made on which day, of what, for which dishes, in the order of making."""
    if pdf is None:
        answer("preparations", shown.preparations, as_json=as_json, days=number)
        return
    with looking(from_environment()) as seen:
        pdf.write_bytes(preparation_list(seen, ask(seen, "preparations", days=number)["rows"]))
    click.echo(f"Written to {pdf}.")


@click.command("serving")
@json_option
def serving_command(*, as_json: bool) -> None:
    """What is served today, of which batches, and what nobody has recorded as served."""
    answer("serving", shown.serving, as_json=as_json)


@click.command("served")
@click.option("--from", "first", metavar="DATE", help="The first day; that of this month, else.")
@click.option("--to", "last", metavar="DATE", help="The last day; today by default.")
@click.option("--table", help="One table only.")
@click.option("--dish", help="One dish only.")
@click.option("--csv", "as_sheet", is_flag=True, help="Answer as CSV.")
@json_option
def served_command(
    first: str | None, last: str | None, *, as_sheet: bool, as_json: bool, **of: str | None
) -> None:
    """What was given to whom, dish by dish, the latest first, and what was left of it."""
    said = {"from": first, "to": last, **of}
    given = {name: written for name, written in said.items() if written}
    if not as_sheet:
        answer("served", shown.served, as_json=as_json, **given)
        return
    with looking(from_environment()) as seen:
        click.echo(as_csv(ask(seen, "served", **given)["rows"]), nl=False)


@click.command("instead")
@click.argument("service", metavar="DATE/MEAL/TABLE")
@json_option
def instead_command(service: str, *, as_json: bool) -> None:
    """Which dishes could take the place of one of a menu, what is safe for its table first."""
    answer("instead", shown.instead, as_json=as_json, service=service)
