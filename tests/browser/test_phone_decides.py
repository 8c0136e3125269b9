"""A phone that decides without the house, on what somebody else changes meanwhile (SY2, SY3)."""

from playwright.sync_api import Page, expect

from tests.browser.chefs import open_menu
from tests.browser.conftest import PEOPLE

MONDAY = 5
"""Days from the day of the demo house."""


def more(page: Page, by: int = 1) -> None:
    """Change the covers of the open menu to so many more than they are."""
    page.get_by_role("button", name="Change covers").click()
    panel = page.get_by_role("dialog", name="Change covers")
    for _ in range(by):
        panel.get_by_role("button", name="One more: Covers").click()
    panel.get_by_role("button", name="It is for").click()
    expect(panel).to_have_count(0)


def test_SY3_a_phone_shows_both_versions_of_a_conflict_and_gives_again_on_what_stands(
    opened, house, clean
):
    desk = opened.as_role(house, "chef", phone=False)
    open_menu(desk, MONDAY, "Lunch, staff")
    desk.get_by_label("Mince and potatoes").check()
    desk.get_by_role("button", name="Confirm for 7").click()
    expect(desk.get_by_text("Confirmed for 7")).to_be_visible()
    phone = opened.enrolled(house, "chef")
    open_menu(phone, MONDAY, "Lunch, staff")
    expect(phone.get_by_role("button", name="Change covers")).to_be_visible()
    phone.context.set_offline(True)
    more(phone)
    # on one's own decision that waits
    more(phone)
    desk.goto("/menus")
    open_menu(desk, MONDAY, "Lunch, staff")
    more(desk, by=3)
    expect(desk.get_by_role("main")).to_contain_text("10 covers")
    phone.context.set_offline(False)
    phone.goto("/records")
    looked = phone.get_by_role("region", name="To look at")
    expect(looked.get_by_role("button", name="Put away")).to_have_count(2)
    mine = looked.get_by_role("article", name="You decided").first
    stands = looked.get_by_role("article", name="What stands now").first
    expect(mine).to_contain_text("8 covers")
    expect(stands).to_contain_text("10 covers")
    expect(stands).to_contain_text(PEOPLE["chef"])
    clean(phone)
    looked.get_by_role("button", name="Put away").last.click()
    expect(looked.get_by_role("button", name="Put away")).to_have_count(1)
    looked.get_by_role("button", name="Give again on what stands now").click()
    expect(looked).to_have_count(0)
    expect(phone.get_by_text("Nothing waits. The house has all of it.")).to_be_visible()
    desk.goto("/menus")
    open_menu(desk, MONDAY, "Lunch, staff")
    expect(desk.get_by_role("main")).to_contain_text("8 covers")
