"""invoices of suppliers, and credits that are asked for because of one."""

from collections.abc import Sequence
from typing import Any

import sqlalchemy as sa
from alembic import op

revision: str = "0025"
down_revision: str | None = "0024"
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None

_OF_A_LINE = ("purchase_order", "pack", "item")
_OF_AN_INVOICE = ("invoice", "words")
_INDEXES = (
    ("invoice", "ix_invoice_supplier", "supplier"),
    ("invoice_order", "ix_invoice_order_order", "purchase_order"),
    ("invoice_credit", "ix_invoice_credit_credit", "credit"),
)


def _table(name: str, keys: Sequence[str], *columns: sa.Column[Any] | sa.CheckConstraint) -> None:
    op.create_table(
        name,
        *columns,
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f(f"fk_{name}_house")),
        sa.PrimaryKeyConstraint(*keys, name=op.f(f"pk_{name}")),
    )


def _text(name: str, nullable: bool = False) -> sa.Column[Any]:
    return sa.Column(name, sa.String(), nullable=nullable)


def _number(name: str, nullable: bool = False) -> sa.Column[Any]:
    return sa.Column(name, sa.Integer(), nullable=nullable)


def _sum(name: str, nullable: bool = False) -> sa.Column[Any]:
    return sa.Column(name, sa.BigInteger(), nullable=nullable)


def _instant(name: str, nullable: bool = False) -> sa.Column[Any]:
    return sa.Column(name, sa.DateTime(timezone=True), nullable=nullable)


def upgrade() -> None:
    _table(
        "invoice",
        ("house", "id"),
        *(_text(name) for name in ("house", "id", "supplier", "number")),
        sa.Column("dated", sa.Date(), nullable=False),
        _sum("total"),
        _text("person"),
        _instant("at"),
        _instant("withdrawn_at", nullable=True),
        _text("withdrawn_by", nullable=True),
        _text("withdrawn_because", nullable=True),
        _number("version"),
        _text("last_command"),
    )
    _table(
        "invoice_order",
        ("house", "invoice", "purchase_order"),
        *(_text(name) for name in ("house", "invoice", "purchase_order")),
    )
    _table(
        "invoice_line",
        ("house", "invoice", "line"),
        *(_text(name) for name in ("house", "invoice")),
        _number("line"),
        *(_text(name, nullable=True) for name in ("item", "pack")),
        _number("packs", nullable=True),
        _sum("quantity", nullable=True),
        *(_text(name, nullable=True) for name in ("charge_for", "words")),
        _sum("amount"),
        sa.CheckConstraint(
            "charge_for IN ('delivery', 'minimum', 'tax', 'other')",
            name=op.f("ck_invoice_line_charge_for"),
        ),
    )
    _table(
        "invoice_credit",
        ("house", "invoice", "line"),
        *(_text(name) for name in ("house", "invoice")),
        _number("line"),
        *(_text(name, nullable=True) for name in ("credit", "note")),
        _sum("amount"),
    )
    _table(
        "invoice_agreed",
        ("house", "invoice", "difference"),
        *(_text(name) for name in ("house", "invoice", "difference")),
        _sum("amount"),
        _text("agreed"),
        _text("words", nullable=True),
        *(_text(name) for name in ("command", "person")),
        _instant("at"),
        sa.CheckConstraint("agreed IN ('paid', 'credit')", name=op.f("ck_invoice_agreed_agreed")),
    )
    for table, name, column in _INDEXES:
        with op.batch_alter_table(table, schema=None) as batch_op:
            batch_op.create_index(name, ["house", column], unique=False)
    with op.batch_alter_table("credit", schema=None) as batch_op:
        for name in _OF_A_LINE:
            batch_op.alter_column(name, existing_type=sa.String(), nullable=True)
        for name in _OF_AN_INVOICE:
            batch_op.add_column(_text(name, nullable=True))


def downgrade() -> None:
    op.execute("DELETE FROM credit WHERE invoice IS NOT NULL")
    with op.batch_alter_table("credit", schema=None) as batch_op:
        for name in _OF_AN_INVOICE:
            batch_op.drop_column(name)
        for name in _OF_A_LINE:
            batch_op.alter_column(name, existing_type=sa.String(), nullable=False)
    for table, name, _ in _INDEXES:
        with op.batch_alter_table(table, schema=None) as batch_op:
            batch_op.drop_index(name)
    for name in ("invoice_agreed", "invoice_credit", "invoice_line", "invoice_order", "invoice"):
        op.drop_table(name)
