"""The driver leaves: what is short is told, the chef hears, a credit is expected; the way back."""

from datetime import timedelta

from playwright.sync_api import expect

from tests.browser.scanners import scan
from tests.browser.test_porter_goods_in import CRATE, carton, delivery, today_of

MILK = "Whole milk: 12 l short"


def test_the_driver_leaves_the_chef_hears_and_a_credit_is_expected(opened, house, clean):
    porter, chef = opened.as_role(house, "porter"), opened.as_role(house, "chef", phone=False)
    expect(chef.get_by_role("heading", name="Menus", level=1)).to_be_visible()
    porter.get_by_role("link", name="Tolsaig Creamery").first.click()
    porter.get_by_role("button", name="The driver leaves").click()
    expect(porter.get_by_role("list", name="Not here")).to_contain_text("Whole milk12 l")
    porter.get_by_label("Driver's name").fill("Ines")
    clean(porter)
    porter.get_by_role("button", name="The driver has left").click()
    expect(porter.get_by_text("Nothing more is awaited of this delivery.")).to_be_visible()
    clean(porter)

    # the chef's screen is woken by the news
    expect(chef.get_by_text("Did not come, or was refused:")).to_be_visible()
    chef.get_by_role("link", name="What can replace it").click()
    expect(chef.get_by_text(MILK)).to_be_visible()
    clean(chef)

    manager = opened.as_role(house, "manager", at="/credits")
    owed = manager.get_by_role("article").filter(has_text="Whole milk")
    expect(owed).to_contain_text("driven by Ines")
    clean(manager)
    owed.get_by_label("Amount credited, GBP").fill("9.50")
    owed.get_by_label("Number of the note").fill("CN 77")

    # the way back is there after the page was opened anew
    porter.reload()
    porter.get_by_role("button", name="Undo").click()
    expect(porter.get_by_role("list", name="What was ordered")).to_contain_text("Whole milk")
    expect(chef.get_by_text(MILK)).to_have_count(0)
    expect(owed).to_have_count(0)

    porter.get_by_role("button", name="The driver leaves").click()
    porter.get_by_role("button", name="The driver has left").click()
    owed.get_by_label("Amount credited, GBP").fill("9.50")
    owed.get_by_label("Number of the note").fill("CN 77")
    owed.get_by_role("button", name="Record the credit note").click()
    expect(owed).to_have_count(0)


def test_what_was_taken_in_is_put_away_from_a_list_on_this_phone(opened, house, clean):
    page = opened.as_role(house, "porter")
    delivery(page)
    scan(page, carton(CRATE, today_of(house) + timedelta(days=9), "L22"))
    page.get_by_role("button", name="Accept 1 x crate of 6 x 2 l").click()
    page.get_by_role("link", name="Put away what came, in safe order").click()
    milk = page.get_by_role("list", name="To be put away").get_by_role("listitem")
    expect(milk).to_contain_text("Cold room")
    milk.get_by_role("button", name="Put away Whole milk").click()
    clean(page)
    page.reload()
    expect(milk.get_by_role("button", pressed=True)).to_contain_text("put away")
