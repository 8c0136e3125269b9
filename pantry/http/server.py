"""The server over its sockets: one process, which stops when it has finished what it began."""

import socket

import uvicorn

from pantry.http.app import application
from pantry.http.served import Served

PATIENCE = 30
"""Seconds in which requests that were begun may end once the server is to stop."""


class Server(uvicorn.Server):
    """A server that ends its streams of news when it stops, which would otherwise never end."""

    def __init__(self, of: Served, host: str, port: int) -> None:
        self._of = of
        super().__init__(
            uvicorn.Config(
                application(of),
                host=host,
                port=port,
                lifespan="on",
                log_config=None,
                access_log=False,
                server_header=False,
                timeout_graceful_shutdown=PATIENCE,
            )
        )

    async def shutdown(self, sockets: list[socket.socket] | None = None) -> None:
        """Stop listening, end the streams, wait for the requests that were begun."""
        self._of.news.close()
        await super().shutdown(sockets)
