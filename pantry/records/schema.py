"""Bringing a database's tables up to date, and saying whether they are."""

from importlib.resources import files

from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from sqlalchemy import Connection, Engine, text

from pantry.records.database import writing
from pantry.records.tables import SQLModel


def bring_up_to_date(engine: Engine) -> None:
    """Apply every migration the database has not seen.

    On SQLite foreign keys are off meanwhile, since a table that is rebuilt would take its children
    with it, and are checked afterwards.

    Raises:
        RuntimeError: a row points nowhere after the migration.
    """
    if engine.dialect.name != "sqlite":
        with writing(engine) as connection:
            _upgrade(connection)
        return
    with engine.connect().execution_options(writing=True) as connection:
        connection.exec_driver_sql("PRAGMA foreign_keys=OFF")
        connection.commit()
        with connection.begin():
            _upgrade(connection)
            broken = connection.execute(text("PRAGMA foreign_key_check")).all()
        connection.exec_driver_sql("PRAGMA foreign_keys=ON")
        connection.commit()
    if broken:
        raise RuntimeError(f"after the migration these rows point nowhere: {broken[:5]}")


def _upgrade(connection: Connection) -> None:
    command.upgrade(configuration(connection), "head")


def configuration(connection: Connection) -> Config:
    """Alembic's configuration for one connection."""
    config = Config()
    config.set_main_option("script_location", str(files("pantry.records") / "migrations"))
    config.attributes["connection"] = connection
    return config


def differences(connection: Connection) -> list[object]:
    """What Alembic sees that the tables declare and the database lacks, or the other way round."""
    context = MigrationContext.configure(connection)
    return list(compare_metadata(context, SQLModel.metadata))
