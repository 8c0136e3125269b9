"""What a porter works through: taken out to thaw, brought to the kitchen, the sheets on paper."""

import re

from playwright.sync_api import Page, expect

from tests.browser.offline import cold, until_whole
from tests.browser.servers import Served
from tests.browser.test_porter_goods_in import today_of


def asked(page: Page, name: str) -> list[dict]:
    """What the house itself says of a report."""
    rows: list[dict] = page.evaluate(
        "async (name) => (await (await fetch(`/api/reports/${name}`)).json()).rows", name
    )
    return rows


def key(page: Page, name: str):
    return page.get_by_role("button", name=re.compile(name))


def test_SY4_both_lists_are_worked_without_the_house_and_then_it_agrees(enrolled, house, clean):
    page = enrolled
    until_whole(page)
    house.kill()
    page = cold(page, "/morning")
    page.get_by_role("link", name="Take out to thaw").click()
    outhouse = page.get_by_role("region", name="Outhouse freezer")
    expect(outhouse).to_contain_text("1 kg Venison shoulder, diced")
    expect(outhouse).to_contain_text("not before today 07:30")
    key(page, "Taken out Venison").click()
    expect(outhouse).to_contain_text("✓ taken out")
    expect(page.get_by_text("Saved on this phone.")).to_be_visible()
    key(page, "Taken out Sweet pastry").click()
    expect(page.get_by_text("Nothing more is to be taken out")).to_be_visible()
    key(page, "Undo Sweet pastry").click()
    expect(key(page, "Taken out Sweet pastry")).to_be_visible()
    clean(page)

    page.get_by_role("link", name="More").click()
    page.get_by_role("link", name="Bring to the kitchen").click()
    page.get_by_role("link", name="lunch, staff").first.click()
    page.get_by_role("region", name="Pantry").get_by_role("button", name="All of it").click()
    already = page.get_by_role("region", name="Brought already")
    expect(already.get_by_role("listitem")).to_have_count(4)
    key(page, "Another batch of Natural yoghurt").click()
    page.get_by_role("button", name="B-0011, Cold room").click()
    expect(already).to_contain_text("Natural yoghurt B-0011, 219 g")
    key(page, "Undo Garlic").click()
    expect(already.get_by_role("listitem")).to_have_count(4)
    clean(page)

    house.begin()
    expect(page.get_by_text("online")).to_be_visible()
    expect(page.get_by_role("link", name="wait since")).to_have_count(0)
    expect(already.get_by_role("listitem")).to_have_count(4)
    pulled = {row["label"]: row["done"] is not None for row in asked(page, "pull")}
    # taken out before its time it does not keep until dinner, and the house asks for another
    assert pulled == {"B-0241": True, "B-0219": False, "B-0242": False}
    brought = {
        row["label"]
        for row in asked(page, "pick")
        if row["service"].endswith("lunch/staff") and row["done"] is not None
    }
    assert len(brought) == 4
    assert "B-0011" in brought


def pages(page: Page) -> int:
    """How many pages of A4 a screen prints on."""
    return len(re.findall(rb"/Type\s*/Page\b", page.pdf(prefer_css_page_size=True)))


def test_the_morning_sheet_and_the_lists_print_on_one_page_each(
    opened, shared_house: Served, clean
):
    page = opened.as_role(shared_house, "porter", dark=True)
    today = today_of(shared_house)
    for path, title in (
        ("/morning", "Morning sheet"),
        ("/pull", "Take out to thaw"),
        ("/pick", "Bring to the kitchen"),
    ):
        page.goto(path)
        expect(page.get_by_role("button", name="Print it")).to_be_visible()
        assert pages(page) == 1, path
        page.emulate_media(media="print")
        expect(page.locator(".head")).to_be_visible()
        expect(page.locator(".head")).to_contain_text(title)
        expect(page.locator(".head")).to_contain_text(
            f"Ardlinnet House, {today:%A} {today.day} {today:%B %Y}"
        )
        for key_or_link in ("button", "link"):
            expect(page.get_by_role(key_or_link).locator("visible=true")).to_have_count(0)
        expect(page.locator(".tick-box").first).to_be_visible()
        white = "getComputedStyle(document.body).backgroundColor"
        assert page.evaluate(white) == "rgb(255, 255, 255)"
        page.emulate_media(media="screen")
    clean(page)
