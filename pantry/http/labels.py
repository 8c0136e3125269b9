"""Labels as a PDF, for who stands in front of the printer."""

from collections.abc import Mapping

from litestar import Response, get
from sqlalchemy import Connection

from pantry.commands.rights import check_reads
from pantry.http.served import Asking, served
from pantry.paper.labels_asked import labels_of, read_asked
from pantry.reports.view import view

PDF = "application/pdf"

_OWN_MACHINE = frozenset({"localhost", "127.0.0.1", "::1"})


@get("/api/labels.pdf")
async def labels(request: Asking) -> Response[bytes]:
    """Labels of batches, of a delivery, of a day, or numbers that were reserved."""
    of, who = served(request), request.user
    check_reads(who.role, "labels")
    asked = read_asked(_written(request))
    address = of.address or _reached_at(request)

    def draw(connection: Connection) -> bytes:
        return labels_of(view(connection, who.house, of.now()), asked, address)

    headers = {"content-disposition": 'inline; filename="labels.pdf"', "cache-control": "no-store"}
    return Response(await of.read(draw), media_type=PDF, headers=headers)


def _written(request: Asking) -> Mapping[str, list[str]]:
    return {name: request.query_params.getall(name) for name in request.query_params}


def _reached_at(request: Asking) -> str:
    """Where this request found the house; what only this machine can find is printed nowhere."""
    found = request.base_url
    return "" if found.hostname in _OWN_MACHINE else str(found).rstrip("/")
