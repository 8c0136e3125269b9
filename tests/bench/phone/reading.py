"""From the video's start to the accept screen, beside the bare reader on the same pictures.

The bare reader is the worker alone: what it tells the page is heard before the program hears it.
So both sides are of the same pictures in the same run, and what lies between them is the program's,
the wait for the next picture that the browser draws included.
Each round opens the program anew, since the first code of a visit is the one that waits longest.
"""

from datetime import timedelta
from pathlib import Path
from statistics import median
from typing import NamedTuple

from playwright.sync_api import Browser, Page, expect

from tests.browser.conftest import PHONE, enrol
from tests.browser.offline import until_whole
from tests.browser.servers import Served
from tests.browser.test_porter_goods_in import CRATE, delivery, today_of
from tests.browser.videos import labels
from tests.printed import gs1_datamatrix

_NOTES = """(() => {
    window.noted = { begun: null, read: null, stood: null };
    const note = (what) => { window.noted[what] ??= performance.now(); };
    document.addEventListener("playing", () => note("begun"), { capture: true });
    const Bare = window.Worker;
    window.Worker = class extends Bare {
        constructor(...how) {
            super(...how);
            this.addEventListener("message", ({ data }) => {
                if (data?.seen?.length > 0) note("read");
            });
        }
    };
    new MutationObserver(() => {
        const key = document.querySelector('button[form="line"]');
        if (key?.innerText.startsWith("Accept") && window.noted.stood === null) {
            const drawn = new MessageChannel();
            drawn.port1.onmessage = () => note("stood");
            requestAnimationFrame(() => drawn.port2.postMessage(null));
        }
    }).observe(document, { childList: true, subtree: true });
})();"""
"""Notes when the video plays, when the reader told of a code, when the accept screen is drawn.

A message that is sent while a picture is prepared is heard once the page has drawn it; what the
screen itself then takes to show it is in neither side.
"""


class Reads(NamedTuple):
    """Seconds from the video's start, one value a round."""

    bare: list[float]
    accept: list[float]

    @property
    def between(self) -> float:
        """What the program adds, in seconds."""
        return median(after - before for before, after in zip(self.bare, self.accept, strict=True))


def video_of(house: Served, path: Path) -> Path:
    """A carton's label that lies before the camera all the time."""
    day = today_of(house) + timedelta(days=9)
    return labels(path, [gs1_datamatrix(f"(01){CRATE}(17){day:%y%m%d}(10)R1")], between=0)


def reads(browser: Browser, house: Served, rounds: int) -> Reads:
    """So many visits of the camera, in a browser whose camera sees that video."""
    desk = browser.new_context(base_url=house.url)
    context = browser.new_context(base_url=house.url, viewport=PHONE, has_touch=True)
    context.add_init_script(_NOTES)
    page = enrol(desk.new_page(), context.new_page(), "porter")
    until_whole(page)
    found = Reads([], [])
    for _ in range(rounds):
        bare, accept = _visit(page)
        found.bare.append(bare)
        found.accept.append(accept)
    desk.close()
    context.close()
    return found


def _visit(page: Page) -> tuple[float, float]:
    page.goto("/goods-in")
    delivery(page)
    page.get_by_role("button", name="Open the camera").click()
    expect(page.get_by_role("button", name="Accept 1 x crate of 6 x 2 l")).to_be_visible()
    noted = page.evaluate("window.noted")
    return (
        (noted["read"] - noted["begun"]) / 1000,
        (noted["stood"] - noted["begun"]) / 1000,
    )
