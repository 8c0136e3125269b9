"""SY12: what a browser gives where it trusts the house, and what where somebody clicked past."""

import re
import shutil
import subprocess
from contextlib import contextmanager

import httpx
import pytest
from playwright.sync_api import expect

from tests.browser.conftest import FLAGS, chromium_here
from tests.browser.servers import Served, free_port

NAME = "pantry.home.arpa"


class Encrypted(Served):
    """A house over HTTPS by its own authority, with the page on which it comes to be trusted."""

    def __init__(self, data) -> None:
        trust_port = free_port()
        super().__init__(data, CHOOSEBY_HTTPS_NAMES=NAME, CHOOSEBY_TRUST_PORT=str(trust_port))
        self.here = self.url.replace("http:", "https:")
        self.url = self.here.replace("localhost", NAME)
        self.page = f"http://{NAME}:{trust_port}/"

    def _answers(self) -> bool:
        return httpx.get(f"{self.here}/api/health", verify=False).is_success  # noqa: S501 - is it up


@pytest.fixture
def house(tmp_path):
    """An empty house: who is not signed in may look at the device, too."""
    data = tmp_path / "house"
    data.mkdir()
    served = Encrypted(data)
    served.begin()
    yield served
    served.end()


@pytest.fixture
def browser_of(chromium, tmp_path):
    """Ways to start a browser in a home of its own, which trusts the given root or nobody."""

    @contextmanager
    def start(root=None):
        home = tmp_path / "home"
        store = home / ".pki" / "nssdb"
        store.mkdir(parents=True)
        if root:
            certutil = shutil.which("certutil")
            assert certutil, "certutil is missing: run `make browser`"
            at = ["-d", f"sql:{store}"]
            subprocess.run([certutil, "-N", *at, "--empty-password"], check=True)
            taken = [certutil, "-A", *at, "-n", "house", "-t", "C,,", "-i", root]
            subprocess.run(taken, check=True)
        browser = chromium.browser_type.launch(
            executable_path=chromium_here(),
            args=[*FLAGS, f"--host-resolver-rules=MAP {NAME} 127.0.0.1"],
            env={"HOME": str(home), "PATH": "/usr/bin:/bin"},
        )
        try:
            yield browser
        finally:
            browser.close()

    return start


def line(page, what):
    return page.get_by_role("listitem").filter(has_text=what)


TRIALS = """async () => (await navigator.serviceWorker.getRegistrations())
    .map((each) => each.scope).filter((scope) => scope.includes("trial"))"""


def test_SY12_a_browser_that_trusts_the_house_gives_camera_and_work_without_signal(
    house, browser_of, clean
):
    root = house.data / "trust" / "authority.pem"
    with browser_of(root) as browser:
        page = browser.new_page(viewport={"width": 360, "height": 740}, locale="en-GB")
        complaints = []
        page.on("pageerror", lambda error: complaints.append(str(error)))
        page.goto(house.page)
        for summary in page.locator("summary").all():
            summary.click()
        clean(page)
        page.set_viewport_size({"width": 320, "height": 640})
        assert page.evaluate("document.documentElement.scrollWidth") <= 320
        with page.expect_download() as taken:
            page.get_by_role("link", name="Download the certificate").click()
        assert taken.value.suggested_filename == f"chooseby-{NAME}.crt"
        page.get_by_role("link", name="check of this device").click()
        expect(page).to_have_url(f"{house.url}/check")
        expect(page.get_by_text("can scan, and can work without signal")).to_be_visible()
        for what in ("Encrypted address", "Camera", "Work without signal", "Several windows"):
            expect(line(page, what)).to_contain_text("good")
        assert page.evaluate(TRIALS) == []
        clean(page)
        page.get_by_role("link", name="To the house").click()
        expect(page).to_have_url(re.compile("/$"))
        assert complaints == []


def test_SY12_a_certificate_that_was_clicked_past_is_told_from_a_trusted_one(house, browser_of):
    """Everything looks fine there: encrypted, with a camera."""
    with browser_of() as browser:
        page = browser.new_page(ignore_https_errors=True, locale="en-GB")
        page.goto(f"{house.url}/check")
        expect(page.get_by_text("it will not work without signal")).to_be_visible()
        expect(line(page, "Encrypted address")).to_contain_text("good")
        expect(line(page, "Camera")).to_contain_text("good")
        without = line(page, "Work without signal")
        expect(without).to_contain_text("not possible")
        expect(without).to_contain_text("does not trust the house's certificate")
        assert page.evaluate(TRIALS) == []
