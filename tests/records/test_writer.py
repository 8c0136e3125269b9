"""The one writer: order, groups, durability, and nothing that can end it (SY6)."""

import threading
from concurrent.futures import CancelledError, wait

import pytest
from sqlalchemy import event, text
from sqlalchemy.exc import IntegrityError, SQLAlchemyError

from pantry.records import database as database_module
from pantry.records import writer as writer_module
from pantry.records.database import BooksBusy, open_database, reading, writing
from pantry.records.rows import add, every
from pantry.records.tables import AreaRow
from pantry.records.writer import Writer
from tests.hazel_court import ID, found

TWIN = "alder-court"
PATIENCE = 20
"""Seconds after which a test that waits for the writer has failed."""


@pytest.fixture
def writer(house):
    with Writer(house.database) as writer:
        yield writer


def area(name, house=ID, kind="ambient"):
    """Work that writes one storage area and answers its name."""

    def work(connection):
        add(connection, AreaRow(house=house, id=name, name=name, kind=kind))
        return name

    return work


def areas(house):
    """The names of the areas that the tests wrote, as another connection sees them."""
    return [row.id for row in house.rows(AreaRow) if row.id.startswith("test")]


class Gate:
    """Work that keeps the writer busy until it is opened, so that others queue behind it."""

    def __init__(self, writer, house=ID):
        self.entered, self._open = threading.Event(), threading.Event()
        self.future = writer.submit(house, self._work)
        assert self.entered.wait(PATIENCE)

    def _work(self, _connection):
        self.entered.set()
        assert self._open.wait(PATIENCE)

    def open(self):
        self._open.set()


def count_commits(engine):
    seen = []
    event.listen(engine, "commit", seen.append)
    return seen


def test_SY6_what_is_answered_is_durable_for_every_other_connection(house, writer):
    stranger = open_database(house.database.url)
    for number in range(20):
        name = writer.submit(ID, area(f"test {number:02}")).result(PATIENCE)
        with reading(stranger) as connection:
            assert every(connection, AreaRow, house=ID, id=name)
    stranger.dispose()


def test_SY6_nothing_is_answered_before_the_commit(house, writer):
    gate = Gate(writer)
    inside = {}

    def look(_connection):
        inside["first is done"] = first.done()
        inside["seen outside"] = areas(house)

    first = writer.submit(ID, area("test first"))
    second = writer.submit(ID, look)
    gate.open()
    second.result(PATIENCE)
    assert inside == {"first is done": False, "seen outside": []}
    assert first.done()
    assert areas(house) == ["test first"]


def test_SY6_what_waited_together_shares_one_commit(house, writer):
    gate = Gate(writer)
    commits = count_commits(house.database)
    futures = [writer.submit(ID, area(f"test {number:02}")) for number in range(40)]
    gate.open()
    assert [future.result(PATIENCE) for future in futures] == [f"test {n:02}" for n in range(40)]
    assert len(commits) == 2, "one for the gate, one for the forty"


def test_SY6_a_group_is_bounded(house, writer, monkeypatch):
    monkeypatch.setattr(writer_module, "GROUP", 8)
    gate = Gate(writer)
    commits = count_commits(house.database)
    futures = [writer.submit(ID, area(f"test {number:02}")) for number in range(20)]
    gate.open()
    wait(futures, PATIENCE)
    assert len(commits) == 1 + 3


def test_SY6_a_house_keeps_the_order_in_which_work_was_submitted(writer):
    order = []
    futures = [writer.submit(ID, lambda _, n=number: order.append(n)) for number in range(200)]
    wait(futures, PATIENCE)
    assert order == list(range(200))


def test_SY6_houses_take_turns_and_each_keeps_its_order(house, writer):
    with writing(house.database) as connection:
        found(connection, TWIN)
    done = []

    def work(name, number):
        return lambda _connection: done.append((name, number))

    gate = Gate(writer)
    commits = count_commits(house.database)
    futures = []
    for number in range(10):
        futures.extend(writer.submit(name, work(name, number)) for name in (ID, TWIN))
    gate.open()
    wait(futures, PATIENCE)
    assert [number for name, number in done if name == ID] == list(range(10))
    assert [number for name, number in done if name == TWIN] == list(range(10))
    assert len(commits) == 3, "the gate, and one for each house though they were queued in turn"


def test_SY6_a_house_that_never_stops_does_not_starve_another(house, writer, monkeypatch):
    with writing(house.database) as connection:
        found(connection, TWIN)
    monkeypatch.setattr(writer_module, "GROUP", 4)
    done = []
    gate = Gate(writer)
    futures = [writer.submit(ID, lambda _: done.append(ID)) for _ in range(40)]
    futures.append(writer.submit(TWIN, lambda _: done.append(TWIN)))
    gate.open()
    wait(futures, PATIENCE)
    assert done.index(TWIN) <= 4


class _Stop(BaseException):
    """Not even an Exception."""


@pytest.mark.parametrize("error", [ValueError("no"), SystemExit(1), _Stop()])
def test_a_piece_of_work_that_fails_leaves_nothing_and_does_not_hurt_its_neighbours(
    house, writer, error
):
    def fail(connection):
        area("test half")(connection)
        raise error

    gate = Gate(writer)
    before = writer.submit(ID, area("test before"))
    failing = writer.submit(ID, fail)
    after = writer.submit(ID, area("test after"))
    gate.open()
    assert failing.exception(PATIENCE) is error
    assert (before.result(PATIENCE), after.result(PATIENCE)) == ("test before", "test after")
    assert areas(house) == ["test after", "test before"]


def test_work_that_the_database_refuses_does_not_hurt_its_neighbours(house, writer):
    gate = Gate(writer)
    before = writer.submit(ID, area("test before"))
    refused = writer.submit(ID, area("test tropical", kind="tropical"))
    after = writer.submit(ID, area("test after"))
    gate.open()
    assert isinstance(refused.exception(PATIENCE), IntegrityError)
    wait([before, after], PATIENCE)
    assert areas(house) == ["test after", "test before"]


def test_work_that_hides_a_refusal_of_the_database_does_not_hurt_its_neighbours(house, writer):
    """PostgreSQL then refuses all that follows in the transaction, its savepoint's release too."""

    def hide(connection):
        area("test hiding")(connection)
        try:
            area("test tropical", kind="tropical")(connection)
        except IntegrityError:
            return "nothing happened"

    gate = Gate(writer)
    before = writer.submit(ID, area("test before"))
    hiding = writer.submit(ID, hide)
    after = writer.submit(ID, area("test after"))
    gate.open()
    wait([before, hiding, after], PATIENCE)
    assert before.result() == "test before"
    assert after.result() == "test after"
    kept = ["test after", "test before"]
    assert areas(house) == kept + ["test hiding"] * (hiding.exception() is None)


def break_commit(connection):
    """A reference that is checked at the commit only, and then points nowhere."""
    if connection.dialect.name == "sqlite":
        connection.exec_driver_sql("PRAGMA defer_foreign_keys=ON")
    else:
        connection.execute(
            text(
                "ALTER TABLE area ALTER CONSTRAINT fk_area_house DEFERRABLE INITIALLY DEFERRED;"
                "SET CONSTRAINTS ALL DEFERRED"
            )
        )
    area("test nowhere", house="no such house")(connection)


def test_a_commit_that_fails_is_told_to_everybody_and_the_writer_goes_on(house, writer):
    gate = Gate(writer)
    group = [
        writer.submit(ID, area("test before")),
        writer.submit(ID, break_commit),
        writer.submit(ID, area("test after")),
    ]
    gate.open()
    for future in group:
        assert isinstance(future.exception(PATIENCE), IntegrityError)
    assert gate.future.exception(PATIENCE) is None
    assert areas(house) == []
    assert writer.submit(ID, area("test next")).result(PATIENCE) == "test next"
    assert areas(house) == ["test next"]


def test_a_submitter_that_goes_away_while_it_waits_is_not_worked_on(house, writer):
    gate = Gate(writer)
    gone = writer.submit(ID, area("test gone"))
    stays = writer.submit(ID, area("test stays"))
    assert gone.cancel()
    gate.open()
    assert stays.result(PATIENCE) == "test stays"
    assert areas(house) == ["test stays"]
    with pytest.raises(CancelledError):
        gone.result()


def test_a_submitter_that_goes_away_while_it_is_worked_on_does_not_end_the_writer(writer):
    gate = Gate(writer)
    assert not gate.future.cancel(), "what may be committed cannot be called back"
    gate.open()
    assert writer.submit(ID, area("test next")).result(PATIENCE) == "test next"


def test_closing_does_what_is_queued_and_takes_nothing_more(house):
    writer = Writer(house.database)
    gate = Gate(writer)
    futures = [writer.submit(ID, area(f"test {number:02}")) for number in range(100)]
    closing = threading.Thread(target=writer.close)
    closing.start()
    gate.open()
    closing.join(PATIENCE)
    assert [future.done() for future in futures] == [True] * 100
    assert len(areas(house)) == 100
    with pytest.raises(RuntimeError, match="closed"):
        writer.submit(ID, area("test late"))
    writer.close()


def test_what_is_submitted_while_it_closes_is_done_or_refused_but_never_forgotten(house):
    writer = Writer(house.database)
    begin = threading.Barrier(5)
    futures, refused = [], []

    def submit():
        begin.wait(PATIENCE)
        for _ in range(300):
            try:
                futures.append(writer.submit(ID, lambda _: None))
            except RuntimeError:
                refused.append(1)

    threads = [threading.Thread(target=submit) for _ in range(4)]
    for thread in threads:
        thread.start()
    begin.wait(PATIENCE)
    writer.close()
    for thread in threads:
        thread.join(PATIENCE)
    assert len(futures) + len(refused) == 1200
    assert all(future.done() for future in futures)


def test_books_that_another_program_holds_for_too_long_are_said_to_be_busy(house, monkeypatch):
    monkeypatch.setattr(database_module, "BUSY_MILLISECONDS", 60)
    impatient = open_database(house.database.url)
    with Writer(impatient) as writer:
        with house.books():
            held = writer.submit(ID, area("test held"))
            refusal = held.exception(PATIENCE)
        assert isinstance(refusal, BooksBusy)
        assert (refusal.code, refusal.status) == ("books_busy", 503)
        assert areas(house) == []
        assert writer.submit(ID, area("test free")).result(PATIENCE) == "test free"
    impatient.dispose()


def test_books_that_another_program_holds_for_a_while_are_waited_for(house, writer):
    with house.books():
        waiting = [writer.submit(ID, area(f"test {number}")) for number in range(3)]
        assert not any(future.done() for future in waiting)
    assert [future.result(PATIENCE) for future in waiting] == ["test 0", "test 1", "test 2"]


@pytest.fixture
def stranger(postgres_database):
    """Another program on the same PostgreSQL database."""
    engine = open_database(postgres_database.url)
    yield engine
    engine.dispose()


@pytest.mark.postgres
def test_a_server_that_drops_its_connections_fails_no_later_work(postgres_database, stranger):
    with writing(postgres_database) as connection:
        found(connection)

    def drop_all():
        with stranger.connect() as connection:
            connection.execute(
                text(
                    "SELECT pg_terminate_backend(pid) FROM pg_stat_activity"
                    " WHERE datname = current_database() AND pid <> pg_backend_pid()"
                )
            )

    with Writer(postgres_database) as writer:
        writer.submit(ID, area("test first")).result(PATIENCE)
        drop_all()
        assert writer.submit(ID, area("test second")).result(PATIENCE) == "test second"

        def dropped(connection):
            area("test lost")(connection)
            drop_all()
            connection.execute(text("SELECT 1"))

        assert isinstance(writer.submit(ID, dropped).exception(PATIENCE), SQLAlchemyError)
        assert writer.submit(ID, area("test third")).result(PATIENCE) == "test third"
    with reading(postgres_database) as connection:
        assert not every(connection, AreaRow, house=ID, id="test lost")
