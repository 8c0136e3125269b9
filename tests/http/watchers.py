"""Servers' watches in processes of their own on one database, for the tests to race.

    python -m tests.http.watchers URL NOW PROCESSES ROUNDS

Each process looks at the houses so many times, as fast as it can; every line it prints is the id of
a letter that its mail server took. They are forked before any connection is opened.
"""

import os
import sys
from datetime import UTC, datetime
from pathlib import Path

import anyio

from pantry.http.alert_watch import AlertWatch
from pantry.http.served import Served
from pantry.records.database import open_database
from pantry.records.writer import Writer

TODAY = datetime(2026, 11, 25, 12, tzinfo=UTC)


class Printing:
    """A mail server that prints what it takes."""

    def hand_over(self, letter, _sent_at):
        os.write(sys.stdout.fileno(), f"{letter.id}\n".encode())


def watch(url, now, rounds):
    engine = open_database(url)
    with Writer(engine) as writer:
        of = Served(
            engine=engine,
            writer=writer,
            now=lambda: now,
            clock=lambda: TODAY,
            secret="",
            only=None,
            client=Path("no client"),
            mail=Printing(),
        )

        async def look():
            for _ in range(rounds):
                await AlertWatch(of).look_round()

        anyio.run(look)


def main(url, now, processes, rounds):
    gates = [os.pipe() for _ in range(int(processes))]
    children = []
    for gate, _ in gates:
        if not (child := os.fork()):
            os.read(gate, 1)
            watch(url, datetime.fromisoformat(now), int(rounds))
            os._exit(0)
        children.append(child)
    for _, gate in gates:
        os.write(gate, b"!")
    for child in children:
        assert os.waitpid(child, 0)[1] == 0


if __name__ == "__main__":
    main(*sys.argv[1:])
