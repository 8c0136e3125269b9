"""The preparation list as a PDF, for who hangs it up in the kitchen."""

from litestar import Response, get
from sqlalchemy import Connection

from pantry.commands.rights import check_reads
from pantry.commands.telling import as_told
from pantry.http.labels import PDF
from pantry.http.served import Asking, served
from pantry.paper.preparation_list import preparation_list
from pantry.reports import asked
from pantry.reports.view import view


@get("/api/preparations.pdf")
async def preparations(request: Asking) -> Response[bytes]:
    """What is to be made in the days ahead, on A4."""
    of, who = served(request), request.user
    check_reads(who.role, "preparations")
    given = asked.arguments("preparations", dict(request.query_params))

    def draw(connection: Connection) -> bytes:
        seen = view(connection, who.house, of.now())
        rows = asked.ask(seen, "preparations", **given)["rows"]
        return preparation_list(seen, as_told(who.role, "preparations", rows))

    said = 'inline; filename="preparations.pdf"'
    headers = {"content-disposition": said, "cache-control": "no-store"}
    return Response(await of.read(draw), media_type=PDF, headers=headers)
