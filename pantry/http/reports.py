"""Reports by name, the rows that the command line prints, as the role may see them."""

from typing import Any

from litestar import Response, get
from sqlalchemy import Connection

from pantry.commands.rights import check_reads
from pantry.commands.telling import as_told
from pantry.http.diners import diners_of
from pantry.http.served import Asking, served
from pantry.reports import asked
from pantry.reports.as_csv import as_csv
from pantry.reports.as_xlsx import XLSX, as_xlsx
from pantry.reports.view import view

_CSV, _XLSX = ".csv", ".xlsx"


@get("/api/reports/{name:str}")
async def report(request: Asking) -> dict[str, Any] | Response[Any]:
    """The report of that name, for who is signed in; of `NAME.csv` and `NAME.xlsx` as a sheet."""
    of, who = served(request), request.user
    called: str = request.path_params["name"]
    name = called.removesuffix(_CSV).removesuffix(_XLSX)
    asked.asked(name)
    check_reads(who.role, name)
    given = asked.arguments(name, dict(request.query_params))

    def ask(connection: Connection) -> dict[str, Any]:
        seen = view(connection, who.house, of.now())
        told = asked.ask(seen, name, **given)
        return told | {"rows": as_told(who.role, name, told["rows"], diners_of(connection, who))}

    told = await of.read(ask)
    return told if name == called else _sheet(name, called, told)


def _sheet(name: str, called: str, told: dict[str, Any]) -> Response[Any]:
    saved_as = {"Content-Disposition": f'attachment; filename="{called}"'}
    if called.endswith(_XLSX):
        return Response(as_xlsx(name, told["rows"]), media_type=XLSX, headers=saved_as)
    return Response(as_csv(told["rows"]), media_type="text/csv", headers=saved_as)
