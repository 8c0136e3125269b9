"""shop runs, and what the back door asks the order desk for."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0010"
down_revision: str | None = "0009"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "shop_run",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("shop", sa.String(), nullable=False),
        sa.Column("total", sa.BigInteger(), nullable=True),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_shop_run_house")),
        sa.PrimaryKeyConstraint("house", "command", name=op.f("pk_shop_run")),
    )
    with op.batch_alter_table("shop_run", schema=None) as batch_op:
        batch_op.create_index("ix_shop_run_at", ["house", "at"], unique=False)
    op.create_table(
        "shop_run_line",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("line", sa.Integer(), nullable=False),
        sa.Column("batch", sa.String(), nullable=True),
        sa.Column("words", sa.String(), nullable=True),
        sa.Column("cost", sa.BigInteger(), nullable=True),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_shop_run_line_house")),
        sa.PrimaryKeyConstraint("house", "command", "line", name=op.f("pk_shop_run_line")),
    )
    op.create_table(
        "asked_for",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=True),
        sa.Column("words", sa.String(), nullable=True),
        sa.Column("level_before", sa.String(), nullable=True),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("closed_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("closed_by", sa.String(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("last_command", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_asked_for_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_asked_for")),
    )
    with op.batch_alter_table("asked_for", schema=None) as batch_op:
        batch_op.create_index("ix_asked_for_item", ["house", "item"], unique=False)


def downgrade() -> None:
    with op.batch_alter_table("asked_for", schema=None) as batch_op:
        batch_op.drop_index("ix_asked_for_item")
    op.drop_table("asked_for")
    op.drop_table("shop_run_line")
    with op.batch_alter_table("shop_run", schema=None) as batch_op:
        batch_op.drop_index("ix_shop_run_at")
    op.drop_table("shop_run")
