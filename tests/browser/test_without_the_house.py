"""The program and what the house said, on a phone that the house does not answer."""

import gzip
import hashlib
import shutil
from datetime import timedelta
from urllib.parse import urlsplit

import pytest
from playwright.sync_api import Page, expect

from pantry.http.client import BUILT
from tests.browser.builds import copied, listed, name_of, rename
from tests.browser.offline import cold, until_whole
from tests.browser.scanners import scan
from tests.browser.servers import Served
from tests.browser.test_porter_goods_in import CRATE, carton, stock, today_of

MOST = 40_000
"""Bytes, packed by gzip, of all that is loaded before a porter's first screen stands."""

PORTERS = {
    "/goods-in": ("Goods in", "Tolsaig Creamery"),
    "/shelf": ("Shelf", "Cold room"),
    "/shelf/item/whole-milk": ("Whole milk", "B-0"),
    "/round": ("Temperatures", "Cold room"),
    "/more": ("More", "Morning sheet"),
    "/counts": ("Counts", "Fish drawer"),
    "/morning": ("Morning sheet", "Orange juice"),
    "/days": ("The next days", "Tolsaig Creamery"),
    "/questions": ("Questions", "The books agree"),
    "/check": ("What this device can do", "without"),
}
"""A porter's screens by their addresses: the heading, and something that the house has said."""


def silent(page: Page) -> None:
    stands = page.get_by_role("status").filter(has_text="no answer from the house since")
    expect(stands.first).to_be_visible()


def test_SY9_every_screen_of_a_porter_opens_cold_while_the_house_is_silent(opened, house, clean):
    page = opened.as_role(house, "porter", keeps=True)
    until_whole(page)
    house.kill()
    for path, (heading, told) in PORTERS.items():
        page = cold(page, path)
        expect(page.get_by_role("heading", name=heading, level=1)).to_be_visible()
        expect(page.locator("main")).to_contain_text(told)
        silent(page)
        clean(page)
    page = cold(page, "/goods-in")
    expect(page.get_by_text("as kept on this device")).to_be_visible()
    page.get_by_role("link", name="Tolsaig Creamery").first.click()
    page.get_by_role("list", name="What was ordered").get_by_role("link").first.click()
    expect(page.get_by_label("Lot, as on the pack")).to_be_visible()
    house.begin()
    expect(page.get_by_text("online")).to_be_visible()


@pytest.fixture
def renewed_house(demo_folder, tmp_path, opened):
    """A house whose client a test may change."""
    data = tmp_path / "house"
    shutil.copytree(demo_folder, data)
    served = Served(data)
    served.client = copied(tmp_path / "client")
    try:
        served.begin()
        yield served
        opened.leave()
    finally:
        served.end()


def build_of(page: Page) -> str | None:
    return page.locator('meta[name="build"]').get_attribute("content")


def test_a_newer_build_is_taken_with_one_key_and_nothing_that_was_recorded_or_half_filled_is_lost(
    opened, renewed_house, clean
):
    page = opened.enrolled(renewed_house)
    until_whole(page)
    page.context.route("**/api/exchange", lambda route: route.abort())
    page.get_by_role("link", name="Tolsaig Creamery").first.click()
    scan(page, carton(CRATE, today_of(renewed_house) + timedelta(days=20), "L71"))
    page.get_by_role("button", name="Accept").first.click()
    expect(page.get_by_role("link", name="1 record waits since")).to_be_visible()
    page.get_by_role("list", name="What was ordered").get_by_role("link").last.click()
    page.get_by_label("Lot, as on the pack").fill("L 4711")
    line = page.url
    before = name_of(renewed_house.client)
    rename(renewed_house.client, "another-build")
    page.evaluate("navigator.serviceWorker.getRegistration('/').then((it) => it.update())")
    page.evaluate(
        """async () => {
            const standing = await navigator.serviceWorker.getRegistration("/");
            while (!standing.waiting) await new Promise((done) => setTimeout(done, 50));
        }"""
    )
    key = page.get_by_role("button", name="Take the newer version")
    expect(key).to_have_count(0)
    page.get_by_role("link", name="Leave it for now").click()
    expect(key).to_be_visible()
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    clean(page)
    assert build_of(page) == before
    key.click()
    expect(page.locator('meta[name="build"][content="another-build"]')).to_have_count(1)
    expect(page.get_by_role("navigation", name="Doors")).to_be_visible()
    expect(key).to_have_count(0)
    # what was recorded with the older build is handed in by the newer one, and is there once
    page.get_by_role("link", name="1 record waits since").click()
    page.context.unroute("**/api/exchange")
    page.get_by_role("button", name="Send now").click()
    expect(page.get_by_text("Nothing waits. The house has all of it.")).to_be_visible()
    assert [row["lot"] for row in stock(page, "Whole milk")].count("L71") == 1
    page.goto(line)
    expect(page.get_by_label("Lot, as on the pack")).to_have_value("L 4711")
    renewed_house.kill()
    page = cold(page, "/shelf")
    expect(page.get_by_role("heading", name="Shelf", level=1)).to_be_visible()
    assert build_of(page) == "another-build"


def test_a_porters_first_screen_is_small_and_asks_nobody_but_the_house(opened, shared_house):
    page = opened.as_role(shared_house, "porter", keeps=True)
    loaded, asked = [], []
    page.context.on("request", lambda request: loaded.append(request.url))
    page.on("request", lambda request: asked.append(request.url))
    page.goto("/goods-in")
    expect(page.get_by_role("link", name="Tolsaig Creamery")).to_be_visible()
    stood = {urlsplit(url).path for url in asked}
    until_whole(page)
    assert {urlsplit(url).netloc for url in loaded} == {urlsplit(shared_house.url).netloc}
    assets = [BUILT / path.lstrip("/") for path in stood if path.startswith("/assets/")]
    files = [BUILT / "index.html", *assets]
    sizes = {file.name: len(gzip.compress(file.read_bytes(), 9)) for file in files}
    assert sum(sizes.values()) <= MOST, sizes


def test_the_workers_list_is_of_every_file_as_it_was_built():
    files = {f"/{path.relative_to(BUILT)}": path for path in BUILT.rglob("*") if path.is_file()}
    del files["/sw.js"]
    hashes = {name: hashlib.sha256(path.read_bytes()).hexdigest() for name, path in files.items()}
    assert listed(BUILT) == hashes
