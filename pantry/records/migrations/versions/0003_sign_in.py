"""who is there: passwords, sessions, ways in."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0003"
down_revision: str | None = "0002"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "sign_in_try",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("wrong", sa.Integer(), nullable=False),
        sa.Column("last_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("wait_until", sa.DateTime(timezone=True), nullable=False),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sign_in_try")),
    )
    with op.batch_alter_table("sign_in_try", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_sign_in_try_last_at"), ["last_at"], unique=False)

    op.create_table(
        "password",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("hash", sa.String(), nullable=False),
        sa.Column("set_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_password_house")),
        sa.PrimaryKeyConstraint("house", "person", name=op.f("pk_password")),
    )
    op.create_table(
        "session",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("begun_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("ends_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_session_house")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_session")),
    )
    with op.batch_alter_table("session", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_session_house"), ["house"], unique=False)

    op.create_table(
        "way_in",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("code", sa.String(), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_way_in_house")),
        sa.PrimaryKeyConstraint("house", "person", name=op.f("pk_way_in")),
    )


def downgrade() -> None:
    op.drop_table("way_in")
    with op.batch_alter_table("session", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_session_house"))

    op.drop_table("session")
    op.drop_table("password")
    with op.batch_alter_table("sign_in_try", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_sign_in_try_last_at"))

    op.drop_table("sign_in_try")
