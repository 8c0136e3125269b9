"""The stream of news, for as long as the session lasts."""

from functools import partial

from litestar import get
from litestar.response import Stream

from pantry.access import sessions
from pantry.http.served import Asking, served


@get("/api/news")
async def news(request: Asking) -> Stream:
    """Server-sent events: how far the house has come, whenever that moves."""
    of, who = served(request), request.user

    async def may_listen() -> bool:
        signed = partial(sessions.signed, session=who.session, now=of.clock())
        return await of.read(signed) is not None

    return Stream(
        of.news.of(who.house, may_listen),
        media_type="text/event-stream",
        headers={"x-accel-buffering": "no"},  # a proxy would keep events until it has many
    )
