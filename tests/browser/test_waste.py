"""Waste is recorded in one motion, without the house too; the manager sees what was lost."""

from playwright.sync_api import Page, expect

from tests.browser.offline import until_whole


def more(page: Page, name: str) -> None:
    page.get_by_role("navigation", name="Doors").get_by_role("link", name="More").click()
    page.get_by_role("link", name=name, exact=True).click()


def plates_come_back(page: Page, clean) -> None:
    """Two plates of what was served today, of which no batch is known."""
    page.get_by_role("link", name="Something else").click()
    page.get_by_role("link", name="It came back from the table").click()
    dishes = page.get_by_role("group", name="What it was").get_by_role("radio")
    expect(dishes.first).to_be_visible()
    clean(page)
    dishes.first.check()
    page.get_by_label("How much, plates").fill("2")
    page.get_by_role("button", name="2 plates of").click()
    expect(page.get_by_text("Saved on this phone.")).to_be_visible()


def test_waste_without_the_house_is_in_the_report_later_and_can_be_undone(opened, house, clean):
    page = opened.enrolled(house)
    until_whole(page)
    house.kill()
    more(page, "Waste")
    clean(page)
    page.get_by_label("Code, label or item").fill("B-0901")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Tomatoes", level=1)).to_be_visible()
    page.get_by_label("Only a part, g").fill("200")
    page.get_by_role("button", name="200 g to waste").click()
    expect(page.get_by_role("alert")).to_contain_text("Say why it is lost.")
    page.get_by_text("spoiled", exact=True).click()
    expect(page.get_by_role("alert")).to_have_count(0)
    page.get_by_text("compost", exact=True).click()
    clean(page)
    page.get_by_role("button", name="200 g to waste").click()
    expect(page.get_by_text("Saved on this phone.")).to_be_visible()
    plates_come_back(page, clean)
    house.begin()
    expect(page.get_by_text("2 records wait")).to_have_count(0)

    manager = opened.as_role(house, "manager")
    more(manager, "What was lost")
    manager.get_by_text("item", exact=True).click()
    row = manager.get_by_role("region", name="All of it").get_by_role("row", name="Tomatoes")
    row.get_by_role("button").click()
    apart = manager.get_by_role("region", name="Without a batch")
    expect(apart.get_by_role("listitem")).to_contain_text("2 plates")
    records = manager.get_by_role("dialog")
    expect(records.get_by_role("listitem").filter(has_text="200 g")).to_have_count(1)
    expect(records).not_to_contain_text("Calum")
    manager.keyboard.press("Escape")
    clean(manager)
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Taken back")).to_be_visible()
    expect(apart.get_by_role("listitem")).to_have_count(0)
    page.go_back()
    page.go_back()
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Taken back")).to_be_visible()
    row.get_by_role("button").click()
    expect(records.get_by_role("listitem").filter(has_text="200 g")).to_have_count(0)
