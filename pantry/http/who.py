"""Who asks: the session of every request, unless its route is open to all."""

from datetime import timedelta
from functools import partial
from typing import Any

from litestar.connection import ASGIConnection
from litestar.datastructures import Cookie, MutableScopeHeaders
from litestar.middleware import AbstractAuthenticationMiddleware, AuthenticationResult
from litestar.types import Message, Scope

from pantry.access import sessions
from pantry.access.refused import not_signed_in
from pantry.access.sessions import IDLE, Signed
from pantry.http.edge import COOKIE, DEVICE_COOKIE, cookie_of
from pantry.http.served import Asking, Served
from pantry.refusals import NotAllowed, declare

NOT_A_MANAGER = declare("not_a_manager", "Only a manager may do that.")

Connected = ASGIConnection[Any, Any, Any, Any]

OPEN = {"open": True}
"""The option of a route that anybody may ask; without it, a session is needed."""

_RENEWED = "renewed"


class Knows(AbstractAuthenticationMiddleware):
    """Finds who is signed in; a request of nobody is refused."""

    async def authenticate_request(self, connection: Connected) -> AuthenticationResult:
        """The session of the bearer token or of the cookie, whose end moves on.

        Raises:
            NotKnown: `not_signed_in`.
        """
        of: Served = connection.app.state.served
        token = token_of(connection)
        now = of.clock()
        if not token:
            raise not_signed_in()
        who = await of.read(partial(sessions.whose, token=token, now=now))
        if who is None:
            raise not_signed_in()
        if sessions.wants_to_slide(who, now):
            await of.write(who.house, partial(sessions.slide, who=who, now=now))
            if bearer_of(connection) is None:
                connection.scope["state"][_RENEWED] = token
        return AuthenticationResult(user=who, auth=token)


def bearer_of(connection: Connected) -> str | None:
    """The token in the header `Authorization: Bearer`."""
    kind, _, token = connection.headers.get("authorization", "").partition(" ")
    return token.strip() if kind.casefold() == "bearer" else None


def token_of(connection: Connected) -> str | None:
    """The token of a request: a bearer token goes before a cookie."""
    bearer = bearer_of(connection)
    return cookie_of(connection.headers.get("cookie", "")) if bearer is None else bearer


def key_of(request: Connected) -> str | None:
    """The key of the device that asks, if it is one."""
    return cookie_of(request.headers.get("cookie", ""), DEVICE_COOKIE)


async def renew(message: Message, scope: Scope) -> None:
    """Give the browser the later end of a session that has moved on."""
    token = scope.get("state", {}).get(_RENEWED)
    if token and message["type"] == "http.response.start":
        MutableScopeHeaders(message).add("set-cookie", cookie(token).to_header(header=""))


def cookie(token: str, *, lasts: timedelta = IDLE) -> Cookie:
    """The cookie that holds a token."""
    return Cookie(
        COOKIE,
        path="/",
        value=token,
        max_age=int(lasts.total_seconds()),
        secure=True,
        httponly=True,
        samesite="strict",
    )


def manager(request: Asking) -> Signed:
    """Who is signed in, who must be a manager.

    Raises:
        NotAllowed: `not_a_manager`.
    """
    who = request.user
    if who.role != "manager":
        raise NotAllowed(
            NOT_A_MANAGER, f"A {who.role} may not do that.", "Ask a manager.", value=who.role
        )
    return who
