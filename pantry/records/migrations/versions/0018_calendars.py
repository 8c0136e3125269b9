"""supplier calendars: own zone, public holidays, seasons, terms."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0018"
down_revision: str | None = "0017"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "supplier_terms",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("supplier", sa.String(), nullable=False),
        sa.Column("zone", sa.String(), nullable=True),
        sa.Column("country", sa.String(), nullable=True),
        sa.Column("subdivision", sa.String(), nullable=True),
        sa.Column("holiday_delivery", sa.String(), nullable=False),
        sa.Column("holiday_orders", sa.Boolean(), nullable=False),
        sa.Column("fails_percent", sa.Integer(), nullable=True),
        sa.Column("order_given", sa.String(), nullable=True),
        sa.Column("order_words", sa.String(), nullable=True),
        sa.Column("substitution", sa.String(), nullable=True),
        sa.Column("fallback_shop", sa.String(), nullable=True),
        sa.CheckConstraint(
            "holiday_delivery IN ('falls_away', 'day_before', 'day_after')",
            name=op.f("ck_supplier_terms_holiday_delivery"),
        ),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_supplier_terms_house")),
        sa.PrimaryKeyConstraint("house", "supplier", name=op.f("pk_supplier_terms")),
    )
    with op.batch_alter_table("closure", schema=None) as batch_op:
        batch_op.add_column(sa.Column("until", sa.Date(), nullable=True))
        batch_op.add_column(sa.Column("reason", sa.String(), nullable=True))
        batch_op.add_column(sa.Column("command", sa.String(), nullable=True))


def downgrade() -> None:
    with op.batch_alter_table("closure", schema=None) as batch_op:
        for name in ("until", "reason", "command"):
            batch_op.drop_column(name)
    op.drop_table("supplier_terms")
