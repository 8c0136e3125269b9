"""which table a person answers for; recipes put away and renamed, and what was served as what."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0023"
down_revision: str | None = "0022"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None

_OF_RECIPES = ("put_away_by", "renamed_by", "renamed_from")


def upgrade() -> None:
    op.create_table(
        "answers_for",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("dining_table", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_answers_for_house")),
        sa.PrimaryKeyConstraint("house", "person", name=op.f("pk_answers_for")),
    )
    with op.batch_alter_table("recipe", schema=None) as batch_op:
        for name in _OF_RECIPES:
            batch_op.add_column(sa.Column(name, sa.String(), nullable=True))
    with op.batch_alter_table("serving", schema=None) as batch_op:
        batch_op.add_column(sa.Column("called", sa.String(), nullable=True))


def downgrade() -> None:
    with op.batch_alter_table("serving", schema=None) as batch_op:
        batch_op.drop_column("called")
    with op.batch_alter_table("recipe", schema=None) as batch_op:
        for name in _OF_RECIPES:
            batch_op.drop_column(name)
    op.drop_table("answers_for")
