"""Bringing a house book: one workbook, or the sheets as CSV files."""

from dataclasses import asdict
from functools import partial
from pathlib import Path
from tempfile import TemporaryDirectory

import anyio.to_thread
from litestar import post
from litestar.datastructures import UploadFile
from sqlalchemy import Connection

from pantry.commands.answers import FaultPart
from pantry.commands.book import taking_in
from pantry.commands.book.files import read_book
from pantry.commands.book.sheets import HouseBook
from pantry.commands.book.taking_in import Taken
from pantry.http.bodies import BookTaken
from pantry.http.problems import unreadable
from pantry.http.served import Asking, served
from pantry.http.who import manager
from pantry.reports.report import SCHEMA

LARGEST = 20_000_000
"""Bytes; a house of many years has a book of some hundred thousand."""

_SHEET, _WORKBOOK = ".csv", ".xlsx"


@post("/api/book", status_code=200, request_max_body_size=LARGEST)
async def take_book(request: Asking) -> BookTaken:
    """Take a house book in, all of it or nothing, or only say what is wrong with it."""
    who, of = manager(request), served(request)
    only_check = _only_check(request.query_params.get("check", "false"))
    book = await anyio.to_thread.run_sync(_read, await _files(request))

    def check(connection: Connection) -> Taken:
        faults = taking_in.check(connection, book, who.house, of.now())
        return Taken(applied=False, faults=faults)

    work = partial(taking_in.take_in, book=book, house=who.house, at=of.now(), giver=who.person)
    taken = await of.read(check) if only_check else await of.write(who.house, work)
    of.news.ring()
    return BookTaken(SCHEMA, taken.applied, [FaultPart(**asdict(each)) for each in taken.faults])


def _only_check(written: str) -> bool:
    if written not in ("true", "false"):
        raise unreadable(
            f"{written!r} is neither true nor false.",
            "Ask with ?check=true or ?check=false.",
            value=written,
            field="check",
        )
    return written == "true"


async def _files(request: Asking) -> dict[str, bytes]:
    """The files of a form by their names, of which the folders they were in are no part."""
    form = await request.form()
    sent = [part for part in form.values() if isinstance(part, UploadFile)]
    found = {Path(part.filename.replace("\\", "/")).name: await part.read() for part in sent}
    kinds = [Path(name).suffix.casefold() for name in found]
    whole = kinds == [_WORKBOOK] or (bool(kinds) and set(kinds) == {_SHEET})
    if not whole or len(found) < len(sent):
        raise unreadable(
            f"These are no house book: {', '.join(found) or 'no files'}.",
            "Send one .xlsx workbook, or the sheets as .csv files of different names.",
            value=", ".join(found),
        )
    return found


def _read(files: dict[str, bytes]) -> HouseBook:
    with TemporaryDirectory(prefix="book-") as folder:
        for name, content in files.items():
            Path(folder, name).write_bytes(content)
        only = next(iter(files))
        return read_book(
            Path(folder, only) if only.casefold().endswith(_WORKBOOK) else Path(folder)
        )
