"""wrong PINs are counted by person and device."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0007"
down_revision: str | None = "0006"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "wrong_pin",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("wrong", sa.Integer(), nullable=False),
        sa.Column("wait_until", sa.DateTime(timezone=True), nullable=False),
        sa.Column("locks", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_wrong_pin_house")),
        sa.PrimaryKeyConstraint("house", "device", "person", name=op.f("pk_wrong_pin")),
    )
    with op.batch_alter_table("device_key", schema=None) as batch_op:
        batch_op.drop_column("locked")
        batch_op.drop_column("wait_until")
        batch_op.drop_column("wrong_pins")


def downgrade() -> None:
    with op.batch_alter_table("device_key", schema=None) as batch_op:
        batch_op.add_column(
            sa.Column("wrong_pins", sa.Integer(), nullable=False, server_default="0")
        )
        batch_op.add_column(sa.Column("wait_until", sa.DateTime(timezone=True), nullable=True))
        batch_op.add_column(
            sa.Column("locked", sa.Boolean(), nullable=False, server_default=sa.false())
        )

    op.drop_table("wrong_pin")
