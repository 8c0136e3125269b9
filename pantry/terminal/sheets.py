"""`sheets`: what was shown to the household, when it was read, what they answered; and on paper."""

from pathlib import Path

import click

from pantry.commands.send_sheet import SHEET_UNKNOWN
from pantry.paper.sheet import sheet_pdf
from pantry.records.rows import every, find
from pantry.records.tables import PictureRow, SheetRow
from pantry.refusals import NotThere
from pantry.reports.sheet_shown import sheet_shown
from pantry.reports.view import View
from pantry.terminal import shown
from pantry.terminal.printing import json_option
from pantry.terminal.reporting import answer, looking
from pantry.terminal.settings import from_environment


@click.command("sheets")
@click.option("--pdf", type=click.Path(path_type=Path), help="Write a sheet to this file, on A4.")
@click.option("--sheet", metavar="ID", help="Which; the last that was sent by default.")
@json_option
def sheets_command(pdf: Path | None, sheet: str | None, *, as_json: bool) -> None:
    """The menus that were shown to the household: sent and read when, answered what.

    They are shown by the command send_sheet and no longer by withdraw_sheet; see `apply`.
    """
    if pdf is None:
        answer("sheets", shown.sheets, as_json=as_json)
        return
    with looking(from_environment()) as seen:
        row = _named(seen, sheet)
        pdf.write_bytes(
            sheet_pdf(
                sheet_shown(seen, row), seen.zone, seen.now, lambda name: _picture(seen, name)
            )
        )
    click.echo(f"Written to {pdf}.")


def _named(seen: View, sheet: str | None) -> SheetRow:
    """The sheet of that id, or the last.

    Raises:
        NotThere: `sheet_unknown`.
    """
    rows = every(seen.connection, SheetRow, house=seen.id)
    found = [row for row in rows if sheet in (None, row.id)]
    if not found:
        raise NotThere(
            SHEET_UNKNOWN,
            "No such sheet was sent to the household.",
            "Look at `chooseby sheets --json` for those that were.",
            value=sheet or "",
        )
    return max(found, key=lambda row: (row.sent_at, row.id))


def _picture(seen: View, name: str) -> bytes | None:
    row = find(seen.connection, PictureRow, house=seen.id, id=name)
    return row.content if row else None
