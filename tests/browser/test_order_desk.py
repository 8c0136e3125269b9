"""The order desk: a manager changes an order, sends it, and writes down what the supplier said."""

import re

import pytest
from playwright.sync_api import expect

from tests.browser.asking import give, now_of, rows_of


def test_PL2_an_order_is_changed_sent_and_answered_on_a_phone(opened, house, clean):
    page = opened.as_role(house, "manager")
    page.get_by_role("link", name="To the order desk").click()
    expect(page.get_by_role("region", name="The next days on one line")).to_be_visible()
    page.get_by_role("link", name=re.compile("Look and order.*Kelderay")).click()
    page.get_by_label("Add something").fill("goat curd")
    page.get_by_label("How much of it").fill("3 small tubs")
    page.get_by_role("button", name="Add “goat curd” in words").click()
    page.get_by_role("button", name=re.compile("^One more.*Peas")).click()
    page.reload()
    expect(page.get_by_text("goat curd", exact=True)).to_be_visible()
    clean(page)
    page.get_by_role("button", name=re.compile("^Change the order: 6 lines")).click()
    placed = page.get_by_role("region", name=re.compile("^Order kelderay"))
    expect(page.get_by_role("button", name=re.compile("^Change the order"))).to_have_count(0)

    placed.get_by_role("button", name="Send it").click()
    panel = page.get_by_role("dialog")
    expect(panel).to_contain_text("3 small tubs: goat curd")
    clean(page)
    panel.get_by_role("button", name="It is sent: write it down").click()
    expect(panel.get_by_text("It is written down as sent")).to_be_visible()
    page.keyboard.press("Escape")
    expect(placed).to_contain_text("Sent by e-mail to stores@kelderay-boat.example")

    placed.get_by_role("button", name="What they said").click()
    panel.get_by_role("button", name=re.compile("^One fewer comes.*Peas")).click()
    panel.get_by_label("Who said it").fill("Moira")
    clean(page)
    panel.get_by_role("button", name="Write it down").click()
    page.keyboard.press("Escape")
    expect(placed).to_contain_text("Peas, 2.5 kg bag: 1 of 2 come")
    clean(page)
    expect(placed.get_by_role("link", name="What is lacking now, and the ways out")).to_be_visible()
    page.get_by_role("button", name="Undo").click()
    expect(placed).not_to_contain_text("Moira")


def agree(page, supplier, **terms):
    """What was agreed with a supplier, all of it."""
    body = {"supplier": supplier} | terms
    give(page, {"kind": "set_terms", "at": now_of(page), "body": body})


def test_PL2_a_change_past_the_cut_off_is_asked_of_the_supplier_and_made_once_they_agree(
    opened, house, clean
):
    page = opened.as_role(house, "manager", at="/order-desk")
    page.get_by_role("link", name=re.compile("Tolsaig Creamery.*comes today")).first.click()
    expect(page.get_by_text("they have to agree to every change")).to_be_visible()
    page.get_by_role("button", name=re.compile("^One more.*Orange juice")).click()
    page.get_by_role("button", name=re.compile("^Change the order")).click()
    expect(page.get_by_role("alert")).to_contain_text("Telephone them")
    clean(page)
    page.get_by_role("button", name="They agreed on the telephone: order it all the same").click()
    expect(page.get_by_role("button", name=re.compile("^Change the order"))).to_have_count(0)
    [juice] = [
        line
        for row in rows_of(page, "orders")
        if row["supplier"] == "Tolsaig Creamery" and row["state"] == "open"
        for line in row["lines"]
        if line["item"] == "Orange juice"
    ]
    assert juice["packs"] == 5


@pytest.mark.parametrize(
    ("terms", "main", "goes_to"),
    [
        (
            {"order_given": "telephone", "order_words": "01632 960 010, ask for Moira"},
            "Telephone 01632 960 010",
            "tel:01632960010",
        ),
        (
            {"order_given": "portal", "order_words": "https://orders.kelderay.example, as cook"},
            "Open their page",
            "https://orders.kelderay.example",
        ),
        ({"order_given": "by_hand"}, "Print it", re.compile("^/api/orders.pdf")),
        (
            {"order_given": "email", "email": "stores@kelderay.example"},
            "Write a mail",
            re.compile("^mailto:stores@kelderay.example"),
        ),
    ],
)
def test_PL2_the_main_key_gives_the_order_as_its_supplier_takes_it(
    opened, house, clean, terms, main, goes_to
):
    page = opened.as_role(house, "manager", at="/order-desk")
    agree(page, "Kelderay Boat Stores", **terms)
    page.reload()
    page.get_by_role("link", name=re.compile("Look and order.*Kelderay")).click()
    placed = page.get_by_role("region", name=re.compile("^Order kelderay"))
    placed.get_by_role("button", name="Send it").click()
    panel = page.get_by_role("dialog")
    key = panel.get_by_role("link", name=main)
    expect(key).to_have_attribute("href", goes_to)
    expect(key).to_have_class(re.compile("main"))
    clean(page)
    panel.get_by_label("To whom").fill("the office")
    panel.get_by_role("button", name="It is sent: write it down").click()
    expect(panel.get_by_text("It is written down as sent")).to_be_visible()
