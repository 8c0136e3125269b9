"""the picture of a recipe."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0014"
down_revision: str | None = "0013"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.add_column("recipe", sa.Column("picture", sa.String(), nullable=True))


def downgrade() -> None:
    op.drop_column("recipe", "picture")
