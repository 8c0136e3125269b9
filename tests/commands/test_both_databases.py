"""The same days at Larkfield Lodge on either database: every kind of command that is a verb."""

from zoneinfo import ZoneInfo

import pytest

from pantry.commands.verbs import VERBS
from pantry.records.alerts import keep
from pantry.records.database import reading, writing
from pantry.records.read.invoices import Billing
from pantry.records.tables import AlertRow, CreditRow
from pantry.reports.alert_look import look
from pantry.reports.view import view
from pantry.rules.label_numbers import numbered
from tests.commands.house import NOW, House, at, best_before, use_by
from tests.commands.larkfield import APPROVER, ID, MANAGER, found_house

DINNER, BREAKFAST = "2027-03-12/dinner/family", "2027-03-11/breakfast/staff"
LINES = [{"item": "butter", "pack": "250 g block", "packs": 2}]
ORDER = {"supplier": "hill-dairy", "delivery": "2027-03-09", "lines": LINES}
MILK_LINE = [{"item": "whole-milk", "pack": "2 l bottle", "packs": 2}]
CALENDAR = {
    "weekday": "tue",
    "time": "07:00",
    "cutoff_days_before": 1,
    "cutoff_time": "18:00",
}


@pytest.fixture
def lodge(database):
    with writing(database) as connection:
        found_house(connection)
    return House(database)


def goods_in(house):
    house.receive("m", "whole-milk", "4 l", use_by(14), lot="C1", pack="crate of 6 x 2 l")
    house.receive("f", "plain-flour", "2 kg", best_before(30))
    house.receive("s", "salmon", "2 kg", use_by(12))
    house.receive("c", "chicken-bones", "2 kg", use_by(12), temperature_c="3.5")
    house.do("harvest", {"batch": "r", "item": "rhubarb", "quantity": "3 kg", "area": "pantry"})
    house.do("set_level", {"item": "salt", "level": "low"})


def decisions(house):
    house.do("set_par", {"item": "butter", "floor": "250 g"})
    policy = {"name": "receiving.milk.accept", "value": 40, "reason": "colder van"}
    house.do("set_policy", policy)
    calendar = {"supplier": "bruns-butcher", "deliveries": [CALENDAR]}
    house.do("set_calendar", calendar, person=MANAGER)
    terms = {"supplier": "bruns-butcher", "may_fail": True, "order_given": "telephone"}
    house.do("set_terms", terms, person=MANAGER)
    standing = {"weekday": "wed", "item": "butter", "pack": "250 g block", "packs": 1}
    house.do("set_standing_order", {"supplier": "hill-dairy", "lines": [standing]})
    house.do("enrol_device", {"device": "p", "name": "Phone"}, person=MANAGER)
    house.do("revoke_device", {"device": "p"}, person=MANAGER)
    house.do("approve_recipe", {"recipe": "new-dish"})
    house.do("place_order", ORDER)
    house.do("amend_order", {"order": "hill-dairy/2027-03-09", "lines": MILK_LINE})
    house.do("cancel_order", {"order": "hill-dairy/2027-03-09", "reason": "snow"})
    house.do(
        "call_off_delivery", {"supplier": "hill-dairy", "date": "2027-03-26", "reason": "snow"}
    )
    house.do("place_order", ORDER)
    again = "hill-dairy/2027-03-09/2"
    house.do("send_order", {"order": again, "how": "telephone", "to_whom": "Ines"}, person=MANAGER)
    said = {"order": again, "lines": [], "said_by": "Ines"}
    house.do("record_confirmation", said, person=MANAGER)
    house.do("set_budget", {"amount": {"minor": 40_000, "currency": "GBP"}}, person=MANAGER)
    house.do("close_delivery", {"order": again, "driver": "Ines"})
    owed = house.rows(CreditRow)[0].id
    house.do("record_credit", {"credit": owed, "reason": "too little"}, person=MANAGER)
    _billed(house, again)


def _billed(house, order):
    amount = {"minor": 400, "currency": "GBP"}
    line = {"item": "butter", "pack": "250 g block", "packs": 2, "amount": amount}
    body = {"supplier": "hill-dairy", "number": "7", "date": "2027-03-09", "lines": [line]}
    body |= {"total": amount, "orders": [order]}
    invoice = house.do("record_invoice", body)
    with reading(house.engine) as connection:
        billed = Billing(connection, ID, "hill-dairy", ZoneInfo("UTC")).matched[invoice].differences
    answers = [{"difference": each.key, "agreed": "paid"} for each in billed]
    assert answers
    house.do("settle_invoice", {"invoice": invoice, "differences": answers})
    house.do("withdraw_invoice", {"invoice": invoice, "reason": "typed twice"})


def menus(house):
    house.menu(DINNER, "rice-pudding")
    house.menu(BREAKFAST, "pancakes", time="08:00")
    house.do("change_covers", {"service": BREAKFAST, "covers": 6})
    house.do("swap_dish", {"service": DINNER, "dish": "rice-pudding", "by": {"dish": "broth"}})
    house.do("pin", {"service": BREAKFAST, "batch": "m", "quantity": "500 ml"})
    house.do("add_guest", {"person": "Bo", "table": "family", "cannot_eat": ["fish"]})
    house.do("change_product", {"pack": "hill-dairy/butter/250-g-block", "contains": ["milk"]})
    asked = house.question("changed_product").id
    house.do("settle", {"question": asked, "answer": "it is safe for every table"})


def chosen_by_the_household(house):
    lines = [{"ingredient": "Whole milk", "amount": "200 ml"}]
    body = {"recipe": "Milk jelly", "yields": "1", "ingredients": lines, "method": "Set it."}
    house.do("write_recipe", body | {"approved": True})
    house.do("set_substitutes", {"item": "butter", "substitutes": [{"substitute": "Walnuts"}]})
    house.propose("2027-03-14/lunch/family", "milk-jelly", "pancakes", time="12:00")
    shown = {"services": ["2027-03-14/lunch/family"]}
    sheet = house.do("send_sheet", shown)
    course = {"course": "main", "dish": "pancakes"}
    said = {"service": "2027-03-14/lunch/family", "sheet": sheet, "courses": [course]}
    house.do("answer_menu", said)
    house.do("withdraw_sheet", {"sheet": sheet})
    house.do("rename_recipe", {"recipe": "milk-jelly", "name": "Set milk"})
    house.do("put_away_recipe", {"recipe": "milk-jelly"})
    house.do("set_answers_for", {"person": APPROVER, "table": "family"}, person=MANAGER)
    later = {"date": "2027-03-14", "meal": "supper", "table": "family", "time": "20:00"}
    house.do("move_service", {"service": "2027-03-14/lunch/family", "to": later})


def who_is_here(house):
    stays = {"stay": "hale", "who": "Ann Hale", "table": "family", "first": "2027-03-13"}
    house.do("say_stay", stays)
    house.do("end_stay", {"stay": "hale", "last": "2027-03-14", "last_at": "lunch"})
    away = {"away": "o", "who": "Orrin", "table": "family", "first": "2027-03-13"}
    house.do("say_away", away)
    rota = house.do("set_rota", {"table": "staff", "lines": [{"weekday": "Sunday", "heads": 2}]})
    house.do("correct", {"command": rota, "reason": "not yet"})


def what_has_to_be_ordered(house):
    with reading(house.engine) as connection:
        found = look(view(connection, ID, house.now), told_to=None, clock=house.now)
    with writing(house.engine) as connection:
        assert keep(connection, ID, found, house.now)
    house.do("see_to_alert", {"alert": house.rows(AlertRow)[0].id})
    house.do("set_digest", {"at": "07:30"}, person=MANAGER)
    house.do("set_own_letters", {"wanted": False}, person=MANAGER)


def kitchen(house):
    house.do("open", {"batch": "m", "quantity": "2 l", "child": "mo"})
    house.do("decant", {"batch": "f", "quantity": "1 kg", "child": "fd"})
    house.do("freeze", {"batch": "s", "quantity": "1 kg", "child": "sf"})
    house.do("thaw", {"batch": "sf", "quantity": "500 g", "child": "st"})
    house.do("vacuum_pack", {"batch": "s", "quantity": "500 g", "child": "sv"})
    house.do("reserve_labels", {"count": 2})
    house.do("bind_label", {"batch": "fd", "label": numbered(1001)})
    house.do("print_labels", {"batches": ["fd"]})
    house.do("move", {"batch": "fd", "quantity": "200 g", "area": "cold-room"})
    house.do("take_out", {"batch": "mo", "quantity": "300 ml", "service": BREAKFAST})
    stock = {"recipe": "chicken-stock", "quantity": "1 l", "child": "cs", "area": "cold-room"}
    house.do("make", stock)
    house.do("use", {"batch": "mo", "quantity": "100 ml", "reason": "a tray"})
    house.do("send_out", {"batch": "r", "quantity": "1 kg", "house": "The Lodge"})
    lost = {"batch": "sv", "quantity": "100 g", "reason": "torn", "destination": "bin"}
    house.do("correct", {"command": house.do("waste", lost), "reason": "it was not torn"})


def off_the_list(house):
    house.do("run_out", {"item": "walnuts"})
    bought = {"batch": "w", "item": "walnuts", "quantity": "200 g"}
    house.do("shop_run", {"shop": "Corner shop", "lines": [bought], "others": ["ice"]})
    asked = house.do("ask_for", {"words": "bin liners"})
    house.do("tick_off", {"asked": asked})
    house.do("use", {"item": "walnuts", "quantity": "50 g"})


def cold_chain(house):
    house.do("take_temperature", {"area": "cold-room", "temperature_c": "4"})
    house.do("check_probe", {"probe": "Red", "ice_c": "0"})
    house.do("clean", {"what": "Shelves", "area": "cold-room"})
    house.do("cool", {"batch": "cs", "temperature_c": "80"})


def end_of_the_week(house):
    plates = {"dish": "rice-pudding", "quantity": "2 each", "destination": "compost"}
    house.do("waste_without_batch", plates | {"reason": "came back from the table"})
    house.do("hold", {"batch": "sv", "reason": "smells"})
    house.do("release", {"batch": "sv", "reason": "tasted"})
    house.do("set_aside", {"batch": "f", "quantity": "500 g", "area": "pantry"})
    lines = [{"batch": "f", "quantity": "950 g"}, {"item": "butter", "quantity": "200 g"}]
    house.do("count", {"area": "pantry", "lines": lines[:1]})
    house.do("count", {"area": "cold-room", "lines": lines[1:]})
    house.now = at(11, 12)
    house.do("serve", {"service": BREAKFAST, "exceptions": [{"item": "eggs", "quantity": "0"}]})
    left = {"service": BREAKFAST, "dish": "pancakes", "portions": 1, "child": "lo"}
    command = house.do("left_over", left | {"area": "cold-room"})
    house.do("correct", {"command": command, "reason": "it was eaten after all"})
    house.do("take_off", {"service": DINNER, "reason": "out to dinner"})
    house.do("recall", {"lot": "C1", "reason": "glass"})
    house.menu("2027-03-13/lunch/staff", "green-salad", time="12:00")
    house.now = at(15)
    house.hand_in()


def test_LG2_every_kind_of_command_leaves_books_that_agree(lodge):
    goods_in(lodge)
    decisions(lodge)
    menus(lodge)
    chosen_by_the_household(lodge)
    who_is_here(lodge)
    what_has_to_be_ordered(lodge)
    kitchen(lodge)
    off_the_list(lodge)
    cold_chain(lodge)
    end_of_the_week(lodge)
    assert lodge.disagreements() == []
    assert lodge.question("unserved").about == "2027-03-13/lunch/staff"
    given = {row.kind for row in lodge.journal()}
    assert given == VERBS.keys() - {"import_book"}
    assert lodge.balances("m") == {
        "supplier": -4_000_000,
        "made_into": 2_000_000,
        f"served:{BREAKFAST}": 450_000,
        "hold:cold-room": 1_550_000,
    }
    assert lodge.balances("mo") == {
        "made_into": -2_000_000,
        f"served:{BREAKFAST}": 300_000,
        "served:off-menu": 100_000,
        "hold:cold-room": 1_600_000,
    }


def test_SY8_a_late_fact_is_taken_up_by_a_count_on_either_database(lodge):
    lodge.receive("b", "butter", "1 kg", at=NOW.replace(hour=1))
    lines = [{"batch": "b", "quantity": "900 g"}]
    lodge.do("count", {"area": "cold-room", "lines": lines}, at=NOW.replace(hour=5))
    lodge.do("use", {"batch": "b", "quantity": "100 g"}, at=NOW.replace(hour=4))
    assert lodge.balances("b") == {
        "area:cold-room": 900_000,
        "served:off-menu": 100_000,
        "supplier": -1_000_000,
    }
