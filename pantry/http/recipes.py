"""Recipes as PDF; and reading somebody else's, and amounts while one is written."""

from typing import Any

import msgspec
from litestar import Response, get, post
from sqlalchemy import Connection

from pantry.access.sessions import Signed
from pantry.commands.rights import RIGHTS, check_reads
from pantry.commands.telling import as_told
from pantry.http import bodies
from pantry.http.diners import diners_of
from pantry.http.labels import PDF
from pantry.http.recipe_bodies import AmountsUnderstood, RecipesRead, RecipeText, WrittenAmounts
from pantry.http.served import Asking, served
from pantry.paper.recipe import recipe_sheet
from pantry.refusals import NotAllowed, declare
from pantry.reports import asked
from pantry.reports.read_recipe import read_amounts, read_recipe
from pantry.reports.report import SCHEMA
from pantry.reports.view import view
from pantry.rules.amounts import UnitSystem

NO_RECIPES = declare("no_recipes", "The role writes no recipes.")

LARGEST = 8_000_000
"""Bytes of a document that is read: a saved page has some hundred thousand."""


@get("/api/recipes.pdf")
async def recipes(request: Asking) -> Response[bytes]:
    """A recipe for so many covers, or all of them, on A4."""
    of, who = served(request), request.user
    check_reads(who.role, "recipes")
    given = asked.arguments("recipes", dict(request.query_params))

    def draw(connection: Connection) -> bytes:
        seen = view(connection, who.house, of.now())
        rows = asked.ask(seen, "recipes", **given)["rows"]
        return recipe_sheet(seen, as_told(who.role, "recipes", rows, diners_of(connection, who)))

    said = 'inline; filename="recipe.pdf"'
    headers = {"content-disposition": said, "cache-control": "no-store"}
    return Response(await of.read(draw), media_type=PDF, headers=headers)


@post("/api/recipes/read", status_code=200, request_max_body_size=LARGEST)
async def read(request: Asking) -> RecipesRead:
    """The recipes in a document, line by line, with what is sure of each; nothing is written."""
    of, who = served(request), _writer(request)
    body = await bodies.read(request, RecipeText)
    system = UnitSystem(body.unit_system) if body.unit_system else None

    def look(connection: Connection) -> list[dict[str, Any]]:
        return read_recipe(view(connection, who.house, of.now()), body.text, system)

    found = {"schema": SCHEMA, "recipes": await of.read(look)}
    return msgspec.convert(found, RecipesRead)


@post("/api/amounts", status_code=200)
async def amounts(request: Asking) -> AmountsUnderstood:
    """What amounts come to, while somebody writes a recipe."""
    of, who = served(request), _writer(request)
    body = await bodies.read(request, WrittenAmounts)
    lines = [(line.item, line.amount) for line in body.lines]

    def look(connection: Connection) -> list[dict[str, Any]]:
        seen = view(connection, who.house, of.now())
        return read_amounts(seen, lines, UnitSystem(body.unit_system))

    return msgspec.convert({"schema": SCHEMA, "lines": await of.read(look)}, AmountsUnderstood)


def _writer(request: Asking) -> Signed:
    who = request.user
    if who.role not in RIGHTS["write_recipe"]:
        raise NotAllowed(
            NO_RECIPES, f"A {who.role} writes no recipes.", "Ask the chef.", value=who.role
        )
    return who
