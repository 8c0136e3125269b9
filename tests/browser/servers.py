"""Servers for the browser's tests: the real program, forked from one that has imported it.

A test that kills its house and opens it again finds it at the same address.
"""

import contextlib
import multiprocessing
import os
import signal
import socket
import sys
import time
from collections.abc import Iterator, Mapping
from pathlib import Path

import httpx
from argon2 import PasswordHasher

PROGRAMS = multiprocessing.get_context("forkserver")
PROGRAMS.set_forkserver_preload(["pantry.terminal.serving", "pantry.terminal.demo", "pantry.cli"])

HASHER = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
"""What checking a password costs otherwise is shown by the tests of passwords."""

PATIENCE = 60
"""Seconds within which a server answers, however loaded the machine is."""


def run(
    arguments: list[str], environment: Mapping[str, str], log: Path, client: Path | None = None
) -> None:
    """Run `chooseby` in this process, as its own program would, with its output in a file.

    What browsers get is the client as it was built, or the folder `client`.
    """
    from pantry.access import passwords
    from pantry.cli import main
    from pantry.terminal import serving as serve

    passwords._HASHER = HASHER
    if client is not None:
        serve.BUILT = client
    os.environ.pop("CHOOSEBY_DATABASE_URL", None)
    os.environ.update(environment)
    written = os.open(log, os.O_WRONLY | os.O_CREAT | os.O_APPEND)
    os.dup2(written, 1)
    os.dup2(written, 2)
    sys.argv = ["chooseby", *arguments]
    main()


def begun(
    arguments: list[str], environment: Mapping[str, str], log: Path, client: Path | None = None
):
    """`chooseby` in a process of its own."""
    process = PROGRAMS.Process(target=run, args=(arguments, dict(environment), log, client))
    process.start()
    return process


class Served:
    """The server of a data folder, at an address of its own for as long as the test lasts."""

    client: Path | None = None
    """The folder of the client's files, where it is not the one that was built."""

    def __init__(self, data: Path, **more: str) -> None:
        port = free_port()
        self.data = data
        self.url = f"http://localhost:{port}"
        self._environment = {
            "CHOOSEBY_DATA": str(data),
            "CHOOSEBY_PORT": str(port),
            "CHOOSEBY_HOST": "127.0.0.1",
            **more,
        }
        self._process = None

    def begin(self) -> None:
        """Serve, and wait until it answers."""
        log = self.data / "server.log"
        self._process = begun(["serve"], self._environment, log, self.client)
        ends = time.monotonic() + PATIENCE
        while time.monotonic() < ends:
            with contextlib.suppress(httpx.TransportError):
                if self._answers():
                    return
            assert self._process.is_alive(), log.read_text()
            time.sleep(0.05)
        raise AssertionError(log.read_text())

    def _answers(self) -> bool:
        # over plain HTTP nothing is verified, and what would be needed for it takes long to read
        return httpx.get(f"{self.url}/api/health", verify=False, trust_env=False).is_success  # noqa: S501 - as said

    def end(self) -> None:
        """Stop as Ctrl-C would: what was begun is finished."""
        self._stop(signal.SIGTERM)

    def kill(self) -> None:
        """Stop at once, as a power cut would."""
        self._stop(signal.SIGKILL)

    def _stop(self, how: signal.Signals) -> None:
        if self._process is None:
            return
        if self._process.is_alive():
            os.kill(self._process.pid, how)
        self._process.join(40)
        assert not self._process.is_alive(), "the server does not end"
        self._process.close()
        self._process = None


@contextlib.contextmanager
def serving(data: Path, **more: str) -> Iterator[Served]:
    """The server of a data folder, until the test is done with it."""
    served = Served(data, **more)
    try:
        served.begin()
        yield served
    finally:
        served.end()


def free_port() -> int:
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return asked.getsockname()[1]
