"""One sheet as the household reads it: by day, meal and table; not a word of stock, no costs.

What is in a dish is told to whoever reads it. Who cannot eat a dish is said only where all of the
sheet is of that person's own table: nobody's constraint is told to another table.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from datetime import date, datetime
from functools import cached_property

from pantry.records.read import menu
from pantry.records.read.sheets import served
from pantry.records.rows import among, every
from pantry.records.tables import IngredientRow, MenuAnswerRow, RecipeRow, ServiceRow, SheetRow
from pantry.reports import safe_dishes
from pantry.reports.ahead import Ahead
from pantry.reports.allergens import Allergens
from pantry.reports.menu_answers import MenuAnswers, answer_by
from pantry.reports.report import Row
from pantry.reports.sheets import state_of
from pantry.reports.view import View
from pantry.rules.allergens import Certainty
from pantry.rules.house_time import local_date
from pantry.rules.menu import RecipeKind, Service, Serving
from pantry.rules.new_dishes import is_new
from pantry.rules.variants import with_variant

CAUTION = (
    "What is in a dish is told as far as it was declared to the kitchen; traces can never be ruled "
    "out. Who must avoid something asks the kitchen, every time; medical advice and local codes "
    "come first."
)
"""The usual caution wherever the household reads what is in a dish."""


@dataclass(frozen=True, slots=True)
class DishShown:
    """A dish of a course.

    Attributes:
        contains, may_contain: allergens by name.
        not_known: nobody has declared all of what the house's list asks for.
        not_for: who at the table cannot eat it, and how sure that is.
        is_new: its recipe follows.
    """

    id: str
    name: str
    variant: str | None
    contains: Sequence[str]
    may_contain: Sequence[str]
    not_known: bool
    not_for: Sequence[str]
    is_new: bool
    chosen: bool

    @property
    def words(self) -> str:
        """What it is called, with its variant."""
        return f"{self.name}, {self.variant}" if self.variant else self.name


@dataclass(frozen=True, slots=True)
class CourseShown:
    """A course with its alternatives, the first of which holds where nobody answers."""

    name: str
    dishes: Sequence[DishShown]


@dataclass(frozen=True, slots=True)
class ServiceShown:
    """A meal of a table; `answer` is what stands, `before` what that took the place of."""

    id: str
    version: int
    day: date
    at: datetime
    meal: str
    table: str
    covers: int
    state: str
    answer_by: datetime | None
    courses: Sequence[CourseShown]
    answer: Row | None
    before: Row | None


@dataclass(frozen=True, slots=True)
class RecipeShown:
    """The recipe of a dish that is new to them; `picture` is the id of one, if there is one."""

    id: str
    name: str
    portions: str
    lines: Sequence[tuple[str, str]]
    method: str
    picture: str | None


@dataclass(frozen=True, slots=True)
class SheetShown:
    """The sheet; `others` are the approved dishes that may be asked for instead, id and name."""

    id: str
    house: str
    to: str | None
    table: str | None
    sent_by: str
    state: str
    until: datetime
    services: Sequence[ServiceShown]
    recipes: Sequence[RecipeShown]
    others: Sequence[tuple[str, str]]


def sheet_shown(view: View, row: SheetRow) -> SheetShown:
    """A sheet as its menus stand now."""
    return _Reading(view, row).sheet


@dataclass(frozen=True)
class _Reading:
    """Reads one sheet of one house."""

    view: View
    row: SheetRow

    @cached_property
    def sheet(self) -> SheetShown:
        view, row, names = self.view, self.row, self._answers.names
        services = [self._service(each) for each in self._services]
        dishes = [dish for each in services for course in each.courses for dish in course.dishes]
        new = dict.fromkeys(dish.id for dish in dishes if dish.is_new)
        return SheetShown(
            id=row.id,
            house=view.house.name,
            to=row.recipient and names.get(row.recipient, row.recipient),
            table=row.dining_table and view.tables[row.dining_table].name,
            sent_by=names.get(row.sent_by, row.sent_by),
            state=state_of(view, row),
            until=row.expires_at,
            services=services,
            recipes=[self._recipe(dish) for dish in new],
            others=self._others,
        )

    @cached_property
    def _answers(self) -> MenuAnswers:
        return MenuAnswers(self.view)

    @cached_property
    def _allergens(self) -> Allergens:
        return Allergens(self.view)

    @cached_property
    def _ahead(self) -> Ahead:
        return Ahead(self.view)

    @cached_property
    def _new(self) -> set[tuple[str, str]]:
        """Dishes that are new, each with the table that it is new to."""
        view = self.view
        known, today = served(view.connection, view.id), local_date(view.now, view.zone)
        return {
            (dish, table)
            for table in view.tables
            for dish, recipe in view.recipes.items()
            if is_new(recipe, table, known, today)
        }

    @cached_property
    def _services(self) -> list[ServiceRow]:
        view, ids = self.view, self._answers.services_of.get(self.row.id, [])
        rows = among(view.connection, ServiceRow, view.id, "id", ids)
        return sorted(rows, key=lambda row: (row.at, row.id))

    @cached_property
    def _others(self) -> list[tuple[str, str]]:
        recipes = self.view.recipes.values()
        dishes = (each for each in recipes if each.kind is RecipeKind.DISH and each.offered)
        return sorted(((each.id, each.name) for each in dishes), key=lambda pair: pair[1])

    def _service(self, row: ServiceRow) -> ServiceShown:
        view = self.view
        service = menu.service(view.connection, view.id, row)
        answer, before = self._answered(row)
        return ServiceShown(
            id=row.id,
            version=row.version,
            day=row.on,
            at=row.at,
            meal=row.meal,
            table=view.tables[row.dining_table].name,
            covers=row.covers,
            state=row.state,
            answer_by=answer_by(self._ahead, service),
            courses=self._courses(service),
            answer=answer,
            before=before,
        )

    def _answered(self, row: ServiceRow) -> tuple[Row | None, Row | None]:
        """The answer that stands, and the one it took the place of."""
        view = self.view
        rows = every(view.connection, MenuAnswerRow, house=view.id, service=row.id)
        last = sorted(rows, key=lambda each: each.number)[-2:]
        told = [self._answers.one(each, row.version) for each in reversed(last)]
        return (told[0] if told else None), (told[1] if len(told) > 1 else None)

    def _courses(self, service: Service) -> list[CourseShown]:
        found: dict[str, list[DishShown]] = {}
        for serving in service.servings:
            found.setdefault(serving.course, []).append(self._dish(service, serving))
        return [CourseShown(name, dishes) for name, dishes in found.items()]

    def _dish(self, service: Service, serving: Serving) -> DishShown:
        recipe = self.view.recipes[serving.dish]
        declared = self._allergens.of_dish(with_variant(recipe, serving.variant))
        return DishShown(
            id=recipe.id,
            name=recipe.name,
            variant=serving.variant,
            contains=declared["contains"],
            may_contain=declared["may_contain"],
            not_known=bool(declared["unknown"]),
            not_for=tuple(self._not_for(service, serving)) if self.row.dining_table else (),
            is_new=(recipe.id, service.table) in self._new,
            chosen=serving.chosen,
        )

    def _not_for(self, service: Service, serving: Serving) -> Iterable[str]:
        """Of the table's own people, who cannot eat it, each once and the surest first."""
        found: dict[str, Certainty] = {}
        for each in safe_dishes.against(self.view, service, serving):
            found.setdefault(each.person, each.certainty)
        for person, certainty in found.items():
            if certainty is Certainty.CONTAINS:
                yield f"not for {person}"
            elif certainty is Certainty.MAY_CONTAIN:
                yield f"perhaps not for {person}"
            else:
                yield f"for {person}: ask the kitchen"

    def _recipe(self, dish: str) -> RecipeShown:
        view = self.view
        (row,) = every(view.connection, RecipeRow, house=view.id, id=dish)
        lines = every(view.connection, IngredientRow, house=view.id, recipe=dish)
        return RecipeShown(
            id=dish,
            name=row.name,
            portions=row.yields.removesuffix("/1"),
            lines=[(view.item_name(line.item), line.written) for line in lines],
            method=row.method,
            picture=row.picture,
        )
