"""The server over HTTPS by its own authority, and the page on which it comes to be trusted."""

import io
import socket
import ssl
import threading
import time
from datetime import UTC, datetime, timedelta

import httpx
import pytest
import zxingcpp
from cryptography import x509
from PIL import Image
from segno import make_qr

from pantry.http.encrypted import Encrypted
from pantry.http.server import listening_on
from pantry.http.trust_page import TrustPage, TrustServer
from pantry.trust.kept import KeptTrust
from pantry.trust.names import read_names
from tests.commands.larkfield import CHEF

NAMES = read_names("pantry.home.arpa, 127.0.0.1")
PATIENCE = 20


PRESENT = datetime.now(UTC)  # noqa: TID251 - OpenSSL believes by the machine's clock
MONTHS = timedelta(days=300)


class Clock:
    """Which a test moves on: it begins ten months ago, so that what was made then is good yet."""

    def __init__(self):
        self.now = PRESENT - MONTHS

    def __call__(self):
        return self.now


@pytest.fixture
def clock():
    return Clock()


@pytest.fixture
def encrypted(tmp_path, clock):
    return Encrypted(KeptTrust(tmp_path / "data"), NAMES, clock, looks=timedelta(milliseconds=20))


def trusting(encrypted):
    return ssl.create_default_context(cadata=encrypted.authority.file)


def shown_by(site, encrypted):
    """The certificate that a new connection is shown, which must be believed."""
    with (
        socket.create_connection(("127.0.0.1", site.port), timeout=PATIENCE) as plain,
        trusting(encrypted).wrap_socket(plain, server_hostname="pantry.home.arpa") as greeting,
    ):
        return x509.load_der_x509_certificate(greeting.getpeercert(binary_form=True))


def test_SY12_the_server_speaks_https_and_nothing_else(open_site, encrypted):
    site = open_site(encrypted=encrypted)
    url = f"https://127.0.0.1:{site.port}"
    with httpx.Client(base_url=url, verify=trusting(encrypted), trust_env=False) as client:
        assert client.get("/api/health").json()["status"] == "ok"
        signing = client.post("/api/sign-in", json={})
        assert signing.json()["code"] == "request_unreadable", "a password may travel here"
        headers = {"cookie": f"__Host-chooseby={site.token(CHEF)}", "origin": url}
        assert client.post("/api/commands", json=[], headers=headers).json() == []
        headers["origin"] = url.replace("https", "http")
        assert client.post("/api/commands", json=[], headers=headers).status_code == 403
        assert "strict-transport-security" not in client.get("/").headers, "a page is at http"
    with pytest.raises(httpx.TransportError):
        site.nobody.get("/api/health")


def test_SY12_a_new_certificate_is_shown_without_a_restart_and_no_connection_ends(
    open_site, encrypted, clock
):
    site = open_site(encrypted=encrypted)
    first = shown_by(site, encrypted)
    url = f"https://127.0.0.1:{site.port}"
    with (
        httpx.Client(base_url=url, verify=trusting(encrypted), trust_env=False) as client,
        client.stream("GET", "/api/news", headers=_bearer(site)) as news,
    ):
        lines = news.iter_lines()
        next(lines)
        clock.now += timedelta(days=200)
        assert shown_by(site, encrypted) == first
        clock.now = PRESENT
        ends = time.monotonic() + PATIENCE
        while shown_by(site, encrypted) == first:
            assert time.monotonic() < ends, "no new certificate was shown"
        site.served.news.ring()
        assert next(lines) is not None, "the connection that stood goes on"


def _bearer(site):
    return {"authorization": f"Bearer {site.token(CHEF)}"}


def test_SY12_the_server_stops_though_a_phone_that_is_away_does_not_say_goodbye(
    open_site, encrypted
):
    """The other side of TLS confirms the end (RFC 8446, section 6.1); asyncio waits 30 s for it."""
    site = open_site(encrypted=encrypted)
    url = f"https://127.0.0.1:{site.port}"
    with httpx.Client(verify=trusting(encrypted), trust_env=False) as away:
        away.get(f"{url}/api/health")
        began = time.monotonic()
        site.stop()
        assert time.monotonic() - began < 15


def test_SY12_what_cannot_be_renewed_is_said_and_tried_again(open_site, encrypted, caplog):
    site = open_site(encrypted=encrypted)
    key = encrypted._kept.authority_key_file
    key.chmod(0o644)
    ends = time.monotonic() + PATIENCE
    while "cannot be renewed" not in caplog.text:
        assert time.monotonic() < ends
        shown_by(site, encrypted)
    key.chmod(0o600)
    assert shown_by(site, encrypted)


# The page over plain HTTP


@pytest.fixture
def page(encrypted):
    sockets = listening_on("127.0.0.1", 0)
    port = sockets[0].getsockname()[1]
    server = TrustServer(TrustPage(encrypted.names, lambda: encrypted.authority, 8710, port))
    thread = threading.Thread(target=server.run, args=(sockets,))
    thread.start()
    with httpx.Client(base_url=f"http://127.0.0.1:{port}", trust_env=False) as client:
        yield client
    server.should_exit = True
    thread.join()


def test_SY12_the_page_gives_the_root_and_its_fingerprint_but_no_key(page, encrypted):
    answer = page.get("/authority.crt")
    assert answer.headers["content-type"] == "application/x-x509-ca-cert"
    assert x509.load_der_x509_certificate(answer.content) == encrypted.authority.certificate
    text = page.get("/").text
    assert encrypted.authority.fingerprint in text.replace(" ", ":")
    assert "what is called or ends in home.arpa, local, and for the address 127.0.0.1" in text
    assert "https://127.0.0.1:8710/" in text


def test_SY12_nothing_else_is_told_over_plain_http(page):
    for path in ("/api/health", "/api/me", "/trust/authority-key.pem", "/../settings.py", "/check"):
        assert page.get(path).status_code == 404, path
    for method in ("POST", "PUT", "DELETE", "OPTIONS"):
        assert page.request(method, "/").status_code == 405
    assert page.head("/").content == b""
    for path in ("/", "/look.css", "/house.svg"):
        headers = page.get(path).headers
        assert "set-cookie" not in headers
        assert headers["content-security-policy"].startswith("default-src 'none'; style-src 'self'")


@pytest.mark.parametrize(
    ("host", "named"),
    [
        ("127.0.0.1", "127.0.0.1"),
        ("PANTRY.home.arpa", "pantry.home.arpa"),
        ("evil.example", "pantry.home.arpa"),
        ('"><script>', "pantry.home.arpa"),
    ],
)
def test_SY12_the_page_names_the_house_as_it_was_asked_and_never_as_a_stranger_says(
    page, host, named
):
    text = page.get("/", headers={"host": f"{host}:{page.base_url.port}"}).text
    assert f'href="https://{named}:8710/"' in text
    assert "evil" not in text


@pytest.mark.parametrize("path", ["/house.svg", "/this-page.svg"])
def test_SY12_the_codes_lead_to_the_house_and_to_the_page(page, path):
    """The drawing is that of the code which an independent reader reads as this address."""
    port = page.base_url.port
    address = "https://127.0.0.1:8710/" if path == "/house.svg" else f"http://127.0.0.1:{port}/"
    code = make_qr(address, error="m")
    picture, drawn = io.BytesIO(), io.BytesIO()
    code.save(picture, kind="png", scale=8, border=4)
    assert zxingcpp.read_barcode(Image.open(picture)).text == address
    code.save(drawn, kind="svg", border=4, dark="#000", light="#fff", omitsize=True)
    assert page.get(path).content == drawn.getvalue()


def test_SY12_another_authority_is_shown_by_the_server_that_runs(page, open_site, encrypted, clock):
    """`chooseby trust --anew` is another process: the server and the page take up what it made."""
    site = open_site(encrypted=encrypted)
    before = page.get("/authority.crt").content
    encrypted._kept.make_authority_anew(NAMES, clock())
    ends = time.monotonic() + PATIENCE
    while page.get("/authority.crt").content == before:
        assert time.monotonic() < ends, "the authority of before is still there"
    assert shown_by(site, encrypted), "and what it shows is believed by who trusts the new one"
