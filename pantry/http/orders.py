"""Orders as PDF, for who sends them or hands them over; what is to be ordered, and invoices."""

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
from pantry.reports.view import view


@get("/api/orders.pdf")
async def order(request: Asking) -> Response[bytes]:
    """The order of that id, on A4 as its supplier reads it."""
    of, who = served(request), request.user
    check_reads(who.role, "orders")
    name = request.query_params.get("order", "")

    def draw(connection: Connection) -> bytes:
        seen = view(connection, who.house, of.now())
        return order_pdf(seen, one_order(seen, name))

    saved_as = name.replace("/", "-").encode("ascii", "replace").decode().replace('"', "")
    said = f'inline; filename="order-{saved_as}.pdf"'
    headers = {"content-disposition": said, "cache-control": "no-store"}
    return Response(await of.read(draw), media_type=PDF, headers=headers)


@get("/api/reorder.pdf")
async def reorder(request: Asking) -> Response[bytes]:
    """What must be ordered, by deadline and supplier, on A4."""
    of, who = served(request), request.user
    check_reads(who.role, "reorder")

    def draw(connection: Connection) -> bytes:
        seen = view(connection, who.house, of.now())
        return reorder_pdf(seen, reorder_rows(seen))

    headers = {
        "content-disposition": 'inline; filename="reorder.pdf"',
        "cache-control": "no-store",
    }
    return Response(await of.read(draw), media_type=PDF, headers=headers)


@get("/api/invoices.pdf")
async def invoices(request: Asking) -> Response[bytes]:
    """What suppliers billed, and what differs, on A4."""
    of, who = served(request), request.user
    check_reads(who.role, "invoices")

    def draw(connection: Connection) -> bytes:
        seen = view(connection, who.house, of.now())
        return invoices_pdf(seen, invoice_rows(seen))

    headers = {
        "content-disposition": 'inline; filename="invoices.pdf"',
        "cache-control": "no-store",
    }
    return Response(await of.read(draw), media_type=PDF, headers=headers)
