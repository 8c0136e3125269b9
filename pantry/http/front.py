"""The first screen: whether the server works, what it needs, and who its first manager is."""

from functools import partial

from litestar import Response, get, post
from msgspec.structs import asdict
from sqlalchemy import Connection

from pantry import __version__
from pantry.access import first_manager, passwords
from pantry.access.people import houses, person_named
from pantry.commands.book import taking_in
from pantry.commands.book.check import BOOK_FAULTY
from pantry.commands.book.sheets import HouseBook, Sheet
from pantry.http.bodies import FirstManager, Front, Health, Me, NewHouse
from pantry.http.served import Asking, Served, served
from pantry.http.signing_in import SHORT, begun, count, counted_for, let_in, signed_in
from pantry.http.who import OPEN
from pantry.records.tables import PersonRow
from pantry.refusals import FaultyBook, NotNow, UnreadableInput, declare
from pantry.reports.changes import heads
from pantry.reports.report import SCHEMA
from pantry.rules.house_time import write_instant

HOUSE_TO_FOUND = declare("house_to_found", "There is no house yet, and none was described.")
NAME_NOT_A_MANAGERS = declare("name_not_a_managers", "Who has that name here is no manager.")


@get("/api/health", opt=OPEN)
async def health(request: Asking) -> Health:
    """The server works and its database answers."""
    await served(request).read(heads)
    return Health("ok", SCHEMA, __version__)


@get("/api/front", opt=OPEN)
async def front(request: Asking) -> Front:
    """What the first screen is."""
    of = served(request)

    def look(connection: Connection) -> Front:
        names = [row.name for row in houses(connection, of.only)]
        if passwords.anybody_has_one(connection):
            return Front(SCHEMA, "sign_in", names, write_instant(of.now()))
        return Front(SCHEMA, "first_manager" if names else "house", names, write_instant(of.now()))

    return await of.read(look)


@post("/api/first-manager", status_code=200, opt=OPEN, request_max_body_size=SHORT)
async def name_first_manager(request: Asking) -> Response[Me]:
    """Found the house where there is none, name its first manager, and sign them in."""
    of, body = await begun(request, FirstManager)
    counted = counted_for(request, "first manager", "", "")
    await count(of, counted)
    first_manager.refuse_wrong_secret(body.secret, of.secret)
    passwords.refuse_weak(
        body.password, body.name, body.secret, *([body.house.name] if body.house else [])
    )
    known = await of.hash(partial(passwords.hashed, body.password))

    def settle_in(connection: Connection) -> str:
        first_manager.refuse_unless_wanted(connection)
        person = _manager(connection, of, body)
        return let_in(connection, of, person, counted, known)

    token = await of.write("", settle_in)
    of.news.ring()
    return await signed_in(request, token, keep="cookie")


def _manager(connection: Connection, of: Served, body: FirstManager) -> PersonRow:
    """The manager of that name, who comes into the house, and the house into being, if need be.

    Raises:
        UnreadableInput: `house_to_found`.
        FaultyBook: `book_faulty`, where the house is described wrongly.
        NotNow: `name_not_a_managers`.
    """
    there = houses(connection, of.only)
    if not there and body.house is None:
        raise UnreadableInput(
            HOUSE_TO_FOUND,
            "There is no house yet.",
            "Say its name, time zone, currency and unit system.",
            field="house",
        )
    person = person_named(connection, there[0].id, body.name) if there else None
    if person is None:
        book = _book(body, body.house if not there else None)
        taken = taking_in.take_in(connection, book, there[0].id if there else None, of.now())
        if taken.faults:
            raise FaultyBook(
                BOOK_FAULTY,
                taken.faults[0].problem,
                taken.faults[0].todo,
                value=taken.faults[0].value,
                field=taken.faults[0].column,
                faults=tuple(taken.faults),
            )
        person = person_named(connection, houses(connection, of.only)[0].id, body.name)
    if person is None or person.role != "manager":
        raise NotNow(
            NAME_NOT_A_MANAGERS,
            f"{body.name} is in this house already, and is no manager.",
            "Name a manager of the house, or somebody new.",
            value=body.name,
            field="name",
        )
    return person


def _book(body: FirstManager, house: NewHouse | None) -> HouseBook:
    """What is described, as the sheets of a house book."""
    sheets = {"people": _sheet("people", {"name": body.name, "role": "manager"})}
    if house is not None:
        sheets["house"] = _sheet("house", asdict(house))
    return HouseBook(sheets)


def _sheet(name: str, row: dict[str, str]) -> Sheet:
    return Sheet(name, tuple(row), ((2, row),))
