"""Which dishes could take the place of one on a menu: those that are safe for the table first."""

from collections.abc import Mapping
from datetime import date

from pantry.records.read.menu import last_served
from pantry.records.read.served import courses_of
from pantry.reports import safe_dishes
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.reports.which_service import service_ahead
from pantry.rules.allergens import Certainty
from pantry.rules.menu import Recipe, RecipeKind, Service, Serving
from pantry.rules.seasons import in_season


def instead(view: View, service: str) -> list[Row]:
    """A row for each approved dish that is not on the service's menu.

    What everybody at the table can eat comes first, then what is in season, then what that table
    has not had for the longest time. `courses` are those it was on a menu in; `against` names who
    cannot eat it, `unknown` says that not everything in it has declared its allergens.

    Raises:
        NotThere: `service_not_ahead`.
    """
    named = service_ahead(view, service)
    of = next(each for each in view.services if each.id == named)
    known = {each.dish for each in of.servings}
    courses = courses_of(view.connection, view.id)
    served = last_served(view.connection, view.id)
    rows = [
        _row(view, of, recipe, served) | {"courses": sorted(courses.get(recipe.id, ()))}
        for recipe in view.recipes.values()
        if recipe.kind is RecipeKind.DISH and recipe.offered and recipe.id not in known
    ]
    return sorted(
        rows,
        key=lambda row: (
            bool(row["against"]),
            row["unknown"],
            not row["in_season"],
            row["last_served"] or "",
            row["name"],
        ),
    )


def _row(view: View, of: Service, recipe: Recipe, served: Mapping[str, Mapping[str, date]]) -> Row:
    found = safe_dishes.against(view, of, Serving("", recipe.id))
    named = [each for each in found if each.certainty is not Certainty.UNKNOWN]
    last = served.get(recipe.id, {}).get(of.table)
    return {
        "dish": recipe.id,
        "name": recipe.name,
        "variants": [name for name, _ in recipe.variants],
        "against": [
            {
                "person": each.person,
                "cannot_eat": each.cannot_eat,
                "certainty": each.certainty.value,
            }
            for each in named
        ],
        "unknown": len(found) > len(named),
        "in_season": in_season(recipe, of.date),
        "last_served": None if last is None else str(last),
    }
