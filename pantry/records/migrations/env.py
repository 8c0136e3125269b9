"""How Alembic is run here: on the connection it is given, batch mode for SQLite."""

from alembic import context

from pantry.records.tables import SQLModel

context.configure(
    connection=context.config.attributes["connection"],
    target_metadata=SQLModel.metadata,
    render_as_batch=True,
)
with context.begin_transaction():
    context.run_migrations()
