"""The porter's camera: a code in front of it opens the line that it means, and it stays open."""

from datetime import timedelta

import pytest
from playwright.sync_api import Page, expect

from tests.browser.test_porter_goods_in import (
    CRATE,
    NOT_OURS,
    YOGHURT,
    delivery,
    today_of,
    words,
)
from tests.browser.videos import labels
from tests.printed import code128, ean13, gs1_128, gs1_datamatrix


def camera(page: Page):
    return page.get_by_role("region", name="Camera")


def open_camera(page: Page) -> None:
    page.get_by_role("button", name="Open the camera").click()
    expect(camera(page)).to_be_visible()


IN_A_HURRY = """(() => {
    const wait = window.setTimeout;
    window.setTimeout = (what, after, ...more) => (after >= 2000 ? 0 : wait(what, after, ...more));
})()"""
"""Nothing is brought ahead of a person who takes their time: this one does not."""

NOTE_WHAT_STANDS_EMPTY = """() => {
    window.stoodEmpty = 0;
    new MutationObserver(() => {
        if (document.querySelector("main[aria-busy]")) window.stoodEmpty += 1;
    }).observe(document, { childList: true, subtree: true });
}"""
"""Counts how often a screen stands there that has not been brought yet."""

LINE_IN_HAND = """() => {
    const isLeft = [...document.querySelectorAll("a")]
        .some(({ textContent }) => textContent.includes("Leave it for now"));
    return isLeft ? document.querySelector("h1").textContent : null;
}"""
"""The item of the line that is open, looked up in one moment: the screen goes on by itself."""


@pytest.mark.parametrize("printed", [gs1_128, gs1_datamatrix])
def test_codes_before_the_camera_open_their_lines_one_after_the_other(
    seeing, house, tmp_path, printed
):
    day = today_of(house) + timedelta(days=9)
    crate = printed(f"(01){CRATE}(17){day:%y%m%d}(10)C71")
    opened = seeing(labels(tmp_path / "delivery.y4m", [crate, ean13(YOGHURT)]))
    page = opened.as_role(house, "porter")
    page.add_init_script(IN_A_HURRY)
    page.goto("/goods-in")
    delivery(page)
    page.evaluate(NOTE_WHAT_STANDS_EMPTY)
    page.get_by_role("button", name="Open the camera").click()
    # the first code may be read, and the camera's screen be gone, before anybody looks for it;
    # the camera looks on: what is before it by then opens at once, so nothing is asked between
    met = set()
    while len(met) < 2:
        leave = page.get_by_role("link", name="Leave it for now")
        expect(leave).to_be_visible()
        item = page.evaluate(LINE_IN_HAND)
        if item is None:
            continue
        met.add(item)
        if item == "Whole milk":
            expect(page.get_by_text(words(day))).to_be_visible()
            expect(page.get_by_label("Lot, as on the pack")).to_have_value("C71")
            expect(page.get_by_role("button", name="Accept 1 x crate of 6 x 2 l")).to_be_visible()
        leave.click()
    assert met == {"Whole milk", "Natural yoghurt"}
    # the camera had brought what a code opens
    assert page.evaluate("stoodEmpty") == 0


def test_a_code_of_nothing_says_so_and_the_camera_looks_on(seeing, shared_house, clean, tmp_path):
    opened = seeing(labels(tmp_path / "nothing.y4m", [ean13(NOT_OURS[1:])], between=0))
    page = opened.as_role(shared_house, "porter")
    page.get_by_role("link", name="Shelf", exact=True).click()
    open_camera(page)
    expect(page.get_by_text("Nothing in this house carries the code")).to_be_visible()
    expect(camera(page).get_by_text("Hold the code in front of it.")).to_be_visible()
    clean(page)


def test_a_label_of_the_house_opens_its_batch(seeing, shared_house, tmp_path):
    opened = seeing(labels(tmp_path / "label.y4m", [code128("B-0004")], between=0))
    page = opened.as_role(shared_house, "porter")
    page.get_by_role("link", name="Shelf", exact=True).click()
    # it may be read, and the camera's screen be gone, before anybody looks for that
    page.get_by_role("button", name="Open the camera").click()
    expect(page.get_by_role("heading", name="Double cream", level=1)).to_be_visible()


def test_without_a_camera_the_way_by_hand_is_told(opened, shared_house):
    page = opened.as_role(shared_house, "porter")
    open_camera(page)
    expect(camera(page)).to_contain_text("This device gives no camera here.")
    expect(camera(page)).to_contain_text("three letters of the name")
    page.get_by_label("Code or item").fill("ora")
    expect(page.get_by_role("button", name="Orange juice")).to_be_visible()
    page.get_by_role("button", name="Close").click()
    expect(page.get_by_role("button", name="Open the camera")).to_be_visible()
