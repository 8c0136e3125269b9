"""Counting a storage area: blind, without the house, a second count of what matters, and back."""

import json
import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Page, expect

from pantry.terminal.settings import DEMO_FILE
from tests.browser.asking import rows_of
from tests.browser.offline import until_whole
from tests.browser.servers import Served, serving

HADDOCK, CRAB = "Smoked haddock", "White crab meat"


@pytest.fixture
def house(demo_folder, tmp_path, opened) -> Iterator[Served]:
    """The demo house an hour later: what stands in it came before any count (SY8)."""
    data = tmp_path / "house"
    shutil.copytree(demo_folder, data)
    clock = data / DEMO_FILE
    ahead = json.loads(clock.read_text(encoding="utf-8"))["clock_ahead_seconds"] + 3600
    clock.write_text(json.dumps({"clock_ahead_seconds": ahead}), encoding="utf-8")
    with serving(data) as served:
        yield served
        opened.leave()


def keys(page: Page, digits: str) -> None:
    for digit in digits:
        page.get_by_role("button", name=digit, exact=True).click()


def on_hand(page: Page, label: str) -> str:
    rows = rows_of(page, "stock")
    return next(row["on_hand"]["value"] for row in rows if row["label"] == label)


def until(page: Page, label: str, value: str) -> None:
    """Wait until the house has so much of a batch."""
    told = """async ([label, value]) => {
        for (const ends = Date.now() + 20000; Date.now() < ends;) {
            const { rows } = await (await fetch("/api/reports/stock")).json();
            if (rows.find((row) => row.label === label)?.on_hand.value === value) return;
            await new Promise((done) => setTimeout(done, 200));
        }
        throw new Error(`the house has not ${value} of ${label}`);
    }"""
    page.evaluate(told, [label, value])


def test_LG3_an_area_is_counted_without_the_house_and_what_differs_is_counted_again(
    enrolled, house, clean
):
    page = enrolled
    page.get_by_role("link", name="More").click()
    page.get_by_role("link", name="Counts").click()
    area = page.get_by_role("list", name="Storage areas").get_by_role("link", name="Fish drawer")
    expect(area).to_contain_text("2 items")
    area.click()
    lines = page.get_by_role("list", name="To be counted").get_by_role("listitem")
    expect(lines).to_have_count(2)
    expect(lines.first).not_to_contain_text("500 g")
    page.get_by_role("button", name=f"Begin: {HADDOCK}").click()
    page.get_by_label("Loose, g").click()
    keys(page, "300")
    expect(page.get_by_text("300 g in all")).to_be_visible()
    clean(page)
    page.get_by_role("button", name="Write down").click()
    expect(page.get_by_role("heading", name=CRAB, level=1)).to_be_visible()

    # what was written down is there after the page was killed, and the house may be silent
    page.reload()
    expect(page.get_by_role("heading", name=CRAB, level=1)).to_be_visible()
    until_whole(page)
    house.kill()
    keys(page, "2")
    page.get_by_role("button", name="Write down").click()
    expect(page.get_by_text("2 of 2 counted")).to_be_visible()
    expect(lines.first).to_contain_text("300 g")
    clean(page)

    page.get_by_role("button", name="Compare with the books").click()
    expect(page.get_by_text("1 line agrees")).to_be_visible()
    expect(page.get_by_text("In the books")).to_have_count(0)
    expect(page.get_by_role("button", name="Answer what is asked first")).to_be_disabled()
    clean(page)
    page.get_by_role("button", name="Count it again").click()
    page.get_by_label("Loose, g").click()
    keys(page, "320")
    page.get_by_role("button", name="Write down").click()
    differs = page.get_by_role("list", name="What differs").get_by_role("listitem")
    expect(differs).to_contain_text("180 g")
    page.get_by_label("Why, if you know").select_option("given away")
    clean(page)
    page.get_by_role("button", name="Record the count").click()
    expect(page.get_by_text("Counted: Fish drawer, 2 lines")).to_be_visible()
    expect(page.get_by_text("Saved on this phone.")).to_be_visible()
    clean(page)

    house.begin()
    until(page, "B-0076", "320")
    expect(area).to_contain_text("counted today")
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Taken back.")).to_be_visible()
    until(page, "B-0076", "500")
    assert on_hand(page, "B-0077") == "400"


def test_LG3_the_office_sees_what_counts_found_and_prints_the_sheet(opened, house, clean):
    page = opened.as_role(house, "manager", phone=False, at="/counts/fish-drawer")
    expect(page.get_by_role("button", name="Print the sheet")).to_be_visible()
    page.emulate_media(media="print")
    expect(page.get_by_role("button", name="Print the sheet")).to_be_hidden()
    paper = page.locator(".on-paper")
    expect(paper).to_contain_text(CRAB)
    expect(paper).not_to_contain_text("400 g")
    page.emulate_media(media="screen")
    page.goto("/counts/cold-room")
    expect(page.get_by_role("heading", name="Nobody counts these: look")).to_be_visible()
    clean(page)
    page.get_by_role("group", name="Parsley").get_by_role("button", name="low").click()
    expect(page.get_by_text("Level: Parsley, low")).to_be_visible()
    page.goto("/counts/fish-drawer")
    page.get_by_role("link", name=CRAB).click()
    page.get_by_role("button", name="Not here").click()
    page.get_by_role("link", name="All lines of Fish drawer").click()
    page.get_by_role("button", name="Compare with the books").click()
    page.get_by_role("button", name="Count it again").click()
    page.get_by_role("button", name="Not here").click()
    page.get_by_role("button", name="Record the count").click()
    found = page.get_by_role("region", name="What counts found")
    expect(found).to_contain_text("400 g less")
    expect(found).to_contain_text("nobody has said why")
    expect(found).to_contain_text("-25.60 GBP")
    clean(page)
