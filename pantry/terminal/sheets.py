"""`sheets`: what was shown to the household, when it was read, what they answered."""

import click

from pantry.terminal import shown
from pantry.terminal.printing import json_option
from pantry.terminal.reporting import answer


@click.command("sheets")
@json_option
def sheets_command(*, as_json: bool) -> None:
    """The menus that were shown to the household: sent and read when, answered what."""
    answer("sheets", shown.sheets, as_json=as_json)
