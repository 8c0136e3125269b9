"""The shelf: batches of an item, how long each has left, what a figure is made of."""

from playwright.sync_api import Page, expect

from tests.browser.asking import rows_of
from tests.browser.scanners import scan


def shelf(page: Page) -> None:
    """By the way a porter takes."""
    page.get_by_role("navigation", name="Doors").get_by_role("link", name="Shelf").click()
    expect(page.get_by_role("heading", name="Shelf", level=1)).to_be_visible()


def test_three_letters_show_the_batches_by_what_dies_first(opened, shared_house):
    page = opened.as_role(shared_house, "porter")
    shelf(page)
    page.get_by_label("Code, label or item").fill("who")
    page.get_by_role("button", name="Whole milk").click()
    batches = page.get_by_role("list", name="Batches").get_by_role("listitem")
    expect(batches).to_have_count(4)
    expect(batches.first).to_contain_text("B-0001")
    expect(batches.first).to_contain_text("use by")
    expect(batches.first).to_contain_text("lot C0609")
    expect(batches.last).to_contain_text("Outhouse freezer")


def test_LG2_on_hand_opens_to_what_it_is_made_of(opened, shared_house):
    page = opened.as_role(shared_house, "porter")
    row = next(row for row in _stock(page) if row["promised"]["value"] not in ("0", "0.0"))
    page.goto(f"/shelf/{row['label']}")
    expect(page.get_by_role("heading", name=row["item"], level=1)).to_be_visible()
    page.get_by_role("region", name="What is known of it").get_by_role("button").click()
    panel = page.get_by_role("dialog", name=f"{row['item']}, {row['label']}: on hand")
    for part in (
        "available",
        "promised to meals",
        "on hold",
        "emergency meal",
        "on hand, together",
    ):
        expect(panel.get_by_role("rowheader", name=part, exact=True)).to_be_visible()


def _stock(page: Page) -> list[dict]:
    return rows_of(page, "stock")


def test_a_code_and_a_label_open_what_they_are_on(opened, shared_house):
    page = opened.as_role(shared_house, "porter")
    shelf(page)
    scan(page, "9521234000372")
    expect(page.get_by_role("heading", name="Whole milk", level=1)).to_be_visible()
    page.get_by_label("Code, label or item").fill("B-0241")
    page.keyboard.press("Enter")
    expect(page.get_by_text("Label B-0241")).to_be_visible()
    expect(page.get_by_role("region", name="Where it came from")).to_contain_text("Ferrier & Rook")
    expect(page.get_by_role("region", name="Where it is and went")).to_contain_text("stands in")
    page.go_back()
    page.get_by_label("Code, label or item").fill("Q-9999")
    page.keyboard.press("Enter")
    expect(page.get_by_role("alert")).to_contain_text("carries the code Q-9999")


def test_SY10_a_porter_sees_no_costs_and_a_chef_sees_the_meals(opened, shared_house):
    porter = opened.as_role(shared_house, "porter")
    rows = _stock(porter)
    assert all("value" not in row for row in rows)
    chef = opened.as_role(shared_house, "chef")
    covered = rows_of(chef, "coverage")
    given = next(
        (row, one)
        for row in covered
        for one in row["from"]
        if row["state"] == "confirmed" and one.get("label")
    )
    row, one = given
    chef.goto(f"/shelf/{one['label']}")
    expect(chef.get_by_role("region", name="Promised to")).to_contain_text(row["dish"])
    porter.goto(f"/shelf/{one['label']}")
    expect(porter.get_by_role("region", name="Where it came from")).to_be_visible()
    expect(porter.get_by_role("region", name="Promised to")).to_have_count(0)


def test_WCAG_the_shelf_is_accessible(opened, shared_house, clean):
    page = opened.as_role(shared_house, "porter")
    shelf(page)
    expect(page.get_by_role("link", name="Cold room")).to_be_visible()
    clean(page)
    page.get_by_role("link", name="Cold room").click()
    batches = page.get_by_role("list", name="Batches").get_by_role("listitem")
    expect(batches.first).to_be_visible()
    clean(page)
    batches.first.get_by_role("button").click()
    expect(page.get_by_role("dialog")).to_be_visible()
    clean(page)
    page.keyboard.press("Escape")
    page.goto("/shelf/B-0241")
    expect(page.get_by_role("region", name="Where it came from")).to_be_visible()
    clean(page)
