"""A phone that decides without the house, on what somebody else changes meanwhile (SY2, SY3)."""

from playwright.sync_api import Page, expect

from tests.browser.chefs import open_menu
from tests.browser.conftest import PEOPLE, enrol
from tests.browser.offline import until_whole

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
    until_whole(phone)
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


STARTED_ANEW = "() => sessionStorage.getItem('chooseby started anew') !== null"
PART = "**/assets/giving_from_device-*.js"


def test_SY1_a_phone_without_all_of_the_program_never_says_that_a_record_is_saved(opened, house):
    phone = opened.page(house)
    phone.route(PART, lambda asked: asked.abort())
    enrol(opened.page(house), phone, "chef")
    # the house answers again: the page starts anew by itself, once
    phone.wait_for_function(STARTED_ANEW)
    open_menu(phone, MONDAY, "Lunch, staff")
    phone.get_by_label("Mince and potatoes").check()
    phone.get_by_role("button", name="Confirm for 7").click()
    expect(phone.get_by_role("alert")).to_contain_text("nothing of it is saved")
    phone.unroute(PART)
    phone.reload()
    phone.get_by_label("Mince and potatoes").check()
    phone.get_by_role("button", name="Confirm for 7").click()
    expect(phone.get_by_text("Confirmed for 7")).to_be_visible()


def test_a_part_of_the_program_that_did_not_come_is_there_once_the_house_answers(opened, house):
    page = opened.page(house)
    part = "**/assets/recipes-*.js"
    page.route(part, lambda asked: asked.abort())
    enrol(opened.page(house), page, "chef")
    page.get_by_role("link", name="More").click()
    page.get_by_role("link", name="Recipes").click()
    expect(page.locator("main[aria-busy=true]")).to_have_count(1)
    page.unroute(part)
    expect(page.get_by_role("heading", name="Recipes", level=1)).to_be_visible()


def test_who_confirms_on_a_phone_is_never_told_that_somebody_else_did(opened, house):
    phone = opened.enrolled(house, "chef")
    open_menu(phone, MONDAY, "Lunch, staff")
    phone.get_by_label("Mince and potatoes").check()
    phone.get_by_role("button", name="Confirm for 7").click()
    expect(phone.get_by_text("Confirmed for 7")).to_be_visible()
    expect(phone.get_by_text("changed meanwhile")).to_have_count(0)
