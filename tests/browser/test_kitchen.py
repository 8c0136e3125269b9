"""The chef's day: made, a dish swapped, served otherwise, left over, looked up afterwards."""

import re

from playwright.sync_api import Page, expect

from tests.browser.chefs import open_menu
from tests.browser.servers import Served


def key(page: Page, name: str):
    return page.get_by_role("button", name=re.compile(name))


def test_made_swapped_served_left_over_and_found_again(opened, house: Served, clean):
    page = opened.as_role(house, "chef")
    open_menu(page, 1, "Supper, children")
    key(page, "Another dish instead of Macaroni cheese").click()
    page.get_by_label("Find a dish").fill("saus")
    key(page, "This one Sausages and mash").click()
    clean(page)
    key(page, "^Serve Sausages and mash").click()
    expect(page.get_by_text("Sausages and mash instead of Macaroni cheese.")).to_be_visible()
    key(page, "Undo: Macaroni cheese again").click()
    expect(key(page, "Another dish instead of Macaroni cheese")).to_be_visible()

    page.goto("/preparations")
    key(page, "^Made 525 ml Béchamel").first.click()
    expect(page.get_by_role("region", name="Made today")).to_contain_text("✓ Béchamel")
    expect(page.get_by_text("Made: 525 ml Béchamel")).to_be_visible()
    clean(page)

    page.goto("/serving")
    today = page.get_by_role("region", name="Today")
    today.get_by_role("link", name=re.compile("Lunch, family")).click()
    key(page, "One fewer: Leek and potato soup").click()
    expect(page.get_by_text("4 were planned")).to_be_visible()
    page.get_by_text("Another batch, another amount").click()
    clean(page)
    key(page, "^Served, 1 thing otherwise").click()
    expect(page.get_by_role("region", name="Served")).to_contain_text("3 portions of 4")
    key(page, "Leek and potato soup is left over").click()
    key(page, "^Keep 1 portion").click()
    left = page.get_by_role("region", name="Left over")
    expect(left).to_contain_text("1 portion of Leek and potato soup")
    expect(left).to_contain_text("use by")
    clean(page)

    page.get_by_role("link", name="All meals of today").click()
    page.get_by_role("link", name="What was served before").click()
    meal = page.get_by_role("listitem").filter(has_text="Lunch, family").first
    expect(meal).to_contain_text("Leek and potato soup, 3 portions of 4; 1 left over")
    page.get_by_label("Find a dish").fill("leek")
    expect(page.get_by_role("list", name="Dishes")).to_contain_text("Leek and potato soup")
    clean(page)
