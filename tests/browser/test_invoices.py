"""An invoice is typed in beside what came; what differs is settled, and a credit is asked for."""

import re

from playwright.sync_api import expect

TYPE_IN = re.compile("^Type in their invoice.*Tolsaig Creamery")
GIVE = """async ({kind, body, id}) => {
    const sent = JSON.stringify([{id, kind, at: new Date().toISOString(), body}]);
    const headers = {"content-type": "application/json"};
    const reply = await fetch("/api/commands", {method: "POST", headers, body: sent});
    return (await reply.json())[0];
}"""


def give(page, number, kind, **body):
    """Something a script gives at a desk, beside what the screens do."""
    id_ = f"01990000-0000-7000-8000-{number:012d}"
    answer = page.evaluate(GIVE, {"kind": kind, "body": body, "id": id_})
    assert answer["outcome"] == "applied", answer


def comes(page):
    """Of today's delivery of the creamery one of four cartons of juice is missing."""
    rows = page.request.get("/api/reports/orders").json()["rows"]
    order = next(row for row in rows if row["supplier"] == "Tolsaig Creamery")
    came = [("Whole milk", "12 l"), ("Natural yoghurt", "1 kg"), ("Orange juice", "3 l")]
    for number, (item, quantity) in enumerate(came):
        batch = f"01990000-0000-7000-8000-00000000b{number:03d}"
        what = {"batch": batch, "item": item, "quantity": quantity, "area": "Cold room"}
        what |= {"date_mark": {"kind": "none"}, "verdict": "accept", "temperature_c": "3"}
        give(page, number, "receive", order=order["order"], **what)
    give(page, 9, "close_delivery", order=order["order"])


def waiting(page):
    """What came and is not billed yet."""
    return page.get_by_role("region", name="Received and not billed yet")


def test_an_invoice_with_a_short_delivery_and_a_dearer_line_is_recorded_and_a_credit_asked_for(
    opened, house, clean
):
    page = opened.as_role(house, "manager", at="/invoices")
    comes(page)
    expect(waiting(page)).to_contain_text("24.30 GBP")
    clean(page)
    page.get_by_role("link", name=TYPE_IN).click()
    page.get_by_label("Number of the invoice").fill("TC 5821")
    expect(page.get_by_text("It agrees with what came.")).to_be_visible()

    page.get_by_role("button", name=re.compile("^One more billed.*Orange juice")).click()
    expect(page.get_by_label("Billed for Orange juice, GBP")).to_have_value("11.60")
    page.get_by_label("Billed for Natural yoghurt, GBP").fill("3.90")
    told = page.get_by_role("status").filter(has_text="It differs from what came as agreed")
    expect(told).to_contain_text("Orange juice: 2.90 GBP more than agreed, 4 billed and 3 came")
    expect(told).to_contain_text("Natural yoghurt: 0.30 GBP more than agreed")
    clean(page)
    page.get_by_label("Total of the invoice, GBP").fill("27.60")
    expect(page.get_by_text("0.10 GBP less than the total")).to_be_visible()
    page.get_by_role("button", name="Record the invoice").click()
    expect(page.get_by_role("alert")).to_contain_text("2750")
    page.get_by_label("Total of the invoice, GBP").fill("27.50")
    page.get_by_role("button", name="Record the invoice").click()

    invoice = page.get_by_role("article", name="Invoice TC 5821 of Tolsaig Creamery")
    expect(invoice).to_contain_text("It should be 24.30 GBP.")
    juice = invoice.get_by_role("listitem").filter(
        has_text="Orange juice: 1 l more billed than came"
    )
    yoghurt = invoice.get_by_role("listitem").filter(has_text="Natural yoghurt")
    expect(juice).to_contain_text("a credit is expected")
    expect(yoghurt).to_contain_text("billed 3.90 GBP, agreed 3.60 GBP")
    clean(page)
    juice.get_by_role("button", name=re.compile("^Pay it as it is")).click()
    expect(juice).to_contain_text("Paid as it is · Isobel Strang")
    yoghurt.get_by_role("button", name=re.compile("^Ask for a credit")).click()
    expect(invoice).to_contain_text("It differs, and that is settled.")

    invoice.get_by_role("link", name="Credits expected").click()
    owed = page.get_by_role("article").filter(has_text="Invoice TC 5821")
    expect(owed).to_contain_text("Natural yoghurt was billed dearer than agreed")
    expect(owed).to_contain_text("0.30 GBP")
    expect(page.get_by_role("article").filter(has_text="Orange juice")).to_have_count(0)
    clean(page)


def test_an_invoice_that_agrees_takes_its_number_and_one_tap_and_is_withdrawn(opened, house, clean):
    page = opened.as_role(house, "chef", at="/invoices", phone=False)
    comes(page)
    expect(waiting(page)).to_contain_text("24.30 GBP")
    page.get_by_role("link", name=TYPE_IN).click()
    page.get_by_label("Number of the invoice").fill("TC 5822")
    page.get_by_role("button", name="Record the invoice").click()
    invoice = page.get_by_role("article", name="Invoice TC 5822 of Tolsaig Creamery")
    expect(invoice).to_contain_text("It agrees with order and delivery.")
    clean(page)
    invoice.get_by_role("button", name="Withdraw it").click()
    panel = page.get_by_role("dialog")
    panel.get_by_label("Why").fill("It is the other house's")
    clean(page)
    panel.get_by_role("button", name="Withdraw the invoice").click()
    expect(waiting(page)).to_contain_text("Tolsaig Creamery")
    clean(page)
