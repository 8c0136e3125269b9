"""Every dish the house can cook: its recipe, what is in it, when which table last had it."""

from collections.abc import Mapping, Sequence
from datetime import date

from pantry.records.read.menu import last_served
from pantry.records.rows import every
from pantry.records.tables import IngredientRow, RecipeRow
from pantry.reports.allergens import Allergens
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.menu import RecipeKind


def dishes(view: View) -> list[Row]:
    """A row for each dish, by name.

    `yields` is in portions, `lead` an ISO 8601 duration, the season a month and day to another,
    both inclusive; amounts stand as the recipe writes them. `last_served` has the tables by rank.
    Allergens are of the dish without a variant, through its preparations; what is `unknown` is not
    free (AL3).
    """
    lines: dict[str, list[IngredientRow]] = {}
    for line in every(view.connection, IngredientRow, house=view.id):
        lines.setdefault(line.recipe, []).append(line)
    served, allergens = last_served(view.connection, view.id), Allergens(view)
    rows = every(view.connection, RecipeRow, house=view.id, kind=RecipeKind.DISH.value)
    return [
        _row(view, row, lines.get(row.id, ()))
        | {"last_served": _served(view, served.get(row.id, {}))}
        | allergens.of_dish(view.recipes[row.id])
        for row in sorted(rows, key=lambda row: (row.name, row.id))
    ]


def _row(view: View, row: RecipeRow, lines: Sequence[IngredientRow]) -> Row:
    return {
        "id": row.id,
        "dish": row.name,
        "version": row.version,
        "variants": [name for name, _ in view.recipes[row.id].variants],
        "approved": row.approved,
        "put_away": row.put_away_by is not None,
        "season_from": row.season_from,
        "season_to": row.season_to,
        "lead": row.lead,
        "yields": row.yields.removesuffix("/1"),
        "lines": [
            {"item": view.item_name(line.item), "item_id": line.item, "amount": line.written}
            for line in lines
        ],
        "method": row.method,
    }


def _served(view: View, last: Mapping[str, date]) -> list[Row]:
    tables = sorted(view.tables.values(), key=lambda table: (table.rank, table.name))
    return [
        {"table": table.name, "date": last[table.id].isoformat()}
        for table in tables
        if table.id in last
    ]
