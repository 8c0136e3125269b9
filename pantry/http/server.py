"""The server over its sockets: one process, which stops when it has finished what it began."""

import asyncio
import contextlib
import socket
from typing import Any

import uvicorn

from pantry.http.app import application
from pantry.http.encrypted import Encrypted
from pantry.http.proxies import Proxies
from pantry.http.served import Served
from pantry.refusals import NotNow, declare

ADDRESS_UNUSABLE = declare("address_unusable", "The address cannot be listened on.")

BACKLOG = 512
PATIENCE = 30
"""Seconds in which requests that were begun may end once the server is to stop."""

GOODBYE = 1.5
"""Seconds that the other side has to confirm the end of a connection, at the least."""


class Server(uvicorn.Server):
    """A server that ends its streams of news when it stops, which would otherwise never end.

    It speaks HTTPS where it is given what to encrypt with.
    """

    def __init__(self, of: Served, proxies: Proxies, encrypted: Encrypted | None = None) -> None:
        self._of = of
        self._encrypted = encrypted
        super().__init__(
            uvicorn.Config(
                application(of, proxies),
                lifespan="on",
                log_config=None,
                access_log=False,
                server_header=False,
                proxy_headers=False,  # our own edge believes those that are named
                timeout_graceful_shutdown=PATIENCE,
                ssl_context_factory=(lambda *_: encrypted.context) if encrypted else None,
            )
        )

    async def main_loop(self) -> None:
        """Serve until told to stop, with a certificate that does not end meanwhile."""
        async with self._encrypted.kept_up() if self._encrypted else contextlib.nullcontext():
            await super().main_loop()

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Stop listening, end the streams, wait for the requests that were begun."""
        self._of.news.close()
        leaving = asyncio.create_task(self._let_go())
        try:
            await super().shutdown(sockets)
        finally:
            leaving.cancel()

    async def _let_go(self) -> None:
        """Drop connections that were closed a while ago and whose other side does not confirm it.

        Over TLS it should, and a phone that has gone to the cellar never does.
        """
        closed: set[object] = set()
        while True:
            await asyncio.sleep(GOODBYE)
            for each in [one for one in self.server_state.connections if one in closed]:
                each.transport.abort()
            closed = {one for one in self.server_state.connections if one.transport.is_closing()}


def listening_on(host: str, port: int) -> list[socket.socket]:
    """Sockets that listen on every address a host has; port 0 is any that is free.

    Raises:
        NotNow: `address_unusable`.
    """
    opened: list[socket.socket] = []
    try:
        for family, _, _, _, where in socket.getaddrinfo(host, port, type=socket.SOCK_STREAM):
            opened.append(_bound(family, where))
    except OSError as error:
        for each in opened:
            each.close()
        raise NotNow(
            ADDRESS_UNUSABLE,
            f"{host} port {port} cannot be listened on: {error.strerror or error}.",
            "End what listens there, or set CHOOSEBY_HOST and CHOOSEBY_PORT to another place.",
            value=f"{host}:{port}",
        ) from error
    return opened


def _bound(family: socket.AddressFamily, where: Any) -> socket.socket:  # noqa: ANN401 - the family's own
    """One listening socket.

    Its protocol is said, unlike `socket.create_server` does: asyncio sends small answers at once
    only where it is, and else every answer waits some 40 ms for the other side's acknowledgement.
    """
    made = socket.socket(family, socket.SOCK_STREAM, socket.IPPROTO_TCP)
    try:
        made.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        if family == socket.AF_INET6:
            made.setsockopt(socket.IPPROTO_IPV6, socket.IPV6_V6ONLY, 1)
        made.bind(where)
        made.listen(BACKLOG)
    except OSError:
        made.close()
        raise
    return made
