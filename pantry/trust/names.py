"""The names and addresses under which a house is reached, and what its authority may vouch for."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from ipaddress import IPv4Address, IPv6Address, ip_address, ip_network

from cryptography import x509

from pantry.refusals import UnreadableInput, declare

NAME_UNREADABLE = declare("name_unreadable", "That is no name or address of this house.")

Address = IPv4Address | IPv6Address

HOME = ("home.arpa", "local")
"""Names that exist only within a house: RFC 8375 (home.arpa) and RFC 6762 (local)."""

_LABEL = r"[a-z0-9](?:[a-z0-9-]{0,61}[a-z0-9])?"
_DOMAIN = re.compile(rf"{_LABEL}(?:\.{_LABEL})+")
_LONGEST = 253
_ALL = (ip_network("0.0.0.0/0"), ip_network("::/0"))


@dataclass(frozen=True, slots=True)
class HouseNames:
    """Where the house is reached.

    Attributes:
        domains: names, in lower case, in the order in which they were said.
        addresses: addresses, likewise.
    """

    domains: tuple[str, ...]
    addresses: tuple[Address, ...]

    def __bool__(self) -> bool:
        """Whether anything was named at all."""
        return bool(self.domains or self.addresses)

    @property
    def hosts(self) -> tuple[str, ...]:
        """All of them as they stand in an address of the web."""
        return (*self.domains, *(_in_address(each) for each in self.addresses))

    def alternative(self) -> x509.SubjectAlternativeName:
        """What a certificate of this house is for."""
        return x509.SubjectAlternativeName(
            [*map(x509.DNSName, self.domains), *map(x509.IPAddress, self.addresses)]
        )

    def constraints(self) -> x509.NameConstraints:
        """What the authority of this house may vouch for, and nothing else.

        An authority with no word on addresses could vouch for any (RFC 5280, section 4.2.1.10),
        so that a family of addresses of which none is named is excluded whole.
        """
        domains = dict.fromkeys((*HOME, *(name for name in self.domains if not _at_home(name))))
        spoken = {address.version for address in self.addresses}
        excluded = [x509.IPAddress(every) for every in _ALL if every.version not in spoken]
        return x509.NameConstraints(
            permitted_subtrees=[
                *map(x509.DNSName, domains),
                *(x509.IPAddress(ip_network(address)) for address in self.addresses),
            ],
            excluded_subtrees=excluded or None,
        )

    def outside(self, constraints: x509.NameConstraints) -> list[str]:
        """The names and addresses of the house that an authority so limited may not vouch for."""
        permitted = [tree.value for tree in constraints.permitted_subtrees or ()]
        domains = [
            name for name in self.domains if not any(_under(name, tree) for tree in permitted)
        ]
        addresses = [
            str(address) for address in self.addresses if ip_network(address) not in permitted
        ]
        return domains + addresses


def read_names(written: str) -> HouseNames:
    """Names and addresses with commas between them.

    Raises:
        UnreadableInput: `name_unreadable`.
    """
    domains: list[str] = []
    addresses: list[Address] = []
    for part in _parts(written):
        address = _address(part)
        if address is not None:
            addresses.append(address)
        else:
            domains.append(_domain(part))
    return HouseNames(tuple(dict.fromkeys(domains)), tuple(dict.fromkeys(addresses)))


def _parts(written: str) -> Iterable[str]:
    return (part.strip().casefold() for part in written.split(",") if part.strip())


def _address(part: str) -> Address | None:
    try:
        return ip_address(part.strip("[]"))
    except ValueError:
        return None


def _domain(part: str) -> str:
    """A name with a dot: an authority for `house` could vouch for all that ever ends in it."""
    if part == "localhost" or (_DOMAIN.fullmatch(part) and len(part) <= _LONGEST):
        return part
    raise UnreadableInput(
        NAME_UNREADABLE,
        f"{part!r} is no name or address under which this house can be reached.",
        "Write a name with a dot in it, such as pantry.home.arpa, or an address such as "
        "192.0.2.20, without https:// and port; commas between several.",
        value=part,
        field="CHOOSEBY_HTTPS_NAMES",
    )


def _at_home(name: str) -> bool:
    return any(_under(name, tree) for tree in HOME)


def _under(name: str, tree: object) -> bool:
    return isinstance(tree, str) and (name == tree or name.endswith(f".{tree}"))


def _in_address(address: Address) -> str:
    return f"[{address}]" if address.version == 6 else str(address)
