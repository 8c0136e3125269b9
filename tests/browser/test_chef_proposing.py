"""Proposing a menu, a recipe that is new here, and what must be used first."""

import re

from playwright.sync_api import expect

from tests.browser.chefs import open_menu

MONDAY = 5
"""Days ahead of the demo house's Wednesday."""

NETTLES = "Nettle and wild garlic soup"


def test_a_menu_is_proposed_with_dishes_found_by_three_letters(opened, house):
    page = opened.as_role(house, "chef")
    page.get_by_role("link", name="Propose a menu").click()
    expect(page.get_by_role("heading", name="Propose a menu")).to_be_visible()
    page.get_by_label("Breakfast").check()
    page.get_by_label("staff").check()
    expect(page.get_by_label("Covers", exact=True)).to_have_value("7")
    page.get_by_label("Time").fill("08:30")
    main = page.get_by_role("region", name="Main")
    find = main.get_by_label("A dish for the main")
    find.fill("ke")
    expect(main.get_by_role("button", name="Kedgeree")).to_have_count(0)
    find.fill("ked")
    hit = main.get_by_role("button", name="Kedgeree")
    expect(hit).to_contain_text("Not yet served to staff")
    expect(hit).to_contain_text("Contains")
    hit.click()
    main.get_by_label("Or another dish for the main").fill("RAGU")
    main.get_by_role("button", name="Spaghetti with meat ragù").click()
    expect(main.get_by_role("listitem")).to_have_count(2)
    page.get_by_role("button", name="Propose", exact=True).click()
    expect(page.get_by_role("heading", name="Breakfast, staff", level=1)).to_be_visible()
    expect(page.get_by_text("proposed", exact=True)).to_be_visible()
    expect(page.get_by_label("Kedgeree")).not_to_be_checked()
    expect(page.get_by_label("Spaghetti with meat ragù")).to_be_visible()


def test_what_is_proposed_is_changed_in_a_version_of_a_dish(opened, house):
    page = opened.as_role(house, "chef")
    open_menu(page, MONDAY, "Lunch, staff")
    page.get_by_role("link", name="Change what is proposed").click()
    page.get_by_label("Version of Soup, ham and bread").select_option("without gluten")
    page.get_by_role("button", name="Propose", exact=True).click()
    expect(page.get_by_label("Soup, ham and bread, without gluten")).to_be_visible()
    expect(page.get_by_text("changed meanwhile")).to_have_count(0)
    expect(page.get_by_text("For Tam Wedderlie: not")).to_have_count(0)


def test_a_dish_new_here_needs_its_recipe_approved_before_it_is_chosen(opened, house):
    page = opened.as_role(house, "chef")
    open_menu(page, MONDAY, "Lunch, staff")
    page.get_by_role("link", name="Change what is proposed").click()
    page.get_by_label("Or another dish for the main").fill("nettle")
    hit = page.get_by_role("button", name=NETTLES)
    expect(hit).to_contain_text("In season 15 March to 15 May.")
    expect(hit).to_contain_text("Its recipe is not approved yet.")
    hit.click()
    page.get_by_role("button", name="Propose", exact=True).click()
    page.get_by_label(NETTLES).check()
    page.get_by_role("button", name="Confirm for 7").click()
    refusal = page.get_by_role("alert")
    expect(refusal).to_contain_text(f"The recipe of {NETTLES} has not been approved.")
    page.get_by_role("button", name=f"Recipe of {NETTLES}").click()
    recipe = page.get_by_role("dialog", name=NETTLES)
    expect(recipe).to_contain_text("Young nettles")
    recipe.get_by_role("button", name="Approve this recipe").click()
    expect(recipe.get_by_role("status")).to_contain_text(f"Approved: {NETTLES} can be chosen.")
    page.keyboard.press("Escape")
    expect(page.get_by_text("new here: look at its recipe")).to_have_count(0)
    page.get_by_role("button", name="Confirm for 7").click()
    expect(page.get_by_role("status").filter(has_text="Confirmed for 7")).to_be_visible()


def test_SY3_a_menu_that_was_chosen_meanwhile_is_not_proposed_over(opened, house):
    chef, approver = opened.as_role(house, "chef"), opened.as_role(house, "approver")
    chef.route("**/api/news", lambda route: route.abort())
    open_menu(chef, MONDAY, "Lunch, staff")
    chef.get_by_role("link", name="Change what is proposed").click()
    expect(chef.get_by_role("button", name="Propose", exact=True)).to_be_visible()
    chef.route("**/api/reports/**", lambda route: route.abort())
    open_menu(approver, MONDAY, "Lunch, staff")
    approver.get_by_label("Mince and potatoes").check()
    approver.get_by_role("button", name="Confirm for 7").click()
    expect(approver.get_by_text("Confirmed for 7.")).to_be_visible()
    chef.unroute("**/api/reports/**")
    chef.get_by_role("button", name="Propose", exact=True).click()
    told = chef.get_by_role("alert").filter(has_text="changed meanwhile")
    expect(told.get_by_role("region", name="What stands now")).to_contain_text("confirmed")


def test_what_must_be_used_first_leads_to_a_proposal_with_a_dish_that_uses_it(opened, shared_house):
    page = opened.as_role(shared_house, "chef")
    page.get_by_role("link", name="What must be used first").click()
    expect(page.get_by_role("heading", name="Use first", level=1)).to_be_visible()
    whites = page.get_by_role("listitem").filter(has_text="Egg whites").first
    expect(whites).to_contain_text("200 g free")
    expect(whites).to_contain_text("use by today")
    expect(whites.locator(".left-bar")).to_have_count(1)
    whites.get_by_role("link", name=re.compile("^Propose it.*Meringues with lemon curd")).click()
    pudding = page.get_by_role("region", name="Pudding")
    pudding.get_by_role("button", name="Meringues with lemon curd").click()
    expect(page.get_by_role("button", name="Propose", exact=True)).to_be_enabled()


def test_a_batch_names_the_menu_that_could_use_it(opened, shared_house):
    page = opened.as_role(shared_house, "chef", at="/use-first")
    jelly = page.get_by_role("listitem").filter(has_text="Redcurrant jelly").first
    expect(jelly).to_contain_text("best before was")
    expect(jelly).to_contain_text("on the menu tomorrow, dinner, family")
    jelly.get_by_role("link", name="See the menu with Venison casserole with juniper").click()
    expect(page.get_by_role("heading", name="Dinner, family", level=1)).to_be_visible()


def test_WCAG_proposing_and_using_first_are_accessible(opened, shared_house, clean):
    page = opened.as_role(shared_house, "chef", at="/menus/propose")
    page.get_by_label("Day").select_option(index=10)
    covers = page.get_by_label("Covers", exact=True)
    expect(covers).to_have_value("8")
    expect(page.get_by_text("8: said by Helena Corvane")).to_be_visible()
    page.get_by_role("button", name="One more: Covers").click()
    page.get_by_label("Day").select_option(index=9)
    expect(page.get_by_role("button", name="Take 6 covers")).to_be_visible()
    expect(covers).to_have_value("9")
    find = page.get_by_role("region", name="Main").get_by_label("A dish for the main")
    find.fill("veni")
    page.get_by_role("button", name="Venison casserole with juniper").click()
    expect(page.get_by_label("Version of Venison casserole with juniper")).to_be_visible()
    page.get_by_label("Or another dish for the main").fill("las")
    expect(page.get_by_role("button", name=re.compile("^Lasagne"))).to_be_visible()
    clean(page)
    page.goto("/use-first")
    expect(page.get_by_role("listitem").filter(has_text="Egg whites").first).to_be_visible()
    expect(page.get_by_role("link", name=re.compile("^Propose it")).first).to_be_visible()
    clean(page)


def test_the_keyboard_alone_proposes(opened, house):
    page = opened.as_role(house, "chef", phone=False, at="/menus/propose")
    find = page.get_by_role("region", name="Main").get_by_label("A dish for the main")
    find.focus()
    page.keyboard.type("lasag")
    hit = page.get_by_role("button", name=re.compile("^Lasagne"))
    expect(hit).to_be_visible()
    page.keyboard.press("Tab")
    expect(hit).to_be_focused()
    page.keyboard.press("Enter")
    propose = page.get_by_role("button", name="Propose", exact=True)
    for _ in range(40):
        page.keyboard.press("Tab")
        if propose.evaluate("element => element === document.activeElement"):
            break
    page.keyboard.press("Enter")
    expect(page.get_by_text("proposed", exact=True)).to_be_visible()
    expect(page.get_by_label("Lasagne")).to_be_visible()


def test_several_days_are_proposed_at_once_and_what_was_begun_outlives_the_page(
    opened, house, clean
):
    page = opened.as_role(house, "chef", phone=False)
    page.get_by_role("link", name="Several days").click()
    expect(page.get_by_role("heading", name="Propose several days")).to_be_visible()
    free = page.get_by_role("button", name=re.compile("^Dinner, family"), expanded=False)
    free.first.click()
    find = page.get_by_label("A dish for the main")
    find.fill("lasag")
    hit = page.get_by_role("button", name=re.compile("^Lasagne"))
    expect(hit).to_contain_text("covered by what is there")
    hit.click()
    clean(page)
    page.get_by_role("button", name=re.compile("^Dinner, family"), expanded=True).click()
    expect(page.get_by_role("button", name="Propose 1 menu")).to_be_enabled()
    page.reload()
    expect(page.get_by_text("As you left it")).to_be_visible()
    free.nth(1).click()
    page.get_by_label("A dish for the main").fill("ked")
    page.get_by_role("button", name=re.compile("^Kedgeree")).click()
    page.get_by_role("button", name="Propose 2 menus").click()
    expect(page.get_by_role("link", name="Dinner, family: proposed")).to_have_count(2)
    expect(page.get_by_role("button", name="Propose: at least one dish first")).to_be_disabled()
