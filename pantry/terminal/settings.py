"""What the environment sets: where the books are kept, which house is meant, what time it is."""

import json
import os
from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import datetime, timedelta
from pathlib import Path

from pantry import world
from pantry.refusals import NotAllowed, UnreadableInput, declare

NOW_REFUSED = declare("now_refused", "CHOOSEBY_NOW cannot be used as it is set.")
PORT_UNREADABLE = declare("port_unreadable", "CHOOSEBY_PORT or CHOOSEBY_TRUST_PORT is no port.")

HOST = "127.0.0.1"
THIS_MACHINE = "127.0.0.1, ::1"
"""The proxies that are believed where nothing is said."""

PORT = 8710
TRUST_PORT = 8711

DATABASE_FILE = "chooseby.db"
DEMO_FILE = "demo-house.json"
"""Stands beside the database of a demo house and says how far its clock is from ours."""


@dataclass(frozen=True, slots=True)
class Settings:
    """The environment, read once.

    Attributes:
        data: the data folder, absolute; it need not exist yet.
        data_named: `CHOOSEBY_DATA` names it.
        database: the URL of the database.
        database_named: `CHOOSEBY_DATABASE_URL` names it.
        house: a house's name or id; None: the only one.
        now_fixed: `CHOOSEBY_NOW` says what time it is.
        host: the address to serve on.
        port_written: the port to serve on, as it is written.
        first_manager: the one-time secret of the first sign-in; empty: one is made.
        https_names: the names and addresses to serve over HTTPS, as written; empty: plain HTTP.
        trust_port_written: the port of the page to trust the certificate, as it is written.
        proxies: the reverse proxies that are believed, as they are written.
        address: where phones reach the house, as it stands on labels; empty: nobody said.
    """

    data: Path
    data_named: bool
    database: str
    database_named: bool
    house: str | None
    now_fixed: bool
    host: str = HOST
    port_written: str = str(PORT)
    first_manager: str = ""
    https_names: str = ""
    trust_port_written: str = str(TRUST_PORT)
    proxies: str = THIS_MACHINE
    address: str = ""

    @property
    def port(self) -> int:
        """The port to serve on.

        Raises:
            UnreadableInput: `port_unreadable`.
        """
        return _port("CHOOSEBY_PORT", self.port_written, PORT)

    @property
    def trust_port(self) -> int:
        """The port of the page to trust the certificate.

        Raises:
            UnreadableInput: `port_unreadable`.
        """
        return _port("CHOOSEBY_TRUST_PORT", self.trust_port_written, TRUST_PORT)

    def in_folder(self, data: Path) -> "Settings":
        """The same, with the data folder and the database in it named."""
        return replace(self, data=data, data_named=True, database=_sqlite_in(data))

    @property
    def demo_file(self) -> Path:
        """What marks the data folder as that of a demo house."""
        return self.data / DEMO_FILE


def from_environment(environment: Mapping[str, str] | None = None) -> Settings:
    """The settings, of this process's environment unless another is given."""
    known = os.environ if environment is None else environment
    named = known.get("CHOOSEBY_DATA", "")
    data = Path(named).expanduser() if named else _default_folder(known)
    data = data.absolute()
    url = known.get("CHOOSEBY_DATABASE_URL", "")
    return Settings(
        data=data,
        data_named=bool(named),
        database=url or _sqlite_in(data),
        database_named=bool(url),
        house=known.get("CHOOSEBY_HOUSE") or None,
        now_fixed=bool(known.get("CHOOSEBY_NOW")),
        host=known.get("CHOOSEBY_HOST") or HOST,
        port_written=known.get("CHOOSEBY_PORT") or str(PORT),
        first_manager=known.get("CHOOSEBY_FIRST_MANAGER", ""),
        https_names=known.get("CHOOSEBY_HTTPS_NAMES", ""),
        trust_port_written=known.get("CHOOSEBY_TRUST_PORT") or str(TRUST_PORT),
        proxies=known.get("CHOOSEBY_PROXIES") or THIS_MACHINE,
        address=known.get("CHOOSEBY_ADDRESS", "").rstrip("/"),
    )


def _port(variable: str, text: str, otherwise: int) -> int:
    if text.isascii() and text.isdigit() and int(text[:6]) < 2**16:
        return int(text)
    raise UnreadableInput(
        PORT_UNREADABLE,
        f"{variable} is {text!r}, and that is no port.",
        f"Set it to a number up to 65535 (0 is any that is free), or unset it for {otherwise}.",
        value=text,
    )


def _default_folder(environment: Mapping[str, str]) -> Path:
    """The user's data folder, as the XDG Base Directory Specification 0.8 has it."""
    shared = environment.get("XDG_DATA_HOME", "")
    folder = Path(shared) if shared.startswith("/") else Path.home() / ".local" / "share"
    return folder / "chooseby"


def _sqlite_in(data: Path) -> str:
    return f"sqlite:///{data / DATABASE_FILE}"


def present(settings: Settings) -> datetime:
    """What time it is for the house, in UTC and whole seconds.

    A demo house's clock began at seven in the morning of its own day and runs on from there;
    `CHOOSEBY_NOW` goes before everything.

    Raises:
        NotAllowed, UnreadableInput: `now_refused`.
    """
    try:
        now = world.now().replace(microsecond=0)
    except ValueError as error:
        in_production = os.environ.get("CHOOSEBY_ENV") == "production"
        raise (NotAllowed if in_production else UnreadableInput)(
            NOW_REFUSED,
            f"CHOOSEBY_NOW cannot be used: {error}.",
            "Unset it, or write an instant with its offset, such as 2027-03-10T07:00:00Z.",
            value=os.environ.get("CHOOSEBY_NOW", ""),
        ) from error
    return now if settings.now_fixed else now + _ahead(settings)


def _ahead(settings: Settings) -> timedelta:
    if settings.database_named or not settings.demo_file.is_file():
        return timedelta(0)
    told = json.loads(settings.demo_file.read_text(encoding="utf-8"))
    return timedelta(seconds=told["clock_ahead_seconds"])
