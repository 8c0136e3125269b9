"""`labels`: which batches lack a label, and labels as a PDF."""

from pathlib import Path

import click

from pantry.paper.labels_asked import TAKES, labels_of, read_asked
from pantry.rules.label_paper import ROLLS, SHEETS
from pantry.terminal import shown
from pantry.terminal.printing import json_option
from pantry.terminal.reporting import answer, looking
from pantry.terminal.settings import from_environment


@click.command("labels", epilog=f"Sheets: {', '.join(SHEETS)}. Rolls: {', '.join(ROLLS)}.")
@click.option("--pdf", type=click.Path(path_type=Path), help="Write labels to this file.")
@click.option(
    "--paper", metavar="MEASURES", help="A sheet (a4/3x8/70x37) or a roll (62x29), in mm."
)
@click.option("--start", metavar="N", help="The first free label of a begun sheet.")
@click.option("--copies", metavar="N", help="How many of each.")
@click.option("--batch", multiple=True, metavar="LABEL", help="A batch, by label or id.")
@click.option("--order", metavar="ORDER", help="All that was received of an order.")
@click.option("--day", metavar="DATE", help="All that came or was made on a day.")
@click.option("--numbers", metavar="COMMAND", help="The numbers that reserve_labels reserved.")
@json_option
def labels_command(
    pdf: Path | None, *, as_json: bool, **said: str | tuple[str, ...] | None
) -> None:
    """Which batches want a label; with --pdf, print labels to a file."""
    if pdf is None:
        answer("labels", shown.labels, as_json=as_json)
        return
    asked = read_asked({name: _texts(said[name]) for name in TAKES if said[name]})
    settings = from_environment()
    with looking(settings) as seen:
        pdf.write_bytes(labels_of(seen, asked, settings.address))
    click.echo(f"Written to {pdf}.")


def _texts(said: str | tuple[str, ...] | None) -> tuple[str, ...]:
    return (said,) if isinstance(said, str) else said or ()
