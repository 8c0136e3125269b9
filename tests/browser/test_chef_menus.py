"""The chef's front door: the menus of the next days, one of them, and what it is made of."""

import re

from playwright.sync_api import Page, expect

from tests.browser.chefs import day, open_menu

SATURDAY, MONDAY, FRIDAY = 3, 5, 9
"""Days ahead of the demo house's Wednesday."""


def test_a_chef_opens_onto_the_menus_day_by_day(opened, shared_house):
    page = opened.as_role(shared_house, "chef")
    expect(page.get_by_role("heading", name="Menus", level=1)).to_be_visible()
    saturday = day(page, SATURDAY)
    dinner = saturday.get_by_role("link", name="Dinner, family")
    expect(dinner).to_contain_text("19:30")
    expect(dinner).to_contain_text("for 8")
    expect(dinner).to_contain_text("confirmed")
    expect(dinner).to_contain_text("1 item short")
    expect(dinner).to_contain_text("Roast sirloin of beef")
    expect(saturday.get_by_role("link", name="Lunch, staff")).to_contain_text("covered")


def test_PL5_what_must_be_chosen_early_stands_out_with_its_reason(opened, shared_house):
    """Duck comes to this house once a week; its order-by is five days before the dinner."""
    page = opened.as_role(shared_house, "chef")
    dinner = day(page, FRIDAY).get_by_role("link", name="Dinner, family")
    expect(dinner).to_contain_text("earlier than usual: Duck breast with rhubarb")
    expect(dinner).to_contain_text("because Duck breast must be ordered by then")
    expect(dinner).to_contain_text("choose by Sunday 09:40")
    expect(dinner.locator(".left-bar .notch")).to_have_count(1)


def test_the_list_is_narrowed_by_table_and_to_what_is_still_to_choose(opened, shared_house):
    page = opened.as_role(shared_house, "chef")
    everything = page.get_by_role("link", name=re.compile("(Lunch|Supper|Dinner), "))
    expect(everything.first).to_be_visible()
    total = everything.count()
    page.get_by_role("button", name="children", exact=True).click()
    expect(page.get_by_role("link", name="Dinner, family")).to_have_count(0)
    assert 0 < everything.count() < total
    page.get_by_role("button", name="still to choose").click()
    expect(page.get_by_text("confirmed", exact=True)).to_have_count(0)
    expect(page.get_by_text("proposed", exact=True).first).to_be_visible()


def test_PL7_a_figure_of_a_dish_opens_to_what_it_is_made_of(opened, shared_house):
    """8 posset portions of a recipe for 8 that takes 1.2 l of cream, and none of it is there."""
    page = opened.as_role(shared_house, "chef")
    open_menu(page, SATURDAY, "Dinner, family")
    figure = page.get_by_role("button", name="1.2 l Double cream short")
    figure.click()
    panel = page.get_by_role("dialog", name="Double cream for Lemon posset with shortbread")
    expect(panel).to_contain_text("8 portions ÷ 8 that the recipe makes × 1200 ml = 1200 ml")
    expect(panel).to_contain_text("can be ordered until Friday 16:50")
    page.keyboard.press("Escape")
    expect(panel).not_to_be_visible()
    expect(figure).to_be_focused()


def test_PL7_trimming_is_in_the_derivation_and_batches_by_their_labels(opened, shared_house):
    """Mince and potatoes for 7 of 8, by the sheet: 400 g swede trimmed to 0.85 of what is bought.

    7 / 8 x 400 g / 0.85 = 411.765 g, worked out by hand.
    """
    page = opened.as_role(shared_house, "chef")
    open_menu(page, MONDAY, "Lunch, staff")
    mince = page.get_by_role("listitem").filter(has_text="Mince and potatoes").first
    mince.get_by_role("button", name=re.compile(r"^\d+ items$")).click()
    panel = page.get_by_role("dialog", name="What Mince and potatoes needs")
    swede = panel.get_by_role("listitem").filter(has_text="Swede")
    swede.locator("summary").click()
    expect(swede).to_contain_text("7 portions ÷ 8 that the recipe makes × 400 g ÷ 17/20")
    expect(swede).to_contain_text("= 411.765 g")
    expect(swede).to_contain_text("From batch B-")


def test_AL3_who_cannot_eat_a_dish_is_named_with_their_safe_dish(opened, shared_house):
    page = opened.as_role(shared_house, "chef")
    open_menu(page, MONDAY, "Dinner, family")
    salad = page.get_by_role("listitem").filter(has_text="Beetroot and goat's cheese salad").first
    dish = "Beetroot and goat's cheese salad"
    expect(salad).to_contain_text(f"For Mrs Ellacott: not {dish}, it contains nuts (Walnuts)")
    expect(salad).to_contain_text(f"safe: {dish}, without nuts.")
    caution = page.get_by_text("Read the label. Local codes and medical advice come first.")
    expect(caution).to_be_visible()


def test_what_can_no_longer_be_had_is_said_in_words(opened, shared_house):
    page = opened.as_role(shared_house, "chef")
    open_menu(page, MONDAY + 1, "Dinner, family")
    mussels = page.get_by_role("listitem").filter(has_text="Mussels in cider").first
    expect(mussels).to_contain_text("cannot be had any more: it lacks Double cream and Mussels")


def test_a_recipe_opens_with_what_is_in_it(opened, shared_house):
    page = opened.as_role(shared_house, "chef")
    open_menu(page, MONDAY, "Lunch, staff")
    page.get_by_role("button", name="Recipe of Mince and potatoes").click()
    recipe = page.get_by_role("dialog", name="Mince and potatoes")
    expect(recipe).to_contain_text("For 8 portions. Begun 2 h before.")
    expect(recipe).to_contain_text("Beef mince")
    expect(recipe).to_contain_text("1.4 kg")
    expect(recipe).to_contain_text("Brown the mince well")
    expect(recipe).to_contain_text("Read the label.")


def test_who_approves_menus_reads_not_a_word_of_stock(opened, shared_house):
    page = opened.as_role(shared_house, "approver")
    expect(day(page, FRIDAY).get_by_role("link", name="Dinner, family")).to_be_visible()
    _no_stock(page)
    open_menu(page, SATURDAY, "Dinner, family")
    _no_stock(page)
    page.go_back()
    open_menu(page, MONDAY, "Dinner, family")
    expect(page.get_by_role("button", name="Confirm for 4")).to_be_visible()
    _no_stock(page)


def _no_stock(page: Page) -> None:
    said = page.get_by_role("main").inner_text().lower()
    for word in ("short", "covered", "shelf", "stock", "batch", "bought", "order", "freezer"):
        assert not re.search(rf"\b{word}\b", said.replace("shortbread", "")), word


def test_WCAG_the_menus_are_accessible(opened, shared_house, clean):
    page = opened.as_role(shared_house, "chef")
    expect(day(page, SATURDAY)).to_be_visible()
    clean(page)
    open_menu(page, SATURDAY, "Dinner, family")
    figure = page.get_by_role("button", name="1.2 l Double cream short")
    expect(figure).to_be_visible()
    clean(page)
    figure.click()
    expect(page.get_by_role("dialog")).to_be_visible()
    clean(page)


def test_the_menus_need_no_sideways_scrolling_on_a_small_phone(opened, shared_house):
    page = opened.as_role(shared_house, "chef")
    for ahead, name in ((MONDAY, "Lunch, family"), (SATURDAY, "Dinner, family")):
        open_menu(page, ahead, name)
        expect(page.get_by_role("button", name=re.compile("items?$")).first).to_be_visible()
        wide = page.evaluate("document.documentElement.scrollWidth")
        assert wide <= 360
        page.go_back()
