"""`verify`, `backup`, `restore`, `go-on`: do the books agree, and are they kept elsewhere too?"""

from functools import partial
from pathlib import Path

import click

from pantry.commands.gathered import go_on
from pantry.records.backup import back_up
from pantry.records.backup import restore as restore_backup
from pantry.records.database import reading
from pantry.records.gathering import names, silent
from pantry.records.verify import disagreements
from pantry.records.writer import Writer
from pantry.reports.report import SCHEMA, report
from pantry.reports.view import view
from pantry.rules.units import check_units
from pantry.terminal.applying import OPERATOR
from pantry.terminal.endings import BOOKS_DISAGREE
from pantry.terminal.houses import chosen, database, existing_database
from pantry.terminal.printing import json_option, plain, print_json
from pantry.terminal.settings import from_environment, present
from pantry.terminal.words import many
from pantry.world import new_id

FILE = click.Path(path_type=Path)


@click.command("verify")
@json_option
def verify_command(*, as_json: bool) -> None:
    """Rebuild every balance and promise, follow the journal, and compare. Exit 3 if they differ."""
    settings = from_environment()
    with existing_database(settings) as engine, reading(engine) as connection:
        house = chosen(connection, settings)
        found = [*disagreements(connection, house.id), *check_units()]
        answer = report(
            view(connection, house.id, present(settings)),
            [{"disagreement": sentence} for sentence in found],
            agree=not found,
        )
    if as_json:
        print_json(answer)
    elif not found:
        click.echo(
            f"The books of {plain(house.name)} agree, up to position {answer['position']} "
            "of the journal."
        )
    for sentence in found:
        click.echo(plain(sentence).plain, err=True)
    if found:
        click.echo(
            "The books do not agree. Change nothing more, and restore the last backup that does.",
            err=True,
        )
        click.get_current_context().exit(BOOKS_DISAGREE)


@click.command("backup")
@click.argument("file", type=FILE)
@json_option
def backup_command(file: Path, *, as_json: bool) -> None:
    """Copy every house into the new FILE, verified before it counts."""
    with existing_database(from_environment()) as engine:
        made = back_up(engine, file)
    _answer(made.file, made.positions, "is backed up in", as_json=as_json)


@click.command("restore")
@click.argument("file", type=FILE)
@json_option
def restore_command(file: Path, *, as_json: bool) -> None:
    """Put the backup FILE into an empty database, under a new epoch, and await its devices."""
    settings = from_environment()
    with database(settings) as engine:
        made = restore_backup(engine, file, new_id, present(settings))
    awaited: dict[str, object] = {"awaited": made.awaited}
    _answer(made.file, made.positions, "is restored from", as_json=as_json, more=awaited)
    if as_json:
        return
    for house, called in made.awaited.items():
        click.echo(
            f"{house} waits for what these still hold, and takes nothing new until then: "
            f"{plain(', '.join(called))}. `chooseby go-on` goes on without them."
        )


@click.command("go-on")
@click.argument("device", required=False)
@json_option
def go_on_command(device: str | None, *, as_json: bool) -> None:
    """After a restore, wait no longer for DEVICE, or for any that has not handed in."""
    settings = from_environment()
    with existing_database(settings) as engine, Writer(engine) as writer:
        with reading(engine) as connection:
            house = chosen(connection, settings).id
        work = partial(go_on, house=house, person=OPERATOR, now=present(settings), device=device)
        without = list(writer.submit(house, work).result())
        with reading(engine) as connection:
            left = names(connection, house, silent(connection, house))
    if as_json:
        print_json({"schema": SCHEMA, "without": without, "awaited": left})
        return
    click.echo(f"It goes on without {plain(', '.join(without))}.")
    click.echo(f"It still waits for {plain(', '.join(left))}." if left else "It waits for nobody.")


def _answer(
    file: Path,
    positions: dict[str, int],
    what: str,
    *,
    as_json: bool,
    more: dict[str, object] | None = None,
) -> None:
    if as_json:
        print_json({"schema": SCHEMA, "file": str(file), "positions": positions} | (more or {}))
        return
    for house, position in positions.items():
        click.echo(f"{house} {what} {file}, up to position {position} of the journal.")
    click.echo(f"{many(len(positions), 'house')} in all.")
