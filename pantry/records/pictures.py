"""Pictures: kept once under the id that whoever took them gave, and named by commands."""

import json
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import Connection

from pantry.records.rows import add, among, find
from pantry.records.tables import JournalRow, PictureRow
from pantry.refusals import NotNow, NotThere, UnreadableInput, declare

PICTURE_UNREADABLE = declare("picture_unreadable", "What was sent is no JPEG, PNG or WebP picture.")
PICTURE_TAKEN = declare("picture_taken", "The id belongs to another picture already.")
PICTURE_MISSING = declare("picture_missing", "There is no picture of that id, or not yet.")


@dataclass(frozen=True, slots=True)
class Taken:
    """A picture as it came; `device` is the house's own that sent it, `at` is when it came."""

    id: str
    content: bytes
    person: str
    device: str | None
    at: datetime


def kind_of(content: bytes) -> str:
    """The media type of a picture, by its first bytes, whatever it is said to be.

    JPEG: ITU-T T.81, B.1.1.3 (SOI, then a marker). PNG: RFC 2083, 3.1. WebP: RFC 9649, 2.4.

    Raises:
        UnreadableInput: `picture_unreadable`.
    """
    if content.startswith(b"\xff\xd8\xff"):
        return "image/jpeg"
    if content.startswith(b"\x89PNG\r\n\x1a\n"):
        return "image/png"
    if content[:4] == b"RIFF" and content[8:12] == b"WEBP":
        return "image/webp"
    raise UnreadableInput(
        PICTURE_UNREADABLE,
        "What was sent is no JPEG, PNG or WebP picture.",
        "Take the picture again, or save it as JPEG.",
    )


def keep(connection: Connection, house: str, taken: Taken) -> None:
    """Keep a picture; the same one again is nothing new.

    Raises:
        UnreadableInput: `picture_unreadable`.
        NotNow: `picture_taken`, where another picture has its id.
    """
    kind = kind_of(taken.content)
    kept = find(connection, PictureRow, house=house, id=taken.id)
    if kept is None:
        row = PictureRow(
            house=house,
            id=taken.id,
            kind=kind,
            content=taken.content,
            person=taken.person,
            device=taken.device,
            at=taken.at,
        )
        add(connection, row)
    elif kept.content != taken.content:
        raise NotNow(
            PICTURE_TAKEN,
            f"The id {taken.id} belongs to another picture.",
            "Give a new picture an id of its own.",
            value=taken.id,
        )


def look_at(connection: Connection, house: str, picture: str) -> PictureRow:
    """A picture of the house.

    Raises:
        NotThere: `picture_missing`; what a command names may come later.
    """
    kept = find(connection, PictureRow, house=house, id=picture)
    if kept is None:
        raise NotThere(
            PICTURE_MISSING,
            f"There is no picture {picture}, or it has not arrived yet.",
            "Look again once the phone that took it has sent it.",
            value=picture,
        )
    return kept


def named_by(connection: Connection, house: str, commands: Sequence[str]) -> list[str]:
    """The pictures that these commands name, in the order of their ids, arrived or not."""
    each = named_by_each(connection, house, commands)
    return list(dict.fromkeys(picture for named in each.values() for picture in named))


def named_by_each(
    connection: Connection, house: str, commands: Sequence[str]
) -> dict[str, list[str]]:
    """The pictures that each of these commands names, arrived or not."""
    found: dict[str, list[str]] = {}
    for row in among(connection, JournalRow, house, "id", commands):
        if row.outcome in ("applied", "kept"):
            body = json.loads(row.envelope).get("body")
            named = body.get("photos") if isinstance(body, dict) else None
            if isinstance(named, list):
                found[row.id] = [each for each in named if isinstance(each, str)]
    return found
