"""Orders as PDF, for who sends them or hands them over; what is to be ordered, and invoices."""

from collections.abc import Callable

from litestar import Response, get
from sqlalchemy import Connection

from pantry.commands.rights import check_reads
from pantry.http.labels import PDF
from pantry.http.served import Asking, served
from pantry.paper.invoices import invoices_pdf
from pantry.paper.order import order_pdf
from pantry.paper.reorder import reorder_pdf
from pantry.reports.invoices import invoices as invoice_rows
from pantry.reports.orders import one_order
from pantry.reports.reorder import reorder as reorder_rows
from pantry.reports.view import View, view


@get("/api/orders.pdf")
async def order(request: Asking) -> Response[bytes]:
    """The order of that id, on A4 as its supplier reads it."""
    name = request.query_params.get("order", "")
    saved_as = name.replace("/", "-").encode("ascii", "replace").decode().replace('"', "")
    return await _on_paper(
        request, "orders", f"order-{saved_as}", lambda seen: order_pdf(seen, one_order(seen, name))
    )


@get("/api/reorder.pdf")
async def reorder(request: Asking) -> Response[bytes]:
    """What must be ordered, by deadline and supplier, on A4."""
    return await _on_paper(
        request, "reorder", "reorder", lambda seen: reorder_pdf(seen, reorder_rows(seen))
    )


@get("/api/invoices.pdf")
async def invoices(request: Asking) -> Response[bytes]:
    """What suppliers billed, and what differs, on A4."""
    return await _on_paper(
        request, "invoices", "invoices", lambda seen: invoices_pdf(seen, invoice_rows(seen))
    )


async def _on_paper(
    request: Asking, report: str, saved_as: str, draw: Callable[[View], bytes]
) -> Response[bytes]:
    """What is drawn of the house as it stands, for who may read the report."""
    of, who = served(request), request.user
    check_reads(who.role, report)

    def drawn(connection: Connection) -> bytes:
        return draw(view(connection, who.house, of.now()))

    said = f'inline; filename="{saved_as}.pdf"'
    headers = {"content-disposition": said, "cache-control": "no-store"}
    return Response(await of.read(drawn), media_type=PDF, headers=headers)
