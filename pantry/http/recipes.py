"""Recipes as PDF."""

from litestar import Response, get
from sqlalchemy import Connection

from pantry.commands.rights import check_reads
from pantry.http.labels import PDF
from pantry.http.served import Asking, served
from pantry.paper.recipe import recipe_sheet
from pantry.reports import asked
from pantry.reports.view import view


@get("/api/recipes.pdf")
async def recipes(request: Asking) -> Response[bytes]:
    """A recipe for so many covers, or all of them, on A4."""
    of, who = served(request), request.user
    check_reads(who.role, "recipes")
    given = asked.arguments("recipes", dict(request.query_params))

    def draw(connection: Connection) -> bytes:
        seen = view(connection, who.house, of.now())
        return recipe_sheet(seen, asked.ask(seen, "recipes", **given)["rows"])

    said = 'inline; filename="recipe.pdf"'
    headers = {"content-disposition": said, "cache-control": "no-store"}
    return Response(await of.read(draw), media_type=PDF, headers=headers)
