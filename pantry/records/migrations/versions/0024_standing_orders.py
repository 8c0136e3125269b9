"""standing orders: what comes of itself, and the orders that were written for it."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0024"
down_revision: str | None = "0023"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "standing_order",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("supplier", sa.String(), nullable=False),
        sa.Column("when_empty", sa.Boolean(), nullable=False),
        sa.Column("through", sa.Date(), nullable=True),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_standing_order_house")),
        sa.PrimaryKeyConstraint("house", "supplier", name=op.f("pk_standing_order")),
    )
    op.create_table(
        "standing_line",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("supplier", sa.String(), nullable=False),
        sa.Column("weekday", sa.Integer(), nullable=False),
        sa.Column("number", sa.Integer(), nullable=False),
        sa.Column("pack", sa.String(), nullable=True),
        sa.Column("packs", sa.Integer(), nullable=False),
        sa.Column("words", sa.String(), nullable=True),
        sa.Column("amount", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_standing_line_house")),
        sa.PrimaryKeyConstraint(
            "house", "supplier", "weekday", "number", name=op.f("pk_standing_line")
        ),
    )
    op.create_table(
        "standing_delivery",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("supplier", sa.String(), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("purchase_order", sa.String(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_standing_delivery_house")),
        sa.PrimaryKeyConstraint("house", "supplier", "on", name=op.f("pk_standing_delivery")),
    )


def downgrade() -> None:
    for name in ("standing_delivery", "standing_line", "standing_order"):
        op.drop_table(name)
