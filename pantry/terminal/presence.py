"""`presence`: who is in the house, how many eat at each table and meal, and who said so."""

import click

from pantry.reports.presence import DAYS
from pantry.reports.view import LOOK_AHEAD
from pantry.terminal import shown
from pantry.terminal.printing import json_option
from pantry.terminal.reporting import answer


@click.command("presence")
@click.option(
    "--days",
    "number",
    type=click.IntRange(min=1, max=LOOK_AHEAD.days),
    default=DAYS,
    show_default=True,
    help="How many, today being the first.",
)
@json_option
def presence_command(number: int, *, as_json: bool) -> None:
    """How many eat at each table and meal, what that is made of, and who said so.

    It is said by the commands say_stay, end_stay, say_away and set_rota; see `apply`.
    """
    answer("presence", shown.presence, as_json=as_json, days=number)
