"""The house's one sequence: numbers without a gap, and none visible before a lower one."""

import threading
from concurrent.futures import ThreadPoolExecutor

import pytest
from sqlalchemy import bindparam, insert, text

from pantry.records.books import Books
from pantry.records.database import open_database, reading, writing
from pantry.records.rows import every, find, table
from pantry.records.tables import ChangeRow, HouseRow
from tests.hazel_court import ID, NOW, found

PATIENCE = 20


def numbers(house):
    return [row.number for row in house.rows(ChangeRow)]


def test_SY6_every_change_has_the_next_number_and_its_position(house):
    with house.books() as books:
        assert books.note("batch", "milk") == 1
        books.position += 1
        assert books.note("item", "whole-milk") == 2
    changes = house.rows(ChangeRow)
    assert [(c.number, c.position, c.what, c.key) for c in changes] == [
        (1, 0, "batch", "milk"),
        (2, 1, "item", "whole-milk"),
    ]
    heads = house.heads()
    assert (heads.change, heads.position) == (2, 1)


def test_SY6_a_number_is_not_seen_before_the_commit(house):
    with house.books() as books:
        books.note("batch", "milk")
        books.write_notes()
        assert numbers(house) == []
        assert house.heads().change == 0
    assert numbers(house) == [1]


def test_SY6_what_is_undone_gives_its_numbers_back(house):
    with house.books() as books:
        books.note("batch", "milk")
        books.write_notes()
        books.note("batch", "flour")
        books.note("batch", "flour")
        books.undo_notes()
        assert books.note("item", "whole-milk") == 2
    assert [(c.number, c.key) for c in house.rows(ChangeRow)] == [(1, "milk"), (2, "whole-milk")]


def test_SY6_a_transaction_that_fails_leaves_no_gap(house):
    with house.books() as books:
        books.note("batch", "milk")
    with pytest.raises(ZeroDivisionError), house.books() as books:
        books.note("batch", "milk") // 0
    with house.books() as books:
        books.note("batch", "milk")
    assert numbers(house) == [1, 2]


def test_SY6_books_opened_without_the_writer_take_turns(house):
    """An import, or a list from the command line, opens the books in a transaction of its own."""
    begin = threading.Barrier(8)

    def note_some(_number):
        begin.wait(PATIENCE)
        for _ in range(5):
            with house.books() as books:
                books.note("batch", "milk")

    with ThreadPoolExecutor(8) as threads:
        list(threads.map(note_some, range(8), timeout=PATIENCE))
    assert numbers(house) == list(range(1, 41))
    assert house.heads().change == 40


@pytest.mark.postgres
def test_SY6_a_visible_number_never_precedes_an_invisible_lower_one(postgres_database):
    """Against what a database's own counter does, which PostgreSQL's is known for.

    Source: PostgreSQL documentation, "Sequence Manipulation Functions": a value that nextval gave
    is not taken back, and two transactions may commit in the other order.
    """
    with writing(postgres_database) as connection:
        found(connection)
        connection.execute(text("CREATE SEQUENCE of_the_database"))
    own = text("SELECT nextval('of_the_database')")
    change = insert(table(ChangeRow)).values(
        house=ID, number=bindparam("number"), position=0, what="batch", key="milk"
    )
    with postgres_database.connect() as slow, postgres_database.connect() as fast:
        slow.execute(text("SET lock_timeout = 100"))
        lower, higher = slow.execute(own).scalar(), fast.execute(own).scalar()
        fast.execute(change, {"number": higher})
        fast.commit()
        with reading(postgres_database) as connection:
            seen = [row.number for row in every(connection, ChangeRow, house=ID)]
        slow.rollback()
    assert (lower, seen) == (1, [2]), "so a reader who has seen 2 would never ask for 1"

    with writing(postgres_database) as first:
        books = Books(first, ID, NOW)
        impatient = open_database(postgres_database.url)
        with impatient.connect() as second:
            second.execute(text("SET lock_timeout = 50"))
            with pytest.raises(Exception, match="lock timeout"):
                Books(second, ID, NOW)
        impatient.dispose()
        books.close()


def test_SY6_houses_number_their_changes_apart(house):
    with writing(house.database) as connection:
        found(connection, "alder-court")
    with house.books() as books:
        books.note("batch", "milk")
    with writing(house.database) as connection:
        books = Books(connection, "alder-court", NOW)
        assert books.note("batch", "milk") == 1
        books.close()
    assert numbers(house) == [1]


def test_the_settings_are_read_anew_once_they_have_changed(house):
    with house.books() as books:
        assert books.zone.key == "Europe/London"
        books.connection.execute(text("UPDATE house SET zone = 'Europe/Berlin'"))
        books.settings_changed()
        assert books.zone.key == "Europe/Berlin"
        assert [row.name for row in books.people] == ["Wilf Aske"]


def test_there_are_no_books_of_a_house_that_is_not_there(database):
    with writing(database) as connection:
        assert find(connection, HouseRow, id="nowhere") is None
        with pytest.raises(LookupError, match="nowhere"):
            Books(connection, "nowhere", NOW)
