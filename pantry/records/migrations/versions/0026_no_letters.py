"""who wants no letters of alerts."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0026"
down_revision: str | None = "0025"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "no_letters",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_no_letters_house")),
        sa.PrimaryKeyConstraint("house", "person", name=op.f("pk_no_letters")),
    )


def downgrade() -> None:
    op.drop_table("no_letters")
