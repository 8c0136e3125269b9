"""The driver leaves: what is short is told, the chef hears, the manager is owed; and the way back."""

import os
from pathlib import Path

from playwright.sync_api import Page, expect

from tests.browser.conftest import DESK, PHONE

MILK = "Whole milk: 12 l short"


def shot(page: Page, name: str) -> None:
    """Pictures of a screen for whoever asked for a folder of them."""
    folder = os.environ.get("CHOOSEBY_SHOTS")
    if not folder:
        return
    before = page.viewport_size
    for size, where in ((PHONE, "phone"), (DESK, "desk")):
        page.set_viewport_size(size)
        for scheme in ("light", "dark"):
            page.emulate_media(color_scheme=scheme)
            page.screenshot(path=Path(folder) / f"delivery-{name}-{where}-{scheme}.png")
    page.set_viewport_size(before)
    page.emulate_media(color_scheme="light")


def test_the_driver_leaves_the_chef_hears_and_a_credit_is_expected(opened, house, clean):
    porter, chef = opened.as_role(house, "porter"), opened.as_role(house, "chef", phone=False)
    expect(chef.get_by_role("heading", name="Menus", level=1)).to_be_visible()
    porter.get_by_role("link", name="Tolsaig Creamery").first.click()
    porter.get_by_role("button", name="The driver leaves").click()
    expect(porter.get_by_role("list", name="Not here")).to_contain_text("Whole milk12 l")
    porter.get_by_label("Driver's name").fill("Ines")
    clean(porter)
    shot(porter, "leaves")
    porter.get_by_role("button", name="The driver has left").click()
    expect(porter.get_by_text("Nothing more is awaited of this delivery.")).to_be_visible()
    clean(porter)
    shot(porter, "left")

    # the chef's screen is woken by the news
    expect(chef.get_by_text("Did not come, or was refused:")).to_be_visible()
    shot(chef, "menus")
    chef.get_by_role("link", name="What can replace it").click()
    expect(chef.get_by_text(MILK)).to_be_visible()
    clean(chef)
    shot(chef, "question")

    manager = opened.as_role(house, "manager")
    manager.goto("/credits")
    owed = manager.get_by_role("article").filter(has_text="Whole milk")
    expect(owed).to_contain_text("driven by Ines")
    clean(manager)
    shot(manager, "credits")
    owed.get_by_label("Amount credited, GBP").fill("9.50")
    owed.get_by_label("Number of the note").fill("CN 77")

    porter.get_by_role("button", name="Undo").click()
    expect(porter.get_by_role("list", name="What was ordered")).to_contain_text("Whole milk")
    expect(chef.get_by_text(MILK)).to_have_count(0)
    expect(manager.get_by_text("No supplier owes anything.")).to_be_visible()

    porter.get_by_role("button", name="The driver leaves").click()
    porter.get_by_role("button", name="The driver has left").click()
    owed.get_by_label("Amount credited, GBP").fill("9.50")
    owed.get_by_label("Number of the note").fill("CN 77")
    owed.get_by_role("button", name="Record the credit note").click()
    expect(owed).to_have_count(0)
