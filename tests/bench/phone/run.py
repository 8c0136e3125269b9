"""Measure what a porter waits for on a phone, and write it into the guide.

    python -m tests.bench.phone.run          writes the table of the guide, and JSON
    python -m tests.bench.phone.run --quick  a few times; the guide is left alone

A desk's Chromium in the size of a phone, its processor slowed down: no phone is measured here.
"""

import argparse
import json
import shutil
import sys
import tempfile
from pathlib import Path
from statistics import median
from typing import NamedTuple

from playwright.sync_api import Browser, Page, Playwright, expect, sync_playwright

from tests.bench.phone.reading import Reads, reads, video_of
from tests.bench.phone.saving import Taps, taps
from tests.browser.conftest import FLAGS, PASSWORD, PEOPLE, PHONE, enrol, found_demo
from tests.browser.offline import until_whole
from tests.browser.servers import Served
from tests.browser.videos import flags

_BENCH = Path(__file__).resolve().parents[1]
_ROOT = _BENCH.parents[1]
sys.path.append(str(_BENCH))

import figures  # noqa: E402 - the bench's own modules are found by their folder
from machine import machine, today, versions  # noqa: E402 - as above

SLOWER = 4
"""Times as slow as this machine, as developers' tools of browsers do it."""

STARTS = 9
TURNS = 40
"""Taps with the house, and as many without it."""

VISITS = 15
"""Of the camera, each in the program opened anew."""

_STANDS = """new MutationObserver((_, watching) => {
    if (!document.querySelector('main a[href^="/goods-in/"]')) return;
    requestAnimationFrame(() => { window.stoodAfter = performance.now(); });
    watching.disconnect();
}).observe(document, { childList: true, subtree: true });"""
"""Notes when the first delivery stands, in milliseconds since the page was asked for."""


class Measured(NamedTuple):
    """What was measured, in seconds, one value a round."""

    what: str
    seconds: list[float]


def _porter(browser: Browser, house: Served) -> Page:
    context = browser.new_context(base_url=house.url, viewport=PHONE, has_touch=True)
    page = context.new_page()
    page.goto("/")
    page.get_by_label("Your name").fill(PEOPLE["porter"])
    page.get_by_label("Password").fill(PASSWORD)
    page.get_by_role("button", name="Come in").click()
    expect(page.get_by_role("navigation", name="Doors")).to_be_visible()
    until_whole(page)
    return page


def cold_start(browser: Browser, house: Served, starts: int) -> Measured:
    """From opening the program to the deliveries of the day, while the house is silent."""
    page = _porter(browser, house)
    house.kill()
    context = page.context
    page.close()
    seconds = []
    for _ in range(starts):
        page = context.new_page()
        slowed = context.new_cdp_session(page)
        slowed.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
        page.add_init_script(_STANDS)
        page.goto("/goods-in")
        expect(page.locator('main a[href^="/goods-in/"]').first).to_be_visible()
        seconds.append(page.evaluate("window.stoodAfter") / 1000)
        page.close()
    context.close()
    return Measured("cold start without the house", seconds)


def saving(browser: Browser, house: Served, turns: int) -> Taps:
    """From the tap to what says that it is saved, on a phone that was enrolled."""
    desk = browser.new_context(base_url=house.url)
    context = browser.new_context(base_url=house.url, viewport=PHONE, has_touch=True)
    page = enrol(desk.new_page(), context.new_page(), "porter")
    until_whole(page)
    slowed = context.new_cdp_session(page)
    slowed.send("Emulation.setCPUThrottlingRate", {"rate": SLOWER})
    found = taps(page, house, turns)
    desk.close()
    context.close()
    return found


class Found(NamedTuple):
    """Everything that is measured on a phone."""

    start: Measured
    taps: Taps
    reads: Reads


def reading(play: Playwright, house: Served, folder: Path, visits: int) -> Reads:
    """By a camera that sees one label, and nothing slowed down: a reader is no worker's screen."""
    seen = flags(video_of(house, folder / "label.y4m"))
    browser = play.chromium.launch(executable_path=shutil.which("chromium"), args=[*FLAGS, *seen])
    found = reads(browser, house, visits)
    browser.close()
    return found


def measure(folder: Path, starts: int, turns: int, visits: int) -> Found:
    """Everything, on the demo house; the start last, since it stops the house."""
    house = Served(found_demo(folder))
    try:
        house.begin()
        with sync_playwright() as play:
            browser = play.chromium.launch(executable_path=shutil.which("chromium"), args=FLAGS)
            seen = reading(play, house, folder, visits)
            tapped = saving(browser, house, turns)
            return Found(cold_start(browser, house, starts), tapped, seen)
    finally:
        house.end()


def table(found: Found) -> str:
    """The table of the guide."""
    heading = "| what | seconds | slowest | times |\n| --- | --- | --- | --- |\n"
    measured = (
        found.start,
        Measured("from the tap to *accepted*, with the house", found.taps.on),
        Measured("from the tap to *accepted*, without the house", found.taps.off),
        Measured("from the video's start to the reader's word, bare", found.reads.bare),
        Measured("from the video's start to the accept screen", found.reads.accept),
    )
    rows = [
        f"| {what} | {median(seconds):.3g} | {max(seconds):.3g} | {len(seconds)} |\n"
        for what, seconds in measured
    ]
    times = (
        f"\nWithout the house over with it: {found.taps.ratio:.2f} times as long. From the reader's"
        f" word to the accept screen: {found.reads.between * 1000:.0f} ms.\n"
    )
    return heading + "".join(rows) + times


def main() -> None:
    """Measure and write."""
    asked = argparse.ArgumentParser(description="What a porter waits for on a phone.")
    asked.add_argument("--quick", action="store_true", help="a few times; the guide is left alone")
    given = asked.parse_args()
    results = _ROOT / "bench-results"
    results.mkdir(exist_ok=True)
    with tempfile.TemporaryDirectory(dir=results) as folder:
        found = measure(Path(folder), *((1, 2, 2) if given.quick else (STARTS, TURNS, VISITS)))
        here = machine(Path(folder)) | {"measured_at": today(), "processor_slowed": SLOWER}
    told = {"schema": 1, "machine": here, "versions": versions()}
    told["phone"] = [found.start._asdict()]
    told["reading"] = found.reads._asdict() | {"between": found.reads.between}
    told["saving"] = found.taps._asdict() | {"off_over_on": found.taps.ratio}
    file = results / f"phone-{here['measured_at'].replace(':', '')}.json"
    file.write_text(json.dumps(told, indent=1) + "\n", encoding="utf-8")
    if not given.quick:
        figures.write(_ROOT / "pantry" / "guide" / "figures.md", {"phone": table(found)})
    print(table(found))


if __name__ == "__main__":
    main()
