"""Pictures of what came and what was thrown away: sent after the commands that name them."""

from functools import partial
from uuid import UUID

from litestar import Response, get, post
from sqlalchemy import Connection

from pantry.access.sessions import Signed
from pantry.http.problems import unreadable
from pantry.http.served import Asking, served
from pantry.records import pictures
from pantry.records.rows import every
from pantry.records.tables import PictureRow, RecipeRow
from pantry.refusals import NotAllowed, declare

NO_PICTURES = declare("no_pictures", "The role has nothing to do with pictures of the stock room.")

LARGEST = 1_000_000
"""Bytes of one picture: one of 1280 pixels has some hundred thousand."""

WHO = frozenset({"porter", "chef", "manager"})


@post("/api/pictures/{picture:str}", status_code=204, request_max_body_size=LARGEST)
async def keep_picture(request: Asking) -> None:
    """Keep a picture under the id that whoever took it gave it."""
    who, of, picture = _who(request), served(request), _id_in(request)
    taken = pictures.Taken(picture, await request.body(), who.person, who.device, of.now())
    await of.write(who.house, partial(pictures.keep, house=who.house, taken=taken))
    of.news.ring()


@get("/api/pictures/{picture:str}")
async def picture(request: Asking) -> Response[bytes]:
    """A picture of one's own house; who approves menus sees those of its recipes."""
    who, of, called = request.user, served(request), _id_in(request)

    def look(connection: Connection) -> PictureRow:
        if not every(connection, RecipeRow, house=who.house, picture=called):
            _who(request)
        return pictures.look_at(connection, who.house, called)

    row = await of.read(look)
    # what has this id never changes; only this browser keeps it
    headers = {"cache-control": "private, max-age=86400, immutable"}
    return Response(row.content, media_type=row.kind, headers=headers)


def _who(request: Asking) -> Signed:
    who = request.user
    if who.role not in WHO:
        raise NotAllowed(
            NO_PICTURES,
            f"A {who.role} has nothing to do with these pictures.",
            "Ask the chef.",
            value=who.role,
        )
    return who


def _id_in(request: Asking) -> str:
    written: str = request.path_params["picture"]
    try:
        plain = str(UUID(written))
    except ValueError:
        plain = ""
    if plain != written:
        raise unreadable(
            f"{written!r} is no id of a picture.",
            "Give it a UUID, in small letters with hyphens.",
            value=written,
            field="picture",
        )
    return written
