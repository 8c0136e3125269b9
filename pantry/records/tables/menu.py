"""Recipes, tables, services, what they need and what they were promised."""

from datetime import date, datetime

from sqlalchemy import BigInteger, CheckConstraint, Index
from sqlmodel import Field, SQLModel


class RecipeRow(SQLModel, table=True):
    """A dish or a preparation; fractions as text `n/d`, the season as `MM-DD`.

    `put_away_by` is the command that put it away; None: it is offered. `renamed_by` gave it the
    name it has, `renamed_from` is the one it had before.
    """

    __tablename__ = "recipe"
    __table_args__ = (
        CheckConstraint("kind IN ('dish', 'preparation')", name="kind"),
        CheckConstraint("dating IN ('cooked', 'preserved', 'assembled')", name="dating"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    name: str
    kind: str
    yields: str
    dating: str
    makes: str | None = None
    lead: str = "PT0S"
    life_days: int | None = None
    full_recipes: bool = False
    area: str | None = None
    approved: bool = False
    season_from: str | None = None
    season_to: str | None = None
    unit_system: str
    method: str = ""
    version: int = 1
    last_command: str = ""
    picture: str | None = None
    put_away_by: str | None = None
    renamed_by: str | None = None
    renamed_from: str | None = None


class IngredientRow(SQLModel, table=True):
    """One line of a recipe: the amount as written, and exact in the item's base unit."""

    __tablename__ = "ingredient"
    __table_args__ = (CheckConstraint("scaling IN ('per_portion', 'fixed')", name="scaling"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    recipe: str = Field(primary_key=True)
    line: int = Field(primary_key=True)
    item: str
    written: str
    amount: str
    scaling: str
    trimming_yield: str = "1"


class VariantRow(SQLModel, table=True):
    """One change that a variant of a recipe makes."""

    __tablename__ = "variant"
    __table_args__ = (CheckConstraint("change IN ('replace', 'leave_out', 'add')", name="change"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    recipe: str = Field(primary_key=True)
    variant: str = Field(primary_key=True)
    line: int = Field(primary_key=True)
    change: str
    item: str
    with_item: str | None = None
    written: str | None = None
    amount: str | None = None


class SubstituteRow(SQLModel, table=True):
    """What may stand in for an item, in what ratio, and when."""

    __tablename__ = "substitute"

    house: str = Field(primary_key=True, foreign_key="house.id")
    item: str = Field(primary_key=True)
    substitute: str = Field(primary_key=True)
    ratio: str
    condition: str = ""


class DiningTableRow(SQLModel, table=True):
    """Who eats together; rank 1 is served first."""

    __tablename__ = "dining_table"

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    name: str
    rank: int
    usual_covers: int | None = None


class ConstraintRow(SQLModel, table=True):
    """What somebody at a table cannot eat, as a JSON list, between two dates."""

    __tablename__ = "cannot_eat"

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    person: str
    dining_table: str
    cannot_eat: str
    first: date | None = None
    last: date | None = None


class ServiceRow(SQLModel, table=True):
    """One meal on one date for one table; `last_command` is the base of one's own next decision.

    `confirmed_by` is who confirmed its menu, where that was a command of this house.
    """

    __tablename__ = "service"
    __table_args__ = (
        CheckConstraint("state IN ('proposed', 'confirmed', 'served', 'taken_off')", name="state"),
        CheckConstraint("covers >= 0", name="covers"),
        Index("ix_service_at", "house", "at"),
        Index("ix_service_state", "house", "state", "at"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    on: date
    meal: str
    dining_table: str
    at: datetime
    covers: int
    state: str
    reason: str | None = None
    version: int = 1
    last_command: str = ""
    confirmed_by: str | None = None


class ServingRow(SQLModel, table=True):
    """One dish of a service's menu; `served` portions, where that was not as planned.

    `called` is its name when it was served, where it has another now.
    """

    __tablename__ = "serving"

    house: str = Field(primary_key=True, foreign_key="house.id")
    service: str = Field(primary_key=True)
    line: int = Field(primary_key=True)
    course: str
    dish: str
    variant: str | None = None
    portions: int | None = None
    chosen: bool = False
    served: int | None = None
    called: str | None = None


class OverrideRow(SQLModel, table=True):
    """That a dish is served to somebody who cannot eat something in it, agreed to by name (AL3)."""

    __tablename__ = "override"
    __table_args__ = (
        CheckConstraint("certainty IN ('contains', 'may_contain')", name="certainty"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    service: str = Field(primary_key=True)
    line: int = Field(primary_key=True)
    person: str
    dish: str
    variant: str | None = None
    cannot_eat: str
    certainty: str
    agreed_by: str
    agreed_at: datetime


class LeftOverRow(SQLModel, table=True):
    """That a batch is what was left of a dish of a service, cooked first at `cooked_at` (SL4)."""

    __tablename__ = "left_over"
    __table_args__ = (Index("ix_left_over_service", "house", "service"),)

    house: str = Field(primary_key=True, foreign_key="house.id")
    batch: str = Field(primary_key=True)
    service: str
    dish: str
    variant: str | None = None
    portions: int
    cooked_at: datetime


class NeedRow(SQLModel, table=True):
    """What a confirmed service still wants of an item; `settled` is what was taken out for it."""

    __tablename__ = "need"
    __table_args__ = (
        Index("ix_need_item", "house", "item"),
        Index("ix_need_service", "house", "service"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    id: str = Field(primary_key=True)
    service: str
    dish: str
    item: str
    via: str = ""
    quantity: int = Field(sa_type=BigInteger)
    settled: int = Field(default=0, sa_type=BigInteger)
    wanted_by: datetime
    until: datetime
    rank: int
    last_order_by: datetime | None = None


class PromiseRow(SQLModel, table=True):
    """A net difference of what a service was given of a batch; append-only (LG2)."""

    __tablename__ = "promise"
    __table_args__ = (
        CheckConstraint("quantity <> 0", name="quantity"),
        Index("ix_promise_batch", "house", "batch"),
        Index("ix_promise_service", "house", "service"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    number: int = Field(primary_key=True, sa_type=BigInteger)
    service: str
    need: str
    batch: str
    quantity: int = Field(sa_type=BigInteger)
    command: str


class PromisedRow(SQLModel, table=True):
    """What a need holds of a batch now: the promises' sum, kept beside them."""

    __tablename__ = "promised"
    __table_args__ = (
        CheckConstraint("quantity > 0", name="quantity"),
        Index("ix_promised_batch", "house", "batch"),
        Index("ix_promised_service", "house", "service"),
    )

    house: str = Field(primary_key=True, foreign_key="house.id")
    need: str = Field(primary_key=True)
    batch: str = Field(primary_key=True)
    service: str
    quantity: int = Field(sa_type=BigInteger)
    pinned: bool = False
