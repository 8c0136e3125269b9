"""what was served otherwise than planned, and what was left over."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0015"
down_revision: str | None = "0014"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "left_over",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("batch", sa.String(), nullable=False),
        sa.Column("service", sa.String(), nullable=False),
        sa.Column("dish", sa.String(), nullable=False),
        sa.Column("variant", sa.String(), nullable=True),
        sa.Column("portions", sa.Integer(), nullable=False),
        sa.Column("cooked_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_left_over_house")),
        sa.PrimaryKeyConstraint("house", "batch", name=op.f("pk_left_over")),
    )
    with op.batch_alter_table("left_over", schema=None) as batch_op:
        batch_op.create_index("ix_left_over_service", ["house", "service"], unique=False)
    with op.batch_alter_table("service", schema=None) as batch_op:
        batch_op.add_column(sa.Column("confirmed_by", sa.String(), nullable=True))
    with op.batch_alter_table("serving", schema=None) as batch_op:
        batch_op.add_column(sa.Column("served", sa.Integer(), nullable=True))


def downgrade() -> None:
    with op.batch_alter_table("serving", schema=None) as batch_op:
        batch_op.drop_column("served")
    with op.batch_alter_table("service", schema=None) as batch_op:
        batch_op.drop_column("confirmed_by")
    with op.batch_alter_table("left_over", schema=None) as batch_op:
        batch_op.drop_index("ix_left_over_service")
    op.drop_table("left_over")
