"""the first tables."""

from collections.abc import Sequence

import sqlalchemy as sa
from alembic import op

revision: str = "0001"
down_revision: str | None = None
branch_labels: str | Sequence[str] | None = None
depends_on: str | Sequence[str] | None = None


def upgrade() -> None:
    op.create_table(
        "house",
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("zone", sa.String(), nullable=False),
        sa.Column("currency", sa.String(), nullable=False),
        sa.Column("unit_system", sa.String(), nullable=False),
        sa.Column("decimal_mark", sa.String(), nullable=False),
        sa.Column("notice", sa.String(), nullable=False),
        sa.Column("warning", sa.String(), nullable=False),
        sa.Column("last_call", sa.String(), nullable=False),
        sa.Column("receiving_margin", sa.String(), nullable=False),
        sa.Column("policy", sa.String(), nullable=False),
        sa.Column("allergen_list", sa.String(), nullable=False),
        sa.Column("people", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("last_command", sa.String(), nullable=False),
        sa.Column("epoch", sa.String(), nullable=False),
        sa.Column("position", sa.BigInteger(), nullable=False),
        sa.Column("change", sa.BigInteger(), nullable=False),
        sa.Column("backed_up", sa.BigInteger(), nullable=False),
        sa.Column("chain", sa.String(), nullable=False),
        sa.CheckConstraint("decimal_mark IN ('.', ',')", name=op.f("ck_house_decimal_mark")),
        sa.CheckConstraint(
            "unit_system IN ('us', 'metric', 'imperial')", name=op.f("ck_house_unit_system")
        ),
        sa.PrimaryKeyConstraint("id", name=op.f("pk_house")),
        sa.UniqueConstraint("name", name=op.f("uq_house_name")),
    )
    op.create_table(
        "area",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("min_tenths", sa.Integer(), nullable=True),
        sa.Column("max_tenths", sa.Integer(), nullable=True),
        sa.Column("shelf_order", sa.Integer(), nullable=False),
        sa.CheckConstraint("kind IN ('ambient', 'chilled', 'frozen')", name=op.f("ck_area_kind")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_area_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_area")),
    )
    op.create_table(
        "balance",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("batch", sa.String(), nullable=False),
        sa.Column("account", sa.String(), nullable=False),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("pieces", sa.BigInteger(), nullable=False),
        sa.Column("counted_at", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_balance_house")),
        sa.PrimaryKeyConstraint("house", "batch", "account", name=op.f("pk_balance")),
    )
    with op.batch_alter_table("balance", schema=None) as batch_op:
        batch_op.create_index("ix_balance_account", ["house", "account"], unique=False)
        batch_op.create_index(
            "ix_balance_standing",
            ["house", "account"],
            unique=False,
            sqlite_where=sa.text("quantity <> 0"),
            postgresql_where=sa.text("quantity <> 0"),
        )

    op.create_table(
        "batch",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("label", sa.String(), nullable=False),
        sa.Column("lot", sa.String(), nullable=True),
        sa.Column("supplier", sa.String(), nullable=True),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("state_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("date_kind", sa.String(), nullable=False),
        sa.Column("mark_date", sa.Date(), nullable=True),
        sa.Column("usable_until", sa.DateTime(timezone=True), nullable=True),
        sa.Column("good_until", sa.DateTime(timezone=True), nullable=True),
        sa.Column("left", sa.String(), nullable=True),
        sa.Column("was_thawed", sa.Boolean(), nullable=False),
        sa.Column("cooked", sa.Boolean(), nullable=False),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("pieces", sa.BigInteger(), nullable=True),
        sa.Column("cost", sa.BigInteger(), nullable=False),
        sa.Column("sealed_quantity", sa.BigInteger(), nullable=True),
        sa.Column("since", sa.DateTime(timezone=True), nullable=False),
        sa.Column("made_by", sa.String(), nullable=True),
        sa.Column("recalled", sa.Boolean(), nullable=False),
        sa.CheckConstraint(
            "date_kind IN ('use_by', 'best_before', 'none')", name=op.f("ck_batch_date_kind")
        ),
        sa.CheckConstraint(
            "state IN ('sealed', 'opened', 'frozen', 'thawed', 'vacuum_packed', 'made')",
            name=op.f("ck_batch_state"),
        ),
        sa.CheckConstraint("quantity >= 0", name=op.f("ck_batch_quantity")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_batch_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_batch")),
    )
    with op.batch_alter_table("batch", schema=None) as batch_op:
        batch_op.create_index("ix_batch_item", ["house", "item"], unique=False)
        batch_op.create_index("ix_batch_lot", ["house", "lot"], unique=False)
        batch_op.create_index("uq_batch_label", ["house", "label"], unique=True)

    op.create_table(
        "batch_parent",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("batch", sa.String(), nullable=False),
        sa.Column("parent", sa.String(), nullable=False),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("link", sa.String(), nullable=False),
        sa.CheckConstraint("link IN ('scanned', 'assumed')", name=op.f("ck_batch_parent_link")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_batch_parent_house")),
        sa.PrimaryKeyConstraint("house", "batch", "parent", name=op.f("pk_batch_parent")),
    )
    with op.batch_alter_table("batch_parent", schema=None) as batch_op:
        batch_op.create_index("ix_batch_parent_parent", ["house", "parent"], unique=False)

    op.create_table(
        "cannot_eat",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("dining_table", sa.String(), nullable=False),
        sa.Column("cannot_eat", sa.String(), nullable=False),
        sa.Column("first", sa.Date(), nullable=True),
        sa.Column("last", sa.Date(), nullable=True),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_cannot_eat_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_cannot_eat")),
    )
    op.create_table(
        "change",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.Column("position", sa.BigInteger(), nullable=False),
        sa.Column("what", sa.String(), nullable=False),
        sa.Column("key", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_change_house")),
        sa.PrimaryKeyConstraint("house", "number", name=op.f("pk_change")),
    )
    with op.batch_alter_table("change", schema=None) as batch_op:
        batch_op.create_index("ix_change_position", ["house", "position"], unique=False)

    op.create_table(
        "closure",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("supplier", sa.String(), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("what", sa.String(), nullable=False),
        sa.Column("instead", sa.Date(), nullable=True),
        sa.CheckConstraint("what IN ('no_delivery', 'no_orders')", name=op.f("ck_closure_what")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_closure_house")),
        sa.PrimaryKeyConstraint("house", "supplier", "on", "what", name=op.f("pk_closure")),
    )
    op.create_table(
        "delivery_rule",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("supplier", sa.String(), nullable=False),
        sa.Column("weekday", sa.Integer(), nullable=False),
        sa.Column("at", sa.String(), nullable=False),
        sa.Column("cutoff_days_before", sa.Integer(), nullable=False),
        sa.Column("cutoff_at", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_delivery_rule_house")),
        sa.PrimaryKeyConstraint(
            "house", "supplier", "weekday", "at", name=op.f("pk_delivery_rule")
        ),
    )
    op.create_table(
        "device",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("highest", sa.BigInteger(), nullable=False),
        sa.Column("revoked", sa.Boolean(), nullable=False),
        sa.Column("enrolled_at", sa.DateTime(timezone=True), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_device_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_device")),
    )
    op.create_table(
        "dining_table",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("rank", sa.Integer(), nullable=False),
        sa.Column("usual_covers", sa.Integer(), nullable=True),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_dining_table_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_dining_table")),
    )
    op.create_table(
        "harvest",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("first", sa.Date(), nullable=False),
        sa.Column("last", sa.Date(), nullable=False),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("gathered", sa.BigInteger(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_harvest_house")),
        sa.PrimaryKeyConstraint("house", "item", "first", name=op.f("pk_harvest")),
    )
    op.create_table(
        "ingredient",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("recipe", sa.String(), nullable=False),
        sa.Column("line", sa.Integer(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("written", sa.String(), nullable=False),
        sa.Column("amount", sa.String(), nullable=False),
        sa.Column("scaling", sa.String(), nullable=False),
        sa.Column("trimming_yield", sa.String(), nullable=False),
        sa.CheckConstraint(
            "scaling IN ('per_portion', 'fixed')", name=op.f("ck_ingredient_scaling")
        ),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_ingredient_house")),
        sa.PrimaryKeyConstraint("house", "recipe", "line", name=op.f("pk_ingredient")),
    )
    op.create_table(
        "item",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("base_unit", sa.String(), nullable=False),
        sa.Column("group", sa.String(), nullable=False),
        sa.Column("area", sa.String(), nullable=True),
        sa.Column("measured", sa.Boolean(), nullable=False),
        sa.Column("level", sa.String(), nullable=False),
        sa.Column("whole", sa.Boolean(), nullable=False),
        sa.Column("density", sa.String(), nullable=True),
        sa.Column("piece_weight", sa.String(), nullable=True),
        sa.Column("opened_life_days", sa.Integer(), nullable=True),
        sa.Column("thawed_life_hours", sa.Integer(), nullable=True),
        sa.Column("frozen_life_days", sa.Integer(), nullable=True),
        sa.Column("high_risk", sa.Boolean(), nullable=False),
        sa.Column("contains", sa.String(), nullable=False),
        sa.Column("may_contain", sa.String(), nullable=False),
        sa.Column("free_of", sa.String(), nullable=False),
        sa.Column("gtin", sa.String(), nullable=True),
        sa.Column("floor", sa.BigInteger(), nullable=True),
        sa.Column("order_up_to", sa.BigInteger(), nullable=True),
        sa.Column("daily_per_head", sa.BigInteger(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("last_command", sa.String(), nullable=False),
        sa.CheckConstraint("base_unit IN ('g', 'ml', 'each')", name=op.f("ck_item_base_unit")),
        sa.CheckConstraint("level IN ('plenty', 'low', 'out')", name=op.f("ck_item_level")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_item_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_item")),
    )
    op.create_table(
        "journal",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("position", sa.BigInteger(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("recorded_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("device", sa.String(), nullable=True),
        sa.Column("n", sa.BigInteger(), nullable=True),
        sa.Column("envelope", sa.String(), nullable=False),
        sa.Column("outcome", sa.String(), nullable=False),
        sa.Column("answer", sa.String(), nullable=False),
        sa.Column("chain", sa.String(), nullable=False),
        sa.CheckConstraint(
            "outcome IN ('applied', 'refused', 'conflict', 'kept')", name=op.f("ck_journal_outcome")
        ),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_journal_house")),
        sa.PrimaryKeyConstraint("house", "position", name=op.f("pk_journal")),
    )
    with op.batch_alter_table("journal", schema=None) as batch_op:
        batch_op.create_index("uq_journal_command", ["house", "id"], unique=True)
        batch_op.create_index("uq_journal_device_n", ["house", "device", "n"], unique=True)

    op.create_table(
        "movement",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.Column("batch", sa.String(), nullable=False),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("pieces", sa.BigInteger(), nullable=True),
        sa.Column("source", sa.String(), nullable=False),
        sa.Column("target", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("recorded_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("reverses", sa.BigInteger(), nullable=True),
        sa.Column("reason", sa.String(), nullable=True),
        sa.Column("destination", sa.String(), nullable=True),
        sa.Column("link", sa.String(), nullable=False),
        sa.CheckConstraint("link IN ('scanned', 'assumed')", name=op.f("ck_movement_link")),
        sa.CheckConstraint("quantity > 0", name=op.f("ck_movement_quantity")),
        sa.CheckConstraint("source <> target", name=op.f("ck_movement_accounts")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_movement_house")),
        sa.PrimaryKeyConstraint("house", "number", name=op.f("pk_movement")),
    )
    with op.batch_alter_table("movement", schema=None) as batch_op:
        batch_op.create_index("ix_movement_batch", ["house", "batch"], unique=False)
        batch_op.create_index("ix_movement_command", ["house", "command"], unique=False)
        batch_op.create_index(
            "ix_movement_reverses",
            ["house", "reverses"],
            unique=False,
            sqlite_where=sa.text("reverses IS NOT NULL"),
            postgresql_where=sa.text("reverses IS NOT NULL"),
        )

    op.create_table(
        "need",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("service", sa.String(), nullable=False),
        sa.Column("dish", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("via", sa.String(), nullable=False),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("settled", sa.BigInteger(), nullable=False),
        sa.Column("wanted_by", sa.DateTime(timezone=True), nullable=False),
        sa.Column("until", sa.DateTime(timezone=True), nullable=False),
        sa.Column("rank", sa.Integer(), nullable=False),
        sa.Column("last_order_by", sa.DateTime(timezone=True), nullable=True),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_need_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_need")),
    )
    with op.batch_alter_table("need", schema=None) as batch_op:
        batch_op.create_index("ix_need_item", ["house", "item"], unique=False)
        batch_op.create_index("ix_need_service", ["house", "service"], unique=False)

    op.create_table(
        "order_line",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("purchase_order", sa.String(), nullable=False),
        sa.Column("pack", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("packs", sa.Integer(), nullable=False),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("received", sa.BigInteger(), nullable=False),
        sa.Column("closed", sa.Boolean(), nullable=False),
        sa.CheckConstraint("packs > 0", name=op.f("ck_order_line_packs")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_order_line_house")),
        sa.PrimaryKeyConstraint("house", "purchase_order", "pack", name=op.f("pk_order_line")),
    )
    op.create_table(
        "pack",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("supplier", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("sealed_quantity", sa.BigInteger(), nullable=False),
        sa.Column("price", sa.BigInteger(), nullable=False),
        sa.Column("gtin", sa.String(), nullable=True),
        sa.Column("life_on_arrival_days", sa.Integer(), nullable=True),
        sa.Column("contains", sa.String(), nullable=True),
        sa.Column("may_contain", sa.String(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("last_command", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_pack_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_pack")),
    )
    with op.batch_alter_table("pack", schema=None) as batch_op:
        batch_op.create_index("ix_pack_item", ["house", "item"], unique=False)

    op.create_table(
        "person",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("role", sa.String(), nullable=False),
        sa.Column("email", sa.String(), nullable=True),
        sa.Column("active", sa.Boolean(), nullable=False),
        sa.CheckConstraint(
            "role IN ('porter', 'chef', 'manager', 'approver')", name=op.f("ck_person_role")
        ),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_person_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_person")),
    )
    op.create_table(
        "policy_override",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("value", sa.Integer(), nullable=False),
        sa.Column("person", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_policy_override_house")),
        sa.PrimaryKeyConstraint("house", "name", name=op.f("pk_policy_override")),
    )
    op.create_table(
        "promise",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("number", sa.BigInteger(), nullable=False),
        sa.Column("service", sa.String(), nullable=False),
        sa.Column("need", sa.String(), nullable=False),
        sa.Column("batch", sa.String(), nullable=False),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.CheckConstraint("quantity <> 0", name=op.f("ck_promise_quantity")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_promise_house")),
        sa.PrimaryKeyConstraint("house", "number", name=op.f("pk_promise")),
    )
    with op.batch_alter_table("promise", schema=None) as batch_op:
        batch_op.create_index("ix_promise_batch", ["house", "batch"], unique=False)
        batch_op.create_index("ix_promise_service", ["house", "service"], unique=False)

    op.create_table(
        "promised",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("need", sa.String(), nullable=False),
        sa.Column("batch", sa.String(), nullable=False),
        sa.Column("service", sa.String(), nullable=False),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("pinned", sa.Boolean(), nullable=False),
        sa.CheckConstraint("quantity > 0", name=op.f("ck_promised_quantity")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_promised_house")),
        sa.PrimaryKeyConstraint("house", "need", "batch", name=op.f("pk_promised")),
    )
    with op.batch_alter_table("promised", schema=None) as batch_op:
        batch_op.create_index("ix_promised_batch", ["house", "batch"], unique=False)
        batch_op.create_index("ix_promised_service", ["house", "service"], unique=False)

    op.create_table(
        "purchase_order",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("supplier", sa.String(), nullable=False),
        sa.Column("delivery_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("last_command", sa.String(), nullable=False),
        sa.CheckConstraint(
            "state IN ('open', 'received', 'cancelled')", name=op.f("ck_purchase_order_state")
        ),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_purchase_order_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_purchase_order")),
    )
    with op.batch_alter_table("purchase_order", schema=None) as batch_op:
        batch_op.create_index("ix_purchase_order_state", ["house", "state"], unique=False)

    op.create_table(
        "question",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("owner", sa.String(), nullable=False),
        sa.Column("about", sa.String(), nullable=False),
        sa.Column("recorded", sa.String(), nullable=False),
        sa.Column("against", sa.String(), nullable=False),
        sa.Column("answers", sa.String(), nullable=False),
        sa.Column("opened_at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("opened_by", sa.String(), nullable=False),
        sa.Column("settled_at", sa.DateTime(timezone=True), nullable=True),
        sa.Column("settled_by", sa.String(), nullable=True),
        sa.Column("answer", sa.String(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("last_command", sa.String(), nullable=False),
        sa.CheckConstraint(
            "owner IN ('porter', 'chef', 'manager')", name=op.f("ck_question_owner")
        ),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_question_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_question")),
    )
    op.create_table(
        "receipt",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("command", sa.String(), nullable=False),
        sa.Column("batch", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("quantity", sa.BigInteger(), nullable=False),
        sa.Column("supplier", sa.String(), nullable=True),
        sa.Column("purchase_order", sa.String(), nullable=True),
        sa.Column("pack", sa.String(), nullable=True),
        sa.Column("packs", sa.Integer(), nullable=True),
        sa.Column("temperature_tenths", sa.Integer(), nullable=True),
        sa.Column("verdict", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=True),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.CheckConstraint(
            "verdict IN ('accept', 'hold', 'refuse')", name=op.f("ck_receipt_verdict")
        ),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_receipt_house")),
        sa.PrimaryKeyConstraint("house", "command", name=op.f("pk_receipt")),
    )
    with op.batch_alter_table("receipt", schema=None) as batch_op:
        batch_op.create_index("ix_receipt_order", ["house", "purchase_order"], unique=False)

    op.create_table(
        "recipe",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("kind", sa.String(), nullable=False),
        sa.Column("yields", sa.String(), nullable=False),
        sa.Column("dating", sa.String(), nullable=False),
        sa.Column("makes", sa.String(), nullable=True),
        sa.Column("lead", sa.String(), nullable=False),
        sa.Column("life_days", sa.Integer(), nullable=True),
        sa.Column("full_recipes", sa.Boolean(), nullable=False),
        sa.Column("area", sa.String(), nullable=True),
        sa.Column("approved", sa.Boolean(), nullable=False),
        sa.Column("season_from", sa.String(), nullable=True),
        sa.Column("season_to", sa.String(), nullable=True),
        sa.Column("unit_system", sa.String(), nullable=False),
        sa.Column("method", sa.String(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("last_command", sa.String(), nullable=False),
        sa.CheckConstraint(
            "dating IN ('cooked', 'preserved', 'assembled')", name=op.f("ck_recipe_dating")
        ),
        sa.CheckConstraint("kind IN ('dish', 'preparation')", name=op.f("ck_recipe_kind")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_recipe_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_recipe")),
    )
    op.create_table(
        "service",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("on", sa.Date(), nullable=False),
        sa.Column("meal", sa.String(), nullable=False),
        sa.Column("dining_table", sa.String(), nullable=False),
        sa.Column("at", sa.DateTime(timezone=True), nullable=False),
        sa.Column("covers", sa.Integer(), nullable=False),
        sa.Column("state", sa.String(), nullable=False),
        sa.Column("reason", sa.String(), nullable=True),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("last_command", sa.String(), nullable=False),
        sa.CheckConstraint(
            "state IN ('proposed', 'confirmed', 'served', 'taken_off')",
            name=op.f("ck_service_state"),
        ),
        sa.CheckConstraint("covers >= 0", name=op.f("ck_service_covers")),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_service_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_service")),
    )
    with op.batch_alter_table("service", schema=None) as batch_op:
        batch_op.create_index("ix_service_at", ["house", "at"], unique=False)
        batch_op.create_index("ix_service_state", ["house", "state", "at"], unique=False)

    op.create_table(
        "serving",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("service", sa.String(), nullable=False),
        sa.Column("line", sa.Integer(), nullable=False),
        sa.Column("course", sa.String(), nullable=False),
        sa.Column("dish", sa.String(), nullable=False),
        sa.Column("variant", sa.String(), nullable=True),
        sa.Column("portions", sa.Integer(), nullable=True),
        sa.Column("chosen", sa.Boolean(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_serving_house")),
        sa.PrimaryKeyConstraint("house", "service", "line", name=op.f("pk_serving")),
    )
    op.create_table(
        "substitute",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("substitute", sa.String(), nullable=False),
        sa.Column("ratio", sa.String(), nullable=False),
        sa.Column("condition", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_substitute_house")),
        sa.PrimaryKeyConstraint("house", "item", "substitute", name=op.f("pk_substitute")),
    )
    op.create_table(
        "supplier",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("id", sa.String(), nullable=False),
        sa.Column("name", sa.String(), nullable=False),
        sa.Column("email", sa.String(), nullable=True),
        sa.Column("minimum", sa.BigInteger(), nullable=False),
        sa.Column("charge", sa.BigInteger(), nullable=False),
        sa.Column("may_fail", sa.Boolean(), nullable=False),
        sa.Column("send_minutes", sa.Integer(), nullable=False),
        sa.Column("version", sa.Integer(), nullable=False),
        sa.Column("last_command", sa.String(), nullable=False),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_supplier_house")),
        sa.PrimaryKeyConstraint("house", "id", name=op.f("pk_supplier")),
    )
    op.create_table(
        "variant",
        sa.Column("house", sa.String(), nullable=False),
        sa.Column("recipe", sa.String(), nullable=False),
        sa.Column("variant", sa.String(), nullable=False),
        sa.Column("line", sa.Integer(), nullable=False),
        sa.Column("change", sa.String(), nullable=False),
        sa.Column("item", sa.String(), nullable=False),
        sa.Column("with_item", sa.String(), nullable=True),
        sa.Column("written", sa.String(), nullable=True),
        sa.Column("amount", sa.String(), nullable=True),
        sa.CheckConstraint(
            "change IN ('replace', 'leave_out', 'add')", name=op.f("ck_variant_change")
        ),
        sa.ForeignKeyConstraint(["house"], ["house.id"], name=op.f("fk_variant_house")),
        sa.PrimaryKeyConstraint("house", "recipe", "variant", "line", name=op.f("pk_variant")),
    )


def downgrade() -> None:
    op.drop_table("variant")
    op.drop_table("supplier")
    op.drop_table("substitute")
    op.drop_table("serving")
    with op.batch_alter_table("service", schema=None) as batch_op:
        batch_op.drop_index("ix_service_state")
        batch_op.drop_index("ix_service_at")

    op.drop_table("service")
    op.drop_table("recipe")
    with op.batch_alter_table("receipt", schema=None) as batch_op:
        batch_op.drop_index("ix_receipt_order")

    op.drop_table("receipt")
    op.drop_table("question")
    with op.batch_alter_table("purchase_order", schema=None) as batch_op:
        batch_op.drop_index("ix_purchase_order_state")

    op.drop_table("purchase_order")
    with op.batch_alter_table("promised", schema=None) as batch_op:
        batch_op.drop_index("ix_promised_service")
        batch_op.drop_index("ix_promised_batch")

    op.drop_table("promised")
    with op.batch_alter_table("promise", schema=None) as batch_op:
        batch_op.drop_index("ix_promise_service")
        batch_op.drop_index("ix_promise_batch")

    op.drop_table("promise")
    op.drop_table("policy_override")
    op.drop_table("person")
    with op.batch_alter_table("pack", schema=None) as batch_op:
        batch_op.drop_index("ix_pack_item")

    op.drop_table("pack")
    op.drop_table("order_line")
    with op.batch_alter_table("need", schema=None) as batch_op:
        batch_op.drop_index("ix_need_service")
        batch_op.drop_index("ix_need_item")

    op.drop_table("need")
    with op.batch_alter_table("movement", schema=None) as batch_op:
        batch_op.drop_index(
            "ix_movement_reverses",
            sqlite_where=sa.text("reverses IS NOT NULL"),
            postgresql_where=sa.text("reverses IS NOT NULL"),
        )
        batch_op.drop_index("ix_movement_command")
        batch_op.drop_index("ix_movement_batch")

    op.drop_table("movement")
    with op.batch_alter_table("journal", schema=None) as batch_op:
        batch_op.drop_index("uq_journal_device_n")
        batch_op.drop_index("uq_journal_command")

    op.drop_table("journal")
    op.drop_table("item")
    op.drop_table("ingredient")
    op.drop_table("harvest")
    op.drop_table("dining_table")
    op.drop_table("device")
    op.drop_table("delivery_rule")
    op.drop_table("closure")
    with op.batch_alter_table("change", schema=None) as batch_op:
        batch_op.drop_index("ix_change_position")

    op.drop_table("change")
    op.drop_table("cannot_eat")
    with op.batch_alter_table("batch_parent", schema=None) as batch_op:
        batch_op.drop_index("ix_batch_parent_parent")

    op.drop_table("batch_parent")
    with op.batch_alter_table("batch", schema=None) as batch_op:
        batch_op.drop_index("uq_batch_label")
        batch_op.drop_index("ix_batch_lot")
        batch_op.drop_index("ix_batch_item")

    op.drop_table("batch")
    with op.batch_alter_table("balance", schema=None) as batch_op:
        batch_op.drop_index(
            "ix_balance_standing",
            sqlite_where=sa.text("quantity <> 0"),
            postgresql_where=sa.text("quantity <> 0"),
        )
        batch_op.drop_index("ix_balance_account")

    op.drop_table("balance")
    op.drop_table("area")
    op.drop_table("house")
