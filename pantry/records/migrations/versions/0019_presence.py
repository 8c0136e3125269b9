"""who is in the house: stays, who eats elsewhere, rotas."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0019"
down_revision: str | None = "0018"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "stay",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.Column("who", sa.String(), nullable=False),
        sa.Column("heads", sa.Integer(), nullable=False),
        sa.Column("dining_table", sa.String(), nullable=False),
        sa.Column("first", sa.Date(), nullable=False),
        sa.Column("first_at", sa.String(), nullable=False),
        sa.Column("last", sa.Date(), nullable=True),
        sa.Column("last_at", sa.String(), nullable=False),
        sa.Column("said_by", sa.String(), nullable=False),
        sa.Column("said_at", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint("heads >= 0", name=op.f("ck_stay_heads")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_stay_house")),
        sa.PrimaryKeyConstraint("house", "id", "command", name=op.f("pk_stay")),
    )
    op.create_table(
        "away",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.Column("who", sa.String(), nullable=False),
        sa.Column("heads", sa.Integer(), nullable=False),
        sa.Column("dining_table", sa.String(), nullable=False),
        sa.Column("first", sa.Date(), nullable=False),
        sa.Column("last", sa.Date(), nullable=False),
        sa.Column("meal", sa.String(), nullable=False),
        sa.Column("said_by", sa.String(), nullable=False),
        sa.Column("said_at", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint("heads >= 0", name=op.f("ck_away_heads")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_away_house")),
        sa.PrimaryKeyConstraint("house", "id", "command", name=op.f("pk_away")),
    )
    op.create_table(
        "rota",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("dining_table", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.Column("lines", sa.String(), nullable=False),
        sa.Column("said_by", sa.String(), nullable=False),
        sa.Column("said_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_rota_house")),
        sa.PrimaryKeyConstraint("house", "dining_table", "command", name=op.f("pk_rota")),
    )


def downgrade() -> None:
    op.drop_table("rota")
    op.drop_table("away")
    op.drop_table("stay")
