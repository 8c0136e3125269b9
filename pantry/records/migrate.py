"""Running the migrations, and saying whether they give what the tables declare."""

from importlib.resources import files

from alembic import command
from alembic.autogenerate import compare_metadata
from alembic.config import Config
from alembic.migration import MigrationContext
from sqlalchemy import Connection

from pantry.records.guard import put_right
from pantry.records.tables import SQLModel


def upgrade(connection: Connection) -> None:
    """Apply what the database has not seen, within the transaction that is open."""
    command.upgrade(configuration(connection), "head")
    put_right(connection)


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
