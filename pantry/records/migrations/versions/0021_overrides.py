"""who agreed that somebody is served what they cannot eat."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0021"
down_revision: str | None = "0020"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "override",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("service", sa.String(), nullable=False),
        sa.Column("line", sa.Integer(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("dish", sa.String(), nullable=False),
        sa.Column("variant", sa.String(), nullable=True),
        sa.Column("cannot_eat", sa.String(), nullable=False),
        sa.Column("certainty", sa.String(), nullable=False),
        sa.Column("agreed_by", sa.String(), nullable=False),
        sa.Column("agreed_at", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint(
            "certainty IN ('contains', 'may_contain')", name=op.f("ck_override_certainty")
        ),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_override_house")),
        sa.PrimaryKeyConstraint("house", "service", "line", name=op.f("pk_override")),
    )


def downgrade() -> None:
    op.drop_table("override")
