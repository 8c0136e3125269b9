"""Under which names a house is reached, and what its authority may vouch for."""

from ipaddress import ip_address

import pytest

from pantry.refusals import UnreadableInput
from pantry.trust.names import read_names


def test_names_and_addresses_stand_with_commas_between_them():
    names = read_names(" Pantry.Home.Arpa, 192.0.2.20,pantry.local, [2001:db8::7], 192.0.2.20,")
    assert names.domains == ("pantry.home.arpa", "pantry.local")
    assert names.addresses == (ip_address("192.0.2.20"), ip_address("2001:db8::7"))
    assert names.hosts == ("pantry.home.arpa", "pantry.local", "192.0.2.20", "[2001:db8::7]")


def test_nothing_said_is_no_name():
    assert not read_names("")
    assert not read_names(" , ")


@pytest.mark.parametrize(
    "written",
    [
        "com",
        "house",
        "https://pantry.home.arpa",
        "pantry.home.arpa:8710",
        "*.home.arpa",
        "pantry..arpa",
        "-pantry.home.arpa",
        "pan try.home.arpa",
        "küche.home.arpa",
        ("a" * 63 + ".") * 4 + "arpa",
    ],
)
def test_what_is_no_name_of_a_house_is_refused(written):
    """A name without a dot, too: an authority for `com` could vouch for everybody's."""
    with pytest.raises(UnreadableInput) as refused:
        read_names(written)
    assert refused.value.code == "name_unreadable"


def test_what_an_authority_may_not_vouch_for_is_told_by_name():
    constraints = read_names("pantry.home.arpa, larder.example.org, 192.0.2.20").constraints()
    within = "cellar.local, a.b.home.arpa, larder.example.org, x.larder.example.org, 192.0.2.20"
    assert read_names(within).outside(constraints) == []
    outside = read_names("other.example.org, nothome.arpa, xlarder.example.org, 192.0.2.21")
    assert outside.outside(constraints) == [*outside.domains, "192.0.2.21"]
