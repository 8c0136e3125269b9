"""What a proxy that is believed says of a request: who asks, by which scheme, of which host.

`Forwarded` is RFC 7239; `X-Forwarded-For`, `-Proto` and `-Host` are what most proxies send: common
practice, no standard. A proxy sets one of the two and lets through what a stranger wrote in the
other, so that a request on which they differ is refused.
"""

import re
from ipaddress import ip_address

from litestar.types import HTTPScope, Scope

from pantry.http.proxies import Hop, Proxies
from pantry.refusals import Refusal, declare

FORWARDED_UNCLEAR = declare(
    "forwarded_unclear", "The proxy says two different things of who asks, or what cannot be read."
)

_MARK = "forwarded"
_SCHEMES = frozenset({"", "http", "https"})
_HOST = re.compile(r"[A-Za-z0-9.:\[\]_-]{0,300}")
_PAIR = re.compile(
    r"""[ \t]*([A-Za-z]+)=("(?:[^"\\]|\\.)*"|[A-Za-z0-9!#$%&'*+.^_`|~:\[\]-]+)[ \t]*([;,]|$)"""
)
_PORT = re.compile(r"^\[([^\]]+)\](?::[^:]+)?$|^([^:]+):[^:]+$")


class UnclearForwarding(Refusal):
    """What proxies said of a request cannot be acted on."""

    status = 400


async def take_forwarded(scope: HTTPScope, proxies: Proxies) -> None:
    """Put who really asks, and how, into the scope, where a proxy that is believed has said it.

    Raises:
        UnclearForwarding: `forwarded_unclear`.
    """
    asked_by = scope["client"]
    said = _said(scope)
    if not said or asked_by is None or not await proxies.believes(asked_by[0]):
        return
    asker = _agreed(said, proxies)
    if asker.scheme not in _SCHEMES or not _HOST.fullmatch(asker.host):
        raise _unclear(f"{asker.scheme} {asker.host}")
    scope["state"][_MARK] = True
    if asker.client:
        scope["client"] = (asker.client, 0)
    if asker.scheme:
        scope["scheme"] = asker.scheme
    if asker.host:
        others = [pair for pair in scope["headers"] if pair[0] != b"host"]
        scope["headers"] = [(b"host", asker.host.encode("ascii")), *others]


def was_forwarded(scope: Scope) -> bool:
    """Whether a proxy that is believed stands before this request."""
    return bool(scope["state"].get(_MARK))


def _said(scope: HTTPScope) -> dict[str, str]:
    """The headers of forwarding, each with all that stands in it."""
    said: dict[str, list[str]] = {}
    for raw, value in scope["headers"]:
        name = raw.decode("latin-1")
        if name == "forwarded" or name.startswith("x-forwarded-"):
            said.setdefault(name.removeprefix("x-forwarded-"), []).append(value.decode("latin-1"))
    kept = ("forwarded", "for", "proto", "host")
    return {name: ", ".join(said[name]) for name in kept if name in said}


def _agreed(said: dict[str, str], proxies: Proxies) -> Hop:
    """Who asks, as the one header says or the others, or both alike."""
    told = []
    if "forwarded" in said:
        told.append(proxies.asker(_standard(said["forwarded"])))
    if said.keys() - {"forwarded"}:
        told.append(proxies.asker(_customary(said)))
    first, last = told[0], told[-1]
    hosts = {hop.host for hop in told if hop.host}
    if (first.client, first.scheme) != (last.client, last.scheme) or len(hosts) > 1:
        raise _unclear("; ".join(said.values()))
    return Hop(first.client, first.scheme, "".join(hosts))


def _standard(written: str) -> list[Hop]:
    """The elements of `Forwarded` (RFC 7239, section 4)."""
    hops: list[Hop] = []
    pairs: dict[str, str] = {}
    at = 0
    while at < len(written):
        found = _PAIR.match(written, at)
        if found is None:
            raise _unclear(written)
        name, value, after = found.groups()
        pairs[name.casefold()] = _unquoted(value)
        at = found.end()
        if after != ";":
            hops.append(_hop(pairs.get("for", ""), pairs.get("proto", ""), pairs.get("host", "")))
            pairs = {}
    return hops or [Hop("")]


def _unquoted(value: str) -> str:
    return re.sub(r"\\(.)", r"\1", value[1:-1]) if value.startswith('"') else value


def _customary(said: dict[str, str]) -> list[Hop]:
    """The same of the three headers; one that is said once is so for all of the way."""
    clients = _parts(said.get("for", ""))
    schemes, hosts = _parts(said.get("proto", "")), _parts(said.get("host", ""))
    if any(len(each) not in (1, len(clients)) for each in (schemes, hosts)):
        raise _unclear("; ".join(said.values()))
    many = len(clients)
    alike = [each * many if len(each) == 1 else each for each in (schemes, hosts)]
    return [_hop(*each) for each in zip(clients, *alike, strict=True)]


def _parts(written: str) -> list[str]:
    return [part.strip() for part in written.split(",")]


def _hop(client: str, scheme: str, host: str) -> Hop:
    return Hop(_address(client), scheme.casefold(), host)


def _address(written: str) -> str:
    """The address without its port; empty where a proxy does not tell it (`unknown`, `_hidden`)."""
    port = _PORT.match(written)
    bare = (port.group(1) or port.group(2)) if port else written
    try:
        return str(ip_address(bare))
    except ValueError:
        return ""


def _unclear(value: str) -> UnclearForwarding:
    return UnclearForwarding(
        FORWARDED_UNCLEAR,
        "What the proxy says of who asks cannot be read, or says two different things.",
        "Have the proxy set X-Forwarded-For, -Proto and -Host (or Forwarded) itself, and take "
        "away what comes in with the others.",
        value=value[:200],
    )
