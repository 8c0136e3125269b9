"""what a movement and a count are ordered by: device, bound and place in the journal (SY8).

What was written before has none of them, and goes on being ordered by its time alone: rows of the
ledger are never changed.
"""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0002"
down_revision: str | None = "0001"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None

_ADDED = {"movement": "", "balance": "counted_"}
"""The tables, and how their new columns begin."""


def upgrade() -> None:
    for table, begins in _ADDED.items():
        for name in ("bound_ms", "position"):
            column = sa.Column(begins + name, sa.BigInteger(), nullable=False, server_default="0")
            op.add_column(table, column)
        op.add_column(table, sa.Column(f"{begins}device", sa.String(), nullable=True))


def downgrade() -> None:
    for table, begins in _ADDED.items():
        for name in ("bound_ms", "position", "device"):
            op.drop_column(table, begins + name)
