"""The one page over plain HTTP: the house's root certificate, and how a phone comes to trust it.

A phone that does not trust the house yet can be told nothing over HTTPS. So this has a port of its
own, and nothing else is there: no data of the house, no cookie, nothing to send.
"""

import html
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from string import Template

import uvicorn
from cryptography import x509
from litestar.enums import ScopeType
from litestar.types import HTTPScope, Receive, Scope, Send

from pantry.http.qr_code import as_svg
from pantry.trust.authority import Authority
from pantry.trust.names import HouseNames

HEADERS = {
    "content-security-policy": "default-src 'none'; style-src 'self'; img-src 'self'; "
    "form-action 'none'; base-uri 'none'; frame-ancestors 'none'",
    "x-content-type-options": "nosniff",
    "referrer-policy": "no-referrer",
    "cache-control": "no-store",
}

PLAIN = "text/plain; charset=utf-8"

_HERE = Path(__file__).parent
_GROUP = 8
"""Pairs of letters of a fingerprint that stand together, so that a person can compare them."""


@dataclass(frozen=True, slots=True)
class Told:
    """One thing that is told here."""

    kind: str
    content: bytes
    status: int = 200


@dataclass(frozen=True)
class TrustPage:
    """What the page tells.

    Attributes:
        names: under which the house is reached.
        authority: the present one.
        house_port, page_port: where the house is (HTTPS) and where this page is (HTTP).
    """

    names: HouseNames
    authority: Callable[[], Authority]
    house_port: int
    page_port: int

    async def __call__(self, scope: Scope, _receive: Receive, send: Send) -> None:
        """Answer one request."""
        if scope["type"] != ScopeType.HTTP:
            return
        told = self._told(scope)
        headers = HEADERS | {"content-type": told.kind, "content-length": str(len(told.content))}
        raw = [(name.encode(), value.encode()) for name, value in headers.items()]
        await send({"type": "http.response.start", "status": told.status, "headers": raw})
        body = b"" if scope["method"] == "HEAD" else told.content
        await send({"type": "http.response.body", "body": body, "more_body": False})

    def _told(self, scope: HTTPScope) -> Told:
        if scope["method"] not in {"GET", "HEAD"}:
            return Told(PLAIN, b"This page can only be read.\n", 405)
        host = self._host(scope)
        there: dict[str, Callable[[], Told]] = {
            "/": lambda: Told("text/html; charset=utf-8", self._page(host)),
            "/look.css": lambda: Told("text/css", (_HERE / "trust_page.css").read_bytes()),
            "/authority.crt": lambda: Told("application/x-x509-ca-cert", self.authority().file),
            "/this-page.svg": lambda: Told("image/svg+xml", as_svg(self.page_at(host))),
            "/house.svg": lambda: Told("image/svg+xml", as_svg(self.house_at(host))),
        }
        found = there.get(scope["path"])
        return found() if found else Told(PLAIN, b"The page is at /.\n", 404)

    def _host(self, scope: HTTPScope) -> str:
        """The name by which this was asked, where it is one of the house; else its first."""
        asked = next((value for name, value in scope["headers"] if name == b"host"), b"")
        host = asked.decode("latin-1").casefold().removesuffix(f":{self.page_port}")
        return host if host in self.names.hosts else self.names.hosts[0]

    def house_at(self, host: str) -> str:
        """Where the house is."""
        return f"https://{host}:{self.house_port}/"

    def page_at(self, host: str) -> str:
        """Where this page is."""
        return f"http://{host}:{self.page_port}/"

    def _page(self, host: str) -> bytes:
        authority = self.authority()
        said = {
            "fingerprint": in_groups(authority.fingerprint),
            "scope": in_words(authority.constraints),
            "ends": f"{authority.ends:%Y-%m-%d}",
            "file": host.strip("[]").replace(":", "-"),
            "house": self.house_at(host),
            "page": self.page_at(host),
        }
        template = Template((_HERE / "trust_page.html").read_text("utf-8"))
        return template.substitute(
            {name: html.escape(text) for name, text in said.items()}
        ).encode()


def in_words(constraints: x509.NameConstraints) -> str:
    """What an authority so limited may vouch for."""
    trees = [tree.value for tree in constraints.permitted_subtrees or ()]
    names = [name for name in trees if isinstance(name, str)]
    addresses = [str(each.network_address) for each in trees if not isinstance(each, str)]
    said = f"what is called or ends in {', '.join(names)}"
    return f"{said}, and for the address {', '.join(addresses)}" if addresses else said


def in_groups(fingerprint: str) -> str:
    """A fingerprint with gaps, as `AB:CD:... EF:...`."""
    pairs = fingerprint.split(":")
    groups = (pairs[at : at + _GROUP] for at in range(0, len(pairs), _GROUP))
    return " ".join(":".join(group) for group in groups)


class TrustServer(uvicorn.Server):
    """Serves the page."""

    def __init__(self, page: TrustPage) -> None:
        super().__init__(
            uvicorn.Config(
                page,
                lifespan="off",
                log_config=None,
                access_log=False,
                server_header=False,
                proxy_headers=False,
                limit_concurrency=64,
                timeout_graceful_shutdown=3,
            )
        )
