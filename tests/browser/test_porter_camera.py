"""The porter's camera: a code in front of it opens the line that it means, and it stays open."""

from datetime import timedelta

import pytest
from playwright.sync_api import Page, expect

from tests.browser.test_porter_goods_in import (
    CRATE,
    NOT_OURS,
    YOGHURT,
    delivery,
    line,
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


@pytest.mark.parametrize("printed", [gs1_128, gs1_datamatrix])
def test_codes_before_the_camera_open_their_lines_one_after_the_other(
    seeing, house, tmp_path, printed
):
    day = today_of(house) + timedelta(days=9)
    crate = printed(f"(01){CRATE}(17){day:%y%m%d}(10)C71")
    opened = seeing(labels(tmp_path / "delivery.y4m", [crate, ean13(YOGHURT)]))
    page = opened.as_role(house, "porter")
    delivery(page)
    open_camera(page)
    met = set()
    while len(met) < 2:
        expect(page.get_by_role("link", name="Leave it for now")).to_be_visible()
        item = page.get_by_role("heading", level=1).inner_text()
        met.add(item)
        if item == "Natural yoghurt":
            page.get_by_role("link", name="Leave it for now").click()
            expect(camera(page)).to_be_visible()
            continue
        expect(page.get_by_text(words(day))).to_be_visible()
        expect(page.get_by_label("Lot, as on the pack")).to_have_value("C71")
        page.get_by_role("button", name="Accept 1 x crate of 6 x 2 l").click()
        expect(camera(page)).to_be_visible()
        expect(line(page, "Whole milk")).to_contain_text("all here")
    assert met == {"Whole milk", "Natural yoghurt"}
    page.get_by_role("button", name="Close").click()
    expect(page.get_by_role("button", name="Open the camera")).to_be_visible()


def test_a_label_of_the_house_opens_its_batch_and_a_code_of_nothing_says_so(
    seeing, shared_house, clean, tmp_path
):
    shown = [ean13(NOT_OURS[1:]), code128("B-0004")]
    opened = seeing(labels(tmp_path / "shelf.y4m", shown))
    page = opened.as_role(shared_house, "porter")
    page.get_by_role("link", name="Shelf", exact=True).click()
    open_camera(page)
    expect(camera(page).get_by_text("Hold the code in front of it.")).to_be_visible()
    clean(page)
    expect(page.get_by_role("alert")).to_contain_text("Nothing in this house carries the code")
    expect(page.get_by_role("heading", name="Double cream", level=1)).to_be_visible()


def test_without_a_camera_the_way_by_hand_is_told(opened, shared_house):
    page = opened.as_role(shared_house, "porter")
    open_camera(page)
    expect(camera(page)).to_contain_text("This device gives no camera here.")
    expect(camera(page)).to_contain_text("three letters of the name")
    page.get_by_label("Code or item").fill("ora")
    expect(page.get_by_role("button", name="Orange juice")).to_be_visible()
