"""The real browser against the real server on the demo house.

The house is founded once a worker; every test that changes something gets a copy and a server of
its own, so that tests may run in any order. A demo house's clock began at seven in its morning.
"""

import contextlib
import os
import shutil
import socket
import subprocess
import sys
import time
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

import httpx
import pytest
from playwright.sync_api import Browser, BrowserContext, Page, expect, sync_playwright

from pantry.access import passwords
from pantry.records.database import open_database, writing
from pantry.records.rows import every
from pantry.records.tables import PersonRow
from pantry.world import now

WEB = Path(__file__).parents[2] / "web"

CHOOSEBY = Path(sys.executable).with_name("chooseby")

PASSWORD = "kelp lantern ferry"
"""Everybody's, in the house of a test."""

PEOPLE = {
    "porter": "Calum Whin",
    "chef": "Rhona Abercairn",
    "manager": "Isobel Strang",
    "approver": "Helena Corvane",
}

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]

# a loaded machine is slow and not wrong: what a test waits for may take its time
expect.set_options(timeout=20_000)

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")


def _chromium() -> str:
    found = next((path for name in NAMES if (path := shutil.which(name))), None)
    assert found, "Chromium is missing: run `make browser`"
    return found


@dataclass(frozen=True)
class Served:
    """A server that runs."""

    url: str
    data: Path


def _free_port() -> int:
    with socket.socket() as asked:
        asked.bind(("127.0.0.1", 0))
        return asked.getsockname()[1]


@contextlib.contextmanager
def serving(data: Path, **more: str) -> Iterator[Served]:
    """The server of a data folder, until the test is done with it."""
    port = _free_port()
    environment = os.environ | {
        "CHOOSEBY_DATA": str(data),
        "CHOOSEBY_PORT": str(port),
        "CHOOSEBY_HOST": "127.0.0.1",
        **more,
    }
    environment.pop("CHOOSEBY_DATABASE_URL", None)
    log = (data / "server.log").open("wb")
    call = [CHOOSEBY, "serve"]
    process = subprocess.Popen(call, env=environment, stdout=log, stderr=subprocess.STDOUT)
    url = f"http://localhost:{port}"
    try:
        _until_it_answers(url, process, data)
        yield Served(url, data)
    finally:
        process.terminate()
        process.wait(timeout=20)
        log.close()


def _until_it_answers(url: str, process: subprocess.Popen[bytes], data: Path) -> None:
    ends = time.monotonic() + 60
    while time.monotonic() < ends:
        with contextlib.suppress(httpx.TransportError):
            if httpx.get(f"{url}/api/health").is_success:
                return
        assert process.poll() is None, (data / "server.log").read_text()
        time.sleep(0.05)
    raise AssertionError((data / "server.log").read_text())


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory) -> Path:
    """The demo house, founded, with a password for everybody; nobody changes it."""
    data = tmp_path_factory.mktemp("demo")
    environment = os.environ | {"CHOOSEBY_DATA": str(data)}
    environment.pop("CHOOSEBY_DATABASE_URL", None)
    call = [CHOOSEBY, "demo", "--json"]
    subprocess.run(call, env=environment, check=True, stdout=subprocess.DEVNULL)
    engine = open_database(f"sqlite:///{data / 'chooseby.db'}")
    known = passwords.hashed(PASSWORD)
    with writing(engine) as connection:
        for person in every(connection, PersonRow):
            passwords.keep(connection, person.house, person.id, known, now())
    engine.dispose()
    return data


@pytest.fixture(scope="session")
def shared_house(demo_folder, tmp_path_factory) -> Iterator[Served]:
    """A server for tests that only look."""
    data = tmp_path_factory.mktemp("shared") / "house"
    shutil.copytree(demo_folder, data)
    with serving(data) as served:
        yield served


@pytest.fixture
def house(demo_folder, tmp_path) -> Iterator[Served]:
    """A house and a server of the test's own."""
    data = tmp_path / "house"
    shutil.copytree(demo_folder, data)
    with serving(data) as served:
        yield served


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    """The system's Chromium."""
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=_chromium(), args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def opened(chromium) -> Iterator["Opened"]:
    """Opens pages, and looks at the end whether any of them complained."""
    made = Opened(chromium)
    yield made
    made.close()


class Opened:
    """Pages of one test; what a page writes on its console as an error fails the test."""

    def __init__(self, browser: Browser) -> None:
        self._browser = browser
        self._contexts: list[BrowserContext] = []
        self.complaints: list[str] = []

    def page(self, served: Served, *, phone: bool = True, dark: bool = False) -> Page:
        """A page of a browser of its own, on a phone or at a desk."""
        size = {"width": 360, "height": 740} if phone else {"width": 1280, "height": 800}
        context = self._browser.new_context(
            base_url=served.url,
            viewport=size,
            has_touch=phone,
            color_scheme="dark" if dark else "light",
            locale="en-GB",
            reduced_motion="reduce",
        )
        context.set_default_timeout(15_000)
        self._contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("console", self._heard)
        return page

    def _heard(self, message) -> None:
        # a refusal is an answer; the browser calls it an error
        if message.type == "error" and "Failed to load resource" not in message.text:
            self.complaints.append(message.text)

    def as_role(self, served: Served, role: str, **how: bool) -> Page:
        """A page on which somebody of a role has signed in, through the door."""
        page = self.page(served, **how)
        page.goto("/")
        page.get_by_label("Your name").fill(PEOPLE[role])
        page.get_by_label("Password").fill(PASSWORD)
        page.get_by_role("button", name="Come in").click()
        expect(page.get_by_role("navigation", name="Doors")).to_be_visible()
        return page

    def close(self) -> None:
        for context in self._contexts:
            context.close()
        assert self.complaints == []


@pytest.fixture(scope="session")
def axe_source() -> str:
    """axe-core, as the client's lock file names it."""
    return (WEB / "node_modules" / "axe-core" / "axe.min.js").read_text(encoding="utf-8")


@pytest.fixture
def clean(axe_source):
    """Looks whether a screen is accessible: WCAG 2.2 AA by axe-core, the size of targets too."""

    def look(page: Page) -> None:
        page.evaluate(axe_source)
        found = page.evaluate(
            """() => axe.run(document, {
                runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
                rules: {"target-size": {enabled: true}},
            })"""
        )
        told = [
            f"{each['id']}: {each['help']}: {[node['html'][:200] for node in each['nodes'][:3]]}"
            for each in found["violations"]
        ]
        assert told == []
        assert len(found["passes"]) > 5, "axe looked at next to nothing"

    return look
