"""Which reverse proxies are believed when they say who asks: those that are named, nobody else."""

import re
import socket
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from ipaddress import IPv4Address, IPv4Network, IPv6Address, IPv6Network, ip_address, ip_network

import anyio.to_thread

from pantry.refusals import UnreadableInput, declare

PROXY_UNREADABLE = declare("proxy_unreadable", "CHOOSEBY_PROXIES names no proxy.")

Network = IPv4Network | IPv6Network

NOBODY = "none"
REST = 10.0
"""Seconds before a proxy's name is looked up again."""

_NAME = re.compile(r"[a-z0-9]([a-z0-9._-]{0,251}[a-z0-9])?")


@dataclass(frozen=True, slots=True)
class Hop:
    """What one proxy says of whoever asked it.

    Attributes:
        client: the address; empty where it is not told.
        scheme, host: empty where they are not told.
    """

    client: str
    scheme: str = ""
    host: str = ""


def _resolve(name: str) -> list[str]:
    """The addresses of a name; none while it is not known, as in a house that is just starting."""
    try:
        found = socket.getaddrinfo(name, None, type=socket.SOCK_STREAM)
    except OSError:
        return []
    return [str(where[0]) for *_, where in found]


class Proxies:
    """The proxies that are believed, by address, network or name."""

    def __init__(
        self,
        written: str,
        resolve: Callable[[str], list[str]] = _resolve,
        ticks: Callable[[], float] = time.monotonic,
    ) -> None:
        self._networks: list[Network] = []
        self._names: list[str] = []
        self._resolve = resolve
        self._ticks = ticks
        self._looked_up = -REST
        self._resolved: list[Network] = []
        for part in (part.strip().casefold() for part in written.split(",")):
            if part and part != NOBODY:
                self._take(part)

    def _take(self, part: str) -> None:
        network = _network(part)
        if network is not None:
            self._networks.append(network)
        elif _NAME.fullmatch(part) and not part.replace(".", "").isdigit():
            self._names.append(part)
        else:
            raise UnreadableInput(
                PROXY_UNREADABLE,
                f"CHOOSEBY_PROXIES says {part!r}, which is no name, address or network.",
                "Write names, addresses (192.0.2.7) or networks (192.0.2.0/24) with commas "
                f"between them, or {NOBODY!r}.",
                value=part,
                field="CHOOSEBY_PROXIES",
            )

    def __contains__(self, host: str) -> bool:
        """Whether a proxy of ours has this address, as far as names have been looked up."""
        try:
            address = _plain(ip_address(host))
        except ValueError:
            return False
        return any(address in network for network in (*self._networks, *self._resolved))

    async def believes(self, host: str) -> bool:
        """Whether whoever connects from there is a proxy of ours; looks names up where need be."""
        if host in self or not self._names:
            return host in self
        now = self._ticks()
        if now - self._looked_up >= REST:
            self._looked_up = now
            await anyio.to_thread.run_sync(self._look_up)
        return host in self

    def _look_up(self) -> None:
        found = [address for name in self._names for address in self._resolve(name)]
        self._resolved = [network for each in found if (network := _network(each)) is not None]

    def asker(self, hops: Sequence[Hop]) -> Hop:
        """Who asked the outermost proxy of ours: what stands before that, anybody can have written.

        Each proxy appends whom it was asked by, so the last that is no proxy of ours is who asks.
        """
        before = (hop for hop in reversed(hops) if hop.client not in self)
        return next(before, hops[0])


def _network(written: str) -> Network | None:
    try:
        return ip_network(written.strip("[]"), strict=False)
    except ValueError:
        return None


def _plain(address: IPv4Address | IPv6Address) -> IPv4Address | IPv6Address:
    """An IPv4 address that is written as one of IPv6, as the former (RFC 4291, section 2.5.5.2)."""
    mapped = address.ipv4_mapped if isinstance(address, IPv6Address) else None
    return mapped or address
