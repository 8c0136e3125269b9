"""temperatures of places and of what cools, what was held because of them, probes, cleaning."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0011"
down_revision: str | None = "0010"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None

_INDEXED = {
    "temperature": ("area", "at"),
    "held_warm": ("area",),
    "cooling_reading": ("batch",),
}


def upgrade() -> None:
    _table(
        "temperature",
        sa.Column("area", sa.String(), nullable=False),
        sa.Column("tenths", sa.Integer(), nullable=False),
        sa.Column("warmth", sa.String(), nullable=False),
        sa.Column("done", sa.String(), nullable=True),
        sa.Column("note", sa.String(), nullable=True),
        *_taken(),
        sa.CheckConstraint(
            "warmth IN ('within', 'too_warm', 'too_cold')", name=op.f("ck_temperature_warmth")
        ),
    )
    _table(
        "held_warm",
        sa.Column("batch", sa.String(), nullable=False),
        sa.Column("area", sa.String(), nullable=False),
        sa.Column("since", sa.DateTime(timezone=True), nullable=False),
        key=("house", "command", "batch"),
    )
    _table(
        "cooling_reading",
        sa.Column("batch", sa.String(), nullable=False),
        sa.Column("tenths", sa.Integer(), nullable=False),
        sa.Column("failed", sa.Boolean(), nullable=False),
        *_taken(),
    )
    _table(
        "probe_check",
        sa.Column("probe", sa.String(), nullable=False),
        sa.Column("ice_tenths", sa.Integer(), nullable=True),
        sa.Column("boiling_tenths", sa.Integer(), nullable=True),
        sa.Column("is_right", sa.Boolean(), nullable=False),
        *_taken(),
    )
    _table(
        "cleaning",
        sa.Column("what", sa.String(), nullable=False),
        sa.Column("area", sa.String(), nullable=True),
        *_taken(),
    )
    for name, columns in _INDEXED.items():
        with op.batch_alter_table(name, schema=None) as batch_op:
            batch_op.create_index(f"ix_{name}_{columns[0]}", ["house", *columns], unique=False)


def _table(
    name: str,
    *rest: sa.schema.SchemaItem,
    key: tuple[str, ...] = ("house", "command"),
) -> None:
    op.create_table(
        name,
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        *rest,
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f(f"fk_{name}_house")),
        sa.PrimaryKeyConstraint(*key, name=op.f(f"pk_{name}")),
    )


def _taken() -> tuple[sa.Column[object], ...]:
    return (
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
    )


def downgrade() -> None:
    for name, columns in _INDEXED.items():
        with op.batch_alter_table(name, schema=None) as batch_op:
            batch_op.drop_index(f"ix_{name}_{columns[0]}")
    for name in ("cleaning", "probe_check", "cooling_reading", "held_warm", "temperature"):
        op.drop_table(name)
