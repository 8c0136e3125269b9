"""Backup and restore, from either database into either; nothing counts before it is verified."""

import os
import shutil
import sqlite3
import stat
from contextlib import closing
from itertools import count

import pytest
from sqlalchemy import select, text

from pantry.records import backup, migrate, schema
from pantry.records.backup import Backup, back_up, restore
from pantry.records.database import open_database, reading, writing
from pantry.records.promises import settle, write_differences
from pantry.records.read.kitchen_part import held_by
from pantry.records.rows import add, every
from pantry.records.schema import bring_up_to_date
from pantry.records.tables import (
    HouseRow,
    PasswordRow,
    SessionRow,
    SQLModel,
    TryRow,
    WayInRow,
)
from pantry.records.verify import disagreements
from pantry.refusals import Refusal
from tests.hazel_court import COLD_ROOM, DINNER, ID, NOW, House, found, need_row, service_row

PUDDING = f"{DINNER}|rice-pudding"


@pytest.fixture
def kept(house):
    """Hazel Court after a morning, and its twin in which nothing has happened."""
    house.post("milk", 2_000, "supplier", COLD_ROOM)
    house.post("milk", 500, COLD_ROOM, "waste", pieces=2, reason="it was sour")
    with writing(house.database) as connection:
        found(connection, "alder-court")
        add(connection, service_row(DINNER), need_row(PUDDING, DINNER))
    with house.books() as books:
        settle(books, held_by(books, [PUDDING]), {(PUDDING, "milk"): 1_000}, {PUDDING: DINNER})
        write_differences(books)
    for number in range(1, 4):
        house.keep(number, envelope='{"said":"½ l crème — “fraîche”"}')
    return house


@pytest.fixture
def elsewhere(request, tmp_path):
    """Ways to open an empty database of either kind, without tables."""
    numbers, engines = count(1), []

    def open_one(kind):
        if kind == "sqlite":
            url = f"sqlite:///{tmp_path / f'elsewhere {next(numbers)}.db'}"
        else:
            new = request.getfixturevalue("new_postgres_database")()
            url = new.__enter__()
            request.addfinalizer(lambda: new.__exit__(None, None, None))
        engines.append(open_database(url))
        request.addfinalizer(engines[-1].dispose)
        return engines[-1]

    return open_one


def contents(engine):
    """Every row of every table, but for what a restored house has of its own."""
    with reading(engine) as connection:
        tables = {
            table.name: [dict(row) for row in connection.execute(select(table)).mappings().all()]
            for table in SQLModel.metadata.sorted_tables
        }
    for row in tables["house"]:
        del row["epoch"], row["backed_up"]
    del tables["awaited"]
    return {name: sorted(rows, key=repr) for name, rows in tables.items()}


def epochs():
    numbers = count(1)
    return lambda: f"epoch {next(numbers)}"


def refused(action, *arguments):
    with pytest.raises(Refusal) as refusal:
        action(*arguments)
    return refusal.value


KINDS = ["sqlite", pytest.param("postgres", marks=pytest.mark.postgres)]


def test_SY7_a_backup_says_how_far_each_house_is_backed_up(kept, tmp_path):
    assert kept.heads().backed_up == 0
    done = back_up(kept.database, tmp_path / "one.backup")
    assert done == Backup(tmp_path / "one.backup", {ID: 3, "alder-court": 0})
    assert kept.heads().backed_up == 3
    kept.keep(4)
    assert kept.heads().backed_up == 3, "the fourth is in no backup yet"
    back_up(kept.database, tmp_path / "two.backup")
    assert kept.heads().backed_up == 4


@pytest.mark.parametrize("kind", KINDS)
def test_SY7_what_is_restored_is_what_was_backed_up_whichever_the_databases(
    kept, elsewhere, tmp_path, kind
):
    """There and back again: three databases and two files that say the same."""
    first = back_up(kept.database, tmp_path / "one.backup")
    other = elsewhere(kind)
    restore(other, first.file, epochs(), NOW)
    assert contents(other) == contents(kept.database)
    second = back_up(other, tmp_path / "two.backup")
    third = elsewhere(kept.database.dialect.name)
    restore(third, second.file, epochs(), NOW)
    assert contents(third) == contents(kept.database)
    assert House(third).disagreements() == []


def test_SY7_a_restored_house_has_a_new_epoch_and_is_backed_up_as_far_as_it_goes(
    kept, elsewhere, tmp_path
):
    done = back_up(kept.database, tmp_path / "one.backup")
    kept.keep(4)
    other = elsewhere("sqlite")
    restored = restore(other, done.file, epochs(), NOW)
    assert restored.positions == done.positions
    assert restored.awaited == {ID: ["Wilf's phone"], "alder-court": ["Wilf's phone"]}
    with reading(other) as connection:
        houses = {row.id: row for row in every(connection, HouseRow)}
    assert kept.heads().epoch == "first"
    assert {row.epoch for row in houses.values()} == {"epoch 1", "epoch 2"}
    assert (houses[ID].position, houses[ID].backed_up) == (3, 3)
    assert House(other).disagreements() == []


def test_SY7_a_restored_house_goes_on_where_it_stood(kept, elsewhere, tmp_path):
    done = back_up(kept.database, tmp_path / "one.backup")
    other = House(elsewhere("sqlite"))
    restore(other.database, done.file, epochs(), NOW)
    other.keep(4)
    other.post("milk", 5, COLD_ROOM, "waste")
    assert other.heads().position == 4
    assert other.disagreements() == []


def test_SY7_what_is_kept_while_a_backup_runs_is_not_counted_as_backed_up(
    kept, tmp_path, monkeypatch
):
    copy_rows = backup._copy_rows

    def keep_one_meanwhile(source, target):
        with kept.books("meanwhile") as books:
            books.note("batch", "milk")
        kept.keep(4)
        copy_rows(source, target)

    monkeypatch.setattr(backup, "_copy_rows", keep_one_meanwhile)
    done = back_up(kept.database, tmp_path / "one.backup")
    position = done.positions[ID]
    assert position in (3, 4), "either view is whole"
    assert kept.heads().backed_up == position
    with closing(sqlite3.connect(done.file)) as file:
        assert file.execute("SELECT MAX(position) FROM journal").fetchone() == (position,)


def test_SY7_an_older_backup_that_is_done_later_takes_nothing_back(kept, tmp_path, monkeypatch):
    write = backup._write

    def overtaken(engine, file):
        positions = write(engine, file)
        if file.name == "slow.backup":
            kept.keep(4)
            back_up(engine, tmp_path / "fast.backup")
        return positions

    monkeypatch.setattr(backup, "_write", overtaken)
    assert back_up(kept.database, tmp_path / "slow.backup").positions[ID] == 3
    assert kept.heads().backed_up == 4


def test_a_backup_is_one_plain_file_that_a_read_only_medium_can_hold(kept, elsewhere, tmp_path):
    folder = tmp_path / "medium"
    folder.mkdir()
    done = back_up(kept.database, folder / "what? 100% #1.backup")
    assert list(folder.iterdir()) == [done.file]
    before = done.file.read_bytes()
    done.file.chmod(stat.S_IRUSR)
    with closing(sqlite3.connect(done.file)) as file:
        assert file.execute("PRAGMA journal_mode").fetchone() == ("delete",)
    restore(elsewhere("sqlite"), done.file, epochs(), NOW)
    assert done.file.read_bytes() == before
    assert list(folder.iterdir()) == [done.file]


def test_a_file_in_the_way_is_not_overwritten(kept, tmp_path):
    file = tmp_path / "one.backup"
    file.write_text("somebody's letters")
    refusal = refused(back_up, kept.database, file)
    assert (refusal.code, refusal.value) == ("file_in_the_way", str(file))
    assert file.read_text() == "somebody's letters"
    assert kept.heads().backed_up == 0


@pytest.mark.parametrize("way", ["no folder", "a file as a folder"])
def test_a_backup_that_cannot_be_written_is_refused_in_plain_words(kept, tmp_path, way):
    (tmp_path / "a file as a folder").touch()
    refusal = refused(back_up, kept.database, tmp_path / way / "one.backup")
    assert refusal.code == "backup_unwritable"
    assert "one.backup cannot be written: N" in refusal.problem
    assert kept.heads().backed_up == 0


def test_a_backup_for_which_there_is_no_room_leaves_nothing(kept, tmp_path, monkeypatch):
    def full(_source, target):
        target.exec_driver_sql("PRAGMA max_page_count = 1")
        target.execute(text("CREATE TABLE more AS SELECT zeroblob(1000000) AS what"))

    monkeypatch.setattr(backup, "_copy_rows", full)
    folder = tmp_path / "small"
    folder.mkdir()
    refusal = refused(back_up, kept.database, folder / "one.backup")
    assert refusal.code == "backup_unwritable"
    assert "full" in refusal.problem
    assert list(folder.iterdir()) == []


def test_SY7_books_that_do_not_agree_are_not_called_a_backup(kept, tmp_path):
    with writing(kept.database) as connection:
        connection.execute(text("UPDATE balance SET quantity = 7 WHERE account = 'waste'"))
    folder = tmp_path / "backups"
    folder.mkdir()
    refusal = refused(back_up, kept.database, folder / "one.backup")
    assert refusal.code == "backup_disagrees"
    assert "Batch milk: the balance of waste says 7" in refusal.problem
    assert list(folder.iterdir()) == [], "and nothing is left lying about"
    assert kept.heads().backed_up == 0


@pytest.mark.parametrize("kind", KINDS)
def test_SY7_a_backup_that_was_altered_is_not_restored(kept, elsewhere, tmp_path, kind):
    done = back_up(kept.database, tmp_path / "one.backup")
    with closing(sqlite3.connect(done.file)) as file:
        file.execute("DROP TRIGGER movement_no_update")
        file.execute("UPDATE movement SET quantity = quantity + 1")
        file.commit()
    other = elsewhere(kind)
    assert refused(restore, other, done.file, epochs(), NOW).code == "backup_disagrees"
    with reading(other) as connection:
        assert every(connection, HouseRow) == []


def test_SY7_a_restored_house_whose_books_do_not_agree_is_taken_back(
    kept, elsewhere, tmp_path, monkeypatch
):
    """The other database, too, must say the same before anything is committed."""
    done = back_up(kept.database, tmp_path / "one.backup")
    other = elsewhere("sqlite")
    copy_rows = backup._copy_rows

    def lose_one(source, target):
        copy_rows(source, target)
        target.execute(text("DELETE FROM balance WHERE account = 'waste'"))

    monkeypatch.setattr(backup, "_copy_rows", lose_one)
    assert refused(restore, other, done.file, epochs(), NOW).code == "backup_disagrees"
    with reading(other) as connection:
        assert every(connection, HouseRow) == []


def test_a_database_with_a_house_is_not_restored_into(kept, tmp_path):
    done = back_up(kept.database, tmp_path / "one.backup")
    before = contents(kept.database)
    assert refused(restore, kept.database, done.file, epochs(), NOW).code == "database_in_use"
    assert contents(kept.database) == before
    assert kept.heads().epoch == "first"


def test_a_backup_that_is_not_there_is_missing(database, tmp_path):
    refusal = refused(restore, database, tmp_path / "none.backup", epochs(), NOW)
    assert (refusal.code, refusal.status) == ("backup_missing", 404)


def test_what_is_no_backup_is_not_restored(database, tmp_path):
    letter = tmp_path / "letter.txt"
    letter.write_text("Dear Wilf, " * 1000)
    empty = tmp_path / "empty"
    empty.touch()
    other = tmp_path / "other.db"
    with closing(sqlite3.connect(other)) as file:
        file.execute("CREATE TABLE house (colour text)")
    for file in (letter, empty, other):
        refusal = refused(restore, database, file, epochs(), NOW)
        assert (refusal.code, refusal.value) == ("backup_unreadable", str(file))
    with reading(database) as connection:
        assert every(connection, HouseRow) == []


def test_a_backup_that_was_cut_short_is_not_restored(kept, elsewhere, tmp_path):
    done = back_up(kept.database, tmp_path / "one.backup")
    os.truncate(done.file, done.file.stat().st_size // 2)
    code = refused(restore, elsewhere("sqlite"), done.file, epochs(), NOW).code
    assert code in ("backup_unreadable", "backup_disagrees")


def test_a_backup_of_a_newer_version_waits_for_the_newer_program(kept, elsewhere, tmp_path):
    done = back_up(kept.database, tmp_path / "one.backup")
    with closing(sqlite3.connect(done.file)) as file:
        file.execute("UPDATE alembic_version SET version_num = '9999'")
        file.commit()
    assert refused(restore, elsewhere("sqlite"), done.file, epochs(), NOW).code == "database_newer"


def test_a_backup_of_an_older_version_is_brought_up_to_date_as_a_copy(
    kept, elsewhere, tmp_path, monkeypatch
):
    done = back_up(kept.database, tmp_path / "one.backup")
    before = done.file.read_bytes()
    brought = []

    def upgrade(connection):
        brought.append(connection.engine.url.database)
        connection.execute(text("UPDATE alembic_version SET version_num = 'next'"))

    other = elsewhere("sqlite")
    bring_up_to_date(other)
    with_next = (*schema.versions(), "next")
    monkeypatch.setattr(schema, "versions", lambda: with_next)
    monkeypatch.setattr(migrate, "upgrade", upgrade)
    restore(other, done.file, epochs(), NOW)
    assert len(brought) == 2, "the database, and the copy"
    assert str(done.file) not in brought
    assert done.file.read_bytes() == before


def test_who_is_signed_in_is_in_no_backup_and_passwords_are(kept, elsewhere, tmp_path):
    """A session that was ended since must not come back; a restored house must let people in."""
    of = {"house": ID, "person": "wilf"}
    with writing(kept.database) as connection:
        add(
            connection,
            PasswordRow(**of, hash="$argon2id$", set_at=NOW),
            SessionRow(**of, id="s", begun_at=NOW, expires_at=NOW, ends_at=NOW),
            WayInRow(**of, code="c", expires_at=NOW),
            TryRow(id="t", wrong=1, last_at=NOW, wait_until=NOW),
        )
    done = back_up(kept.database, tmp_path / "one.backup")
    other = elsewhere("sqlite")
    restore(other, done.file, epochs(), NOW)
    with reading(other) as connection:
        assert [row.person for row in every(connection, PasswordRow)] == ["wilf"]
        for model in (SessionRow, WayInRow, TryRow):
            assert every(connection, model) == []


def test_a_copy_of_the_file_is_as_good_as_the_backup(kept, elsewhere, tmp_path):
    done = back_up(kept.database, tmp_path / "one.backup")
    moved = tmp_path / "moved.backup"
    shutil.move(done.file, moved)
    other = elsewhere("sqlite")
    assert restore(other, moved, epochs(), NOW).positions == done.positions
    with reading(other) as connection:
        assert disagreements(connection, ID) == []
