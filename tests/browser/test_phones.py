"""Phones of the house: enrolled by a code, entered by PIN, handed over, taken out when lost."""

from datetime import timedelta

from playwright.sync_api import expect

from tests.browser.conftest import PASSWORD, PEOPLE, PHONE_NAME, PIN
from tests.browser.scanners import scan
from tests.browser.test_porter_goods_in import CRATE, carton, today_of

CHEF_PIN = "270413"


def keyed(page, pin):
    for figure in pin:
        page.get_by_role("button", name=figure, exact=True).click()


def chosen(page, pin, *, by):
    """Choose a PIN: keyed twice, and then the password."""
    keyed(page, pin)
    page.get_by_role("button", name="Go on").click()
    keyed(page, pin)
    page.get_by_role("button", name="Go on").click()
    page.get_by_label("Your password").fill(by)
    page.get_by_role("button", name="Come in", exact=True).click()


def test_SY13_a_phone_comes_in_by_the_code_in_the_picture_and_goes_from_hand_to_hand(
    opened, house, clean
):
    manager = opened.as_role(house, "manager", phone=False, at="/people")
    manager.get_by_label("What it is called").fill(PHONE_NAME)
    manager.get_by_role("button", name="Make a code for it").click()
    address = manager.locator(".address").inner_text()
    expect(manager.get_by_role("img", name="The address with the code")).to_be_visible()
    manager.evaluate("scrollTo(0, 0)")
    clean(manager)

    phone = opened.page(house)
    phone.goto(address)
    expect(phone.get_by_role("heading", name="Who has this phone?")).to_be_visible()
    assert "#" not in phone.url
    clean(phone)
    phone.get_by_role("button", name=PEOPLE["porter"]).click()
    keyed(phone, "1234")
    phone.get_by_role("button", name="Go on").click()
    expect(phone.get_by_text("not all the same and not in a row")).to_be_visible()
    chosen(phone, PIN, by=PASSWORD)
    expect(phone.get_by_role("heading", name="Goods in", level=1)).to_be_visible()

    phone.get_by_role("link", name="More").click()
    phone.get_by_role("link", name="Somebody else").click()
    phone.get_by_role("button", name=PEOPLE["chef"]).click()
    clean(phone)
    chosen(phone, CHEF_PIN, by=PASSWORD)
    expect(phone.get_by_role("heading", name="Menus", level=1)).to_be_visible()

    phone.get_by_role("link", name="More").click()
    phone.get_by_role("link", name="Somebody else").click()
    phone.get_by_role("button", name=PEOPLE["porter"]).click()
    keyed(phone, "9999")
    phone.get_by_role("button", name="Come in").click()
    expect(phone.get_by_role("alert")).to_contain_text("That is not the PIN.")
    keyed(phone, PIN)
    clean(phone)
    phone.get_by_role("button", name="Come in").click()
    expect(phone.get_by_role("heading", name="Goods in", level=1)).to_be_visible()


def test_SY4_a_session_that_ends_asks_for_the_pin_and_goes_on_where_one_was(
    enrolled, opened, house, clean
):
    enrolled.get_by_role("link", name="Tolsaig Creamery").first.click()
    enrolled.get_by_role("list", name="What was ordered").get_by_role("link").first.click()
    enrolled.get_by_label("Lot, as on the pack").fill("L 4711")
    line = enrolled.url
    manager = opened.as_role(house, "manager", at="/people")
    manager.get_by_role("button", name=f"Sign out everywhere {PEOPLE['porter']}").click()
    expect(enrolled.get_by_role("heading", name=f"{PEOPLE['porter']}, your PIN")).to_be_visible()
    keyed(enrolled, PIN)
    enrolled.get_by_role("button", name="Come in", exact=True).click()
    expect(enrolled.get_by_label("Lot, as on the pack")).to_have_value("L 4711")
    assert enrolled.url == line

    manager.get_by_role("button", name=f"Lost {PHONE_NAME}").click()
    manager.evaluate("scrollTo(0, 0)")
    clean(manager)
    # what is recorded without the house outlives the phone's right to it
    enrolled.context.route("**/api/exchange", lambda route: route.abort())
    enrolled.goto("/goods-in")
    enrolled.get_by_role("link", name="Tolsaig Creamery").first.click()
    scan(enrolled, carton(CRATE, today_of(house) + timedelta(days=20), "L71"))
    enrolled.get_by_role("button", name="Accept").first.click()
    expect(enrolled.get_by_role("link", name="1 record waits since")).to_be_visible()
    manager.get_by_role("button", name=f"Revoke {PHONE_NAME}").click()
    expect(enrolled.get_by_role("alert")).to_contain_text(
        "This phone was taken out of the house; what it still holds is handed in for the manager."
    )
    enrolled.context.unroute("**/api/exchange")
    enrolled.reload()
    manager.goto("/questions")
    kept = manager.get_by_role("article").filter(has_text=PHONE_NAME)
    expect(kept).to_be_visible()
    reads = enrolled.evaluate("async () => (await fetch('/api/reports/stock')).status")
    assert reads in (401, 403)
    enrolled.get_by_role("link", name="I have a code for this phone").click()
    expect(enrolled.get_by_label("Code")).to_be_visible()
    clean(enrolled)
