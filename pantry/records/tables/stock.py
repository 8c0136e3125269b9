"""Items, batches, the ledger and its balances."""

from datetime import date, datetime

from sqlalchemy import BigInteger, CheckConstraint, Index, text
from sqlmodel import Field, SQLModel


class ItemRow(SQLModel, table=True):
    """A thing that is stocked; fractions as text `n/d`, allergens as JSON lists."""

    __tablename__ = "item"
    __table_args__ = (
        CheckConstraint("base_unit IN ('g', 'ml', 'each')", name="base_unit"),
        CheckConstraint("level IN ('plenty', 'low', 'out')", name="level"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    name: str
    base_unit: str
    group: str = ""
    area: str | None = None
    measured: bool = True
    level: str = "plenty"
    whole: bool = False
    density: str | None = None
    piece_weight: str | None = None
    opened_life_days: int | None = None
    thawed_life_hours: int | None = None
    frozen_life_days: int | None = None
    high_risk: bool = False
    contains: str = "[]"
    may_contain: str = "[]"
    free_of: str = "[]"
    gtin: str | None = None
    floor: int | None = Field(default=None, sa_type=BigInteger)
    order_up_to: int | None = Field(default=None, sa_type=BigInteger)
    daily_per_head: int = Field(default=0, sa_type=BigInteger)
    version: int = 1
    last_command: str = ""


class BatchRow(SQLModel, table=True):
    """One quantity of one item with one origin, lot, date mark, state and cost.

    `left` is what was left of a frozen batch's safety clock, an ISO 8601 duration (SL3);
    `quantity` is what it began with; `made_by` the recipe that made it.
    """

    __tablename__ = "batch"
    __table_args__ = (
        CheckConstraint("quantity >= 0", name="quantity"),
        CheckConstraint(
            "state IN ('sealed', 'opened', 'frozen', 'thawed', 'vacuum_packed', 'made')",
            name="state",
        ),
        CheckConstraint("date_kind IN ('use_by', 'best_before', 'none')", name="date_kind"),
        Index("ix_batch_item", "house", "item"),
        Index("uq_batch_label", "house", "label", unique=True),
        Index("ix_batch_lot", "house", "lot"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    item: str
    label: str
    lot: str | None = None
    supplier: str | None = None
    state: str
    state_at: datetime
    date_kind: str
    mark_date: date | None = None
    usable_until: datetime | None = None
    good_until: datetime | None = None
    left: str | None = None
    was_thawed: bool = False
    cooked: bool = False
    quantity: int = Field(sa_type=BigInteger)
    pieces: int | None = Field(default=None, sa_type=BigInteger)
    cost: int = Field(default=0, sa_type=BigInteger)
    sealed_quantity: int | None = Field(default=None, sa_type=BigInteger)
    since: datetime
    made_by: str | None = None
    recalled: bool = False


class BatchParentRow(SQLModel, table=True):
    """That a batch was made of so much of another; whether scanned or assumed by FEFO."""

    __tablename__ = "batch_parent"
    __table_args__ = (
        CheckConstraint("link IN ('scanned', 'assumed')", name="link"),
        Index("ix_batch_parent_parent", "house", "parent"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    batch: str = Field(primary_key=True)
    parent: str = Field(primary_key=True)
    quantity: int = Field(sa_type=BigInteger)
    link: str


class MovementRow(SQLModel, table=True):
    """A physical quantity of one batch from one account to another; never changed (LG1).

    `at`, `bound_ms`, `device` and `position` say when it happened (SY8); those of a movement that
    takes another back are the other's. A movement of before they were kept has only `at`.
    """

    __tablename__ = "movement"
    __table_args__ = (
        CheckConstraint("quantity > 0", name="quantity"),
        CheckConstraint("source <> target", name="accounts"),
        CheckConstraint("link IN ('scanned', 'assumed')", name="link"),
        Index("ix_movement_batch", "house", "batch"),
        Index("ix_movement_command", "house", "command"),
        Index(
            "ix_movement_reverses",
            "house",
            "reverses",
            sqlite_where=text("reverses IS NOT NULL"),
            postgresql_where=text("reverses IS NOT NULL"),
        ),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    number: int = Field(primary_key=True, sa_type=BigInteger)
    batch: str
    quantity: int = Field(sa_type=BigInteger)
    pieces: int | None = Field(default=None, sa_type=BigInteger)
    source: str
    target: str
    at: datetime
    recorded_at: datetime
    command: str
    reverses: int | None = Field(default=None, sa_type=BigInteger)
    reason: str | None = None
    destination: str | None = None
    link: str = "scanned"
    bound_ms: int = Field(default=0, sa_type=BigInteger)
    position: int = Field(default=0, sa_type=BigInteger)
    device: str | None = None


class BalanceRow(SQLModel, table=True):
    """What one account holds of one batch: the movements' sum, kept beside them.

    `counted_at` and what begins like it say when it was last counted: a movement of before that
    changes nothing (SY8).
    """

    __tablename__ = "balance"
    __table_args__ = (
        Index("ix_balance_account", "house", "account"),
        Index(
            "ix_balance_standing",
            "house",
            "account",
            sqlite_where=text("quantity <> 0"),
            postgresql_where=text("quantity <> 0"),
        ),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    batch: str = Field(primary_key=True)
    account: str = Field(primary_key=True)
    quantity: int = Field(sa_type=BigInteger)
    pieces: int = Field(default=0, sa_type=BigInteger)
    counted_at: datetime | None = None
    counted_bound_ms: int = Field(default=0, sa_type=BigInteger)
    counted_position: int = Field(default=0, sa_type=BigInteger)
    counted_device: str | None = None


class CountedRow(SQLModel, table=True):
    """What was found of an item when it was counted last in an area, and where it stands there.

    `place` is its place in the order of the shelves, which is the order of the counts; `command`
    counted it, and is empty where that count was taken back: then only the order is known.
    """

    __tablename__ = "counted"

    house: str = Field(primary_key=True, foreign_key="house.id")
    area: str = Field(primary_key=True)
    item: str = Field(primary_key=True)
    place: int
    quantity: int = Field(sa_type=BigInteger)
    at: datetime
    person: str
    command: str


class ReceiptRow(SQLModel, table=True):
    """What was said of a line at the back door; the temperature in tenths of a degree.

    `warmth` is how the house judged the temperature, `instead` the pack that was ordered where
    another thing came, `replaces` whether that pack is awaited no more.
    """

    __tablename__ = "receipt"
    __table_args__ = (
        CheckConstraint("verdict IN ('accept', 'hold', 'refuse')", name="verdict"),
        CheckConstraint("warmth IN ('accept', 'ask', 'refuse')", name="warmth"),
        Index("ix_receipt_order", "house", "purchase_order"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    command: str = Field(primary_key=True)
    batch: str
    item: str
    quantity: int = Field(sa_type=BigInteger)
    supplier: str | None = None
    purchase_order: str | None = None
    pack: str | None = None
    packs: int | None = None
    temperature_tenths: int | None = None
    verdict: str
    reason: str | None = None
    at: datetime
    warmth: str | None = None
    instead: str | None = None
    replaces: bool = False
