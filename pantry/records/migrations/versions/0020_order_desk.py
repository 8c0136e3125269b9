"""orders: free lines, sending, answers, what they were before; prices; the week's budget."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0020"
down_revision: str | None = "0019"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "free_line",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("purchase_order", sa.String(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("words", sa.String(), nullable=False),
        sa.Column("amount", sa.String(), nullable=True),
        sa.Column("asked", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_free_line_house")),
        sa.PrimaryKeyConstraint("house", "purchase_order", "number", name=op.f("pk_free_line")),
    )
    op.create_table(
        "order_before",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("purchase_order", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("before", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_order_before_house")),
        sa.PrimaryKeyConstraint("house", "command", name=op.f("pk_order_before")),
    )
    with op.batch_alter_table("order_before", schema=None) as batch_op:
        batch_op.create_index("ix_order_before_order", ["house", "purchase_order"], unique=False)
    op.create_table(
        "order_sent",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("purchase_order", sa.String(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("how", sa.String(), nullable=False),
        sa.Column("to_whom", sa.String(), nullable=False),
        sa.Column("words", sa.String(), nullable=True),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_order_sent_house")),
        sa.PrimaryKeyConstraint("house", "command", name=op.f("pk_order_sent")),
    )
    with op.batch_alter_table("order_sent", schema=None) as batch_op:
        batch_op.create_index("ix_order_sent_order", ["house", "purchase_order"], unique=False)
    op.create_table(
        "supplier_answer",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("purchase_order", sa.String(), nullable=False),
        sa.Column("said_by", sa.String(), nullable=True),
        sa.Column("words", sa.String(), nullable=True),
        sa.Column("moved_from", sa.DateTime(timezone=True), nullable=True),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_supplier_answer_house")),
        sa.PrimaryKeyConstraint("house", "command", name=op.f("pk_supplier_answer")),
    )
    with op.batch_alter_table("supplier_answer", schema=None) as batch_op:
        batch_op.create_index("ix_supplier_answer_order", ["house", "purchase_order"], unique=False)
    op.create_table(
        "answered_line",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("pack", sa.String(), nullable=False),
        sa.Column("ordered", sa.Integer(), nullable=False),
        sa.Column("packs", sa.Integer(), nullable=False),
        sa.Column("instead", sa.String(), nullable=True),
        sa.Column("instead_packs", sa.Integer(), nullable=True),
        sa.Column("price_before", sa.BigInteger(), nullable=False),
        sa.Column("price", sa.BigInteger(), nullable=True),
        sa.Column("words", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_answered_line_house")),
        sa.PrimaryKeyConstraint("house", "command", "pack", name=op.f("pk_answered_line")),
    )
    op.create_table(
        "pack_price",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("pack", sa.String(), nullable=False),
        sa.Column("before", sa.BigInteger(), nullable=False),
        sa.Column("price", sa.BigInteger(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_pack_price_house")),
        sa.PrimaryKeyConstraint("house", "command", "pack", name=op.f("pk_pack_price")),
    )
    with op.batch_alter_table("pack_price", schema=None) as batch_op:
        batch_op.create_index("ix_pack_price_pack", ["house", "pack"], unique=False)
    op.create_table(
        "budget",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("amount", sa.BigInteger(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("last_command", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_budget_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_budget")),
    )


def downgrade() -> None:
    op.drop_table("budget")
    op.drop_table("pack_price")
    op.drop_table("answered_line")
    op.drop_table("supplier_answer")
    op.drop_table("order_sent")
    op.drop_table("order_before")
    op.drop_table("free_line")
