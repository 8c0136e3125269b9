"""Menus go to the household by a link and come back as an answer that the chef confirms."""

import re

from playwright.sync_api import expect

from tests.browser.chefs import day

MONDAY = 5


def test_menus_are_shown_by_a_link_answered_without_signing_in_and_confirmed(opened, house, clean):
    chef = opened.as_role(house, "chef", phone=False)
    chef.get_by_role("link", name="Shown to the household").click()
    chef.get_by_role("link", name="Show menus to the household").click()
    chef.get_by_role("button", name="staff", exact=True).click()
    expect(chef.get_by_role("button", name="staff", exact=True, pressed=True)).to_be_visible()
    for box in chef.get_by_role("checkbox").all()[2:]:
        box.uncheck()
    clean(chef)
    chef.get_by_role("button", name="Show 2 menus").click()
    link = chef.locator(".address").inner_text()
    household = opened.page(house)
    household.goto(link)
    clean(household)
    lunch = household.get_by_role("region", name=re.compile("Lunch")).first
    lunch.get_by_label(re.compile("Mince and potatoes")).first.check()
    lunch.get_by_label("How many are you?").fill("6")
    household.get_by_label("Your name").fill("Helena")
    household.get_by_role("button", name="Send my answer").click()
    expect(household.get_by_role("status")).to_contain_text("Your answer is received")
    chef.get_by_role("link", name="What was shown, and what was answered").click()
    expect(chef.get_by_text("Main: Mince and potatoes")).to_be_visible()
    clean(chef)
    chef.goto("/menus")
    card = day(chef, MONDAY).get_by_role("link", name="Lunch, staff")
    expect(card).to_contain_text("the household chose (Helena): Main: Mince and potatoes")
    card.click()
    expect(chef.get_by_label("Mince and potatoes")).to_be_checked()
    chef.get_by_role("button", name="Confirm for 6").click()
    expect(chef.get_by_role("status").filter(has_text="Confirmed for 6")).to_be_visible()
    household.reload()
    expect(lunch).to_contain_text("This is settled. Whoever wishes it otherwise tells Rhona")
