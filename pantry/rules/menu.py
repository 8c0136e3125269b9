"""What is proposed, chosen and cooked: recipes, dishes, tables, services.

Amounts are exact fractions of the ingredient item's base unit (g, ml, each) as one recipe uses
them; they become whole thousandths only once they are a need (MS1).
"""

from dataclasses import dataclass
from datetime import date, datetime
from enum import StrEnum
from fractions import Fraction

from pantry.rules.house_time import Span


class RecipeKind(StrEnum):
    """A dish appears on a menu; a preparation becomes a batch."""

    DISH = "dish"
    PREPARATION = "preparation"


class Dating(StrEnum):
    """How what a recipe makes gets its life (SL4)."""

    COOKED = "cooked"
    PRESERVED = "preserved"
    ASSEMBLED = "assembled"


class Scaling(StrEnum):
    """Whether a line grows with the portions or is the same for any number (frying oil)."""

    PER_PORTION = "per_portion"
    FIXED = "fixed"


class Change(StrEnum):
    """What a variant does to a line of its recipe."""

    REPLACE = "replace"
    LEAVE_OUT = "leave_out"
    ADD = "add"


@dataclass(frozen=True, slots=True)
class Ingredient:
    """One line of a recipe.

    Attributes:
        item: the item's id (a preparation is an item too).
        amount: in the item's base unit, for the recipe's whole yield.
        trimming_yield: edible part / as-bought quantity, where the amount is of the *trimmed*
            thing; 1 where it is *as bought*.
    """

    item: str
    amount: Fraction
    scaling: Scaling = Scaling.PER_PORTION
    trimming_yield: Fraction = Fraction(1)


@dataclass(frozen=True, slots=True)
class VariantChange:
    """One change that a variant makes; `amount` None keeps the amount of the line replaced."""

    change: Change
    item: str
    with_item: str | None = None
    amount: Fraction | None = None


@dataclass(frozen=True, slots=True)
class Recipe:
    """Ingredients, yield, lead time, and how the result is dated.

    Attributes:
        makes: for a preparation, the id of the item its result is a batch of; None for a dish.
        yields: portions of a dish, or base units of what a preparation makes.
        lead: how long before the service (or before its use) the ingredients are wanted (RQ2).
        life_days: life of the result, the day of making being day 1.
        put_away: it is offered no more; menus on which it stands keep it.
        full_recipes: made only whole (one tray, one pan).
        season: first and last (month, day) it is in season, both inclusive, may wrap the year end.
    """

    id: str
    name: str
    kind: RecipeKind
    yields: Fraction
    ingredients: tuple[Ingredient, ...]
    dating: Dating = Dating.COOKED
    makes: str | None = None
    lead: Span = Span()
    life_days: int | None = None
    full_recipes: bool = False
    approved: bool = True
    variants: tuple[tuple[str, tuple[VariantChange, ...]], ...] = ()
    season: tuple[tuple[int, int], tuple[int, int]] | None = None
    put_away: bool = False

    @property
    def offered(self) -> bool:
        """Whether it may be chosen anew: the household knows it, and it is not put away."""
        return self.approved and not self.put_away


@dataclass(frozen=True, slots=True)
class DiningTable:
    """Who eats together; rank 1 is served first when there is not enough (AL2)."""

    id: str
    name: str
    rank: int
    usual_covers: int | None = None


@dataclass(frozen=True, slots=True)
class Constraint:
    """What one person at a table cannot eat: allergen names or item names, between two dates."""

    person: str
    table: str
    cannot_eat: frozenset[str]
    first: date | None = None
    last: date | None = None


class ServiceState(StrEnum):
    """The states of a service's menu."""

    PROPOSED = "proposed"
    CONFIRMED = "confirmed"
    SERVED = "served"
    TAKEN_OFF = "taken_off"


@dataclass(frozen=True, slots=True)
class Serving:
    """One dish of a service's menu.

    Attributes:
        portions: None means one for each cover.
        portion_factor: what one portion is of the recipe's own; a child's may be 1/2 (RQ1).
    """

    course: str
    dish: str
    variant: str | None = None
    portions: int | None = None
    chosen: bool = False
    portion_factor: Fraction = Fraction(1)


@dataclass(frozen=True, slots=True)
class Service:
    """One meal on one date for one table; `id` is `DATE/MEAL/TABLE`.

    A confirmed service has exactly the servings that were chosen; a proposed one has all the
    alternatives of each course.
    """

    id: str
    date: date
    meal: str
    table: str
    at: datetime
    covers: int
    state: ServiceState
    servings: tuple[Serving, ...] = ()


@dataclass(frozen=True, slots=True)
class Substitute:
    """What the chef approved to take an item's place.

    Attributes:
        item: what is lacking.
        ratio: base units of the substitute for one base unit of the item.
        when: in what case it will do, in the chef's words (`not for whipping`); a person judges it.
    """

    item: str
    substitute: str
    ratio: Fraction
    when: str = ""
