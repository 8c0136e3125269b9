"""numbered labels, the numbers reserved for them, and what had a label printed."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0013"
down_revision: str | None = "0012"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "label_range",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("first", sa.Integer(), nullable=False),
        sa.Column("last", sa.Integer(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint("first <= last", name=op.f("ck_label_range_order")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_label_range_house")),
        sa.PrimaryKeyConstraint("house", "first", name=op.f("pk_label_range")),
    )
    op.create_table(
        "numbered_label",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("label", sa.String(), nullable=False),
        sa.Column("batch", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_numbered_label_house")),
        sa.PrimaryKeyConstraint("house", "label", name=op.f("pk_numbered_label")),
    )
    with op.batch_alter_table("numbered_label", schema=None) as batch_op:
        batch_op.create_index("ix_numbered_label_batch", ["house", "batch"], unique=False)
    op.create_table(
        "printed_label",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("batch", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_printed_label_house")),
        sa.PrimaryKeyConstraint("house", "batch", name=op.f("pk_printed_label")),
    )


def downgrade() -> None:
    op.drop_table("printed_label")
    with op.batch_alter_table("numbered_label", schema=None) as batch_op:
        batch_op.drop_index("ix_numbered_label_batch")
    op.drop_table("numbered_label")
    op.drop_table("label_range")
