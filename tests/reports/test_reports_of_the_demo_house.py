"""Every report of the demo house: its shape, its sums, and what was planted in it."""

from datetime import timedelta

import pytest

from pantry.records.database import reading
from pantry.records.verify import disagreements
from pantry.reports.changes import MOST, changes
from pantry.reports.coverage import coverage
from pantry.reports.notice import needed_by_menu, notice
from pantry.reports.plan import plan
from pantry.reports.questions import questions
from pantry.reports.report import report
from pantry.reports.stock import stock
from pantry.reports.trace import trace
from pantry.reports.use_first import use_first
from pantry.reports.view import view
from tests.reports.demo_house import NOW, asked, value

KEYS = {
    "stock": "item batch label area state date_mark usable_until good_until on_hand promised "
    "on_hold available lot",
    "use_first": "item batch available usable_until could_use",
    "plan": "item net wanted_by supplier pack packs order_by delivery alert because ways_out cost "
    "derivation",
    "coverage": "service dish item need from short mend_until choose_by flags",
    "notice": "item needed verdict fails floor order_up_to",
}


@pytest.mark.parametrize("question", [stock, use_first, plan, coverage, notice])
def test_every_row_has_what_the_contract_names(house, question):
    rows = asked(house, question)
    assert rows
    for row in rows:
        assert set(KEYS[question.__name__].split()) <= row.keys()


def test_a_report_names_the_house_the_zone_once_the_instant_and_the_position(house):
    engine, found = house
    with reading(engine) as connection:
        seen = view(connection, found, NOW)
        answer = report(seen, stock(seen))
    assert {name: answer[name] for name in ("schema", "zone", "as_of", "position")} == {
        "schema": 1,
        "zone": "Europe/London",
        "as_of": "2027-03-10T07:00:00Z",
        "position": 1,
    }


def test_LG2_on_hand_is_available_promised_on_hold_and_emergency(house):
    for row in asked(house, stock):
        parts = ("available", "promised", "on_hold", "emergency")
        assert sum(value(row[part]) for part in parts) == value(row["on_hand"]), row["label"]
        assert value(row["available"]) >= 0
    engine, found = house
    with reading(engine) as connection:
        assert disagreements(connection, found) == []


def test_LG5_a_service_that_lapsed_holds_nobodys_stock_though_no_command_came(house):
    later = NOW + timedelta(days=9)
    promised = sum(value(row["promised"]) for row in asked(house, stock, at=later))
    assert promised == 0
    unserved = [row for row in asked(house, questions, at=later) if row["kind"] == "unserved"]
    assert unserved
    assert {row["owner"] for row in unserved} == {"chef"}


def test_SL2_what_is_past_usable_until_is_offered_to_no_dish(house):
    for row in asked(house, use_first, at=NOW + timedelta(days=3)):
        if row["past"] == "usable_until":
            assert row["could_use"] == []


def test_SL2_no_service_after_its_end_is_named_for_a_batch(house):
    for row in asked(house, use_first):
        for use in row["could_use"]:
            if row["usable_until"] and "service" in use:
                assert use["service"][:10] <= row["usable_until"][:10]


def test_AL1_nothing_is_given_past_its_usable_until(house):
    ends = {row["batch"]: row["usable_until"] for row in asked(house, stock)}
    for row in asked(house, coverage):
        for part in row["from"]:
            end = ends.get(part.get("batch"))
            if end and row["for"] is None:
                assert end[:10] >= row["service"][:10], (row["service"], row["item"])


def test_RQ1_what_a_dish_needs_is_given_taken_out_or_short(house):
    for row in asked(house, coverage):
        given = sum(value(part["quantity"]) for part in row["from"])
        total = given + value(row["taken_out"]) + value(row["short"])
        assert total == value(row["need"]), (row["service"], row["dish"], row["item"])


def test_PL7_a_row_of_the_plan_costs_its_packs_and_its_packs_hold_its_net(house):
    for row in asked(house, plan):
        derived = row["derivation"]
        assert row["cost"]["minor"] == row["packs"] * derived["price"]
        if row["packs"]:
            assert row["packs"] * derived["pack_quantity"] >= value(row["net"]) * 1000


def test_PL5_no_order_is_proposed_whose_order_by_has_passed(house):
    for row in asked(house, plan):
        if row["alert"] != "missed":
            assert row["order_by"] >= "2027-03-10T07:00:00Z"


def test_PL5_a_dish_that_must_be_chosen_before_the_usual_notice_says_so(house):
    early = {row["dish"] for row in asked(house, coverage) if "choose_early" in row["flags"]}
    assert "Duck breast with rhubarb" in early


def test_RQ4_a_proposal_takes_nothing_that_is_promised(house):
    free = {row["batch"]: value(row["available"]) for row in asked(house, stock)}
    for row in asked(house, coverage):
        if row["state"] == "proposed":
            for part in row["from"]:
                if "batch" in part:
                    assert value(part["quantity"]) <= free[part["batch"]]


def test_PL6_an_item_of_the_ten_day_specialist_is_kept_in_and_says_by_how_much(house):
    rows = asked(house, notice)
    kept = [row for row in rows if row["verdict"] == "kept_in"]
    assert kept
    assert all(row["fails"] for row in kept)
    assert not any(row["fails"] for row in rows if row["verdict"] == "bought_in")
    assert needed_by_menu(rows).startswith("PT")


def test_AL3_the_guests_allergy_is_a_question_for_the_chef_with_a_safe_dish(house):
    (asked_about,) = [row for row in asked(house, questions) if row["kind"] == "allergen"]
    assert "Mrs Ellacott" in asked_about["against"]
    assert "without nuts" in asked_about["against"]
    assert len(asked_about["answers"]) <= 3


def test_a_batch_is_traced_back_to_its_supplier_and_forward_to_the_shelf(house):
    rows = asked(house, trace, "B-0241")
    assert [row["direction"] for row in rows][:2] == ["back", "forward"]
    assert rows[0]["from"][0]["account"] == "opening_stock"
    assert any("area" in part for part in rows[1]["to"])


def test_SY6_changes_come_in_order_without_a_gap_and_no_more_than_is_kept(house):
    first = asked(house, changes)
    assert [row["number"] for row in first] == list(range(1, MOST + 1))
    (after,) = asked(house, changes, MOST)[:1]
    assert after["number"] == MOST + 1
