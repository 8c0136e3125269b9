"""What the kitchen makes on which day: how much, of what, for which dishes, in order (RQ1, RQ2)."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta
from functools import cached_property

from pantry.records import accounts
from pantry.records.rows import among, every
from pantry.records.tables import (
    AreaRow,
    BatchRow,
    ItemRow,
    JournalRow,
    MovementRow,
    RecipeRow,
)
from pantry.reports import safe_dishes
from pantry.reports.allergens import Allergens
from pantry.reports.coverage_rows import Projected, given_from
from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View
from pantry.rules.fefo import Need
from pantry.rules.house_time import local_date
from pantry.rules.makings import Making
from pantry.rules.menu import Dating, Recipe, RecipeKind, Service
from pantry.rules.stock import State

DAYS = 7
"""How many days are told where nobody says how many, today being the first."""


def preparations(view: View, days: int = DAYS) -> list[Row]:
    """A row for each making of the days ahead in the order of making, then what was made today.

    Only what is not there yet is made: `quantity` is what the dishes want beyond it, in whole full
    recipes where it is only made whole. `making` names it; null where it was made already, and
    `done` says by which command. What goes into another making of the same time stands before it.
    """
    found = _Preparations(view)
    last = local_date(view.now, view.zone) + timedelta(days=days - 1)
    return [*found.due(last), *found.made_today()]


@dataclass(frozen=True)
class _Preparations:
    """Finds what is to be made, and what was."""

    view: View

    @cached_property
    def _projected(self) -> Projected:
        return Projected(self.view)

    @cached_property
    def _by_id(self) -> dict[str, Need]:
        return {need.id: need for need in self._projected.confirmed_needs}

    @cached_property
    def _rows(self) -> dict[str, RecipeRow]:
        kind = RecipeKind.PREPARATION.value
        rows = every(self.view.connection, RecipeRow, house=self.view.id, kind=kind)
        return {row.id: row for row in rows}

    @cached_property
    def _areas_of_items(self) -> dict[str, str | None]:
        rows = every(self.view.connection, ItemRow, house=self.view.id)
        return {row.id: row.area for row in rows}

    @cached_property
    def _first_area(self) -> str:
        return every(self.view.connection, AreaRow, house=self.view.id)[0].id

    @cached_property
    def _allergens(self) -> Allergens:
        return Allergens(self.view)

    def due(self, last: date) -> Iterator[Row]:
        """What is to be made until the end of a day; what goes into something before that."""
        makings = enumerate(self._projected.confirmed.makings)
        for _, making in sorted(makings, key=lambda pair: (pair[1].start, -pair[0])):
            if local_date(making.start, self.view.zone) <= last:
                yield self._due(making)

    def _due(self, making: Making) -> Row:
        view, recipe = self.view, self.view.recipes[making.recipe]
        until = view.lives.made_until(recipe, making.start)
        return self._of(recipe, making.quantity) | {
            "making": making.id,
            "day": local_date(making.start, view.zone).isoformat(),
            "start": instant(making.start),
            "ready": instant(making.ready),
            "late": making.late,
            "usable_until": instant(until),
            "there": amount(self._there(making.item), view.items[making.item]),
            "wanted": list(self._wanted(making)),
            "lines": [self._line(need) for need in self._needs(making, recipe)],
            "done": None,
        }

    def _of(self, recipe: Recipe, quantity: int) -> Row:
        """What is said of a preparation whether it is to be made or was."""
        row, item = self._rows[recipe.id], self.view.items[recipe.makes or ""]
        area = row.area or self._areas_of_items[item.id] or self._first_area
        recipes = quantity / (recipe.yields * 1000)
        return {
            "recipe": recipe.id,
            "preparation": recipe.name,
            "item": item.name,
            "item_id": item.id,
            "quantity": amount(quantity, item),
            "recipes": str(recipes),
            "full_recipes": recipe.full_recipes,
            "is_cooked": recipe.dating is not Dating.ASSEMBLED,
            "area": self.view.areas.get(area, area),
            "method": row.method,
            **self._allergens.of_dish(recipe),
        }

    def _there(self, item: str) -> int:
        """What stands of it and may be used, promised or not."""
        return sum(source.quantity for source in self.view.sources.get(item, ()))

    def _wanted(self, making: Making) -> Iterator[Row]:
        """What it is for: how much of it for which dish, or for what else is made of it."""
        view, found = self.view, self._projected
        for need in found.confirmed.needs.get(making.item, ()):
            given = sum(
                pick.quantity
                for pick in found.confirmed_picks.get(need.id, ())
                if pick.source == making.id
            )
            if given:
                yield {
                    "service": need.service,
                    "dish": view.recipes[need.dish].name if need.dish in view.recipes else "",
                    "into": view.item_name(need.via) if need.via else None,
                    "quantity": amount(given, view.items[making.item]),
                    "conflicts": self._conflicts(need),
                }

    def _conflicts(self, need: Need) -> list[Row]:
        """Who cannot eat the dishes of a need, as they stand on the menu it is for (AL3)."""
        service = self._services.get(need.service)
        return [
            {"dish": self.view.recipes[each.dish].name, "variant": each.variant, **told}
            for each in (service.servings if service else ())
            if service and each.dish == need.dish
            for told in safe_dishes.told(self.view, service, each)
        ]

    @cached_property
    def _services(self) -> Mapping[str, Service]:
        return {service.id: service for service in self.view.services}

    def _needs(self, making: Making, recipe: Recipe) -> Sequence[Need]:
        """What goes into it, in the order of the recipe; of what nobody counts there is no need."""
        by_id = self._by_id
        items = dict.fromkeys(line.item for line in recipe.ingredients)
        wanted = (by_id.get(f"{making.id}|{item}") for item in items)
        return [need for need in wanted if need is not None]

    def _line(self, need: Need) -> Row:
        view, found = self.view, self._projected
        item = view.items[need.item]
        picks = sorted(found.confirmed_picks.get(need.id, ()), key=found.dies)
        return {
            "item": item.name,
            "item_id": item.id,
            "need": amount(need.quantity, item),
            "from": [
                given_from(found, need, pick) | {"area": self._area(pick.source)} for pick in picks
            ],
            "short": amount(found.confirmed_short.get(need.id, 0), item),
        }

    def _area(self, batch: str) -> str | None:
        """Where most of a batch stands; null of what stands nowhere yet, or in the kitchen."""
        standing = self.view.standing.get(batch)
        shelf = standing.shelf if standing else {}
        most = max(shelf, key=lambda place: (shelf[place], place), default=None)
        return self.view.areas.get(most, most) if most else None

    def made_today(self) -> Iterator[Row]:
        """What was made today by its own command and stands there still."""
        today = local_date(self.view.now, self.view.zone)
        rows = [row for row in self.view.batches if self._is_made_on(row, today)]
        commands = self._commands(rows)
        for row in sorted(rows, key=lambda row: (row.state_at, row.id)):
            if row.id in commands:
                yield self._made(row, commands[row.id])

    def _is_made_on(self, row: BatchRow, day: date) -> bool:
        recipe = self.view.recipes.get(row.made_by or "")
        is_its_own = recipe is not None and recipe.makes == row.item
        made = row.state == State.MADE and local_date(row.state_at, self.view.zone) == day
        return made and is_its_own and row.id in self.view.standing

    def _commands(self, rows: Iterable[BatchRow]) -> dict[str, str]:
        """The command that made each of these, where it was made by hand and not assumed."""
        view, ids = self.view, [row.id for row in rows]
        moved = among(view.connection, MovementRow, view.id, "batch", ids)
        began = {
            each.batch: each.command
            for each in moved
            if each.source == accounts.MADE_INTO and each.reverses is None
        }
        of_kind = among(view.connection, JournalRow, view.id, "id", sorted(set(began.values())))
        makes = {row.id for row in of_kind if row.kind == "make"}
        return {batch: command for batch, command in began.items() if command in makes}

    def _made(self, row: BatchRow, command: str) -> Row:
        view = self.view
        return self._of(view.recipes[row.made_by or ""], row.quantity) | {
            "making": None,
            "day": local_date(row.state_at, view.zone).isoformat(),
            "start": instant(row.state_at),
            "ready": instant(row.state_at),
            "late": False,
            "usable_until": instant(row.usable_until),
            "there": amount(self._there(row.item), view.items[row.item]),
            "wanted": [],
            "lines": [],
            "done": {"command": command, "batch": row.id, "label": row.label},
        }
