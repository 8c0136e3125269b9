"""what was lost of which no batch is known."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0017"
down_revision: str | None = "0016"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "waste_without_batch",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("what", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=True),
        sa.Column("dish", sa.String(), nullable=True),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("unit", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.Column("destination", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.CheckConstraint(
            "unit IN ('g', 'ml', 'each')", name=op.f("ck_waste_without_batch_unit")
        ),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_waste_without_batch_house")),
        sa.PrimaryKeyConstraint("house", "command", name=op.f("pk_waste_without_batch")),
    )
    with op.batch_alter_table("waste_without_batch", schema=None) as batch_op:
        batch_op.create_index("ix_waste_without_batch_at", ["house", "at"], unique=False)


def downgrade() -> None:
    with op.batch_alter_table("waste_without_batch", schema=None) as batch_op:
        batch_op.drop_index("ix_waste_without_batch_at")
    op.drop_table("waste_without_batch")
