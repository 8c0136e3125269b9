"""The rooms that several share: the line of the days, the morning sheet, questions, and more."""

import re

from playwright.sync_api import expect


def test_the_days_show_meals_deliveries_deadlines_and_what_ends(opened, shared_house):
    page = opened.as_role(shared_house, "manager", phone=False, at="/days")
    today = page.locator("section.day").first
    expect(today.get_by_role("heading")).to_contain_text("today")
    expect(today).to_contain_text("06:45Tolsaig Creamery 3 lines")
    expect(today).to_contain_text("lunch, staff (7)")
    expect(today).to_contain_text("09:40Kelderay Boat Stores 1 item")
    expect(today).to_contain_text("Egg whites B-0020 for nobody yet")
    assert page.locator("section.day").count() == 7


def test_a_meal_on_the_line_leads_to_its_menu(opened, shared_house):
    page = opened.as_role(shared_house, "chef", phone=False, at="/days")
    page.locator("section.day").first.get_by_role("link", name="dinner, family (4)").click()
    expect(page).to_have_url(re.compile("/menus/.*/dinner/family$"))


SLOW = """
    const paint = requestAnimationFrame.bind(window), later = setTimeout.bind(window);
    window.requestAnimationFrame = (then) => paint(() => later(then, 700));
    window.setTimeout = (then, ms = 0, ...more) => later(then, ms + 700, ...more);
"""
"""A phone that is busy: what waits for a moment of its own gets it after the house has answered."""


def test_a_link_opens_its_room_on_a_busy_phone_too(opened, shared_house):
    page = opened.as_role(shared_house, "chef")
    page.add_init_script(SLOW)
    page.goto("/morning")
    expect(page.get_by_role("navigation", name="Doors")).to_be_visible()
    expect(page.get_by_role("region", name="Comes today")).to_be_visible()
    expect(page).to_have_url(re.compile("/morning$"))


def test_the_morning_sheet_is_one_page_at_seven(opened, shared_house):
    page = opened.as_role(shared_house, "porter")
    page.get_by_role("link", name="More").click()
    page.get_by_role("link", name="Morning sheet").click()
    comes = page.get_by_role("region", name="Comes today")
    expect(comes).to_contain_text("4 × 1 l carton Orange juice")
    expect(page.get_by_role("region", name="Out of the freezer")).to_contain_text("Sweet pastry")
    expect(page.get_by_role("region", name="Ends today")).to_contain_text("Single cream")
    assert "GBP" not in page.locator("main").inner_text()


def test_the_morning_sheet_prints_without_the_doors(opened, shared_house):
    page = opened.as_role(shared_house, "chef", at="/morning")
    expect(page.get_by_role("region", name="Comes today")).to_be_visible()
    page.emulate_media(media="print")
    expect(page.get_by_role("navigation", name="Doors")).not_to_be_visible()
    expect(page.get_by_role("button", name="Print it")).not_to_be_visible()


def test_a_question_is_settled_by_its_owner(opened, house):
    page = opened.as_role(house, "chef", at="/questions")
    expect(page.get_by_text("Mrs Ellacott cannot eat nuts")).to_be_visible()
    page.get_by_role("button", name="Cook them their own").click()
    expect(page.get_by_text("Mrs Ellacott cannot eat nuts")).to_have_count(0)


def test_SY10_a_porter_sees_no_question_with_a_persons_allergy(opened, shared_house):
    page = opened.as_role(shared_house, "porter", at="/questions")
    expect(page.get_by_text("Nothing is open. The books agree.")).to_be_visible()
    assert "Ellacott" not in page.content()


def test_SY10_what_was_left_names_nobody_to_a_porter(opened, shared_house):
    """The chef's morning sheet asks about Mrs Ellacott and nuts; the porter's does not."""
    for role, is_told in (("chef", True), ("porter", False)):
        page = opened.as_role(shared_house, role, at="/morning")
        expect(
            page.get_by_role("region", name="Comes today").get_by_role("listitem")
        ).to_have_count(3)
        assert ("Ellacott" in page.content()) is is_told


ROOM_IS_BROUGHT = """async (room) => {
    const brought = () => performance.getEntriesByType("resource")
        .find(({ name, responseEnd }) => name.includes(`/assets/${room}-`) && responseEnd > 0);
    while (!brought()) await new Promise((done) => setTimeout(done, 50));
    await import(brought().name);
}"""
"""Beforehand: it may have come before a test can ask for it; with all that it is made of."""


def test_it_is_always_said_where_it_stands(opened, house):
    page = opened.as_role(house, "porter")
    top = page.locator("header.top")
    expect(top).to_contain_text("Ardlinnet House")
    expect(top).to_contain_text("Calum Whin")
    expect(top).to_contain_text("online")
    expect(page.get_by_role("heading", name="Goods in", level=1)).to_be_visible()
    page.evaluate(ROOM_IS_BROUGHT, "morning")
    page.get_by_role("link", name="More").click()
    expect(page.get_by_role("heading", name="More", level=1)).to_be_visible()
    page.context.set_offline(True)
    page.get_by_role("link", name="Morning sheet").click()
    expect(page.get_by_role("heading", name="Morning sheet", level=1)).to_be_visible()
    expect(top).to_contain_text("no answer from the house")
    page.context.set_offline(False)
    expect(top).to_contain_text("online")


def test_what_another_person_does_is_seen_without_asking(opened, house):
    """Server-sent: somebody places an order, and the other's deadline goes away by itself."""
    watching = opened.as_role(house, "chef", phone=False)
    watching.get_by_role("link", name="Deadlines").click()
    expect(watching.get_by_role("button", name="It is ordered: 1 line")).to_be_visible()
    page = opened.as_role(house, "manager")
    page.get_by_role("button", name="It is ordered: 1 line").click()
    expect(watching.get_by_text("Nothing presses.")).to_be_visible()


PLACES = ["/days", "/morning", "/questions", "/more", "/people", "/book", "/first-steps"]


def test_WCAG_every_shared_room_is_accessible(opened, shared_house, clean):
    page = opened.as_role(shared_house, "manager")
    for place in PLACES:
        page.goto(place)
        expect(page.get_by_role("navigation", name="Doors")).to_be_visible()
        expect(page.locator("main h1")).to_be_visible()
        page.wait_for_load_state("networkidle") if place != "/days" else None
        clean(page)
