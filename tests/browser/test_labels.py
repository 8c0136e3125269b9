"""Labels: what wants one is printed and asked no more; a numbered one is put on by two scans."""

import pypdfium2
import zxingcpp
from playwright.sync_api import Page, expect

from pantry.rules.label_numbers import numbered
from tests.browser.asking import answered, rows_of
from tests.browser.offline import until_whole
from tests.browser.scanners import scan, scan_as_it_stands
from tests.browser.test_porter_goods_in import line

JAR, DECANTED = (f"0196f000-0000-7000-8000-0000000000{end}" for end in ("aa", "ab"))
DECANT = """async ([child, id]) => {
    const { rows } = await (await fetch("/api/reports/stock")).json();
    const { batch } = rows.find((row) => row.item === "Plain flour");
    const body = { batch, quantity: "500 g", child };
    const at = new Date().toISOString().replace(/[.].*/, "Z");
    const sent = JSON.stringify([{ id, kind: "decant", at, body }]);
    const headers = { "content-type": "application/json" };
    const reply = await fetch("/api/commands", { method: "POST", headers, body: sent });
    return (await reply.json())[0].outcome;
}"""


def decoded(page: Page, address: str) -> set[str]:
    answer = answered(page, address)
    assert answer.headers["content-type"] == "application/pdf"
    images = [
        each.render(scale=203 / 72).to_pil().convert("L")
        for each in pypdfium2.PdfDocument(answer.body())
    ]
    return {found.text for image in images for found in zxingcpp.read_barcodes(image)}


def to_labels(page: Page) -> None:
    page.get_by_role("link", name="More").click()
    page.get_by_role("link", name="Labels", exact=True).click()
    expect(page.get_by_role("heading", name="Labels", level=1)).to_be_visible()


def test_what_was_decanted_has_its_label_printed_and_is_asked_about_no_more(opened, house, clean):
    page = opened.as_role(house, "porter")
    assert page.evaluate(DECANT, [JAR, DECANTED]) == "applied"
    to_labels(page)
    choice = page.get_by_role("group", name="Which batches")
    expect(choice.get_by_role("checkbox")).to_have_count(1)
    expect(choice).to_contain_text("decanted")
    clean(page)
    page.get_by_label("Sheet or roll").select_option("62x29")
    page.get_by_label("How many of each").fill("2")
    print_them = page.get_by_role("link", name="Print 2 labels")
    label = next(row["label"] for row in rows_of(page, "labels") if row["batch"] == JAR)
    assert decoded(page, print_them.get_attribute("href")) == {label}
    print_them.click()
    expect(page.get_by_text("Everything that needs a label has one")).to_be_visible()
    page.goto(f"/shelf/{label}")
    page.get_by_role("link", name="Label", exact=True).click()
    expect(page.get_by_role("link", name="Print 1 label")).to_be_visible()


def test_a_numbered_label_is_put_on_by_two_scans_without_the_house(enrolled, house, clean):
    page = enrolled
    until_whole(page)
    to_labels(page)
    page.get_by_role("link", name="Print numbers").click()
    page.get_by_label("How many").fill("3")
    clean(page)
    page.get_by_role("button", name="Reserve 3 numbers").click()
    address = page.get_by_role("link", name="Open the labels").get_attribute("href")
    numbers = [numbered(1001 + each) for each in range(3)]
    assert decoded(page, address) == set(numbers)
    page.get_by_role("link", name="To all labels").click()
    house.end()
    page.get_by_role("link", name="Put a numbered label on").click()
    scan(page, "B-0241")
    expect(page.get_by_role("heading", name="Now the number")).to_be_visible()
    clean(page)
    scan(page, numbers[0].replace("1001", "1007"))
    expect(page.get_by_role("alert")).to_contain_text("a figure of it is wrong")
    scan(page, f"http://192.0.2.7/shelf/{numbers[0]}")
    expect(page.get_by_text("Saved on this phone.")).to_be_visible()
    expect(page.get_by_label("The batch: code, label or item")).to_be_visible()
    # no scan is lost between two screens, however quick the hand
    scan_as_it_stands(page, "Now the number", numbers[0])
    scan(page, "B-0004")
    expect(page.get_by_role("alert")).to_contain_text("B-0241")
    page.get_by_role("navigation", name="Doors").get_by_role("link", name="Shelf").click()
    scan(page, numbers[0])
    expect(page.get_by_text("Label B-0241")).to_be_visible()

    # at goods in: one scan while the line is open, and the way back
    page.get_by_role("navigation", name="Doors").get_by_role("link", name="Goods in").click()
    page.get_by_role("link", name="Whinhope Greengrocers").click()
    line(page, "Spinach").get_by_role("link").click()
    for scanned, said in ((numbers[0], "B-0241"), (numbered(7007), "never printed")):
        scan(page, scanned)
        expect(page.get_by_role("alert")).to_contain_text(said)
    scan(page, numbers[1])
    scan(page, numbers[2])
    page.get_by_role("button", name=f"Undo label {numbers[1]}").click()
    expect(page.get_by_text(f"Label {numbers[1]} goes on it")).to_have_count(0)
    page.get_by_role("button", name="Put a numbered label on").click()
    clean(page)
    page.get_by_role("button", name="The pack says").click()
    page.get_by_label("How warm").fill("4")
    page.get_by_role("button", name="Accept 1 x 1 kg bag").click()
    expect(page.get_by_text(f"Cold room · 4 °C · label {numbers[2]}")).to_be_visible()
    scan(page, numbers[2])
    expect(page.get_by_text("is a label of this house: Spinach")).to_be_visible()
    house.begin()
    told = "async (name) => (await fetch(`/api/reports/trace?name=${name}`)).status"
    expect(page.get_by_text("online")).to_be_visible()
    expect(page.get_by_role("banner").get_by_role("link", name="wait")).to_have_count(0)
    assert [page.evaluate(told, each) for each in (numbers[0], numbers[2])] == [200, 200]
