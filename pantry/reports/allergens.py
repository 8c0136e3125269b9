"""What an item or a dish contains, may contain, and what of it nobody knows (AL3).

Only what was declared is passed on: the label in the hand, local codes and the advice of a doctor
come first.
"""

from dataclasses import dataclass
from functools import cached_property

from pantry.handbook.allergens import AllergenList, allergen_list
from pantry.reports.view import View
from pantry.rules.allergens import Certainty, by_list, declared_of, of_recipe
from pantry.rules.menu import Recipe
from pantry.rules.stock import Declared


@dataclass(frozen=True)
class Allergens:
    """Says what is known of the things of one house, by the list it keeps to."""

    view: View

    def of_item(self, item: str) -> dict[str, list[str]]:
        """`{contains, may_contain, unknown}` of an item, a preparation's through its recipe."""
        made_by = self.view.preparations.get(item)
        larder = self.view.larder
        return self._said(of_recipe(made_by, larder) if made_by else declared_of(item, larder))

    def of_dish(self, dish: Recipe) -> dict[str, list[str]]:
        """The same of a dish as it stands; for a variant give the recipe with it."""
        return self._said(of_recipe(dish, self.view.larder))

    @property
    def listed(self) -> int:
        """How many allergens the house's list has."""
        return len(self._list.families)

    @cached_property
    def _list(self) -> AllergenList:
        return allergen_list(self.view.house.allergen_list)

    def _said(self, declared: Declared) -> dict[str, list[str]]:
        """What is declared by its own names, what is unknown by those of the house's list."""
        known = by_list(declared, self._list)
        return {
            "contains": sorted(declared.contains),
            "may_contain": sorted(declared.may_contain),
            "unknown": [name for name, found in known.items() if found is Certainty.UNKNOWN],
        }
