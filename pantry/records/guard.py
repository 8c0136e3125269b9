"""What the database itself sees to: rows that are kept as they are, and text in byte order.

Neither belongs in a migration. Rebuilding a table on SQLite drops its triggers without a word, and
a column added later has the order of its database; so both are put right after every migration.

On PostgreSQL text is ordered by its bytes, whatever the locale of the database: the same commands
must find the same first row, and so make the same books, on a laptop and on a server.
"""

from collections.abc import Iterator

from sqlalchemy import Connection, text

KEPT_AS_THEY_ARE = ("journal", "movement", "promise")
"""Tables whose rows are never changed and never deleted."""

_SQLITE_GUARDS = text("SELECT name FROM sqlite_master WHERE type = 'trigger'")
_POSTGRES_GUARDS = text(
    "SELECT t.tgname FROM pg_trigger t JOIN pg_class c ON c.oid = t.tgrelid"
    " WHERE c.relnamespace = current_schema()::regnamespace AND t.tgenabled <> 'D'"
)
_POSTGRES_REFUSAL = text(
    "CREATE OR REPLACE FUNCTION kept_as_it_is() RETURNS trigger LANGUAGE plpgsql AS"
    " $$ BEGIN RAISE EXCEPTION '% rows are kept as they are', TG_TABLE_NAME; END $$"
)
_LOCALE_ORDERED = text(
    "SELECT table_name, column_name FROM information_schema.columns"
    " WHERE table_schema = current_schema() AND data_type = 'character varying'"
    " AND collation_name IS NULL AND table_name <> 'alembic_version' ORDER BY 1, 2"
)


def put_right(connection: Connection) -> None:
    """Guard the tables that are not guarded, and order by bytes what is not."""
    if connection.dialect.name == "postgresql":
        _order_by_bytes(connection)
        connection.execute(_POSTGRES_REFUSAL)
    for guard in unguarded(connection):
        connection.execute(text(_statement(connection.dialect.name, guard)))


def unguarded(connection: Connection) -> list[str]:
    """The guards that are missing, as `TABLE_no_VERB`."""
    sqlite = connection.dialect.name == "sqlite"
    there = connection.execute(_SQLITE_GUARDS if sqlite else _POSTGRES_GUARDS).scalars().all()
    verbs = ("update", "delete") if sqlite else ("update", "delete", "truncate")
    wanted = [f"{table}_no_{verb}" for table in KEPT_AS_THEY_ARE for verb in verbs]
    return [guard for guard in wanted if guard not in there]


def _statement(dialect: str, guard: str) -> str:
    table, _, verb = guard.partition("_no_")
    begin = f"CREATE TRIGGER {guard} BEFORE {verb.upper()} ON {table}"
    if dialect == "sqlite":
        return f"{begin} BEGIN SELECT RAISE(ABORT, '{table} rows are kept as they are'); END"
    each = "STATEMENT" if verb == "truncate" else "ROW"
    return f"{begin} FOR EACH {each} EXECUTE FUNCTION kept_as_it_is()"


def _order_by_bytes(connection: Connection) -> None:
    for table, columns in _by_table(connection):
        changes = ", ".join(f'ALTER "{column}" TYPE varchar COLLATE "C"' for column in columns)
        connection.execute(text(f'ALTER TABLE "{table}" {changes}'))


def _by_table(connection: Connection) -> Iterator[tuple[str, list[str]]]:
    found: dict[str, list[str]] = {}
    for table, column in connection.execute(_LOCALE_ORDERED):
        found.setdefault(table, []).append(column)
    yield from found.items()
