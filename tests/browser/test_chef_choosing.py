"""Choosing: what is picked, what happens, what was promised; conflicts; changes afterwards."""

import re

from playwright.sync_api import Page, expect

from tests.browser.asking import rows_of
from tests.browser.chefs import day, open_menu

SATURDAY, MONDAY, TUESDAY = 3, 5, 6
"""Days ahead of the demo house's Wednesday."""

SOUP = "Soup, ham and bread"


def _promised(page: Page) -> dict[str, str]:
    """What a menu holds of each item by the house's own report, batches by their labels."""
    service = page.url.split("/menus/")[1]
    rows = rows_of(page, "coverage", service=service)
    assert {row["state"] for row in rows} == {"confirmed"}
    return {
        row["item"]: ", ".join(part["label"] for part in row["from"] if "label" in part)
        for row in rows
        if row["from"] and not row["for"]
    }


def test_LG2_a_menu_is_confirmed_and_its_promise_appears(opened, house):
    page = opened.as_role(house, "chef")
    open_menu(page, MONDAY, "Lunch, staff")
    bar = page.get_by_role("region", name="To be done here")
    expect(bar).to_contain_text("nothing picked yet: main")
    expect(bar.get_by_role("button")).to_be_disabled()
    page.get_by_label("Mince and potatoes").check()
    expect(bar).to_contain_text(re.compile(r"\d+ from the shelf"))
    outcome = page.get_by_role("region", name="What happens when it is confirmed")
    expect(outcome).to_contain_text("set aside from the shelf")
    bar.get_by_role("button", name="Confirm for 7").click()
    expect(page.get_by_role("status").filter(has_text="Confirmed for 7")).to_be_visible()
    promised = _promised(page)
    assert "Beef mince" in promised
    for item, labels in promised.items():
        line = page.get_by_role("group").get_by_role("listitem").filter(has_text=item).first
        for label in filter(None, labels.split(", ")):
            expect(line).to_contain_text(label)
    page.goto("/menus")
    lunch = day(page, MONDAY).get_by_role("link", name="Lunch, staff")
    expect(lunch).to_contain_text("confirmed")
    expect(lunch).not_to_contain_text("ham and bread")


def test_SY3_what_another_person_changed_meanwhile_is_shown_in_both_versions(opened, house):
    chef, approver = opened.as_role(house, "chef"), opened.as_role(house, "approver")
    chef.route("**/api/news", lambda route: route.abort())
    open_menu(chef, MONDAY, "Lunch, staff")
    chef.get_by_label("Mince and potatoes").check()
    chef.route("**/api/reports/**", lambda route: route.abort())
    open_menu(approver, MONDAY, "Lunch, staff")
    approver.get_by_label("Mince and potatoes").check()
    approver.get_by_label("Covers").fill("9")
    approver.get_by_role("button", name="Confirm for 9").click()
    expect(approver.get_by_text("Confirmed for 9. The kitchen knows.")).to_be_visible()
    chef.unroute("**/api/reports/**")
    chef.get_by_role("button", name="Confirm for 7").click()
    told = chef.get_by_role("alert").filter(has_text="changed meanwhile")
    expect(told).to_contain_text("Nothing of yours was written")
    before = told.get_by_role("region", name="What you decided on")
    after = told.get_by_role("region", name="What stands now")
    expect(before).to_contain_text("proposed")
    expect(before).to_contain_text("7 covers")
    expect(after).to_contain_text("confirmed")
    expect(after).to_contain_text("9 covers")
    told.get_by_role("button", name="Look again and decide anew").click()
    expect(chef.get_by_role("button", name="Change covers")).to_be_visible()
    expect(chef.get_by_role("main")).to_contain_text("9 covers")


def test_SY3_who_is_choosing_hears_of_another_decision_before_giving_theirs(opened, house):
    chef, approver = opened.as_role(house, "chef"), opened.as_role(house, "approver")
    open_menu(chef, MONDAY, "Lunch, staff")
    chef.get_by_label("Mince and potatoes").check()
    open_menu(approver, MONDAY, "Lunch, staff")
    approver.get_by_label("Mince and potatoes").check()
    approver.get_by_role("button", name="Confirm for 7").click()
    told = chef.get_by_role("alert").filter(has_text="changed meanwhile")
    expect(told.get_by_role("region", name="What stands now")).to_contain_text("confirmed")
    expect(chef.get_by_role("button", name="Confirm for 7")).to_have_count(0)


def test_AL3_a_conflict_names_the_person_and_offers_their_safe_dish_first(opened, house):
    page = opened.as_role(house, "chef")
    open_menu(page, MONDAY, "Lunch, staff")
    page.get_by_label(SOUP).check()
    expect(page.get_by_text("Tam Wedderlie cannot eat what is picked")).to_be_visible()
    page.get_by_role("button", name="Confirm for 7").click()
    panel = page.get_by_role("dialog", name="Tam Wedderlie cannot eat this")
    expect(panel).to_contain_text("it contains gluten (Sourdough loaf)")
    expect(panel).to_contain_text("Read the label.")
    keys = panel.get_by_role("button").all_inner_texts()
    assert keys[:2] == ["Close", f"Give Tam Wedderlie: {SOUP}, without gluten"]
    panel.get_by_role("button", name="Give Tam Wedderlie").click()
    expect(panel).not_to_be_visible()
    expect(page.get_by_label(f"Portions of {SOUP}", exact=True)).to_have_value("6")
    expect(page.get_by_label(f"Portions of {SOUP}, without gluten")).to_have_value("1")
    page.get_by_role("button", name="Confirm for 7").click()
    expect(page.get_by_role("status").filter(has_text="Confirmed for 7")).to_be_visible()
    main = page.get_by_role("region", name="main")
    expect(main).to_contain_text(f"{SOUP} (6)")
    expect(main).to_contain_text(f"{SOUP}, without gluten (1)")


def test_AL3_overriding_is_by_naming_the_person(opened, house):
    page = opened.as_role(house, "chef")
    open_menu(page, MONDAY, "Lunch, staff")
    page.get_by_label(SOUP).check()
    page.get_by_role("button", name="Confirm for 7").click()
    panel = page.get_by_role("dialog", name="Tam Wedderlie cannot eat this")
    override = panel.get_by_role("button", name="Serve it to Tam Wedderlie all the same")
    expect(override).to_be_disabled()
    name = panel.get_by_label("whose safety is it?")
    name.fill("Tam")
    expect(override).to_be_disabled()
    name.fill("Tam Wedderlie")
    override.click()
    expect(page.get_by_role("status").filter(has_text="Confirmed for 7")).to_be_visible()


def test_what_cannot_be_had_does_not_block_a_confirmation(opened, house):
    """A shortage never blocks a choice (AL3): cream is ordered, and no mussels come in time."""
    page = opened.as_role(house, "chef")
    open_menu(page, TUESDAY, "Dinner, family")
    page.get_by_label("Mussels in cider").check()
    bar = page.get_by_role("region", name="To be done here")
    expect(bar).to_contain_text("1 cannot be had")
    bar.get_by_role("button", name=re.compile("^Confirm for")).click()
    expect(page.get_by_text("1 item cannot be had any more.")).to_be_visible()


def test_covers_are_changed_and_changed_back(opened, house):
    page = opened.as_role(house, "chef")
    open_menu(page, SATURDAY, "Dinner, family")
    expect(page.get_by_role("button", name="1.2 l Double cream short")).to_be_visible()
    page.get_by_role("button", name="Change covers").click()
    panel = page.get_by_role("dialog", name="Change covers")
    for _ in range(2):
        panel.get_by_role("button", name="One more: Covers").click()
    # 10 / 8 x 1.2 l: said before it is done
    expect(panel.get_by_label("What it would change")).to_contain_text("Double cream 300 ml")
    panel.get_by_role("button", name="It is for 10 now").click()
    expect(page.get_by_text("It is for 10 now, not 8.")).to_be_visible()
    # 10 / 8 x 1.2 l
    expect(page.get_by_role("button", name="1.5 l Double cream short")).to_be_visible()
    page.get_by_role("button", name="Undo: for 8 again").click()
    expect(page.get_by_role("button", name="1.2 l Double cream short")).to_be_visible()


def test_a_dinner_becomes_the_next_days_breakfast(opened, house):
    page = opened.as_role(house, "chef")
    open_menu(page, SATURDAY, "Dinner, family")
    page.get_by_role("button", name="Move", exact=True).click()
    panel = page.get_by_role("dialog", name="Move this meal")
    panel.get_by_label("Day").select_option(index=SATURDAY + 1)
    expect(panel.get_by_text("A menu stands there already")).to_be_visible()
    panel.get_by_label("Breakfast").check()
    panel.get_by_label("Time").fill("11:00")
    expect(panel.get_by_label("What it would change")).to_be_visible()
    panel.get_by_role("button", name=re.compile("^Have it on Sunday.*11:00$")).click()
    expect(panel).to_have_count(0)
    open_menu(page, SATURDAY + 1, "Breakfast, family")
    expect(page.get_by_text("confirmed", exact=True)).to_be_visible()


def test_a_meal_is_taken_off_and_can_be_proposed_again(opened, house):
    page = opened.as_role(house, "chef")
    open_menu(page, SATURDAY, "Dinner, family")
    page.get_by_role("button", name="Take off").click()
    panel = page.get_by_role("dialog", name="Take this meal off")
    expect(panel).to_contain_text("There is no way back by one key")
    expect(panel.get_by_label("What it would change")).to_contain_text("spare")
    panel.get_by_label("another meal instead").check()
    panel.get_by_role("button", name="Take it off").click()
    expect(page.get_by_text("taken off", exact=True)).to_be_visible()
    page.get_by_role("link", name="Propose it again").click()
    expect(page.get_by_role("heading", name="Change what is proposed")).to_be_visible()
    expect(page.get_by_text("Roast sirloin of beef").first).to_be_visible()
    page.get_by_role("button", name="Propose", exact=True).click()
    expect(page.get_by_text("proposed", exact=True)).to_be_visible()
    expect(page.get_by_label("Roast sirloin of beef")).to_be_checked()


def test_the_keyboard_alone_chooses_and_confirms(opened, house):
    page = opened.as_role(house, "chef", phone=False)
    open_menu(page, MONDAY, "Lunch, staff")
    _tab_to(page, page.get_by_label("Mince and potatoes"))
    page.keyboard.press("Space")
    _tab_to(page, page.get_by_role("button", name="Confirm for 7"))
    page.keyboard.press("Enter")
    expect(page.get_by_role("status").filter(has_text="Confirmed for 7")).to_be_visible()


def _tab_to(page: Page, wanted) -> None:
    expect(wanted).to_be_visible()
    for _ in range(60):
        page.keyboard.press("Tab")
        if wanted.evaluate("element => element === document.activeElement"):
            return
    raise AssertionError("the keyboard does not reach it")


def test_WCAG_choosing_is_accessible(opened, shared_house, clean):
    """The conflict panel is a refusal: nothing of the shared house changes."""
    page = opened.as_role(shared_house, "chef")
    open_menu(page, MONDAY, "Lunch, staff")
    page.get_by_label(SOUP).check()
    page.get_by_role("button", name="Give Tam Wedderlie").click()
    expect(page.get_by_label(f"Portions of {SOUP}", exact=True)).to_be_visible()
    expect(page.get_by_text("set aside from the shelf")).to_be_visible()
    clean(page)
    page.get_by_label(SOUP, exact=True).uncheck()
    page.get_by_label(SOUP, exact=True).check()
    page.get_by_role("button", name="Confirm for 7").click()
    expect(page.get_by_role("dialog", name="Tam Wedderlie cannot eat this")).to_be_visible()
    clean(page)


def test_WCAG_the_changes_are_accessible(opened, shared_house, clean):
    page = opened.as_role(shared_house, "chef")
    open_menu(page, SATURDAY, "Dinner, family")
    for key, title in (
        ("Change covers", "Change covers"),
        ("Move", "Move this meal"),
        ("Take off", "Take this meal off"),
    ):
        page.get_by_role("button", name=key).click()
        panel = page.get_by_role("dialog", name=title)
        expect(panel).to_be_visible()
        for more in panel.get_by_role("button", name="One more: Covers").all():
            more.click()
        if key != "Move":
            expect(panel.get_by_label("What it would change")).to_be_visible()
        clean(page)
        page.keyboard.press("Escape")
