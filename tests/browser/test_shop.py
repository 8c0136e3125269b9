"""A shop run with its receipt, use off the menu, 'we are out of': what becomes of each."""

from playwright.sync_api import Page, expect

from tests.browser.offline import until_whole
from tests.browser.test_pictures import photographed


def more(page: Page, name: str) -> None:
    """By the way everybody takes."""
    page.get_by_role("navigation", name="Doors").get_by_role("link", name="More").click()
    page.get_by_role("link", name=name).click()
    expect(page.get_by_role("main")).to_be_visible()


def test_LG6_a_shop_run_without_the_house_is_in_its_books_later_and_can_be_undone(
    opened, house, clean
):
    page = opened.enrolled(house)
    until_whole(page)
    house.kill()
    more(page, "Shop run")
    page.get_by_label("Shop, or another one").fill("Sandnes Stores")
    page.get_by_label("Paid in all, GBP").fill("13.85")
    page.get_by_label("Take a picture").set_input_files(photographed())
    expect(page.get_by_role("img", name="Receipt, 1")).to_be_visible()
    page.get_by_label("Something else, in words").fill("a bag of ice")
    page.get_by_role("button", name="Add it").click()
    page.get_by_label("Code or item").fill("who")
    page.get_by_role("button", name="Whole milk").click()
    expect(page.get_by_role("heading", name="Whole milk", level=1)).to_be_visible()
    page.get_by_label("Day and month, as four digits").fill("1903")
    clean(page)
    page.get_by_role("button", name="Add 1 x").click()
    expect(page.get_by_role("list", name="Bought").get_by_role("listitem")).to_have_count(2)
    clean(page)
    page.get_by_role("button", name="Record the shop run").click()
    expect(page.get_by_text("Saved on this phone")).to_be_visible()
    clean(page)
    house.begin()
    expect(page.get_by_text("1 record waits")).to_have_count(0)
    expect(page.get_by_text("1 picture waits")).to_have_count(0)

    manager = opened.as_role(house, "manager")
    more(manager, "Petty cash")
    run = manager.get_by_role("article").filter(has_text="Sandnes Stores")
    expect(run).to_contain_text("13.85 GBP")
    expect(run).to_contain_text("Besides: a bag of ice")
    expect(run.get_by_role("img")).to_be_visible()
    clean(manager)
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Taken back")).to_be_visible()
    expect(run).to_have_count(0)


def test_we_are_out_of_it_reaches_the_order_desk_and_the_chef(opened, house, clean):
    page = opened.as_role(house, "porter")
    more(page, "We are out of")
    page.get_by_label("In words").fill("a new ladle")
    page.get_by_role("button", name="Ask for it").click()
    asked = page.get_by_role("list", name="Asked for").get_by_role("listitem")
    expect(asked.filter(has_text="a new ladle")).to_have_count(1)
    clean(page)
    page.get_by_label("Code or item").fill("who")
    page.get_by_role("button", name="Whole milk").click()
    expect(page.get_by_role("heading", name="The books say there is some")).to_be_visible()
    page.get_by_role("button", name="We are out of Whole milk").click()
    expect(page.get_by_text("We are out of: Whole milk")).to_be_visible()
    page.get_by_role("button", name="None there").first.click()
    expect(page.get_by_text("Counted: no Whole milk")).to_be_visible()
    clean(page)

    chef = opened.as_role(house, "chef", at="/questions")
    question = chef.get_by_role("article").filter(has_text="we are out of Whole milk")
    expect(question.get_by_role("list", name="What is short")).to_be_visible()
    clean(chef)

    manager = opened.as_role(house, "manager")
    desk = manager.get_by_role("list", name="Asked for").get_by_role("listitem")
    milk = desk.filter(has_text="We are out of Whole milk")
    expect(milk).to_contain_text("Wanted by")
    clean(manager)
    milk.get_by_role("button", name="Done").click()
    expect(milk).to_have_count(0)
    expect(question).to_have_count(0)


def test_LG6_a_tray_is_used_with_one_tap_and_undone(opened, house, clean):
    page = opened.as_role(house, "porter")
    more(page, "Used off the menu")
    page.get_by_label("Code, label or item").fill("who")
    page.get_by_role("button", name="Whole milk").click()
    expect(page.get_by_role("button", name="Used", exact=False).last).to_be_visible()
    clean(page)
    page.get_by_label("Another amount, ml").fill("250")
    page.get_by_text("a tray").click()
    page.get_by_role("button", name="Used 250 ml").click()
    expect(page.get_by_text("Used: 250 ml Whole milk")).to_be_visible()
    expect(page.get_by_role("button", name="as the last time")).to_be_visible()
    page.goto("/use/B-0901")
    page.get_by_role("button", name="Used 500 g").click()
    expect(page.get_by_text("Used: 500 g Tomatoes")).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Taken back")).to_be_visible()
