"""The porter at the back door: what is expected, codes and names, one line in hand, undo."""

import shutil
from datetime import date, timedelta

import httpx
import pytest
from playwright.sync_api import Locator, Page, expect

from tests.browser.asking import give, now_of, rows_of
from tests.browser.scanners import scan
from tests.browser.servers import serving

CRATE = "19521234000379"
"""The number of the creamery's crate of milk in the demo house."""
BOTTLE = "9521234000372"
SYRUP = "19521234019241"
YOGHURT = "9521234002222"
NOT_OURS = "05012345678900"
"""The number that GS1 UK prints in its examples; nothing in the demo house has it."""


@pytest.fixture(scope="module")
def busy_house(demo_folder, tmp_path_factory):
    """One house for tests that each receive a line of their own, in any order."""
    data = tmp_path_factory.mktemp("busy") / "house"
    shutil.copytree(demo_folder, data)
    with serving(data) as served:
        yield served


def today_of(served) -> date:
    """The house's date, which is not this machine's."""
    return date.fromisoformat(httpx.get(f"{served.url}/api/front").json()["now"][:10])


def delivery(page: Page, supplier: str = "Tolsaig Creamery") -> None:
    """Open a delivery of today from the porter's front door."""
    expect(page.get_by_role("heading", name="Goods in", level=1)).to_be_visible()
    page.get_by_role("link", name=supplier).first.click()
    expect(page.get_by_role("heading", name=supplier, level=1)).to_be_visible()
    expect(page.get_by_role("list", name="What was ordered")).to_be_visible()


def carton(number: str, day: date, lot: str) -> str:
    """A GS1-128 as a scanner sends it (GS1 General Specifications, sections 3.2 and 5.4.3.7)."""
    return f"]C101{number.zfill(14)}17{day:%y%m%d}10{lot}"


def stock(page: Page, item: str) -> list[dict]:
    rows = rows_of(page, "stock")
    return [row for row in rows if row["item"] == item]


def words(day: date) -> str:
    return f"{day:%a} {day.day} {day:%b} {day.year}"


def line(page: Page, item: str):
    lines = page.get_by_role("list", name="What was ordered").get_by_role("listitem")
    return lines.filter(has_text=item)


def test_what_is_expected_and_from_whom(opened, shared_house):
    page = opened.as_role(shared_house, "porter")
    creamery = page.get_by_role("link", name="Tolsaig Creamery")
    expect(creamery).to_contain_text("06:45")
    expect(creamery).to_contain_text("3 lines")
    tomorrow = f"{today_of(shared_house) + timedelta(days=1):%A}"
    expect(page.get_by_role("heading", name=tomorrow)).to_have_count(0)
    page.get_by_role("button", name="Later days").click()
    expect(page.get_by_role("heading", name=tomorrow)).to_be_visible()
    butcher = page.get_by_role("link", name="Dunmarrow Butchers").first
    expect(butcher).to_contain_text("09:00")
    expect(butcher).to_contain_text("4 lines")


def test_a_scanned_case_fills_its_line_and_one_tap_accepts_it(opened, busy_house):
    page = opened.as_role(busy_house, "porter")
    delivery(page)
    day = today_of(busy_house) + timedelta(days=9)
    scan(page, carton(CRATE, day, "L22"))
    expect(page.get_by_role("heading", name="Whole milk", level=1)).to_be_visible()
    expect(page.get_by_role("radio", name="Use by")).to_be_checked()
    expect(page.get_by_text(words(day))).to_be_visible()
    expect(page.get_by_label("Lot, as on the pack")).to_have_value("L22")
    page.get_by_role("button", name="Accept 1 x crate of 6 x 2 l").click()
    expect(page.get_by_text("Whole milk accepted")).to_be_visible()
    expect(line(page, "Whole milk")).to_contain_text("all here")
    [came] = [row for row in stock(page, "Whole milk") if row["lot"] == "L22"]
    assert came["on_hand"] == {"value": "12000", "unit": "ml"}
    assert came["date_mark"] == {"kind": "use_by", "date": day.isoformat()}
    assert came["area"] == "Cold room"
    expect(page.get_by_role("link", name=came["label"])).to_be_visible()


def assert_at_both_ends(page: Page, *keys: Locator) -> None:
    """Large keys that a glove does not confuse: one at each end of the line that is in hand."""
    line = page.get_by_role("region", name="How much came").bounding_box()
    left, right = (key.bounding_box() for key in keys)
    assert min(left["width"], right["width"], left["height"], right["height"]) >= 56
    assert abs(left["x"] - line["x"]) < 1
    assert abs(right["x"] + right["width"] - line["x"] - line["width"]) < 1


def test_three_letters_find_what_has_no_code_and_short_is_an_amount(opened, busy_house):
    page = opened.as_role(busy_house, "porter")
    delivery(page)
    page.get_by_label("Code or item").fill("ora")
    page.get_by_role("button", name="Orange juice on this order").click()
    page.get_by_role("button", name="Accept 4 x 1 l carton").click()
    expect(page.get_by_role("alert")).to_contain_text("Read the date on the pack")
    fewer = page.get_by_role("button", name="One pack fewer")
    assert_at_both_ends(page, fewer, page.get_by_role("button", name="One pack more"))
    fewer.click()
    expect(page.get_by_text("1 l short; it stays awaited.")).to_be_visible()
    proposed = today_of(busy_house) + timedelta(days=13)
    page.get_by_role("button", name=f"The pack says {words(proposed)}").click()
    page.get_by_label("How warm").fill("3,4")
    page.get_by_role("button", name="Accept 3 x 1 l carton").click()
    expect(page.get_by_text("Orange juice accepted")).to_be_visible()
    expect(page.get_by_text("3.4 °C")).to_be_visible()
    expect(line(page, "Orange juice")).to_contain_text("1 l awaited")
    line(page, "Orange juice").get_by_role("link").click()
    expect(page.get_by_role("button", name="Accept 1 x 1 l carton")).to_be_visible()


def test_LG4_undo_takes_a_line_back_until_something_depends_on_it(opened, busy_house):
    page = opened.as_role(busy_house, "porter")
    page.get_by_role("button", name="Later days").click()
    page.get_by_role("link", name="Quillan Dry Goods").click()
    day = today_of(busy_house) + timedelta(days=800)
    scan(page, carton(SYRUP, day, "S1"))
    page.get_by_role("button", name="Accept 1 x case of 6 x 907 g").click()
    expect(line(page, "Golden syrup")).to_contain_text("all here")
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Taken back: 1 x case of 6 x 907 g Golden syrup.")).to_be_visible()
    expect(line(page, "Golden syrup")).to_contain_text("awaited")
    assert [row for row in stock(page, "Golden syrup") if row["lot"] == "S1"] == []

    scan(page, carton(SYRUP, day, "S2"))
    page.get_by_role("button", name="Accept 1 x case of 6 x 907 g").click()
    expect(line(page, "Golden syrup")).to_contain_text("all here")
    [came] = [row for row in stock(page, "Golden syrup") if row["lot"] == "S2"]
    _throw_away(page, came["batch"])
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_role("alert")).to_contain_text("no longer stands")
    expect(page.get_by_role("button", name="Undo")).to_be_enabled()


def _throw_away(page: Page, batch: str) -> None:
    outcome = page.evaluate(
        """async (batch) => {
            const now = (await (await fetch("/api/front")).json()).now;
            const body = {batch, quantity: "5442 g", reason: "spoiled", destination: "bin"};
            const id = "01900000-0000-7000-8000-000000000001";
            const sent = [{id, kind: "waste", at: now, person: "", body}];
            const reply = await fetch("/api/commands", {
                method: "POST",
                headers: {"content-type": "application/json"},
                body: JSON.stringify(sent),
            });
            return (await reply.json())[0].outcome;
        }""",
        batch,
    )
    assert outcome == "applied"


def test_goods_are_refused_with_a_reason_and_never_enter_the_stock(opened, busy_house):
    page = opened.as_role(busy_house, "porter")
    delivery(page)
    line(page, "Natural yoghurt").get_by_role("link").click()
    before = stock(page, "Natural yoghurt")
    page.get_by_text("Refuse", exact=True).click()
    page.get_by_role("button", name="Refuse 1 x 1 kg tub").click()
    expect(page.get_by_role("alert")).to_contain_text("Say why it is refused.")
    page.get_by_text("too warm").click()
    page.get_by_label("How warm").fill("11.5")
    page.get_by_role("button", name="Refuse 1 x 1 kg tub").click()
    expect(page.get_by_text("Natural yoghurt refused")).to_be_visible()
    expect(page.get_by_text("still awaited")).to_be_visible()
    expect(line(page, "Natural yoghurt")).to_contain_text("1 kg awaited")
    assert stock(page, "Natural yoghurt") == before
    page.get_by_role("button", name="Undo").click()
    expect(page.get_by_text("Taken back: 1 x 1 kg tub Natural yoghurt.")).to_be_visible()


def test_SL5_a_temperature_is_answered_while_it_is_typed_by_the_limits_of_its_food(
    opened, busy_house, clean
):
    page = opened.as_role(busy_house, "porter")
    delivery(page, "Whinhope Greengrocers")
    line(page, "Spinach").get_by_role("link").click()
    page.get_by_role("button", name="The pack says").click()
    warm = page.get_by_role("region", name="Its temperature")
    expect(warm).to_contain_text("Up to 5 °C it goes in; warmer, ask the chef; past 8 °C")
    expect(warm).to_contain_text("Local codes")
    typed = page.get_by_label("How warm")
    typed.fill("3,4")
    expect(warm).to_contain_text("Yes: 3.4 °C is within 5 °C.")
    expect(page.get_by_role("button", name="Accept 1 x 1 kg bag")).to_be_visible()
    typed.fill("11.5")
    expect(warm).to_contain_text("No: 11.5 °C is past 8 °C. Refuse it.")
    expect(page.get_by_text("it is refused, and nothing of it enters the stock")).to_be_visible()
    expect(page.get_by_role("button", name="Refuse 1 x 1 kg bag")).to_be_visible()
    clean(page)
    typed.fill("7")
    expect(warm).to_contain_text("Ask the chef: 7 °C is past 5 °C.")
    page.get_by_role("button", name="Hold 1 x 1 kg bag for the chef").click()
    expect(page.get_by_text("Spinach on hold for the chef")).to_be_visible()


def test_AL1_a_date_is_told_against_the_service_it_is_wanted_for(opened, shared_house):
    page = opened.as_role(shared_house, "porter")
    page.get_by_role("button", name="Later days").click()
    page.get_by_role("link", name="Dunmarrow Butchers").first.click()
    line(page, "Chicken thighs").get_by_role("link").click()
    service = today_of(shared_house) + timedelta(days=3)
    wanted = f"{service:%a} {service.day} {service:%b} supper, children"
    expect(page.get_by_text(f"It has to keep for {wanted}.")).to_be_visible()
    short = today_of(shared_house) + timedelta(days=2)
    page.get_by_label("Day and month, as four digits").fill(f"{short:%d%m}")
    told = f"It keeps until {words(short)}; wanted for {wanted}."
    expect(page.get_by_text(told)).to_be_visible()
    expect(page.get_by_role("button", name="Hold 1 x 1 kg tray for the chef")).to_be_visible()


def test_AL3_another_thing_that_came_is_held_and_the_chef_is_told_its_allergens(
    opened, busy_house, clean
):
    page = opened.as_role(busy_house, "porter")
    page.get_by_role("button", name="Later days").click()
    page.get_by_role("link", name="Quillan Dry Goods").first.click()
    line(page, "Capers").get_by_role("link").click()
    page.get_by_role("button", name="Something else came instead").click()
    expect(page.get_by_role("heading", name="What came?", level=1)).to_be_visible()
    clean(page)
    page.get_by_label("Code or item").fill("anc")
    page.get_by_role("button", name="Anchov").first.click()
    expect(page.get_by_text("instead of Capers").first).to_be_visible()
    expect(page.get_by_text("Unlike Capers, it contains fish: read the label.")).to_be_visible()
    page.get_by_text("No date", exact=True).click()
    page.get_by_role("button", name="for the chef").click()
    expect(page.get_by_text("on hold for the chef")).to_be_visible()
    expect(line(page, "Capers")).to_contain_text("awaited")
    questions = rows_of(page, "questions")
    assert questions == [], "the chef decides, and not the porter"


def test_PL2_what_a_supplier_may_not_send_instead_begins_as_refused(opened, house, clean):
    manager = opened.as_role(house, "manager")
    body = {"supplier": "Quillan Dry Goods", "substitution": "never"}
    give(manager, {"kind": "set_terms", "at": now_of(manager), "body": body})
    page = opened.as_role(house, "porter")
    page.get_by_role("button", name="Later days").click()
    page.get_by_role("link", name="Quillan Dry Goods").first.click()
    line(page, "Capers").get_by_role("link").click()
    page.get_by_role("button", name="Something else came instead").click()
    page.get_by_label("Code or item").fill("anc")
    page.get_by_role("button", name="Anchov").first.click()
    agreed = "Quillan Dry Goods is to send nothing in place of what is ordered"
    expect(page.get_by_text(agreed)).to_be_visible()
    expect(page.get_by_role("radio", name="Refuse")).to_be_checked()
    expect(page.get_by_role("radio", name="wrong goods")).to_be_checked()
    clean(page)
    page.get_by_text("Hold for the chef", exact=True).click()
    expect(page.get_by_text(agreed)).to_be_visible()
    page.get_by_text("Refuse", exact=True).click()
    page.get_by_role("button", name="Refuse 1 x").click()
    expect(line(page, "Capers")).to_contain_text("awaited")
    assert stock(page, "Anchovies") == []


def test_a_short_date_goes_on_hold_and_the_screen_says_so_beforehand(opened, busy_house):
    page = opened.as_role(busy_house, "porter")
    delivery(page, "Whinhope Greengrocers")
    line(page, "Salad leaves").get_by_role("link").click()
    soon = today_of(busy_house) + timedelta(days=1)
    for digit in f"{soon:%d%m}":
        page.get_by_role("button", name=digit, exact=True).click()
    expect(page.get_by_text(words(soon)).first).to_be_visible()
    kept = today_of(busy_house) + timedelta(days=3)
    expect(page.get_by_text(f"was to keep until {words(kept)}")).to_be_visible()
    page.get_by_role("button", name="Hold 1 x 500 g bag for the chef").click()
    expect(page.get_by_text("Salad leaves on hold for the chef")).to_be_visible()


def test_a_date_is_keyed_in_four_digits_with_its_year_in_six_or_as_a_month(opened, shared_house):
    page = opened.as_role(shared_house, "porter")
    delivery(page)
    line(page, "Orange juice").get_by_role("link").click()
    dated = page.get_by_role("region", name="Date on the pack")
    year = today_of(shared_house).year + 2

    def key(digits: str) -> None:
        for digit in digits:
            dated.get_by_role("button", name=digit, exact=True).click()

    key("3102")
    expect(dated).to_contain_text("There is no such day.")
    dated.get_by_role("button", name="Take the last digit back").click()
    dated.get_by_role("button", name="Take the last digit back").click()
    key("03")
    expect(dated).to_contain_text("Another year?")
    key(f"{year % 100:02}")
    expect(dated).to_contain_text(words(date(year, 3, 31)))
    for _ in range(6):
        dated.get_by_role("button", name="Take the last digit back").click()
    key(f"0003{year % 100:02}")
    expect(dated).to_contain_text(f"March {year}")
    expect(dated.get_by_label("Day and month, as four digits")).to_be_visible()


def test_an_unknown_code_says_so_and_keeps_its_lot_and_date_for_the_name(opened, shared_house):
    page = opened.as_role(shared_house, "porter")
    delivery(page)
    day = today_of(shared_house) + timedelta(days=20)
    scan(page, carton(NOT_OURS, day, "J7"))
    told = page.get_by_role("alert")
    expect(told).to_contain_text("Nothing in this house carries the code")
    expect(told).to_contain_text("Type three letters")
    expect(told).to_contain_text("lot and date of the code is kept")
    page.get_by_label("Code or item").fill("ora")
    page.get_by_role("button", name="Orange juice on this order").click()
    expect(page.get_by_label("Lot, as on the pack")).to_have_value("J7")
    expect(page.get_by_text(words(day))).to_be_visible()
    page.go_back()
    expect(page.get_by_role("heading", name="Tolsaig Creamery", level=1)).to_be_visible()
    scan(page, "9521234999991")
    expect(page.get_by_role("alert")).to_contain_text("check digit")
    expect(page.get_by_role("alert")).to_contain_text("Type three letters")


def test_a_single_where_a_case_was_ordered_is_asked_with_large_keys(opened, shared_house):
    page = opened.as_role(shared_house, "porter")
    delivery(page)
    scan(page, BOTTLE)
    keys = page.get_by_role("region", name="Whole milk: which is it?").get_by_role("button")
    expect(keys).to_have_count(2)
    assert all(key.bounding_box()["height"] >= 80 for key in keys.all())
    keys.filter(has_text="2 l bottle").click()
    expect(page.get_by_role("button", name="Accept 6 x 2 l bottle")).to_be_visible()
    page.go_back()
    expect(page.get_by_role("heading", name="Tolsaig Creamery", level=1)).to_be_visible()
    scan(page, BOTTLE)
    keys.filter(has_text="crate of 6 x 2 l").click()
    expect(page.get_by_role("button", name="Accept 1 x crate of 6 x 2 l")).to_be_visible()


def test_what_nobody_ordered_a_porter_may_only_hold(opened, busy_house):
    page = opened.as_role(busy_house, "porter")
    page.get_by_label("Code or item").fill("whi")
    page.get_by_role("button", name="Whisky").click()
    expect(page.get_by_text("On no order")).to_be_visible()
    expect(page.get_by_text("Nobody ordered it.")).to_be_visible()
    expect(page.get_by_role("radio", name="Accept")).to_have_count(0)
    page.get_by_text("No date").click()
    page.get_by_role("button", name="Hold 1 x 700 ml bottle for the chef").click()
    expect(page.get_by_text("Whisky on hold for the chef")).to_be_visible()
    held = [row for row in stock(page, "Whisky") if row["on_hold"]["value"] == "700"]
    assert len(held) == 1


def test_what_nobody_ordered_a_chef_holds_by_default_and_may_accept(opened, busy_house):
    page = opened.as_role(busy_house, "chef", at="/goods-in/without-order/whisky")
    expect(page.get_by_role("radio", name="Hold for the chef")).to_be_checked()
    page.get_by_text("Accept", exact=True).click()
    page.get_by_text("No date").click()
    page.get_by_role("button", name="Accept 1 x 700 ml bottle").click()
    expect(page.get_by_text("Whisky accepted")).to_be_visible()


def test_a_scanner_is_heard_from_any_field_and_eats_no_typing(opened, shared_house):
    page = opened.as_role(shared_house, "porter", phone=False)
    delivery(page)
    expect(page.get_by_label("Code or item")).to_be_focused()
    page.keyboard.type("ora", delay=90)
    expect(page.get_by_role("button", name="Orange juice on this order")).to_be_visible()
    page.get_by_role("link", name="Whole milk").click()
    lot = page.get_by_label("Lot, as on the pack")
    lot.press_sequentially("lot 12345", delay=90)
    expect(lot).to_have_value("lot 12345")
    page.keyboard.press("End")
    scan(page, CRATE)
    expect(page.get_by_text("It is Whole milk.")).to_be_visible()
    expect(lot).to_have_value("lot 12345")
    scan(page, carton(CRATE, today_of(shared_house) + timedelta(days=9), "L9"))
    expect(page.get_by_text("Filled in from the code.")).to_be_visible()
    expect(lot).to_have_value("L9")
    page.get_by_role("button", name="One pack more").focus()
    scan(page, YOGHURT)
    expect(page.get_by_text("That is Natural yoghurt.")).to_be_visible()
    expect(page.get_by_role("button", name="Accept 1 x crate of 6 x 2 l")).to_be_visible()


def test_a_delivery_of_three_lines_takes_seven_taps(opened, house):
    """One tap opens it; a code with its date takes one more, a code without two,
    a line that is opened by hand three."""
    page = opened.as_role(house, "porter")
    expect(page.get_by_role("link", name="Tolsaig Creamery")).to_be_visible()
    page.evaluate("window.taps = 0; addEventListener('click', () => { window.taps += 1; }, true)")
    delivery(page)
    scan(page, carton(CRATE, today_of(house) + timedelta(days=9), "L22"))
    page.get_by_role("button", name="Accept 1 x crate of 6 x 2 l").click()
    expect(page.get_by_text("Whole milk accepted")).to_be_visible()
    assert page.evaluate("window.taps") == 2
    scan(page, YOGHURT)
    page.get_by_role("button", name="The pack says").click()
    page.get_by_role("button", name="Accept 1 x 1 kg tub").click()
    expect(page.get_by_text("Natural yoghurt accepted")).to_be_visible()
    assert page.evaluate("window.taps") == 4
    line(page, "Orange juice").get_by_role("link").click()
    page.get_by_role("button", name="The pack says").click()
    page.get_by_role("button", name="Accept 4 x 1 l carton").click()
    expect(page.get_by_text("Orange juice accepted")).to_be_visible()
    assert page.evaluate("window.taps") == 7
    expect(page.get_by_text("Nothing more is awaited of this delivery.")).to_be_visible()
    expect(page.get_by_role("heading", name="Tolsaig Creamery", level=1)).to_be_visible()
    page.get_by_role("link", name="To everything that is expected").click()
    expect(page.get_by_role("link", name="Tolsaig Bakehouse").first).to_be_visible()
    expect(page.get_by_role("link", name="Tolsaig Creamery")).to_have_count(0)


def test_a_pasted_code_opens_its_line(opened, shared_house):
    page = opened.as_role(shared_house, "porter")
    delivery(page)
    page.get_by_label("Code or item").focus()
    page.evaluate(
        """(code) => {
            const data = new DataTransfer();
            data.setData("text", code);
            const pasted = new ClipboardEvent("paste", {clipboardData: data, bubbles: true});
            document.activeElement.dispatchEvent(pasted);
        }""",
        CRATE,
    )
    expect(page.get_by_role("heading", name="Whole milk", level=1)).to_be_visible()


def test_the_keyboard_alone_receives_a_line(opened, busy_house):
    page = opened.as_role(busy_house, "porter", phone=False)
    page.get_by_role("link", name="Whinhope Greengrocers").first.focus()
    page.keyboard.press("Enter")
    expect(page.get_by_label("Code or item")).to_be_focused()
    page.keyboard.type("pea", delay=90)
    expect(page.get_by_role("button", name="Pears on this order")).to_be_visible()
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Pears", level=1)).to_be_visible()
    digits = page.get_by_label("Day and month, as four digits")
    for _ in range(20):
        page.keyboard.press("Tab")
        if digits.evaluate("element => element === document.activeElement"):
            break
    expect(digits).to_be_focused()
    day = today_of(busy_house) + timedelta(days=20)
    page.keyboard.type(f"{day:%d%m}", delay=90)
    expect(page.get_by_text(words(day)).first).to_be_visible()
    accept = page.get_by_role("button", name="Accept 1 x 1 kg bag")
    for _ in range(30):
        page.keyboard.press("Tab")
        if accept.evaluate("element => element === document.activeElement"):
            break
    expect(accept).to_be_focused()
    page.keyboard.press("Enter")
    expect(page.get_by_text("Pears accepted")).to_be_visible()


def test_SY2_a_line_that_was_not_answered_is_sent_again_as_the_same_bytes(opened, busy_house):
    page = opened.as_role(busy_house, "porter")
    delivery(page, "Whinhope Greengrocers")
    line(page, "Chestnut mushrooms").get_by_role("link").click()
    page.get_by_role("button", name="The pack says").click()
    sent: list[str] = []

    def lost(route):
        sent.append(route.request.post_data)
        route.abort()

    page.clock.install()
    page.route("**/api/commands", lost)
    page.get_by_role("button", name="Accept 1 x 1.5 kg tray").click()
    expect(page.get_by_role("button", name="Recording")).to_be_visible()
    again = page.get_by_role("button", name="Send the same again")
    for _ in range(20):
        page.clock.run_for(4_000)
        if again.is_visible():
            break
    expect(page.get_by_role("alert")).to_contain_text("The house does not answer")
    page.unroute("**/api/commands")
    with page.expect_request("**/api/commands") as request:
        again.click()
    assert {*sent, request.value.post_data} == {sent[0]}
    expect(page.get_by_text("Chestnut mushrooms accepted")).to_be_visible()


def test_SY2_what_the_house_refuses_is_told_and_mended_with_an_id_of_its_own(opened, shared_house):
    """The answers are made up here: a refusal first, then a fact kept without effect (SY3)."""
    page = opened.as_role(shared_house, "porter")
    delivery(page)
    line(page, "Orange juice").get_by_role("link").click()
    page.get_by_role("button", name="The pack says").click()
    outcomes, sent = ["refused", "kept"], []
    problem = {
        "title": "x",
        "status": 422,
        "code": "x",
        "detail": "That cannot be.",
        "todo": "Look.",
    }

    def answer(route):
        [command] = route.request.post_data_json
        sent.append(command["id"])
        outcome = outcomes.pop(0)
        one = {"id": command["id"], "outcome": outcome, "position": None, "problem": problem}
        route.fulfill(json=[one])

    page.route("**/api/commands", answer)
    page.get_by_role("button", name="Accept 4 x 1 l carton").click()
    expect(page.get_by_role("alert")).to_contain_text("That cannot be.")
    page.get_by_role("button", name="One pack fewer").click()
    page.get_by_role("button", name="Accept 3 x 1 l carton").click()
    expect(page.get_by_text("Orange juice: written down, but not booked")).to_be_visible()
    expect(page.get_by_text("It is kept as it came, and a person is asked.")).to_be_visible()
    assert len({*sent}) == 2


def test_WCAG_the_back_door_is_accessible(opened, shared_house, clean):
    page = opened.as_role(shared_house, "porter")
    page.get_by_role("button", name="Later days").click()
    clean(page)
    delivery(page)
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    clean(page)
    scan(page, BOTTLE)
    expect(page.get_by_role("region", name="Whole milk: which is it?")).to_be_visible()
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    clean(page)
    scan(page, NOT_OURS)
    expect(page.get_by_role("alert")).to_be_visible()
    page.get_by_label("Code or item").fill("pea")
    expect(page.get_by_role("button", name="Peas", exact=True)).to_be_visible()
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    clean(page)
    line(page, "Orange juice").get_by_role("link").click()
    expect(page.get_by_label("Day and month, as four digits")).to_be_visible()
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    clean(page)
    page.get_by_text("Refuse", exact=True).click()
    page.get_by_role("button", name="The pack says").click()
    page.get_by_role("button", name="Weighed, or packed otherwise").click()
    page.get_by_role("button", name="Refuse 4 x 1 l carton").click()
    expect(page.get_by_role("alert")).to_be_visible()
    page.evaluate("scrollTo(0, document.body.scrollHeight)")
    clean(page)
