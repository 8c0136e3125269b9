"""Server processes of their own on one database, for the tests to race and to kill.

    python -m tests.records.servers take URL HOUSE PROCESSES QUANTITY BATCH=TAKERS...
    python -m tests.records.servers kill URL HOUSE TIMES ACKNOWLEDGED

`take` starts so many processes, each with a writer and for each batch so many threads, which take
a quantity of it from the cold room where there is enough; every line it prints is one thread's
answer, as `milk taken` or `milk refused`. `kill` starts a process that keeps commands as fast as it
can, kills it (SIGKILL) once so many are acknowledged, and starts the next; every line is an
acknowledged command's id.

The processes are forked before any connection is opened, so that one start of Python serves all.
"""

import os
import signal
import sys
from concurrent.futures import ThreadPoolExecutor
from itertools import count

from pantry.records import journal, ledger
from pantry.records.accounts import WASTE
from pantry.records.books import Books
from pantry.records.database import open_database
from pantry.records.ledger import Movement
from pantry.records.writer import Writer
from tests.hazel_court import COLD_ROOM, HOUR, NOW, entry

PATIENCE = 60


def take(url, house, processes, quantity, *batches):
    """Everybody takes at once."""
    takers = [
        batch for each in batches for batch, _, n in [each.partition("=")] for _ in range(int(n))
    ]
    gates = [os.pipe() for _ in range(int(processes))]
    children = []
    for gate, _ in gates:
        if not (child := os.fork()):
            os.read(gate, 1)
            with Writer(open_database(url)) as writer, ThreadPoolExecutor(len(takers)) as threads:
                asked = [
                    threads.submit(_take_one, writer, house, batch, int(quantity))
                    for batch in takers
                ]
                _say(*(each.result(PATIENCE) for each in asked))
            os._exit(0)
        children.append(child)
    for _, gate in gates:
        os.write(gate, b"!")
    for child in children:
        assert os.waitpid(child, 0)[1] == 0


def _take_one(writer, house, batch, quantity):
    def work(connection):
        books = Books(connection, house, NOW)
        books.command = "take"
        if ledger.standing(books, batch).get(COLD_ROOM, 0) < quantity:
            return f"{batch} refused"
        ledger.post(books, Movement(batch, quantity, COLD_ROOM, WASTE, NOW))
        books.close()
        return f"{batch} taken"

    return writer.submit(house, work).result(PATIENCE)


def kill(url, house, times, acknowledged):
    """One after the other writes until it is killed."""
    for round_ in range(int(times)):
        heard, says = os.pipe()
        if not (child := os.fork()):
            os.close(heard)
            _keep_on(url, house, f"round {round_}", says)
        os.close(says)
        with os.fdopen(heard) as lines:
            for _ in range(int(acknowledged)):
                _say(next(lines).strip())
            os.kill(child, signal.SIGKILL)
            os.waitpid(child, 0)
            _say(*(line.strip() for line in lines if line.endswith("\n")))


def _keep_on(url, house, name, says):
    with Writer(open_database(url)) as writer:
        waiting = []
        for number in count(1):
            command = f"{name} command {number}"
            waiting.append((command, writer.submit(house, _keeping(house, command))))
            if len(waiting) == 8:
                oldest, future = waiting.pop(0)
                future.result(PATIENCE)
                os.write(says, f"{oldest}\n".encode())


def _keeping(house, command):
    def work(connection):
        books = Books(connection, house, NOW)
        books.command = command
        books.position += 1
        movement = Movement("milk", 5, "supplier", COLD_ROOM, NOW - HOUR)
        for _ in range(3):
            ledger.post(books, movement)
        journal.keep(books, entry(0, id=command, device=None, n=None))
        books.close()

    return work


def _say(*lines):
    for line in lines:
        os.write(sys.stdout.fileno(), f"{line}\n".encode())


if __name__ == "__main__":
    {"take": take, "kill": kill}[sys.argv[1]](*sys.argv[2:])
