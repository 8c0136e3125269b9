"""What presses, on the screen of who orders (PL5)."""

import re

from playwright.sync_api import expect


def test_PL5_a_manager_sees_to_an_alert_and_takes_a_calendar_along(opened, house, clean):
    page = opened.as_role(house, "manager", at="/alerts")
    alert = page.get_by_role("article", name="Kelderay Boat Stores")
    expect(alert).to_contain_text("order by today 09:40")
    expect(alert).to_contain_text("White wine for cooking")
    expect(page.get_by_text("each day at 07:00")).to_be_visible()
    alert.get_by_role("button", name="I see to it").click()
    expect(alert).to_contain_text("You see to it, since today")
    page.get_by_role("button", name="Make an address").click()
    address = page.get_by_text(re.compile("/calendar/.+ics"))
    expect(address).to_be_visible()
    clean(page)
    feed = page.request.get(address.inner_text())
    assert "Order of Kelderay Boat Stores" in feed.text()
    page.get_by_role("button", name="Withdraw it").click()
    expect(page.get_by_role("button", name="Make an address")).to_be_visible()
    assert page.request.get(feed.url).status == 404
    mail = page.get_by_role("region", name="By e-mail")
    mail.get_by_role("button", name="No letters to me").click()
    expect(mail).to_contain_text("You have declined letters.")
    clean(page)
    mail.get_by_role("button", name="Letters to me again").click()
    expect(mail.get_by_role("button", name="No letters to me")).to_be_visible()
    alert.get_by_role("button", name="Not me after all").click()
    expect(alert.get_by_role("button", name="I see to it")).to_be_visible()
