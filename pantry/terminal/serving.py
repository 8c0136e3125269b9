"""`serve`: the server of the houses in the database, until it is told to stop."""

import signal
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from types import FrameType

import click
from sqlalchemy import Engine

from pantry import world
from pantry.access import passwords
from pantry.http.client import BUILT
from pantry.http.served import Served
from pantry.http.server import Server, listening_on
from pantry.records.database import reading
from pantry.records.writer import Writer
from pantry.terminal.houses import database
from pantry.terminal.settings import Settings, from_environment, present


@click.command("serve")
def serve_command() -> None:
    """Serve the houses to browsers and programs, until Ctrl-C or SIGTERM.

    On CHOOSEBY_HOST and CHOOSEBY_PORT, 127.0.0.1 and 8710 by default. What was begun is finished
    before it stops. Where nobody can sign in yet, the secret for the first manager is printed.
    """
    serve(from_environment())


def serve(settings: Settings) -> None:
    """Serve what the settings say, until somebody stops it."""
    present(settings)  # what it refuses, it refuses now and not with every request
    with database(settings) as engine, Writer(engine) as writer:
        of = served(settings, engine, writer)
        sockets = listening_on(settings.host, settings.port)
        port = sockets[0].getsockname()[1]
        click.echo(f"Chooseby is at http://{_address(settings.host)}:{port}")
        _tell_secret(of, settings)
        with _stopping_quietly():
            Server(of).run(sockets)
    click.echo("Stopped; everything that was answered is on the disk.")


def served(settings: Settings, engine: Engine, writer: Writer) -> Served:
    """What the settings say is to be served."""
    return Served(
        engine=engine,
        writer=writer,
        now=partial(present, settings),
        clock=world.now,
        secret=_secret(engine, settings),
        only=settings.house,
        client=BUILT,
    )


def _secret(engine: Engine, settings: Settings) -> str:
    """The secret of the first manager; none where somebody can sign in already."""
    with reading(engine) as connection:
        wanted = not passwords.anybody_has_one(connection)
    return (settings.first_manager or world.new_secret()) if wanted else ""


def _tell_secret(of: Served, settings: Settings) -> None:
    if of.secret and not settings.first_manager:
        click.echo("Nobody can sign in yet. The secret for the first manager, shown once:")
        click.echo(f"    {of.secret}")


def _address(host: str) -> str:
    return f"[{host}]" if ":" in host else host


@contextmanager
def _stopping_quietly() -> Iterator[None]:
    """A signal that has stopped the server is done with: uvicorn raises it again afterwards."""

    def done(_signal: int, _frame: FrameType | None) -> None:
        """Nothing is left to do."""

    before = {number: signal.signal(number, done) for number in (signal.SIGINT, signal.SIGTERM)}
    try:
        yield
    finally:
        for number, handler in before.items():
            signal.signal(number, handler)
