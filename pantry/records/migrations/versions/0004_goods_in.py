"""what is said of a line at the back door: how its warmth was judged, what it came instead of."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0004"
down_revision: str | None = "0003"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    with op.batch_alter_table("receipt", schema=None) as batch_op:
        batch_op.add_column(sa.Column("warmth", sa.String(), nullable=True))
        batch_op.add_column(sa.Column("instead", sa.String(), nullable=True))
        batch_op.add_column(
            sa.Column("replaces", sa.Boolean(), nullable=False, server_default=sa.false())
        )
        batch_op.create_check_constraint(
            op.f("ck_receipt_warmth"), "warmth IN ('accept', 'ask', 'refuse')"
        )


def downgrade() -> None:
    with op.batch_alter_table("receipt", schema=None) as batch_op:
        batch_op.drop_constraint(op.f("ck_receipt_warmth"), type_="check")
        for name in ("replaces", "instead", "warmth"):
            batch_op.drop_column(name)
