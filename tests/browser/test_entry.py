"""Coming in: signing in, a first time with a code, the first manager of an empty house."""

import csv
import io

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import PASSWORD, PEOPLE, through_the_door
from tests.browser.servers import serving

SECRET = "a-secret-of-the-server"


@pytest.fixture
def empty_house(tmp_path, opened):
    """A server with nothing behind it, and the secret of its first manager."""
    with serving(tmp_path, CHOOSEBY_FIRST_MANAGER=SECRET) as served:
        yield served
        opened.leave()


def test_a_wrong_password_says_so_and_what_to_do(opened, shared_house):
    page = opened.page(shared_house)
    page.goto("/")
    page.get_by_label("Your name").fill(PEOPLE["chef"])
    page.get_by_label("Password").fill("not this one at all")
    page.get_by_role("button", name="Come in to Ardlinnet House").click()
    expect(page.get_by_role("alert")).to_contain_text("do not go together")
    expect(page.get_by_label("Password")).to_have_value("")


@pytest.mark.parametrize(
    ("role", "front"),
    [("porter", "Goods in"), ("chef", "Menus"), ("manager", "Deadlines"), ("approver", "Menus")],
)
def test_every_role_opens_onto_its_own_front_door(opened, shared_house, role, front):
    page = opened.page(shared_house)
    through_the_door(page, role)
    expect(page.get_by_role("heading", name=front, level=1)).to_be_visible()


def test_signing_out_ends_it_on_the_server_too(opened, shared_house):
    page = opened.as_role(shared_house, "chef")
    page.get_by_role("link", name="More").click()
    page.get_by_role("button", name="Sign out").click()
    expect(page.get_by_label("Your name")).to_be_visible()
    page.goto("/menus")
    expect(page.get_by_label("Your name")).to_be_visible()


def test_a_manager_lets_somebody_in_with_a_code_that_works_once(opened, house):
    manager = opened.as_role(house, "manager", at="/people")
    manager.get_by_role("button", name="Make a code for Jess Orrock").click()
    code = manager.locator(".said strong.figure").inner_text()
    for again in (False, True):
        page = opened.page(house)
        page.goto("/")
        page.get_by_role("button", name="I was given a code").click()
        page.get_by_label("Your name").fill("Jess Orrock")
        page.get_by_label("Code").fill(code)
        page.get_by_label("A password of your own").fill("gorse over the slip")
        page.get_by_role("button", name="Come in").click()
        if again:
            expect(page.get_by_role("alert")).to_contain_text("not valid")
        else:
            expect(page.get_by_role("heading", name="Goods in", level=1)).to_be_visible()


def test_a_person_signed_out_everywhere_is_out(opened, house):
    porter = opened.as_role(house, "porter")
    manager = opened.as_role(house, "manager", at="/people")
    manager.get_by_role("button", name="Sign out everywhere Calum Whin").click()
    expect(manager.get_by_role("button", name="Sign out everywhere Calum Whin")).to_have_count(0)
    porter.goto("/morning")
    expect(porter.get_by_label("Your name")).to_be_visible()


def _found(page):
    page.goto("/")
    page.get_by_label("The server's secret").fill(SECRET)
    page.get_by_label("Name of the house").fill("Gorse Cottage")
    page.get_by_label("Time zone").fill("Europe/Dublin")
    page.get_by_label("Currency").fill("eur")
    page.get_by_label("Your name").fill("Maeve Tully")
    page.get_by_label("A password of your own").fill(PASSWORD)
    page.get_by_role("button", name="Found the house").click()
    expect(page.get_by_role("heading", name="Deadlines", level=1)).to_be_visible()


def test_an_empty_house_is_led_to_its_first_delivery_and_first_menu(opened, empty_house):
    page = opened.page(empty_house)
    _found(page)
    page.get_by_role("link", name="Six steps to the first delivery and the first menu").click()
    page.get_by_role("button", name="Begin with these three").click()
    page.get_by_label("What it is").fill("Plain flour")
    page.get_by_label("Kept in").select_option("Pantry")
    page.get_by_label("Allergens on its label").fill("wheat")
    page.get_by_role("button", name="Write it down").click()
    page.get_by_label("Table").fill("Family")
    page.get_by_role("button", name="Lay the table").click()
    page.get_by_label("Dish").fill("Flatbread")
    page.get_by_label("Ingredient").fill("Plain flour")
    page.get_by_label("Amount").fill("400 g")
    page.get_by_role("button", name="Write the recipe down").click()
    expect(page.get_by_text("done", exact=True)).to_have_count(4)
    expect(page.get_by_role("link", name="Goods in").last).to_be_visible()
    expect(page.get_by_role("link", name="Menus").last).to_be_visible()


def _sheet(*rows):
    written = io.StringIO()
    csv.writer(written).writerows(rows)
    return written.getvalue().encode()


def test_a_house_book_is_brought_in_from_the_screen_with_its_faults_by_sheet_and_row(
    opened, empty_house
):
    page = opened.page(empty_house, phone=False)
    _found(page)
    page.goto("/book")
    areas = _sheet(("area", "kind"), ("Larder", "ambient"))
    items = _sheet(
        ("item", "base_unit", "area"), ("Oats", "g", "Larder"), ("Rice", "stone", "Larder")
    )
    files = [
        {"name": "areas.csv", "mimeType": "text/csv", "buffer": areas},
        {"name": "items.csv", "mimeType": "text/csv", "buffer": items},
    ]
    page.get_by_label("The book").set_input_files(files)
    expect(page.get_by_text("1 fault; nothing was taken in.")).to_be_visible()
    fault = page.get_by_role("region", name="items.csv").get_by_role("listitem")
    expect(fault).to_contain_text("row 3, base_unit")
    expect(fault).to_contain_text("stone")
    files[1]["buffer"] = items.replace(b"stone", b"g")
    page.get_by_label("The book").set_input_files(files)
    page.get_by_role("button", name="Take all of it in").click()
    expect(page.get_by_text("All of it was taken in.")).to_be_visible()


def test_WCAG_the_entry_is_accessible(opened, shared_house, tmp_path, clean):
    page = opened.page(shared_house)
    page.goto("/")
    expect(page.get_by_label("Your name")).to_be_visible()
    clean(page)
    page.get_by_role("button", name="I was given a code").click()
    clean(page)
    with serving(tmp_path, CHOOSEBY_FIRST_MANAGER=SECRET) as served:
        page = opened.page(served)
        page.goto("/")
        expect(page.get_by_label("Name of the house")).to_be_visible()
        clean(page)
        opened.leave()
