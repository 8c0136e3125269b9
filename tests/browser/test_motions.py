"""What is done with a batch where it stands: each one motion, without the house, and undone."""

import re

from playwright.sync_api import Page, expect

from tests.browser.offline import cold, until_whole


def rows(page: Page) -> list[dict]:
    """What the house itself says of its stock."""
    told: list[dict] = page.evaluate(
        "async () => (await (await fetch('/api/reports/stock')).json()).rows"
    )
    return told


def key(page: Page, name: str):
    return page.get_by_role("button", name=re.compile(f"^{name}"))


BUTTER = "B-0014"


def test_SY4_a_batch_is_opened_frozen_and_moved_without_the_house_and_then_it_agrees(
    enrolled, house, clean
):
    page = enrolled
    until_whole(page)
    batch = next(row for row in rows(page) if row["label"] == BUTTER)
    label, unit = batch["label"], batch["on_hand"]["unit"]
    whole = int(batch["on_hand"]["value"])
    house.kill()
    page = cold(page, f"/shelf/{label}")
    expect(page.get_by_role("heading", name=batch["item"], level=1)).to_be_visible()
    expect(page.get_by_role("heading", name="Allergens")).to_be_visible()
    clean(page)

    page.get_by_label("Only a part of it").fill("100")
    key(page, "Open").click()
    expect(page.get_by_text(f"Opened: {label} {batch['item']}, 100 {unit}")).to_be_visible()
    expect(page.get_by_text("Saved on this phone.")).to_be_visible()
    page.get_by_role("link", name="To what is opened now").click()
    expect(page.get_by_text("No label on it yet")).to_be_visible()
    expect(page.get_by_text("The dates are reckoned on this phone")).to_be_visible()
    page.get_by_role("link", name="To waste").click()
    expect(page.get_by_role("heading", name=batch["item"], level=1)).to_be_visible()
    page.go_back()
    key(page, "Move").click()
    page.get_by_role("region", name="Where to").get_by_role("button").first.click()
    expect(page.get_by_text("Moved:")).to_be_visible()
    page.go_back()

    page.get_by_label("Only a part of it").fill("50")
    page.get_by_label("Numbered label").fill("")
    key(page, "Freeze").click()
    expect(page.get_by_text("Frozen:")).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Taken back.")).to_be_visible()
    clean(page)

    page.goto("/wrong-place")
    warm = page.get_by_role("region", name="Food that is kept cold")
    dripping = warm.get_by_role("link", name="Beef dripping")
    expect(dripping).to_be_visible()
    clean(page)
    warm.get_by_role("button", name=re.compile("Move to the Cold room.*Beef")).click()
    expect(page.get_by_text("Moved: Beef dripping")).to_be_visible()
    expect(dripping).to_be_hidden()

    house.begin()
    expect(page.get_by_text("online")).to_be_visible()
    expect(page.get_by_role("link", name="wait since")).to_have_count(0)
    after = rows(page)
    parent = next(row for row in after if row["label"] == label)
    assert int(parent["on_hand"]["value"]) == whole - 100
    opened = [row for row in after if row["item"] == batch["item"] and row["state"] == "opened"]
    assert any(row["on_hand"]["value"] == "100" for row in opened)
    frozen = [row for row in after if row["item"] == batch["item"] and row["state"] == "frozen"]
    assert not any(row["on_hand"]["value"] == "50" for row in frozen)


def test_SL3_what_must_not_be_done_is_not_offered_and_says_why(opened, shared_house, clean):
    page = opened.as_role(shared_house, "porter")
    frozen = next(row for row in rows(page) if row["state"] == "frozen" and row["usable"])
    page.goto(f"/shelf/{frozen['label']}")
    expect(key(page, "Thaw")).to_be_visible()
    expect(key(page, "Freeze")).to_have_count(0)
    page.goto("/shelf/B-0062")
    expect(page.get_by_text("What was thawed is not frozen again")).to_be_visible()
    expect(key(page, "Freeze")).to_have_count(0)
    expect(page.get_by_role("link", name="To waste")).to_be_visible()
    clean(page)
