"""Every recipe as the kitchen cooks by it: for how many, of what, at what cost, on which menus."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cached_property

from pantry.handbook.trimming_yields import trimming_yield
from pantry.records import accounts
from pantry.records.read.menu import last_served
from pantry.records.rows import among, every
from pantry.records.slugs import slug
from pantry.records.tables import (
    BalanceRow,
    IngredientRow,
    ItemRow,
    RecipeRow,
    ServiceRow,
    ServingRow,
    VariantRow,
)
from pantry.refusals import NotThere, declare
from pantry.reports.allergens import Allergens
from pantry.reports.report import Row, amount, money
from pantry.reports.view import View
from pantry.reports.who_cannot_eat import who_cannot_eat
from pantry.rules.costing import CostLine, Prices, cheapest, costing
from pantry.rules.menu import Recipe, Scaling, ServiceState
from pantry.rules.recipes import cooked_from, needs_of_cooking
from pantry.rules.services import lapsed

RECIPE_NOT_THERE = declare("recipe_not_there", "The house has no recipe of that name.")

MOST_COVERS = 500


def recipes(view: View, recipe: str | None = None, covers: int | None = None) -> list[Row]:
    """A row for each recipe, by name, or for one of them; dishes for so many covers.

    Without `covers` it is for what the recipe yields; a preparation is always told for that. A
    line's `amount` is as it was written; `scaled` the same for these covers, `needs` what is taken
    of each item for them, as bought and in whole pieces where it is taken so (RQ1). The cost is of
    what is taken, at the pack that has most in it for its price. Of a dish that is asked for by
    itself `conflicts` are those in the house who cannot eat it, now or on days to come.

    Raises:
        NotThere: `recipe_not_there`.
    """
    told = _Recipes(view, covers, is_one=recipe is not None)
    rows = sorted(told.rows.values(), key=lambda row: (row.name, row.id))
    if recipe is not None:
        rows = [row for row in rows if row.id == slug(recipe)]
        if not rows:
            raise NotThere(
                RECIPE_NOT_THERE,
                f"There is no recipe called {recipe!r}.",
                "Look for it in the list of recipes.",
                value=recipe,
            )
    return [told.of(row) for row in rows]


@dataclass(frozen=True)
class _Recipes:
    """Tells of the recipes of one house."""

    view: View
    covers: int | None
    is_one: bool

    @cached_property
    def rows(self) -> Mapping[str, RecipeRow]:
        return {row.id: row for row in every(self.view.connection, RecipeRow, house=self.view.id)}

    @cached_property
    def _lines(self) -> Mapping[str, list[IngredientRow]]:
        found: dict[str, list[IngredientRow]] = {}
        for row in every(self.view.connection, IngredientRow, house=self.view.id):
            found.setdefault(row.recipe, []).append(row)
        return found

    @cached_property
    def _variants(self) -> Mapping[str, list[VariantRow]]:
        found: dict[str, list[VariantRow]] = {}
        for row in every(self.view.connection, VariantRow, house=self.view.id):
            found.setdefault(row.recipe, []).append(row)
        return found

    @cached_property
    def _item_rows(self) -> Mapping[str, ItemRow]:
        return {row.id: row for row in every(self.view.connection, ItemRow, house=self.view.id)}

    @cached_property
    def _served(self) -> Mapping[str, Mapping[str, object]]:
        return last_served(self.view.connection, self.view.id)

    @cached_property
    def _allergens(self) -> Allergens:
        return Allergens(self.view)

    @cached_property
    def _of_items(self) -> dict[str, dict[str, list[str]]]:
        """What each item contains, once it was asked: it stands in many recipes."""
        return {}

    def _brings(self, item: str) -> dict[str, list[str]]:
        if item not in self._of_items:
            self._of_items[item] = self._allergens.of_item(item)
        return self._of_items[item]

    @cached_property
    def _prices(self) -> Prices:
        view = self.view
        return Prices(view.items, cheapest(view.packs), view.preparations)

    @cached_property
    def _confirmed(self) -> Sequence[tuple[ServiceRow, frozenset[str], bool]]:
        """What is confirmed and to come: its dishes, and whether anything is taken out for it."""
        view, state = self.view, ServiceState.CONFIRMED.value
        rows = every(view.connection, ServiceRow, house=view.id, state=state)
        ahead = [row for row in rows if not lapsed(row.at, view.now)]
        ids = [row.id for row in ahead]
        servings = among(view.connection, ServingRow, view.id, "service", ids)
        kitchens = [accounts.kitchen(each) for each in ids]
        taken = among(view.connection, BalanceRow, view.id, "account", kitchens)
        begun = {row.account for row in taken if row.quantity}
        return [
            (
                row,
                frozenset(each.dish for each in servings if each.service == row.id),
                accounts.kitchen(row.id) in begun,
            )
            for row in sorted(ahead, key=lambda row: (row.at, row.id))
        ]

    def of(self, row: RecipeRow) -> Row:
        """The row of one recipe."""
        view, recipe = self.view, self.view.recipes[row.id]
        portions = recipe.yields if self.covers is None or recipe.makes else Fraction(self.covers)
        return {
            "id": row.id,
            "recipe": row.name,
            "kind": row.kind,
            "version": row.version,
            "approved": row.approved,
            "put_away": row.put_away_by is not None,
            "item": recipe.makes,
            "yields": str(recipe.yields),
            "unit": view.items[recipe.makes].base_unit.value if recipe.makes else None,
            "covers": str(portions),
            "dates": row.dating,
            "life_days": row.life_days,
            "lead": row.lead,
            "full_recipes": row.full_recipes,
            "area": view.areas.get(row.area, row.area) if row.area else None,
            "season_from": row.season_from,
            "season_to": row.season_to,
            "unit_system": row.unit_system,
            "method": row.method,
            "picture": row.picture,
            "lines": [self._line(recipe, line, portions) for line in self._lines.get(row.id, ())],
            "variants": [self._change(change) for change in self._variants.get(row.id, ())],
            "last_served": list(self._last(row.id)),
            "confirmed": list(self._on_menus(row.id)),
            "used_in": sorted(self._users(recipe)),
            "conflicts": list(who_cannot_eat(view, recipe)) if self.is_one else None,
            **self._allergens.of_dish(recipe),
            **self._taken(recipe, portions),
        }

    def _line(self, recipe: Recipe, row: IngredientRow, portions: Fraction) -> Row:
        view, item = self.view, self.view.items[row.item]
        trimming, fixed = Fraction(row.trimming_yield), row.scaling == Scaling.FIXED
        times = Fraction(1) if fixed else portions / recipe.yields
        made_by = view.preparations.get(row.item)
        book = trimming_yield(item.name)
        return {
            "item": item.name,
            "item_id": item.id,
            "item_version": self._item_rows[item.id].version,
            "counted": item.measured,
            "amount": row.written,
            "scaled": amount(round(Fraction(row.amount) * times * 1000), item),
            "fixed": fixed,
            "trimming_yield": str(trimming),
            "handbook": book and {"kept": str(book.kept), "lost": book.lost, "source": book.source},
            "made_by": made_by.id if made_by else None,
            "substitutes": [
                {
                    "item": view.item_name(each.substitute),
                    "ratio": str(each.ratio),
                    "when": each.when,
                }
                for each in view.substitutes
                if each.item == item.id
            ],
            **self._brings(item.id),
        }

    def _change(self, row: VariantRow) -> Row:
        name = self.view.item_name
        return {
            "variant": row.variant,
            "change": row.change,
            "ingredient": name(row.item),
            "instead": name(row.with_item) if row.with_item else None,
            "amount": row.written,
        }

    def _last(self, dish: str) -> Iterator[Row]:
        last = self._served.get(dish, {})
        for table in sorted(self.view.tables.values(), key=lambda each: (each.rank, each.name)):
            if table.id in last:
                yield {"table": table.name, "date": str(last[table.id])}

    def _on_menus(self, recipe: str) -> Iterator[Row]:
        dishes = cooked_from(self.view.recipes, recipe)
        for row, served, begun in self._confirmed:
            if served & dishes:
                yield {"service": row.id, "begun": begun}

    def _users(self, recipe: Recipe) -> Iterable[str]:
        for other in self.view.recipes.values() if recipe.makes else ():
            if any(line.item == recipe.makes for line in other.ingredients):
                yield other.name

    def _taken(self, recipe: Recipe, portions: Fraction) -> Row:
        """What is taken of each item, and what that costs."""
        view = self.view
        needs = needs_of_cooking(recipe, portions, view.items)
        found = costing(needs, self._prices)
        each = found.minor if recipe.makes else found.minor / portions
        return {
            "needs": [
                {"item_id": need.item, "quantity": amount(need.quantity, view.items[need.item])}
                for need in needs
            ],
            "cost": {
                "in_all": money(round(found.minor), view),
                "per_cover": None if recipe.makes else money(round(each), view),
                "unknown": sorted(view.item_name(item) for item in found.unknown),
                "lines": [self._cost_line(line) for line in found.lines],
            },
        }

    def _cost_line(self, line: CostLine) -> Row:
        view, pack = self.view, line.pack
        return {
            "item": view.item_name(line.item),
            "quantity": amount(line.quantity, view.items[line.item]),
            "cost": None if line.minor is None else money(round(line.minor), view),
            "made_by": line.made_by,
            "pack": pack
            and {
                "pack": pack.name,
                "supplier": view.supplier_names[pack.supplier],
                "quantity": amount(pack.quantity, view.items[pack.item]),
                "price": money(pack.price, view),
            },
        }
