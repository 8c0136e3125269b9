"""The manager's front door: what must be ordered by what hour, and why."""

from playwright.sync_api import expect


def test_a_manager_opens_onto_the_deadlines(opened, shared_house):
    page = opened.as_role(shared_house, "manager")
    expect(page.get_by_role("heading", name="Deadlines", level=1)).to_be_visible()
    now = page.get_by_role("region", name="Order now")
    expect(now.get_by_role("heading", name="Kelderay Boat Stores")).to_be_visible()
    expect(now.get_by_text("today 09:40")).to_be_visible()
    expect(now.get_by_text("order now", exact=True)).to_be_visible()


def test_PL7_a_figure_of_the_plan_opens_to_what_it_is_made_of(opened, shared_house):
    """Cellar: 1.125 l stand, the floor is 1.5 l, 3.375 l bring it to 4.5 l: one case of 4.5 l."""
    page = opened.as_role(shared_house, "manager", phone=False)
    figure = page.get_by_role("button", name="1 × case of 6 x 750 ml")
    figure.click()
    panel = page.get_by_role("dialog", name="1 × case of 6 x 750 ml White wine for cooking")
    expect(panel).to_contain_text("below its floor of 1.5 l; 3.375 l bring it back to 4.5 l")
    expect(panel).to_contain_text("1 × case of 6 x 750 ml = 4.5 l")
    expect(panel).to_contain_text("1 × 37.80 GBP = 37.80 GBP")
    expect(panel).to_contain_text("today 10:00")
    expect(panel).to_contain_text("today 09:40: the cut-off less 20 min to send it")
    page.keyboard.press("Escape")
    expect(panel).not_to_be_visible()
    expect(figure).to_be_focused()


def test_PL2_what_is_lacking_is_added_to_the_order_that_is_placed_for_the_boat(opened, house):
    """Four lines are ordered of the boat already: a second order would be charged a second time."""
    page = opened.as_role(house, "manager")
    now = page.get_by_role("region", name="Order now")
    now.get_by_role("button", name="It is ordered: 1 line").click()
    expect(now.get_by_text("Nothing presses.")).to_be_visible()
    coming = page.get_by_role("region", name="On its way").get_by_role("listitem")
    boats = coming.filter(has_text="Kelderay Boat Stores")
    expect(boats).to_have_count(1)
    expect(boats).to_contain_text("5 lines")


def test_SY3_an_order_placed_by_somebody_else_meanwhile_is_a_conflict(opened, house):
    """Two people look at the same deadline; the second is told, and nothing is ordered twice."""
    chef, manager = opened.as_role(house, "chef"), opened.as_role(house, "manager")
    for page in (chef, manager):
        page.get_by_role("link", name="Deadlines").click()
        expect(page.get_by_role("button", name="It is ordered: 1 line")).to_be_visible()
    manager.route("**/api/reports/**", lambda route: route.abort())
    manager.route("**/api/news", lambda route: route.abort())
    chef.get_by_role("button", name="It is ordered: 1 line").click()
    expect(chef.get_by_text("Nothing presses.")).to_be_visible()
    manager.get_by_role("button", name="It is ordered: 1 line").click()
    told = manager.get_by_role("alert").filter(has_text="changed meanwhile")
    expect(told).to_be_visible()


def test_the_keyboard_alone_places_an_order(opened, house):
    page = opened.as_role(house, "manager", phone=False)
    button = page.get_by_role("button", name="It is ordered: 1 line")
    expect(button).to_be_visible()
    for _ in range(30):
        page.keyboard.press("Tab")
        if button.evaluate("element => element === document.activeElement"):
            break
    expect(button).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.get_by_text("Nothing presses.")).to_be_visible()


def test_a_porter_has_no_door_to_the_deadlines(opened, shared_house):
    page = opened.as_role(shared_house, "porter")
    expect(page.get_by_role("link", name="Deadlines")).to_have_count(0)
    page.goto("/deadlines")
    expect(page.get_by_role("heading", name="Goods in", level=1)).to_be_visible()


def test_WCAG_the_deadlines_are_accessible(opened, shared_house, clean):
    page = opened.as_role(shared_house, "manager")
    expect(page.get_by_role("region", name="Order now")).to_be_visible()
    expect(
        page.get_by_role("region", name="On its way").get_by_role("listitem").first
    ).to_be_visible()
    clean(page)
    page.get_by_role("button", name="1 × case of 6 x 750 ml").click()
    expect(page.get_by_role("dialog")).to_be_visible()
    clean(page)
