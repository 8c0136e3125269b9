"""Bought in or kept in: what another notice would change, and a level that is set from there."""

from playwright.sync_api import expect


def test_PL6_what_must_be_kept_in_gets_its_level(opened, house, clean):
    page = opened.as_role(house, "manager", at="/notice")
    other = page.get_by_role("region", name="What another notice would change")
    expect(other).to_contain_text("With 3 days of notice")
    without = page.get_by_role("region", name="Kept in, and no level is set")
    without.get_by_role("button", name="Pearl barley").click()
    panel = page.get_by_role("dialog")
    expect(panel).to_contain_text("Sold by Quillan Dry Goods.")
    expect(panel).to_contain_text("would be in time")
    clean(page)
    panel.get_by_label("Keep at least").fill("500 g")
    panel.get_by_label("Order up to").fill("1.5 kg")
    panel.get_by_role("button", name="Keep it in").click()
    level = page.get_by_role("region", name="Kept in, with a level")
    expect(level).to_contain_text("At least 500 g, ordered up to 1.5 kg")
    page.keyboard.press("Escape")
    clean(page)
