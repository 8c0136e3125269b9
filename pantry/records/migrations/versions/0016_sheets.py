"""menus shown to the household, the links to them, and what was answered."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0016"
down_revision: str | None = "0015"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "sheet",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("recipient", sa.String(), nullable=True),
        sa.Column("dining_table", sa.String(), nullable=True),
        sa.Column("sent_by", sa.String(), nullable=False),
        sa.Column("sent_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("expires_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("withdrawn_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("last_command", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_sheet_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_sheet")),
    )
    op.create_table(
        "sheet_service",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("sheet", sa.String(), nullable=False),
        sa.Column("line", sa.Integer(), nullable=False),
        sa.Column("service", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_sheet_service_house")),
        sa.PrimaryKeyConstraint("house", "sheet", "line", name=op.f("pk_sheet_service")),
    )
    with op.batch_alter_table("sheet_service", schema=None) as batch_op:
        batch_op.create_index("ix_sheet_service_service", ["house", "service"], unique=False)
    op.create_table(
        "sheet_link",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("sheet", sa.String(), nullable=False),
        sa.Column("read_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_sheet_link_house")),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_sheet_link")),
    )
    op.create_table(
        "menu_answer",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.Column("service", sa.String(), nullable=False),
        sa.Column("sheet", sa.String(), nullable=True),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("said_by", sa.String(), nullable=True),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("covers", sa.Integer(), nullable=True),
        sa.Column("wish", sa.String(), nullable=False),
        sa.Column("courses", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_menu_answer_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_menu_answer")),
    )
    with op.batch_alter_table("menu_answer", schema=None) as batch_op:
        batch_op.create_index(
            "ix_menu_answer_service", ["house", "service", "number"], unique=False
        )


def downgrade() -> None:
    with op.batch_alter_table("menu_answer", schema=None) as batch_op:
        batch_op.drop_index("ix_menu_answer_service")
    op.drop_table("menu_answer")
    op.drop_table("sheet_link")
    with op.batch_alter_table("sheet_service", schema=None) as batch_op:
        batch_op.drop_index("ix_sheet_service_service")
    op.drop_table("sheet_service")
    op.drop_table("sheet")
