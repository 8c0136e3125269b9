"""The edge: what every answer carries, and what no other site may have a browser do here.

It stands outside the framework, so that whatever answers, an error included, passes through it.
"""

import msgspec
from litestar.datastructures import MutableScopeHeaders
from litestar.enums import ScopeType
from litestar.types import ASGIApp, HTTPScope, Message, Receive, Scope, Send

from pantry.commands.answers import problem
from pantry.http.forwarded import take_forwarded, was_forwarded
from pantry.http.problems import PROBLEM_JSON, Asked
from pantry.http.proxies import Proxies
from pantry.refusals import NotAllowed, Refusal, declare

CROSS_SITE = declare("cross_site", "Another site, or nobody knows which, had the browser send it.")
CONNECTION_NOT_PRIVATE = declare(
    "connection_not_private", "A password would travel where others can read it."
)

COOKIE = "__Host-chooseby"
"""The prefix is a promise that the browser holds: Secure, of this host alone, Path=/.

RFC 6265bis, from memory.
"""

DEVICE_COOKIE = "__Host-chooseby-device"
"""What a device of the house is known by, whoever is signed in on it."""

BY_LINK = "/menu-sheet/"
"""Below it nobody is known by a cookie: the address itself is the secret, which no other site has.

A browser that is old, or asked by plain HTTP, says nothing there of where a form comes from.
"""

_SAFE = frozenset({"GET", "HEAD", "OPTIONS"})
_HERE = frozenset({"localhost", "127.0.0.1", "::1"})

HEADERS = {
    "content-security-policy": "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; "
    "style-src 'self'; img-src 'self' blob: data:; font-src 'self'; connect-src 'self'; "
    "manifest-src 'self'; worker-src 'self'; form-action 'self'; base-uri 'none'; "
    "frame-ancestors 'none'",
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cross-origin-opener-policy": "same-origin",
    "cross-origin-resource-policy": "same-origin",
    "permissions-policy": "camera=(self)",
}
"""What every answer carries (OWASP Secure Headers Project, from memory)."""


class Edge:
    """The application with its edge around it, behind the proxies that are believed."""

    def __init__(self, app: ASGIApp, proxies: Proxies) -> None:
        self._app = app
        self._proxies = proxies

    async def __call__(self, scope: Scope, receive: Receive, send: Send) -> None:
        """Answer a request with the headers that every answer has, or refuse it at once."""
        if scope["type"] != ScopeType.HTTP:
            await self._app(scope, receive, send)
            return

        async def send_with_headers(message: Message) -> None:
            if message["type"] == "http.response.start":
                headers = MutableScopeHeaders(message)
                for name, value in HEADERS.items():
                    headers[name] = value
                if "cache-control" not in headers:
                    headers["cache-control"] = "no-store"
            await send(message)

        refusal = await self._refusal_of(scope)
        if refusal is None:
            await self._app(scope, receive, send_with_headers)
        else:
            await _refuse(refusal, send_with_headers)

    async def _refusal_of(self, scope: HTTPScope) -> Refusal | None:
        """What is refused before the application sees it, once it is known who really asks."""
        try:
            await take_forwarded(scope, self._proxies)
        except Refusal as unclear:
            return unclear
        return _refusal_of(scope)


def _refusal_of(scope: HTTPScope) -> Refusal | None:
    """What another site sends with the browser's cookie is refused, and so is what may be that.

    A browser says where a request comes from in `Sec-Fetch-Site`, an older one in `Origin`. A
    script says neither and sends no cookie; with a bearer token nothing is sent unasked.
    """
    if scope["method"] in _SAFE or scope["path"].startswith(BY_LINK):
        return None
    headers = {name.decode("latin-1"): text.decode("latin-1") for name, text in scope["headers"]}
    if headers.get("authorization", "").casefold().startswith("bearer "):
        return None
    site, origin = headers.get("sec-fetch-site"), headers.get("origin")
    if site is not None:
        fine = site == "same-origin"
    elif origin is not None:
        fine = origin == f"{scope['scheme']}://{headers.get('host')}"
    else:
        fine = cookie_of(headers.get("cookie", "")) is None
    return None if fine else _cross_site(site or origin or "")


def _cross_site(value: str) -> Refusal:
    return NotAllowed(
        CROSS_SITE,
        "Another site, or nobody knows which, had the browser send this.",
        "Open the program by its own address; a script sends its token as `Authorization: Bearer`.",
        value=value,
    )


async def _refuse(refusal: Refusal, send: Send) -> None:
    body = msgspec.json.encode(problem(refusal))
    headers = [(b"content-type", PROBLEM_JSON.encode()), (b"content-length", b"%d" % len(body))]
    await send({"type": "http.response.start", "status": refusal.status, "headers": headers})
    await send({"type": "http.response.body", "body": body, "more_body": False})


def cookie_of(written: str, called: str = COOKIE) -> str | None:
    """The token in a Cookie header, whatever else of this host's stands beside it.

    Python's own reader gives everything up where another program's cookie is no good one.
    """
    named = (part.strip().partition("=") for part in written.split(";"))
    return next((value for name, _, value in named if name == called and value), None)


def refuse_unless_private(request: Asked) -> None:
    """Refuse a password over plain HTTP, but from the same machine.

    A proxy may ask for `localhost` whoever asked the proxy, and how.

    Raises:
        NotAllowed: `connection_not_private`.
    """
    hostname = request.url.hostname or ""
    here = hostname.casefold() in _HERE and not was_forwarded(request.scope)
    if request.url.scheme == "https" or here:
        return
    raise NotAllowed(
        CONNECTION_NOT_PRIVATE,
        "This connection is not private: a password would travel where others can read it.",
        "Open the program by https://, or on the machine itself by http://localhost.",
        value=hostname,
    )
