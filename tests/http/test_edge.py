"""What every answer carries, and what other sites cannot have a browser do here."""

import socket

import pytest

from pantry.http.server import listening_on
from tests.commands.larkfield import CHEF
from tests.http.site import code

POLICY = (
    "default-src 'none'; script-src 'self' 'wasm-unsafe-eval'; style-src 'self'; "
    "img-src 'self' blob: data:; font-src 'self'; connect-src 'self'; manifest-src 'self'; "
    "worker-src 'self'; form-action 'self'; base-uri 'none'; frame-ancestors 'none'"
)


@pytest.mark.parametrize(
    ("method", "path"),
    [
        ("GET", "/"),
        ("GET", "/api/health"),
        ("GET", "/api/me"),
        ("GET", "/api/nothing"),
        ("GET", "/no.file"),
        ("DELETE", "/api/me"),
        ("POST", "/api/sign-in"),
        ("GET", "/openapi.json"),
    ],
)
def test_every_answer_carries_the_headers_refusals_too(quiet_site, method, path):
    """Each as the OWASP Secure Headers Project recommends, from memory; the policy is our own."""
    headers = quiet_site.nobody.request(method, path).headers
    assert headers["content-security-policy"] == POLICY
    assert headers["x-content-type-options"] == "nosniff"
    assert headers["referrer-policy"] == "no-referrer"
    assert headers["cross-origin-opener-policy"] == "same-origin"
    assert headers["cross-origin-resource-policy"] == "same-origin"
    assert headers["permissions-policy"] == "camera=(self)"
    assert "server" not in headers
    if path.startswith("/api"):
        assert headers["cache-control"] == "no-store"


@pytest.mark.parametrize(
    ("said", "fine"),
    [
        ({"sec-fetch-site": "same-origin"}, True),
        ({"sec-fetch-site": "same-site"}, False),
        ({"sec-fetch-site": "cross-site"}, False),
        ({"sec-fetch-site": "none"}, False),
        ({"sec-fetch-site": "cross-site", "origin": "SELF"}, False),
        ({"origin": "SELF"}, True),
        ({"origin": "http://elsewhere.example"}, False),
        ({"origin": "null"}, False),
        ({}, False),
    ],
)
def test_a_cookie_counts_only_where_the_browser_says_the_page_is_ours(quiet_site, said, fine):
    """Fetch Metadata Request Headers (W3C), and `Origin` where a browser does not know them."""
    site = quiet_site
    headers = {
        "cookie": f"__Host-chooseby={site.token(CHEF)}",
        **{name: site.url if value == "SELF" else value for name, value in said.items()},
    }
    answer = site.nobody.post("/api/commands", json=[], headers=headers)
    if fine:
        assert answer.json() == []
    else:
        assert code(answer) == (403, "cross_site")


def test_a_bearer_token_needs_neither(quiet_site):
    site = quiet_site
    headers = {"authorization": f"Bearer {site.token(CHEF)}", "origin": "http://elsewhere.example"}
    assert site.nobody.post("/api/commands", json=[], headers=headers).json() == []


def test_what_another_program_of_this_host_has_put_into_the_browser_does_no_harm(quiet_site):
    """Cookies are a host's, not a port's (RFC 6265, section 8.5)."""
    token = quiet_site.token(CHEF)
    for beside in ('a={"x": [1]}', "no name", "=", "x=\x01", "__Host-chooseby2=y", "__Host-choose"):
        headers = {"cookie": f"{beside}; __Host-chooseby={token}; {beside}"}
        assert quiet_site.nobody.get("/api/me", headers=headers).status_code == 200, beside


def test_who_shows_a_token_is_not_known_by_the_cookie_beside_it(quiet_site):
    cookie = f"__Host-chooseby={quiet_site.token(CHEF)}"
    for bearer in ("Bearer", "Bearer nonsense"):
        headers = {"cookie": cookie, "authorization": bearer}
        answer = quiet_site.nobody.get("/api/me", headers=headers)
        assert code(answer) == (401, "not_signed_in")


def test_another_site_cannot_sign_a_browser_in_either(quiet_site):
    """Or what the person then writes would stand under the attacker's name."""
    body = {"name": CHEF, "password": "whatever it is"}
    headers = {"sec-fetch-site": "cross-site"}
    answer = quiet_site.nobody.post("/api/sign-in", json=body, headers=headers)
    assert code(answer) == (403, "cross_site")


def test_looking_needs_no_proof_of_where_one_is(quiet_site):
    headers = {
        "cookie": f"__Host-chooseby={quiet_site.token(CHEF)}",
        "sec-fetch-site": "cross-site",
    }
    assert quiet_site.nobody.get("/api/me", headers=headers).status_code == 200


@pytest.mark.parametrize("path", ["sign-in", "way-in", "first-manager"])
def test_a_password_does_not_travel_in_the_open(quiet_site, path):
    headers = {"host": "pantry.example:8710"}
    answer = quiet_site.nobody.post(f"/api/{path}", json={}, headers=headers)
    assert code(answer) == (403, "connection_not_private")
    assert "https" in answer.json()["todo"]


def test_nor_is_it_changed_in_the_open(quiet_site):
    headers = {"host": "10.0.0.7:8710"}
    answer = quiet_site.as_(CHEF).post("/api/password", json={}, headers=headers)
    assert code(answer) == (403, "connection_not_private")


@pytest.mark.parametrize("host", ["localhost:8710", "127.0.0.1", "[::1]:8710", "LOCALHOST"])
def test_on_the_machine_itself_it_may(quiet_site, host):
    answer = quiet_site.nobody.post("/api/sign-in", json={}, headers={"host": host})
    assert code(answer) == (400, "request_unreadable")


def test_behind_a_proxy_on_the_same_machine_https_is_what_the_proxy_says(quiet_site):
    headers = {"host": "pantry.example", "x-forwarded-proto": "https"}
    answer = quiet_site.nobody.post("/api/sign-in", json={}, headers=headers)
    assert code(answer) == (400, "request_unreadable")


PATHS = ["me", "reports/stock", "news"]


@pytest.mark.parametrize("path", PATHS)
@pytest.mark.parametrize(
    "headers",
    [
        {},
        {"cookie": "__Host-chooseby=nonsense"},
        {"cookie": "__Host-chooseby="},
        {"cookie": "=;=;\x7f"},
        {"authorization": "Bearer"},
        {"authorization": "Bearer nonsense"},
        {"authorization": "Basic bWU6bWU="},
    ],
)
def test_nobody_is_told_anything_without_a_session(quiet_site, path, headers):
    answer = quiet_site.nobody.get(f"/api/{path}", headers=headers)
    assert code(answer) == (401, "not_signed_in")


@pytest.mark.parametrize(
    "path", ["commands", "exchange", "book", "ways-in", "sessions/end", "password", "sign-out"]
)
def test_nobody_does_anything_without_a_session(quiet_site, path):
    answer = quiet_site.nobody.post(f"/api/{path}", json=[])
    assert code(answer) == (401, "not_signed_in")


@pytest.mark.parametrize(
    ("method", "path", "refusal"),
    [
        ("GET", "/api/nothing", (404, "nothing_there")),
        ("GET", "/api/reports/", (404, "nothing_there")),
        ("GET", "/api/commands", (405, "method_unknown")),
        ("PUT", "/api/me", (405, "method_unknown")),
        ("POST", "/", (405, "method_unknown")),
    ],
)
def test_an_address_that_is_not_there_is_a_problem_like_any_other(
    quiet_site, method, path, refusal
):
    assert code(quiet_site.as_(CHEF).request(method, path)) == refusal


def test_a_small_answer_is_sent_at_once():
    """RFC 9293, section 3.7.4: or it waits until what came before has been confirmed."""
    (listening,) = listening_on("127.0.0.1", 0)
    with listening, socket.create_connection(listening.getsockname()):
        accepted, _ = listening.accept()
        with accepted:
            assert accepted.proto == socket.IPPROTO_TCP, "asyncio sets TCP_NODELAY only then"


def test_what_is_long_is_sent_packed_and_news_are_not(site):
    """A report of a whole house is some hundred kilobytes of the same words over and over."""
    chef = site.as_(CHEF)
    plain = chef.get("/api/reports/house", headers={"accept-encoding": "identity"})
    assert "content-encoding" not in plain.headers
    assert chef.get("/openapi.json").headers["content-encoding"] == "gzip"
    with chef.stream("GET", "/api/news") as news:
        assert "content-encoding" not in news.headers
