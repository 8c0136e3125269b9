"""From the tap to *accepted* on the screen, with the house and without it, on the same phone.

The line is on the screen and whole; the tap makes the command, saves it through to the disk in one
transaction, and goes back to the delivery, which tells it. Turns alternate, so that what slows the
machine slows both sides. The house's silence is that of a network that is not there.
"""

from datetime import timedelta
from statistics import median
from typing import NamedTuple

from playwright.sync_api import Page, expect

from tests.browser.servers import Served
from tests.browser.test_porter_goods_in import CRATE, carton, today_of

_WATCH = """() => {
    window.savedAfter = null;
    const key = document.querySelector('button[form="line"]');
    key.addEventListener("click", () => {
        const tapped = performance.now();
        new MutationObserver((_, watching) => {
            if (!document.querySelector("main")?.innerText.includes("Whole milk accepted")) return;
            if (document.querySelector("form#line")) return;
            watching.disconnect();
            requestAnimationFrame(() => { window.savedAfter = performance.now() - tapped; });
        }).observe(document, { childList: true, subtree: true });
    }, { once: true, capture: true });
    key.click();
}"""
"""Presses the key, and notes when the screen after it says so, in milliseconds since the tap."""

_SAVED = """async () => {
    const ends = performance.now() + 20000;
    while (window.savedAfter === null) {
        if (performance.now() > ends) throw new Error("nothing was said to be saved");
        await new Promise((done) => setTimeout(done, 20));
    }
    return window.savedAfter;
}"""


class Taps(NamedTuple):
    """Seconds of each tap, with the house and without it."""

    on: list[float]
    off: list[float]

    @property
    def ratio(self) -> float:
        """How many times as long it takes without the house."""
        return median(self.off) / median(self.on)


def taps(page: Page, house: Served, turns: int) -> Taps:
    """So many taps of each side, on a phone of the house on which a porter is in."""
    found = Taps([], [])
    _one(page, house, "W0")
    for turn in range(turns):
        for is_off, seconds in ((False, found.on), (True, found.off)):
            page.context.set_offline(is_off)
            seconds.append(_one(page, house, f"{'F' if is_off else 'N'}{turn}"))
    page.context.set_offline(False)
    return found


def _one(page: Page, house: Served, lot: str) -> float:
    page.get_by_role("link", name="Goods in").click()
    page.get_by_role("link", name="Tolsaig Creamery").first.click()
    code = page.get_by_label("Code or item")
    code.fill(carton(CRATE, today_of(house) + timedelta(days=20), lot))
    code.press("Enter")
    expect(page.get_by_role("heading", name="Whole milk", level=1)).to_be_visible()
    page.evaluate(_WATCH)
    milliseconds: float = page.evaluate(_SAVED)
    return milliseconds / 1000
