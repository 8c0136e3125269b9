"""Reports by name, the rows that the command line prints, as the role may see them."""

from typing import Any

from litestar import get
from sqlalchemy import Connection

from pantry.commands.rights import as_told, check_reads
from pantry.http.served import Asking, served
from pantry.reports import asked
from pantry.reports.view import view


@get("/api/reports/{name:str}")
async def report(request: Asking) -> dict[str, Any]:
    """The report of that name, for who is signed in."""
    of, who = served(request), request.user
    name: str = request.path_params["name"]
    asked.asked(name)
    check_reads(who.role, name)
    given = asked.arguments(name, dict(request.query_params))

    def ask(connection: Connection) -> dict[str, Any]:
        seen = view(connection, who.house, of.now())
        told = asked.ask(seen, name, **given)
        return told | {"rows": as_told(who.role, name, told["rows"])}

    return await of.read(ask)
