"""devices known by a key of their own, people on them by a PIN."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0006"
down_revision: str | None = "0005"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "device_code",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("made_by", sa.String(), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_device_code_house")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_device_code")),
    )
    op.create_table(
        "device_heard",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=False),
        sa.Column("made", sa.BigInteger(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_device_heard_house")),
        sa.PrimaryKeyConstraint("house", "device", name=op.f("pk_device_heard")),
    )
    op.create_table(
        "device_key",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=False),
        sa.Column("wrong_pins", sa.Integer(), nullable=False),
        sa.Column("wait_until", sa.DateTime(timezone=True), nullable=True),
        sa.Column("locked", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_device_key_house")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_device_key")),
    )
    with op.batch_alter_table("device_key", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_device_key_house"), ["house"], unique=False)

    op.create_table(
        "device_person",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("last_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_device_person_house")),
        sa.PrimaryKeyConstraint("house", "device", "person", name=op.f("pk_device_person")),
    )
    op.create_table(
        "pin",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("hash", sa.String(), nullable=False),
        sa.Column("set_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_pin_house")),
        sa.PrimaryKeyConstraint("house", "person", name=op.f("pk_pin")),
    )
    with op.batch_alter_table("session", schema=None) as batch_op:
        batch_op.add_column(sa.Column("device", sa.String(), nullable=True))


def downgrade() -> None:

    with op.batch_alter_table("session", schema=None) as batch_op:
        batch_op.drop_column("device")

    op.drop_table("pin")
    op.drop_table("device_person")
    with op.batch_alter_table("device_key", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_device_key_house"))

    op.drop_table("device_key")
    op.drop_table("device_heard")
    op.drop_table("device_code")
