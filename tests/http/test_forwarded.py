"""Behind a reverse proxy: who really asks, as a proxy that is named says, and nobody else."""

import asyncio
import contextlib
from concurrent.futures import ThreadPoolExecutor

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.http.forwarded import UnclearForwarding, take_forwarded, was_forwarded
from pantry.http.proxies import Proxies
from pantry.refusals import UnreadableInput
from tests.commands.larkfield import CHEF
from tests.http.site import code

PROXY = "192.0.2.7"
INNER = "192.0.2.8"
CLIENT = "198.51.100.4"
STRANGER = "203.0.113.9"


def nobody_knows(_name):
    return []


def asked(headers, *, by=PROXY, proxies=f"{PROXY}, {INNER}", resolve=nobody_knows):
    """The address, scheme and host that are taken for those of whoever asks."""
    scope = {
        "type": "http",
        "client": (by, 4711),
        "scheme": "http",
        "headers": [(b"host", b"behind:8710"), *((n.encode(), v.encode()) for n, v in headers)],
        "state": {},
    }
    trusted = proxies if isinstance(proxies, Proxies) else Proxies(proxies, resolve)
    # in a thread of its own: this one may have a loop already, of the browser's tests
    with ThreadPoolExecutor(1) as beside:
        beside.submit(asyncio.run, take_forwarded(scope, trusted)).result()
    return scope["client"][0], scope["scheme"], dict(scope["headers"])[b"host"].decode(), scope


X_ALL = [
    ("x-forwarded-for", CLIENT),
    ("x-forwarded-proto", "https"),
    ("x-forwarded-host", "pantry.home.arpa"),
]
STANDARD = [("forwarded", f"for={CLIENT};proto=https;host=pantry.home.arpa")]


@pytest.mark.parametrize("headers", [X_ALL, STANDARD, X_ALL + STANDARD])
def test_SY12_a_proxy_that_is_named_is_believed(headers):
    told = asked(headers)
    assert told[:3] == (CLIENT, "https", "pantry.home.arpa")
    assert was_forwarded(told[3])


@pytest.mark.parametrize("headers", [X_ALL, STANDARD])
@pytest.mark.parametrize("proxies", [PROXY, "none", "192.0.2.0/24", "edge.home.arpa"])
def test_SY12_a_stranger_is_not(headers, proxies):
    told = asked(headers, by=STRANGER, proxies=proxies)
    assert told[:3] == (STRANGER, "http", "behind:8710")
    assert not was_forwarded(told[3])


@pytest.mark.parametrize(
    ("written", "client"),
    [
        (f"{STRANGER}, {CLIENT}", CLIENT),
        (f"{CLIENT}, {INNER}", CLIENT),
        (f"{STRANGER}, {CLIENT}, {INNER}", CLIENT),
        (f"{INNER}, {CLIENT}", CLIENT),
        (f"{CLIENT}:51000", CLIENT),
        ("[2001:db8::9]:51000", "2001:db8::9"),
        ("2001:db8::9", "2001:db8::9"),
        ("unknown", PROXY),
        (f"{CLIENT}, unknown", PROXY),
    ],
)
def test_SY12_who_asks_is_the_last_that_is_no_proxy_of_ours(written, client):
    """What stands before, the one who asks can have written."""
    assert asked([("x-forwarded-for", written)])[0] == client


@pytest.mark.parametrize(
    ("written", "client", "scheme"),
    [
        # the examples of RFC 7239, sections 4 and 7.1
        ('For="[2001:db8:cafe::17]:4711"', "2001:db8:cafe::17", "http"),
        ("for=192.0.2.60;proto=http;by=203.0.113.43", "192.0.2.60", "http"),
        ("for=192.0.2.43, for=198.51.100.17", "198.51.100.17", "http"),
        ('for=192.0.2.43, for="[2001:db8:cafe::17]"', "2001:db8:cafe::17", "http"),
        ('for="_gazonk"', PROXY, "http"),
        ("for=unknown;proto=https", PROXY, "https"),
        # of our own
        (f"for={STRANGER};proto=http, for={CLIENT};proto=https, for={INNER}", CLIENT, "https"),
        (f'for="{CLIENT}";x="a,b;c=\\"d\\"" ; proto=https', CLIENT, "https"),
        (f"for={CLIENT};proto=https,", CLIENT, "https"),
    ],
)
def test_SY12_the_standard_header_is_read_as_the_standard_says(written, client, scheme):
    assert asked([("forwarded", written)])[:2] == (client, scheme)


@pytest.mark.parametrize(
    "headers",
    [
        [*X_ALL, ("forwarded", f"for={STRANGER};proto=https")],
        [*X_ALL, ("forwarded", f"for={CLIENT};proto=http")],
        [*X_ALL, ("forwarded", f"for={CLIENT};proto=https;host=other.home.arpa")],
        [("x-forwarded-for", CLIENT), ("x-forwarded-proto", "https, http")],
        [("x-forwarded-proto", "gopher")],
        [("x-forwarded-host", "a b")],
        [("x-forwarded-host", "pantry\x00")],
        [("forwarded", "for")],
        [("forwarded", 'for="')],
        [("forwarded", "for=1 for=2")],
    ],
)
def test_SY12_what_contradicts_itself_or_cannot_be_read_is_refused(headers):
    """A proxy sets one of the two, and lets through what a stranger wrote in the other."""
    with pytest.raises(UnclearForwarding) as refused:
        asked(headers)
    assert refused.value.code == "forwarded_unclear"


LETTERS = st.text(st.sampled_from('for=proto;,"\\\\[]:. 129https_unknown'), max_size=40)
NAMES = ("forwarded", "x-forwarded-for", "x-forwarded-proto", "x-forwarded-host")


@given(st.lists(st.tuples(st.sampled_from(NAMES), LETTERS), max_size=5))
def test_SY12_whatever_a_proxy_writes_is_understood_or_refused(headers):
    """And what is taken from it is an address, http or https, and a host."""
    with contextlib.suppress(UnclearForwarding):
        client, scheme, host, _ = asked(headers)
        assert Proxies(client)
        assert scheme in {"http", "https"}
        assert not set(host) & set(' ,;"\\')


def test_SY12_a_header_in_two_lines_is_one_list():
    """RFC 9110, section 5.3."""
    lines = [("x-forwarded-for", STRANGER), ("x-forwarded-for", CLIENT)]
    assert asked(lines)[0] == CLIENT


def test_SY12_a_proxy_may_be_named_and_its_address_may_change():
    ticks = [0.0]
    known = {"edge.home.arpa": [PROXY]}
    proxies = Proxies("edge.home.arpa", lambda name: known[name], lambda: ticks[0])
    assert asked(X_ALL, proxies=proxies)[0] == CLIENT
    known["edge.home.arpa"] = [INNER]
    assert asked(X_ALL, by=INNER, proxies=proxies)[0] == INNER
    ticks[0] += 11
    assert asked(X_ALL, by=INNER, proxies=proxies)[0] == CLIENT
    assert asked(X_ALL, by=PROXY, proxies=proxies)[0] == PROXY


@pytest.mark.parametrize(
    ("proxies", "by"),
    [("192.0.2.0/24", PROXY), ("::1", "::1"), ("192.0.2.7", "::ffff:192.0.2.7")],
)
def test_SY12_a_proxy_may_be_named_by_network_or_address(proxies, by):
    assert asked(X_ALL, by=by, proxies=proxies)[0] == CLIENT


@pytest.mark.parametrize("written", ["*", "192.0.2", "http://edge", "300.1.1.1", "a b"])
def test_SY12_what_names_no_proxy_is_refused(written):
    with pytest.raises(UnreadableInput) as refused:
        Proxies(written)
    assert refused.value.code == "proxy_unreadable"


# Over the wire: the tests ask from 127.0.0.1


def test_SY12_behind_a_proxy_localhost_is_not_the_machine_itself(quiet_site):
    """It may ask us for `localhost`, whoever asked it in the open."""
    answer = quiet_site.nobody.post(
        "/api/sign-in", json={}, headers={"host": "localhost", "x-forwarded-for": CLIENT}
    )
    assert code(answer) == (403, "connection_not_private")


def test_SY12_without_a_proxy_nobody_says_https_for_himself(open_site):
    site = open_site(proxies=Proxies("none"))
    headers = {"host": "pantry.example", "x-forwarded-proto": "https"}
    answer = site.nobody.post("/api/sign-in", json={}, headers=headers)
    assert code(answer) == (403, "connection_not_private")


def test_SY12_the_origin_is_that_which_the_proxy_was_asked_for(quiet_site):
    headers = {
        "cookie": f"__Host-chooseby={quiet_site.token(CHEF)}",
        "origin": "https://pantry.home.arpa",
        **dict(X_ALL),
    }
    assert quiet_site.nobody.post("/api/commands", json=[], headers=headers).json() == []
    for other in ("http://pantry.home.arpa", "https://127.0.0.1"):
        answer = quiet_site.nobody.post(
            "/api/commands", json=[], headers=headers | {"origin": other}
        )
        assert code(answer) == (403, "cross_site")


def test_SY12_guesses_are_counted_by_who_asks_and_not_by_the_proxy(open_site):
    site = open_site()
    wrong = {"name": "Nobody Known", "password": "a guess of many words"}

    def guess(client, number):
        headers = {"x-forwarded-for": f"{STRANGER}, {client}", "x-forwarded-proto": "https"}
        body = wrong | {"name": f"Nobody {number}"}
        return site.nobody.post("/api/sign-in", json=body, headers=headers).status_code

    answers = [guess(CLIENT, number) for number in range(40)]
    assert answers[-1] == 429, answers
    assert guess("198.51.100.5", 99) == 401


def test_SY12_an_unclear_request_is_a_problem_with_the_headers_of_every_answer(quiet_site):
    answer = quiet_site.nobody.get("/api/health", headers={"forwarded": "for"})
    assert code(answer) == (400, "forwarded_unclear")
    assert answer.headers["x-content-type-options"] == "nosniff"
