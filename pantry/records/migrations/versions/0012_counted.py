"""what was counted last, in the order of the shelves."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0012"
down_revision: str | None = "0011"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "counted",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("area", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("place", sa.Integer(), nullable=False),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_counted_house")),
        sa.PrimaryKeyConstraint("house", "area", "item", name=op.f("pk_counted")),
    )


def downgrade() -> None:
    op.drop_table("counted")
