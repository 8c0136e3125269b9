"""The household's page of a sheet, by a link that nobody can guess or signed in, and on paper.

On the way of the link no cookie is looked at: what another site might have a browser send, it
cannot send without the link itself.
"""

from collections.abc import Awaitable, Callable
from html import escape
from pathlib import Path

from litestar import Response, get, post
from sqlalchemy import Connection

from pantry import world
from pantry.access import throttle
from pantry.access.refused import TooManyTries
from pantry.commands import door
from pantry.commands.answers import Answer, Problem
from pantry.commands.base import BASE_MOVED
from pantry.http.served import Asking, served
from pantry.http.sheet_form import AnsweredService, answered
from pantry.http.sheet_page import Page, whole
from pantry.http.sheet_readers import LINK_WRONG, Reader, by_link, signed_in
from pantry.http.who import OPEN
from pantry.paper.sheet import sheet_pdf
from pantry.records import pictures
from pantry.records.rows import find, one
from pantry.records.tables import PictureRow, SheetRow
from pantry.refusals import NotThere, Refusal
from pantry.reports.menu_answers import MenuAnswers
from pantry.reports.sheet_shown import SheetShown, sheet_shown
from pantry.reports.view import View, view
from pantry.rules.house_time import write_instant

LARGEST = 60_000
"""Bytes of an answer to a sheet of many days."""

HEADERS = {"cache-control": "no-store", "x-robots-tag": "noindex, nofollow"}
RECEIVED = "received"
_RECEIVED = "Your answer is received. What stands now is written at each meal."
_MOVED = "The kitchen changed this menu while you were choosing. Please look at it again."
_COVERS = "Write how many you are in figures, such as 6. Nothing was sent yet."
_NOTHING = "You have not chosen anything new, so nothing was sent."

TITLE = "Menus"
"""What a page is called that leads to none."""

Finding = Callable[[Asking], Awaitable[Reader]]


@get("/menu-sheet/look.css", opt=OPEN, sync_to_thread=False)
def look() -> Response[bytes]:
    """The style sheet of the household's pages."""
    content = (Path(__file__).parent / "sheet_page.css").read_bytes()
    return Response(content, media_type="text/css", headers={"cache-control": "no-cache"})


@get("/menu-sheet/{secret:str}", opt=OPEN)
async def read_by_link(request: Asking) -> Response[bytes]:
    """The sheet of a link."""
    return await _or_why(_shown(request, by_link))


@post("/menu-sheet/{secret:str}", opt=OPEN, status_code=200, request_max_body_size=LARGEST)
async def answer_by_link(request: Asking) -> Response[bytes]:
    """Answer the sheet of a link."""
    return await _or_why(_answered(request, by_link))


@get("/menu-sheet/{secret:str}/pictures/{picture:str}", opt=OPEN)
async def picture_by_link(request: Asking) -> Response[bytes]:
    """The picture of a recipe that is on the sheet of a link."""
    return await _picture(request, await by_link(request))


@get("/my-sheet/{sheet:str}")
async def read_signed_in(request: Asking) -> Response[bytes]:
    """A sheet, for somebody of the house who chooses menus."""
    return await _or_why(_shown(request, signed_in))


@post("/my-sheet/{sheet:str}", status_code=200, request_max_body_size=LARGEST)
async def answer_signed_in(request: Asking) -> Response[bytes]:
    """Answer a sheet, signed in."""
    return await _or_why(_answered(request, signed_in))


@get("/my-sheet/{sheet:str}/pictures/{picture:str}")
async def picture_signed_in(request: Asking) -> Response[bytes]:
    """The picture of a recipe that is on a sheet."""
    return await _picture(request, await signed_in(request))


@get("/api/sheets/{sheet:str}/sheet.pdf")
async def sheet_on_paper(request: Asking) -> Response[bytes]:
    """A sheet on A4, as its menus stand now."""
    of, reader = served(request), await signed_in(request)

    def draw(connection: Connection) -> bytes:
        def content(picture: str) -> bytes | None:
            row = find(connection, PictureRow, house=reader.house, id=picture)
            return row.content if row else None

        seen = view(connection, reader.house, of.now())
        return sheet_pdf(_sheet(seen, reader), seen.zone, seen.now, content)

    said = {"content-disposition": 'inline; filename="menus.pdf"'}
    return Response(await of.read(draw), media_type="application/pdf", headers=HEADERS | said)


async def _shown(
    request: Asking, finding: Callable[[Asking], Awaitable[Reader]]
) -> Response[bytes]:
    reader = await finding(request)
    notes = (_RECEIVED,) if RECEIVED in request.query_params else ()
    return await _page(request, reader, notes=notes)


async def _answered(
    request: Asking, finding: Callable[[Asking], Awaitable[Reader]]
) -> Response[bytes]:
    """Give what was said through the one door, an answer a meal; then show what stands."""
    of, reader = served(request), await finding(request)
    counted = (throttle.by_sheet(reader.sheet),)
    await of.write("", lambda connection: throttle.count(connection, counted, of.clock()))
    form = await request.form()
    said = answered({name: form.getall(name) for name in form}, reader.sheet)
    if any(each.covers_unclear for each in said):
        return await _page(request, reader, notes=(_COVERS,), typed=said, status=422)

    def give(connection: Connection) -> list[tuple[AnsweredService, Answer]]:
        answers = MenuAnswers(view(connection, reader.house, of.now()))
        new = [
            each
            for each in said
            if each.says_something and each.differs_from(answers.standing(each.service))
        ]
        commands = [_command(each, reader, write_instant(of.now())) for each in new]
        given = door.apply(connection, reader.house, commands, of.now()) if new else []
        return list(zip(new, given, strict=True))

    given = await of.write(reader.house, give)
    if not given:
        return await _page(request, reader, notes=(_NOTHING,), typed=said, status=422)
    of.news.ring()
    if wrong := {each.service: answer.problem for each, answer in given if answer.problem}:
        typed = [each for each, answer in given if answer.problem and not _moved(answer.problem)]
        notes = ("Not all of it could be taken.", *dict.fromkeys(map(_why, wrong.values())))
        return await _page(request, reader, notes=notes, typed=typed, status=409)
    return Response(b"", status_code=303, headers=HEADERS | {"location": f"{reader.at}?{RECEIVED}"})


def _moved(problem: Problem) -> bool:
    return problem.code == BASE_MOVED


def _why(problem: Problem) -> str:
    return _MOVED if _moved(problem) else f"{problem.detail} {problem.todo}"


def _command(said: AnsweredService, reader: Reader, at: str) -> dict[str, object]:
    body = said.body | ({"by": reader.by} if reader.by and not said.body["by"] else {})
    return {
        "id": world.new_id(),
        "kind": "answer_menu",
        "at": at,
        "person": reader.person,
        "base": said.base,
        "body": body,
    }


async def _page(
    request: Asking,
    reader: Reader,
    *,
    notes: tuple[str, ...] = (),
    typed: list[AnsweredService] | None = None,
    status: int = 200,
) -> Response[bytes]:
    of = served(request)

    def write(connection: Connection) -> bytes:
        seen = view(connection, reader.house, of.now())
        typed_by_service = {each.service: each.body for each in typed or ()}
        return Page(
            sheet=_sheet(seen, reader),
            at=reader.at,
            zone=seen.zone,
            now=seen.now,
            typed=typed_by_service,
            notes=notes,
            is_wrong=status != 200,
        ).written()

    return Response(
        await of.read(write), media_type="text/html", status_code=status, headers=HEADERS
    )


async def _or_why(page: Awaitable[Response[bytes]]) -> Response[bytes]:
    """The page, or in a few words why there is none."""
    try:
        return await page
    except Refusal as refusal:
        said = [f"<h1>{TITLE}</h1>", *(f"<p>{escape(line)}</p>" for line in _lines(refusal))]
        wait = {"retry-after": str(refusal.wait)} if isinstance(refusal, TooManyTries) else {}
        return Response(
            whole(TITLE, said),
            media_type="text/html",
            status_code=refusal.status,
            headers=HEADERS | wait,
        )


def _lines(refusal: Refusal) -> tuple[str, str]:
    return refusal.problem, refusal.todo


async def _picture(request: Asking, reader: Reader) -> Response[bytes]:
    of, called = served(request), str(request.path_params["picture"])

    def look_at(connection: Connection) -> PictureRow:
        shown = _sheet(view(connection, reader.house, of.now()), reader)
        if called not in [recipe.picture for recipe in shown.recipes]:
            raise NotThere(LINK_WRONG, "There is no such picture here.", "Open the menus again.")
        return pictures.look_at(connection, reader.house, called)

    row = await of.read(look_at)
    return Response(row.content, media_type=row.kind, headers=HEADERS)


def _sheet(seen: View, reader: Reader) -> SheetShown:
    row = one(seen.connection, SheetRow, house=reader.house, id=reader.sheet)
    return sheet_shown(seen, row)
