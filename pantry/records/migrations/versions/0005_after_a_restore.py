"""after a restore: who is awaited, what was gathered, which numbers are missing."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0005"
down_revision: str | None = "0004"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "awaited",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=False),
        sa.Column("lost_epoch", sa.String(), nullable=False),
        sa.Column("position", sa.BigInteger(), nullable=False),
        sa.Column("since", sa.DateTime(timezone=True), nullable=False),
        sa.Column("first", sa.BigInteger(), nullable=True),
        sa.Column("handed_in_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("given_up_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("given_up_by", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_awaited_house")),
        sa.PrimaryKeyConstraint("house", "device", name=op.f("pk_awaited")),
    )
    op.create_table(
        "gathered",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=False),
        sa.Column("n", sa.BigInteger(), nullable=False),
        sa.Column("epoch", sa.String(), nullable=False),
        sa.Column("position", sa.BigInteger(), nullable=True),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("envelope", sa.String(), nullable=False),
        sa.Column("answer", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_gathered_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_gathered")),
    )
    with op.batch_alter_table("gathered", schema=None) as batch_op:
        batch_op.create_index("uq_gathered_device_n", ["house", "device", "n"], unique=True)

    op.create_table(
        "missing",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=False),
        sa.Column("first", sa.BigInteger(), nullable=False),
        sa.Column("last", sa.BigInteger(), nullable=False),
        sa.Column("noted_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_missing_house")),
        sa.PrimaryKeyConstraint("house", "device", "first", name=op.f("pk_missing")),
    )


def downgrade() -> None:
    op.drop_table("missing")
    with op.batch_alter_table("gathered", schema=None) as batch_op:
        batch_op.drop_index("uq_gathered_device_n")

    op.drop_table("gathered")
    op.drop_table("awaited")
