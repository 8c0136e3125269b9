"""The round of the cold places on a phone: offline, with one that is too warm, and back again."""

import re
from datetime import datetime, timedelta

from playwright.sync_api import Page, expect

from tests.browser.asking import give, now_of, rows_of
from tests.browser.conftest import PEOPLE
from tests.browser.offline import until_whole
from tests.browser.test_lists import asked


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
    expect(page.get_by_text("7.5 °C is too warm.")).to_be_visible()
    page.get_by_role("button", name="What to do now").click()
    told = page.get_by_role("status").filter(has_text="Look again in 30 minutes")
    expect(told).to_be_in_viewport(ratio=1)
    bar = page.get_by_role("region", name="To be done here").bounding_box()
    box = told.bounding_box()
    assert box["y"] + box["height"] <= bar["y"]  # nothing of it stands behind the bar
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
    rows = rows_of(page, "temperatures")
    places = {row["area"]: row for row in rows}
    breach = places["Cold room"]["last"]
    assert (breach["temperature_c"], breach["warmth"]) == ("7.5", "too_warm")
    assert (breach["done"], places["Kitchen freezer"]["last"]) == ("door_closed", None)


def given(page: Page, *facts: tuple[str, dict[str, str], timedelta]) -> None:
    """What the porter did before now, each by how long ago."""
    now = datetime.fromisoformat(now_of(page))
    commands = [
        {
            "kind": kind,
            "at": f"{now - ago:%Y-%m-%dT%H:%M:%SZ}",
            "person": PEOPLE["porter"],
            "body": body,
        }
        for kind, body, ago in facts
    ]
    give(page, *commands)


def warm(shown: str, minutes: int) -> tuple[str, dict[str, str], timedelta]:
    body = {"area": "Fish drawer", "temperature_c": shown}
    return "take_temperature", body, timedelta(minutes=minutes)


def test_SL5_what_a_failed_place_holds_is_decided_by_line_or_kept_where_all_is_clear(
    opened, house, clean
):
    porter = opened.as_role(house, "porter")
    fresh = timedelta()
    given(
        porter,
        ("check_probe", {"probe": "Red probe", "ice_c": "0.4"}, fresh),
        ("clean", {"what": "Shelves", "area": "Cold room"}, fresh),
        warm("3", 50),
        warm("3.5", 5),
    )
    for path, told in (("/round/cooling", "Vegetable stock"), ("/round/checks", "Red probe")):
        porter.goto(path)
        expect(porter.get_by_role("main")).to_contain_text(told)
        clean(porter)
    chef = opened.as_role(house, "chef", at="/failed-places")
    stood = chef.get_by_role("list", name="What stood in Fish drawer").get_by_role("button")
    expect(stood).to_have_count(2)
    together = chef.get_by_role("button", name="Keep all 2 that are left")
    expect(together).to_have_count(0)  # it is too warm still
    clean(chef)
    given(porter, warm("1", 0))
    chef.reload()
    together.click()
    expect(chef.get_by_text("Nothing waits to be decided.")).to_be_visible()
    chef.get_by_role("button", name="Undo all of it").click()
    expect(chef.get_by_text("Taken back 2 of 2 in Fish drawer.")).to_be_visible()
    expect(stood).to_have_count(2)
    stood.filter(has_text="Smoked haddock").click()
    clean(chef)
    chef.get_by_role("button", name="Throw it away").click()
    expect(stood).to_have_count(1)
    rows = asked(chef, "stock")
    assert "B-0076" not in {row["label"] for row in rows}
    manager = opened.as_role(house, "manager", phone=False, at="/cold-places")
    expect(manager.get_by_role("article", name="Fish drawer")).to_contain_text(
        "2 of them not right"
    )
    clean(manager)
