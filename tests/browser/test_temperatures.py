"""The round of the cold places on a phone: offline, with one that is too warm, and back again."""

import re

from playwright.sync_api import Page, expect

from tests.browser.offline import until_whole


def read(page: Page, keys: str) -> None:
    """Press a temperature on the large keys."""
    names = {"-": "Below zero", ".": "Point"}
    for key in keys:
        page.get_by_role("button", name=names.get(key, key), exact=True).click()


def save(page: Page) -> None:
    page.get_by_role("button", name=re.compile("^Save")).click()


def test_SL5_a_round_without_the_house_says_a_breach_at_once_and_hands_it_in(opened, house, clean):
    page = opened.enrolled(house)
    until_whole(page)
    page.goto("/round")
    expect(page.get_by_text("4 of 4 left of the morning round.")).to_be_visible()
    clean(page)
    house.kill()
    page.get_by_role("link", name=re.compile("^Cold room")).click()
    read(page, "7.5")
    expect(page.get_by_text("Too warm: do this now")).to_be_visible()
    expect(page.get_by_text("look again in 30 minutes")).to_be_visible()
    page.get_by_text("Door closed").click()
    clean(page)
    save(page)
    expect(page.get_by_text("Saved on this phone.")).to_be_visible()
    expect(page.get_by_text("3 of 4 left")).to_be_visible()
    page.get_by_role("link", name=re.compile("^Kitchen freezer")).click()
    read(page, "19")  # the sign stands there: a freezer is below zero
    expect(page.get_by_text("−19 °C is as it should be.")).to_be_visible()
    save(page)
    expect(page.get_by_role("heading", name="Outhouse freezer", level=1)).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Taken back.")).to_be_visible()
    page.get_by_role("link", name="All cold places").click()
    expect(page.get_by_text("3 of 4 left")).to_be_visible()
    house.begin()
    expect(page.get_by_role("link", name="records wait")).to_have_count(0)
    rows = page.request.get("/api/reports/temperatures").json()["rows"]
    places = {row["area"]: row for row in rows}
    breach = places["Cold room"]["last"]
    assert (breach["temperature_c"], breach["warmth"]) == ("7.5", "too_warm")
    assert (breach["done"], places["Kitchen freezer"]["last"]) == ("door_closed", None)
