"""The real browser against the real server on the demo house.

The house is founded once a worker; every test that changes something gets a copy and a server of
its own, so that tests may run in any order. A demo house's clock began at seven in its morning.
"""

import shutil
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import (
    Browser,
    BrowserContext,
    Page,
    Playwright,
    expect,
    sync_playwright,
)

from pantry.access import passwords
from pantry.records.database import open_database, writing
from pantry.records.rows import every
from pantry.records.tables import PersonRow
from pantry.world import now
from tests.browser.servers import HASHER, Served, begun, serving
from tests.browser.videos import flags

WEB = Path(__file__).parents[2] / "web"

PASSWORD = "kelp lantern ferry"
"""Everybody's, in the house of a test."""

PIN = "4831"
"""Everybody's, on a phone of the house of a test."""

PHONE_NAME = "Back door phone"

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

PATIENCE = 60_000
"""Milliseconds: a machine that is loaded, or stood still for a while, is slow and not wrong."""

expect.set_options(timeout=PATIENCE)

PHONE = {"width": 360, "height": 740}
DESK = {"width": 1280, "height": 800}

NAMES = ("chromium", "chromium-browser", "google-chrome", "google-chrome-stable")


def chromium_here() -> str:
    found = next((path for name in NAMES if (path := shutil.which(name))), None)
    assert found, "Chromium is missing: run `make browser`"
    return found


@pytest.fixture(scope="session")
def demo_folder(tmp_path_factory) -> Path:
    """The demo house, founded, with a password for everybody; nobody changes it."""
    return found_demo(tmp_path_factory.mktemp("demo"))


def found_demo(data: Path) -> Path:
    """Found the demo house in a folder, with a password for everybody."""
    log = data / "demo.log"
    founding = begun(["demo", "--json"], {"CHOOSEBY_DATA": str(data)}, log)
    founding.join()
    assert founding.exitcode == 0, log.read_text()
    engine = open_database(f"sqlite:///{data / 'chooseby.db'}")
    known = HASHER.hash(PASSWORD)
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
def house(demo_folder, tmp_path, opened) -> Iterator[Served]:
    """A house and a server of the test's own, which it may kill and begin again."""
    data = tmp_path / "house"
    shutil.copytree(demo_folder, data)
    with serving(data) as served:
        yield served
        opened.leave()


@pytest.fixture(scope="session")
def play() -> Iterator[Playwright]:
    """What drives browsers."""
    with sync_playwright() as started:
        yield started


@pytest.fixture(scope="session")
def chromium(play) -> Iterator[Browser]:
    """The system's Chromium."""
    browser = play.chromium.launch(executable_path=chromium_here(), args=FLAGS)
    yield browser
    browser.close()


@pytest.fixture
def seeing(play) -> Iterator[Callable[[Path], "Opened"]]:
    """Opens pages as `opened` does, in a browser whose camera sees this video."""
    started: list[tuple[Browser, Opened]] = []

    def see(video: Path) -> Opened:
        browser = play.chromium.launch(
            executable_path=chromium_here(), args=[*FLAGS, *flags(video)]
        )
        made = Opened(browser)
        started.append((browser, made))
        return made

    yield see
    for browser, made in started:
        made.close()
        browser.close()


@pytest.fixture
def opened(chromium) -> Iterator["Opened"]:
    """Opens pages, and looks at the end whether any of them complained."""
    made = Opened(chromium)
    yield made
    made.close()


NO_WORKER = """if (navigator.serviceWorker) {
    const workers = navigator.serviceWorker, register = workers.register.bind(workers);
    workers.register = (script, ...how) => script === "/sw.js"
        ? Promise.reject(new Error("none in this test")) : register(script, ...how);
}"""
"""Whether a worker could be there is told as ever."""


class Opened:
    """Pages of one test; what a page writes on its console as an error fails the test."""

    def __init__(self, browser: Browser) -> None:
        self._browser = browser
        self._contexts: list[BrowserContext] = []
        self.complaints: list[str] = []

    def page(
        self, served: Served, *, phone: bool = True, dark: bool = False, keeps: bool = False
    ) -> Page:
        """A page of a browser of its own, on a phone or at a desk.

        Only one that `keeps` the program has all of it brought by a worker, a second after the
        first screen; a test that does not go on without the house has no use for it.
        """
        size = PHONE if phone else DESK
        context = self._browser.new_context(
            base_url=served.url,
            viewport=size,
            has_touch=phone,
            color_scheme="dark" if dark else "light",
            locale="en-GB",
            reduced_motion="reduce",
        )
        context.set_default_timeout(PATIENCE)
        if not keeps:
            context.add_init_script(NO_WORKER)
        self._contexts.append(context)
        page = context.new_page()
        page.on("pageerror", lambda error: self.complaints.append(str(error)))
        page.on("console", self._heard)
        return page

    def _heard(self, message) -> None:
        # a refusal is an answer; the browser calls it an error
        if message.type == "error" and "Failed to load resource" not in message.text:
            self.complaints.append(message.text)

    def as_role(self, served: Served, role: str, at: str = "/", **how: bool) -> Page:
        """A page on which somebody of a role is signed in and sees the room at that address.

        They came in over the wire; what the door looks like is shown by the tests of the entry.
        """
        page = self.page(served, **how)
        given = {"name": PEOPLE[role], "password": PASSWORD}
        headers = {"origin": served.url}
        answer = page.request.post("/api/sign-in", data=given, headers=headers, max_retries=3)
        assert answer.ok, answer.text()
        page.goto(at)
        expect(page.get_by_role("navigation", name="Doors")).to_be_visible()
        return page

    def enrolled(self, served: Served, role: str = "porter", name: str = PHONE_NAME) -> Page:
        """A phone of the house on which somebody of a role came in by PIN, and sees their front.

        A manager's own browser makes the code; the phone takes it up and the PIN is chosen over
        the wire. What that looks like on the screens is shown by the tests of the phones.
        """
        return enrol(self.page(served), self.page(served, keeps=True), role, name)

    def leave(self) -> None:
        """Close every page, as long as its house still stands and it has nothing to complain of."""
        while self._contexts:
            self._contexts.pop().close()

    def close(self) -> None:
        self.leave()
        assert self.complaints == []


def through_the_door(page: Page, role: str) -> None:
    """Sign in on the screen, as people do."""
    page.goto("/")
    page.get_by_label("Your name").fill(PEOPLE[role])
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Come in").click()
    expect(page.get_by_role("navigation", name="Doors")).to_be_visible()


def enrol(manager: Page, phone: Page, role: str, name: str = PHONE_NAME) -> Page:
    """Enrol the phone by a code that the manager's page makes, and come in by PIN."""
    manager.goto("/api/health")
    _posts(manager, "/api/sign-in", name=PEOPLE["manager"], password=PASSWORD)
    code = _posts(manager, "/api/device-codes", name=name)["code"]
    _posts(manager, "/api/sign-out")
    manager.close()
    phone.goto("/api/health")
    _posts(phone, "/api/devices/enrol", code=code)
    _posts(phone, "/api/pin/set", person=PEOPLE[role], pin=PIN, password=PASSWORD)
    _posts(phone, "/api/sign-out")
    phone.goto("/")
    phone.get_by_role("button", name=PEOPLE[role]).click()
    expect(phone.get_by_role("heading", name=f"{PEOPLE[role]}, your PIN")).to_be_visible()
    for figure in PIN:
        phone.get_by_role("button", name=figure, exact=True).click()
    phone.get_by_role("button", name="Come in", exact=True).click()
    expect(phone.get_by_role("navigation", name="Doors")).to_be_visible()
    return phone


_POST = """async ([path, body]) => {
    const headers = {"content-type": "application/json"};
    const reply = await fetch(path, {method: "POST", headers, body: JSON.stringify(body)});
    const said = reply.status === 204 ? null : await reply.json();
    if (!reply.ok) throw new Error(`${path}: ${JSON.stringify(said)}`);
    return said;
}"""


def _posts(page: Page, path: str, **body: str) -> dict[str, Any]:
    """What the house answers to a page that asks it by itself."""
    answer: dict[str, Any] = page.evaluate(_POST, [path, body])
    return answer


@pytest.fixture
def enrolled(opened, house) -> Page:
    """A phone of the `house` on which the porter came in by PIN."""
    return opened.enrolled(house)


@pytest.fixture(scope="session")
def axe_source() -> str:
    """axe-core, as the client's lock file names it."""
    return (WEB / "node_modules" / "axe-core" / "axe.min.js").read_text(encoding="utf-8")


AXE = """only => axe.run(document, {
    ...(only ? {runOnly: {type: "rule", values: [only]}} : {
        runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"],
        rules: {"target-size": {enabled: true}},
    }),
    resultTypes: ["violations"],
})"""
"""What is not wrong is told by one example a rule: finding a name for each place takes long."""


@pytest.fixture
def clean(axe_source):
    """Looks whether a screen is accessible: WCAG 2.2 AA by axe-core, the size of targets too.

    It looks on a phone and at a desk, light and dark, and leaves the page as it was: a test walks
    through its screens once. Nothing may need scrolling sideways.
    """

    def look(page: Page) -> None:
        before = page.viewport_size
        page.evaluate(axe_source)
        for size in (PHONE, DESK):
            page.set_viewport_size(size)
            # what lies half under a bar would be taken for too small a target
            tall = page.evaluate("document.documentElement.scrollHeight")
            page.set_viewport_size(size | {"height": max(tall, size["height"])})
            for scheme in ("light", "dark"):
                page.emulate_media(color_scheme=scheme, reduced_motion="reduce")
                found = page.evaluate(AXE, "color-contrast" if scheme == "dark" else None)
                told = [
                    f"{each['id']}: {each['help']}: "
                    f"{[node['html'][:200] for node in each['nodes'][:3]]}"
                    for each in found["violations"]
                ]
                assert told == [], (size, scheme)
                assert found["passes"], "axe looked at nothing"
            wide = page.evaluate("document.documentElement.scrollWidth - innerWidth")
            assert wide <= 0, f"{wide} px have to be scrolled to sideways at {size}"
        page.set_viewport_size(before)
        page.emulate_media(color_scheme="light", reduced_motion="reduce")
        draws(page)

    return look


DRAWS = """patience => new Promise(done => {
    requestAnimationFrame(() => requestAnimationFrame(() => done(true)));
    setTimeout(() => done(false), patience);
})"""


def draws(page: Page) -> None:
    """Have a page draw itself after its size was changed: nothing can be clicked before it did.

    Once a page answered what it was asked, but was not drawn for as long as the test waited. Only
    one that does not draw itself after a further change of its size, either, fails a test.
    """
    if not page.evaluate(DRAWS, 5_000):
        size = page.viewport_size
        page.set_viewport_size(size | {"height": size["height"] + 1})
        page.set_viewport_size(size)
        assert page.evaluate(DRAWS, PATIENCE), "the page draws nothing"
