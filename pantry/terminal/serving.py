"""`serve`: the server of the houses in the database, until it is told to stop."""

import os
import signal
import socket
from collections.abc import Iterator
from contextlib import contextmanager
from functools import partial
from threading import Thread
from types import FrameType

import click
from sqlalchemy import Engine

from pantry import world
from pantry.access import passwords
from pantry.http.client import BUILT
from pantry.http.encrypted import Encrypted
from pantry.http.proxies import Proxies
from pantry.http.served import Served
from pantry.http.server import Server, listening_on
from pantry.http.trust_page import TrustPage, TrustServer
from pantry.mail.mail_server import MailServer
from pantry.records.database import reading
from pantry.records.writer import Writer
from pantry.terminal.houses import database
from pantry.terminal.settings import Settings, from_environment, present
from pantry.trust.kept import KeptTrust
from pantry.trust.names import read_names


@click.command("serve")
def serve_command() -> None:
    """Serve the houses to browsers and programs, until Ctrl-C or SIGTERM.

    On CHOOSEBY_HOST and CHOOSEBY_PORT, 127.0.0.1 and 8710 by default; over HTTPS where
    CHOOSEBY_HTTPS_NAMES says how the house is reached. What was begun is finished before it
    stops. Where nobody can sign in yet, the secret for the first manager is printed.
    """
    serve(from_environment())


def serve(settings: Settings) -> None:
    """Serve what the settings say, until somebody stops it."""
    present(settings)  # what it refuses, it refuses now and not with every request
    with database(settings) as engine, Writer(engine) as writer:
        of = served(settings, engine, writer)
        proxies = Proxies(settings.proxies)
        encrypted = _encrypted(settings)
        with (
            _listening(settings.host, settings.port) as sockets,
            _trust_page(settings, encrypted, sockets) as page,
        ):
            _tell_where(settings, encrypted, sockets, page)
            _tell_secret(of, settings)
            with _stopping_quietly():
                Server(of, proxies, encrypted).run(sockets)
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
        address=settings.address,
        watches=True,
        clock_stands=settings.now_fixed,
        mail=MailServer.of(os.environ),
    )


def _encrypted(settings: Settings) -> Encrypted | None:
    """What to encrypt with, where names are said under which the house is reached."""
    names = read_names(settings.https_names)
    return Encrypted(KeptTrust(settings.data), names, world.now) if names else None


Sockets = list[socket.socket]


@contextmanager
def _listening(host: str, port: int) -> Iterator[Sockets]:
    """Sockets that are closed in the end, however it comes."""
    sockets = listening_on(host, port)
    try:
        yield sockets
    finally:
        for each in sockets:
            each.close()


@contextmanager
def _trust_page(
    settings: Settings, encrypted: Encrypted | None, house: Sockets
) -> Iterator[TrustPage | None]:
    """Beside the server, in a thread of its own, the page on which a phone comes to trust it."""
    if encrypted is None:
        yield None
        return
    with _listening(settings.host, settings.trust_port) as sockets:
        page = TrustPage(encrypted.names, lambda: encrypted.authority, _port(house), _port(sockets))
        server = TrustServer(page)
        thread = Thread(target=server.run, args=(sockets,), name="trust page")
        thread.start()
        try:
            yield page
        finally:
            server.should_exit = True
            thread.join()


def _port(sockets: Sockets) -> int:
    return int(sockets[0].getsockname()[1])


def _tell_where(
    settings: Settings, encrypted: Encrypted | None, sockets: Sockets, page: TrustPage | None
) -> None:
    if encrypted is None or page is None:
        click.echo(f"Chooseby is at http://{_address(settings.host)}:{_port(sockets)}")
        return
    first = encrypted.names.hosts[0]
    click.echo(f"Chooseby is at {page.house_at(first)}")
    click.echo(f"A phone comes to trust it at {page.page_at(first)}")


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
