"""alerts that were raised, who sees to them, the letters that tell of them, calendars."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0022"
down_revision: str | None = "0021"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "alert",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("turn", sa.Integer(), nullable=False),
        sa.Column("supplier", sa.String(), nullable=True),
        sa.Column("delivery_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("order_by", sa.DateTime(timezone=True), nullable=True),
        sa.Column("stage", sa.String(), nullable=False),
        sa.Column("raised_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("changed_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("sequence", sa.Integer(), nullable=False),
        sa.Column("why", sa.String(), nullable=True),
        sa.CheckConstraint("stage IN ('open', 'last_call', 'missed')", name=op.f("ck_alert_stage")),
        sa.CheckConstraint("why IN ('ordered', 'not_needed', 'passed')", name=op.f("ck_alert_why")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_alert_house")),
        sa.PrimaryKeyConstraint("house", "id", "turn", name=op.f("pk_alert")),
    )
    with op.batch_alter_table("alert", schema=None) as batch_op:
        batch_op.create_index("ix_alert_why", ["house", "why"], unique=False)
    op.create_table(
        "alert_stage",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("alert", sa.String(), nullable=False),
        sa.Column("turn", sa.Integer(), nullable=False),
        sa.Column("stage", sa.String(), nullable=False),
        sa.Column("raised_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("passed_over", sa.Boolean(), nullable=False),
        sa.CheckConstraint(
            "stage IN ('open', 'last_call', 'missed')", name=op.f("ck_alert_stage_stage")
        ),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_alert_stage_house")),
        sa.PrimaryKeyConstraint("house", "alert", "turn", "stage", name=op.f("pk_alert_stage")),
    )
    op.create_table(
        "seen_to",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("alert", sa.String(), nullable=False),
        sa.Column("turn", sa.Integer(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_seen_to_house")),
        sa.PrimaryKeyConstraint("house", "command", name=op.f("pk_seen_to")),
    )
    op.create_table(
        "digest",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("at", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_digest_house")),
        sa.PrimaryKeyConstraint("house", name=op.f("pk_digest")),
    )
    op.create_table(
        "letter",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("address", sa.String(), nullable=False),
        sa.Column("subject", sa.String(), nullable=False),
        sa.Column("text", sa.String(), nullable=False),
        sa.Column("written_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("tries", sa.Integer(), nullable=False),
        sa.Column("next_try_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("sent_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("said", sa.String(), nullable=True),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_letter_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_letter")),
    )
    with op.batch_alter_table("letter", schema=None) as batch_op:
        batch_op.create_index("ix_letter_next_try_at", ["house", "next_try_at"], unique=False)
    op.create_table(
        "calendar_feed",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("made_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("read_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_calendar_feed_house")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_calendar_feed")),
    )
    with op.batch_alter_table("calendar_feed", schema=None) as batch_op:
        batch_op.create_index(batch_op.f("ix_calendar_feed_house"), ["house"], unique=False)


def downgrade() -> None:
    with op.batch_alter_table("calendar_feed", schema=None) as batch_op:
        batch_op.drop_index(batch_op.f("ix_calendar_feed_house"))
    op.drop_table("calendar_feed")
    with op.batch_alter_table("letter", schema=None) as batch_op:
        batch_op.drop_index("ix_letter_next_try_at")
    op.drop_table("letter")
    op.drop_table("digest")
    op.drop_table("seen_to")
    op.drop_table("alert_stage")
    with op.batch_alter_table("alert", schema=None) as batch_op:
        batch_op.drop_index("ix_alert_why")
    op.drop_table("alert")
