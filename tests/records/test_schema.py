"""The tables: what the migrations make is what is declared, and nothing is half made."""

import re
import threading
from concurrent.futures import ThreadPoolExecutor
from contextlib import ExitStack
from importlib.resources import files

import pytest
from alembic import command
from alembic.migration import MigrationContext
from alembic.operations import Operations
from alembic.script import ScriptDirectory
from sqlalchemy import Column, String, bindparam, inspect, text
from sqlalchemy.exc import DBAPIError

from pantry.records import database as database_module
from pantry.records import migrate, schema
from pantry.records.accounts import WASTE
from pantry.records.database import BooksBusy, open_database, reading, writing
from pantry.records.guard import put_right, unguarded
from pantry.records.migrate import configuration, differences
from pantry.records.rows import add, every
from pantry.records.schema import bring_up_to_date, revision, versions
from pantry.records.tables import AreaRow, MovementRow, SQLModel
from pantry.refusals import NotNow
from tests.hazel_court import COLD_ROOM, HOUR, ID, NOW, House, found
from tests.spared import migrated

PATIENCE = 30


@pytest.fixture(autouse=True)
def _the_whole_way(monkeypatch):
    """The tables are what these tests are about."""
    monkeypatch.setattr(migrate, "upgrade", migrated)


@pytest.fixture
def new_url(database, tmp_path, request):
    """The URL of an empty database without tables, of the same kind as `database`."""
    if database.dialect.name == "sqlite":
        yield f"sqlite:///{tmp_path / 'new.db'}"
        return
    with request.getfixturevalue("new_postgres_database")() as url:
        yield url


@pytest.fixture
def opened():
    """Open a database, to be closed with the test."""
    engines = []

    def open_one(url):
        engines.append(open_database(url))
        return engines[-1]

    yield open_one
    for engine in engines:
        engine.dispose()


def shape(engine):
    """Everything that reflection sees of the tables: columns, keys, checks, references, indexes."""
    with reading(engine) as connection:
        inspector = inspect(connection)
        found = {}
        for table in inspector.get_table_names():
            if table != "alembic_version":
                found[table] = {
                    "columns": [
                        (c["name"], str(c["type"]).partition(" COLLATE")[0], c["nullable"])
                        for c in inspector.get_columns(table)
                    ],
                    "key": inspector.get_pk_constraint(table)["constrained_columns"],
                    "checks": sorted(
                        (c["name"], _plain(c["sqltext"]))
                        for c in inspector.get_check_constraints(table)
                    ),
                    "references": sorted(
                        (f["name"], f["constrained_columns"], f["referred_table"], f["options"])
                        for f in inspector.get_foreign_keys(table)
                    ),
                    "unique": sorted(
                        (u["name"], u["column_names"])
                        for u in inspector.get_unique_constraints(table)
                    ),
                    "indexes": sorted(
                        (i["name"], i["column_names"], bool(i["unique"]))
                        for i in inspector.get_indexes(table)
                    ),
                }
        return found


def _plain(check):
    """A check without the casts that PostgreSQL writes into it, which depend on how it came."""
    return re.sub(r"::character varying|::text|::bigint|[][() ]", "", check)


def test_what_the_migrations_make_is_what_the_tables_declare(database):
    with reading(database) as connection:
        assert differences(connection) == []


def test_so_are_checks_and_references_which_alembic_does_not_compare(database, new_url, opened):
    declared = opened(new_url)
    with writing(declared) as connection:
        SQLModel.metadata.create_all(connection)
    assert shape(database) == shape(declared)


def test_a_difference_would_be_seen(database):
    with writing(database) as connection:
        connection.execute(text("ALTER TABLE area ADD COLUMN shelf_length varchar"))
    with reading(database) as connection:
        assert "shelf_length" in str(differences(connection))


def test_the_versions_are_the_migrations_files_in_the_order_alembic_applies_them(database):
    with reading(database) as connection:
        scripts = ScriptDirectory.from_config(configuration(connection))
        applied = [script.revision for script in scripts.walk_revisions()]
        assert list(versions()) == applied[::-1]
        assert revision(connection) == scripts.get_current_head() == versions()[-1]
    folder = files("pantry.records") / "migrations" / "versions"
    assert {each.name[:4] for each in folder.iterdir() if each.name.endswith(".py")} == set(
        versions()
    )


def test_a_database_that_is_up_to_date_is_left_alone(database, monkeypatch):
    monkeypatch.setattr(migrate, "upgrade", None)
    bring_up_to_date(database)


def test_no_reference_deletes_what_points_to_it(database):
    """A deleted parent must never take ledger rows with it."""
    for table in shape(database).values():
        assert all(not options for _, _, _, options in table["references"])


_FOUND_BY_A_SECRET = (
    "house",
    "session",
    "sign_in_try",
    "device_code",
    "device_key",
    "sheet_link",
    "calendar_feed",
)


def test_every_table_belongs_to_a_house(database):
    """But for what is found by a secret that says no house, and guesses, which may name none."""
    tables = shape(database)
    for of_the_server in _FOUND_BY_A_SECRET:
        del tables[of_the_server]
    for name, table in tables.items():
        assert table["key"][0] == "house", name
        assert [r[2] for r in table["references"]] == ["house"], name


def test_programs_that_start_together_bring_a_new_database_up_to_date_once(new_url, opened):
    begin = threading.Barrier(4)

    def start(_number):
        engine = opened(new_url)
        begin.wait(PATIENCE)
        bring_up_to_date(engine)
        with reading(engine) as connection:
            return revision(connection)

    with ThreadPoolExecutor(4) as programs:
        assert list(programs.map(start, range(4), timeout=PATIENCE)) == [versions()[-1]] * 4


def test_a_database_of_a_newer_version_is_refused_and_left_alone(house):
    with writing(house.database) as connection:
        connection.execute(text("UPDATE alembic_version SET version_num = '9999'"))
    with pytest.raises(NotNow) as refused:
        bring_up_to_date(house.database)
    assert refused.value.code == "database_newer"
    assert "9999" in refused.value.problem
    assert len(house.rows(AreaRow)) == 3


def upgrading_by(change):
    """A migration that changes what a test wants changed."""

    def upgrade(connection):
        change(Operations(MigrationContext.configure(connection)))
        connection.execute(text("UPDATE alembic_version SET version_num = 'next'"))
        migrate.put_right(connection)

    return upgrade


@pytest.fixture
def next_version(monkeypatch):
    """Give the program one more version, whose migration changes what the test says."""
    with_next = (*versions(), "next")

    def give(change):
        monkeypatch.setattr(schema, "versions", lambda: with_next)
        monkeypatch.setattr(migrate, "upgrade", upgrading_by(change))

    return give


OLD_ROWS = (
    """INSERT INTO movement
        (house, number, batch, quantity, source, target, at, recorded_at, command, link)
        VALUES (:house, 1, 'milk', 5, 'supplier', :area, :at, :at, 'c', 'scanned')""",
    """INSERT INTO change (house, number, position, what, key)
        VALUES (:house, 1, 0, 'batch', 'milk')""",
    """INSERT INTO balance (house, batch, account, quantity, pieces, counted_at)
        VALUES (:house, 'milk', 'supplier', -5, 0, NULL), (:house, 'milk', :area, 5, 0, :at)""",
    "UPDATE house SET change = 1",
)


def test_SY8_books_of_before_moments_were_kept_go_on_with_their_times_alone(new_url, opened):
    """Counted before the migration, used before the count, handed in after the migration."""
    engine = opened(new_url)
    at = bindparam("at", type_=MovementRow.__table__.c.at.type)
    with writing(engine) as connection:
        command.upgrade(configuration(connection), "0001")
        put_right(connection)
        found(connection)
        for statement in OLD_ROWS:
            named = [at] if ":at" in statement else []
            values = {"house": ID, "area": COLD_ROOM, "at": NOW}
            connection.execute(text(statement).bindparams(*named), values)
    bring_up_to_date(engine)
    house = House(engine)
    (movement,) = house.rows(MovementRow)
    assert (movement.bound_ms, movement.position, movement.device) == (0, 0, None)
    assert house.post("milk", 2, COLD_ROOM, WASTE, at=NOW - HOUR) == 5
    assert house.post("milk", 2, COLD_ROOM, WASTE, at=NOW + HOUR) == 3
    assert house.disagreements() == []
    with reading(engine) as connection:
        assert unguarded(connection) == []


def rebuild(table):
    """Rebuild a table as Alembic does where SQLite cannot alter it."""

    def change(operations):
        sqlite = operations.get_bind().dialect.name == "sqlite"
        how = "always" if sqlite else "never"
        with operations.batch_alter_table(table, recreate=how) as batch:
            batch.add_column(Column("remark", String, server_default=""))

    return change


def test_a_table_that_is_rebuilt_keeps_what_points_to_it(house, next_version):
    """SQLite rebuilds a table by dropping it, which with foreign keys on its children forbid."""
    next_version(rebuild("house"))
    bring_up_to_date(house.database)
    assert len(house.rows(AreaRow)) == 3
    assert house.heads().name == "Hazel Court"
    with writing(house.database) as connection, pytest.raises(DBAPIError):
        add(connection, AreaRow(house="nowhere", id="x", name="X", kind="ambient"))


def test_LG1_a_ledger_that_is_rebuilt_is_guarded_again(house, next_version):
    """Alembic's rebuilding drops the triggers of a table without a word."""
    house.post("milk", 5, "supplier", "area:cold-room")
    next_version(rebuild("movement"))
    bring_up_to_date(house.database)
    with reading(house.database) as connection:
        assert unguarded(connection) == []
    with pytest.raises(DBAPIError, match="kept as they are"), writing(house.database) as connection:
        connection.execute(text("DELETE FROM movement"))
    assert len(house.rows(MovementRow)) == 1


def test_a_migration_that_fails_in_the_middle_leaves_the_database_as_it_was(house, next_version):
    def fail(operations):
        operations.drop_table("cannot_eat")
        operations.execute("UPDATE house SET name = 'Half Court'")
        operations.execute("this is no SQL")

    next_version(fail)
    before = shape(house.database)
    with pytest.raises(DBAPIError):
        bring_up_to_date(house.database)
    assert shape(house.database) == before
    assert house.heads().name == "Hazel Court"
    with writing(house.database) as connection, pytest.raises(DBAPIError):
        add(connection, AreaRow(house="nowhere", id="x", name="X", kind="ambient"))


def test_a_migration_after_which_a_row_points_nowhere_is_not_kept(sqlite_database, next_version):
    with writing(sqlite_database) as connection:
        found(connection)
    next_version(lambda operations: operations.execute("UPDATE area SET house = 'nowhere'"))
    with pytest.raises(RuntimeError, match="point nowhere"):
        bring_up_to_date(sqlite_database)
    assert len(House(sqlite_database).rows(AreaRow)) == 3


def test_a_database_that_is_held_while_it_is_to_be_brought_up_to_date_is_busy(
    sqlite_database, next_version, monkeypatch, opened
):
    monkeypatch.setattr(database_module, "BUSY_MILLISECONDS", 50)
    next_version(rebuild("house"))
    impatient = opened(sqlite_database.url)
    with writing(sqlite_database), pytest.raises(BooksBusy):
        bring_up_to_date(impatient)


NAMES = ["cold-room", "cold room", "Cold", "cold_b", "colda", "éclair", "zebra", "Zander", "eel"]


@pytest.mark.postgres
@pytest.mark.parametrize("locale", ["C", "en_GB.UTF-8", "en_US.UTF-8"])
def test_text_is_ordered_by_its_bytes_whatever_the_locale_of_the_server(
    new_postgres_database, opened, locale
):
    """So that the first row that is found is the same on a laptop and on a server."""
    how = f"TEMPLATE template0 LC_COLLATE '{locale}' LC_CTYPE '{locale}'"
    with ExitStack() as stack:
        try:
            engine = opened(stack.enter_context(new_postgres_database(how)))
        except DBAPIError:
            pytest.skip(f"this machine has no locale {locale}")
        if locale != "C":
            assert _ordered_by(engine) != sorted(NAMES), "or this test would prove nothing"
        bring_up_to_date(engine)
        with writing(engine) as connection:
            found(connection)
            for name in NAMES:
                add(connection, AreaRow(house=ID, id=f"x{name}", name=name, kind="ambient"))
        with reading(engine) as connection:
            ids = [row.id for row in every(connection, AreaRow)]
            assert differences(connection) == []
            assert set(connection.execute(COLLATIONS).scalars()) == {"C"}
        assert ids == sorted(ids)
        engine.dispose()


COLLATIONS = text(
    "SELECT DISTINCT COALESCE(collation_name, 'of the database') FROM information_schema.columns"
    " WHERE table_schema = 'public' AND data_type = 'character varying'"
    " AND table_name <> 'alembic_version'"
)


def _ordered_by(engine):
    values = ", ".join(f"('{name}')" for name in NAMES)
    ordered = f"SELECT name FROM (VALUES {values}) AS names (name) ORDER BY name"  # noqa: S608 - ours
    with engine.connect() as connection:
        return list(connection.execute(text(ordered)).scalars())


def test_rows_come_in_the_order_of_their_bytes(house):
    with writing(house.database) as connection:
        for name in NAMES:
            add(connection, AreaRow(house=ID, id=f"x{name}", name=name, kind="ambient"))
    ids = [row.id for row in house.rows(AreaRow)]
    assert ids == sorted(ids)
