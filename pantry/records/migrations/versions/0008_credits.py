"""what a delivery left short: when its driver left, and the credits expected for it."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0008"
down_revision: str | None = "0007"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "driver_left",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("purchase_order", sa.String(), nullable=False),
        sa.Column("supplier", sa.String(), nullable=False),
        sa.Column("driver", sa.String(), nullable=True),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_driver_left_house")),
        sa.PrimaryKeyConstraint("house", "command", name=op.f("pk_driver_left")),
    )
    with op.batch_alter_table("driver_left", schema=None) as batch_op:
        batch_op.create_index("ix_driver_left_order", ["house", "purchase_order"], unique=False)
    op.create_table(
        "credit",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("purchase_order", sa.String(), nullable=False),
        sa.Column("pack", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("supplier", sa.String(), nullable=False),
        sa.Column("cost", sa.BigInteger(), nullable=False),
        sa.Column("opened_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("opened_by", sa.String(), nullable=False),
        sa.Column("settled_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("settled_by", sa.String(), nullable=True),
        sa.Column("amount", sa.BigInteger(), nullable=True),
        sa.Column("note", sa.String(), nullable=True),
        sa.Column("reason", sa.String(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("last_command", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_credit_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_credit")),
    )
    with op.batch_alter_table("credit", schema=None) as batch_op:
        batch_op.create_index("ix_credit_order", ["house", "purchase_order"], unique=False)


def downgrade() -> None:
    for name in ("credit", "driver_left"):
        with op.batch_alter_table(name, schema=None) as batch_op:
            batch_op.drop_index(f"ix_{name}_order")
        op.drop_table(name)
