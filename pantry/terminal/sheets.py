"""`sheets`: what was shown to the household, when it was read, what they answered; and on paper."""

import hashlib
from collections.abc import Mapping
from pathlib import Path

import click
import msgspec

from pantry.commands.send_sheet import SHEET_UNKNOWN
from pantry.paper.sheet import sheet_pdf
from pantry.records.database import reading
from pantry.records.rows import every, find
from pantry.records.tables import PictureRow, SheetRow
from pantry.records.writer import Writer
from pantry.refusals import NotThere
from pantry.reports.sheet_shown import sheet_shown
from pantry.reports.view import View
from pantry.rules.house_time import write_instant
from pantry.terminal import shown
from pantry.terminal.applying import give
from pantry.terminal.endings import REFUSED
from pantry.terminal.houses import chosen, existing_database
from pantry.terminal.printing import json_option
from pantry.terminal.reporting import answer, looking
from pantry.terminal.settings import from_environment, present
from pantry.world import new_id, new_secret


@click.command("sheets")
@click.option("--pdf", type=click.Path(path_type=Path), help="Write a sheet to this file, on A4.")
@click.option("--sheet", metavar="ID", help="Which; the last that was sent by default.")
@click.option("--send", multiple=True, metavar="SERVICE", help="Show this; may be said again.")
@click.option("--to", metavar="NAME", help="Who of the household chooses.")
@click.option("--until", metavar="INSTANT", help="When it ends; with the last service by default.")
@click.option("--link", is_flag=True, help="With a link, which is told this once.")
@click.option("--withdraw", metavar="ID", help="Show this sheet no longer.")
@click.option("--person", metavar="NAME", help="In whose name it is sent or withdrawn.")
@json_option
def sheets_command(
    pdf: Path | None,
    sheet: str | None,
    person: str | None,
    *,
    link: bool,
    as_json: bool,
    **said: str | tuple[str, ...] | None,
) -> None:
    """The menus that were shown to the household: sent and read when, answered what.

    With --send proposed menus are shown to them, with --withdraw no longer.
    """
    if said["withdraw"]:
        _give("withdraw_sheet", {"sheet": said["withdraw"]}, person)
        click.echo("It is shown no longer.")
        return
    if said["send"]:
        _send(said, person, link=link)
        return
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


def _send(
    said: Mapping[str, str | tuple[str, ...] | None], person: str | None, *, link: bool
) -> None:
    """Show proposed services; what the house keeps of a link is its hash."""
    secret = new_secret()
    body: dict[str, object] = {"services": said["send"]}
    body |= {name: said[name] for name in ("to", "until") if said[name]}
    if link:
        body["link"] = hashlib.sha256(secret.encode()).hexdigest()
    sheet = _give("send_sheet", body, person)
    click.echo(f"Sheet {sheet} is shown.")
    if link:
        click.echo(f"{from_environment().address}/menu-sheet/{secret}")


def _give(kind: str, body: Mapping[str, object], person: str | None) -> str:
    """Give one decision through the one door; its id, or on standard error why it was refused."""
    settings = from_environment()
    command = {"id": new_id(), "kind": kind, "at": write_instant(present(settings)), "body": body}
    command |= {"person": person} if person else {}
    with existing_database(settings) as engine, Writer(engine) as writer:
        with reading(engine) as connection:
            house = chosen(connection, settings).id
        (given,) = give(writer, house, [(1, msgspec.json.encode(command))], settings)
    if given.problem is not None:
        click.echo(f"{given.problem.detail} {given.problem.todo}", err=True)
        click.get_current_context().exit(REFUSED)
    return str(command["id"])


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
