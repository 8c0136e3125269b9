"""One line of time: the demo house's days against its sheets, and small cases."""

from collections import Counter
from datetime import date, datetime, timedelta
from decimal import Decimal
from functools import partial

import pytest

from pantry.records.database import writing
from pantry.records.rows import change
from pantry.records.tables import ItemRow, RecipeRow
from pantry.reports import coverage, plan
from pantry.reports.days import days
from pantry.reports.menus import menus
from pantry.reports.morning import morning
from pantry.rules.house_time import read_instant
from tests.commands.house import at, use_by
from tests.commands.larkfield import ID
from tests.reports.asking import told
from tests.reports.demo_house import asked, one, only, sheet, value

TODAY = date(2027, 3, 10)
WEEK = [(TODAY + timedelta(days=n)).isoformat() for n in range(7)]
DINNER = "2027-03-10/dinner/family"


@pytest.fixture(scope="module")
def week(house):
    return asked(house, days, 7)


def lives_end(row, items):
    """The day with which a batch dies: its use-by, its opened life if earlier, its life as made.

    What is frozen does not die; what was thawed is left to the tests of thawing.
    """
    if row["state"] in ("frozen", "thawed"):
        return None
    dated = row["date_kind"] == "use_by" or row["state"] == "made"
    ends = [row["date"]] if dated else []
    life = items[row["item"]]["opened_life_days"]
    if row["state"] == "opened" and life:
        opened = date.fromisoformat(row["state_date"])
        ends.append((opened + timedelta(days=int(life) - 1)).isoformat())
    return min(ends, default=None)


def test_rows_come_in_the_order_of_time_each_on_its_local_day(week):
    instants = [row["at"] for row in week]
    assert instants == sorted(instants)
    assert {row["day"] for row in week} == set(WEEK)
    on_another = [row["what"] for row in week if row["at"][:10] != row["day"]]
    assert set(on_another) == {"pull"}, "what must be out in the night is pulled the day before"


def test_a_length_of_days_is_today_and_those_after_it(house, week):
    assert asked(house, days, 2) == [row for row in week if row["day"] in WEEK[:2]]
    assert asked(house, days) == week


def test_the_services_are_those_of_the_sheets_at_their_local_time(week):
    expected = {
        f"{row['date']}/{row['meal']}/{row['table']}": (
            f"{row['date']}T{row['time']}:00Z",
            int(row["covers"]),
            row["state"],
        )
        for row in sheet("services")
        if row["date"] in WEEK and row["state"] != "taken_off"
    }
    found = only(week, what="service")
    assert {r["service"]: (r["at"], r["covers"], r["state"]) for r in found} == expected


def test_a_service_names_each_of_its_dishes_once(week):
    dishes = {}
    for row in sheet("choices"):
        service = f"{row['date']}/{row['meal']}/{row['table']}"
        dishes.setdefault(service, {})[row["dish"]] = None
    for row in only(week, what="service"):
        assert row["dishes"] == list(dishes[row["service"]])


def test_PL1_a_service_says_how_many_items_it_lacks(week):
    """The posset of Saturday lacks cream: both litres die on Friday. Sunday lacks a leg of lamb."""
    short = {row["service"]: row["short"] for row in only(week, what="service")}
    assert short["2027-03-10/lunch/staff"] == 0
    assert short["2027-03-13/dinner/family"] == 1
    assert short["2027-03-14/lunch/family"] >= 1


def test_the_deliveries_are_the_open_orders_at_their_suppliers_time(week):
    times = {(row["supplier"], row["weekday"]): row["time"] for row in sheet("deliveries")}
    lines = {}
    for row in sheet("orders"):
        if row["delivery_date"] in WEEK:
            weekday = f"{date.fromisoformat(row['delivery_date']):%A}"
            at_ = f"{row['delivery_date']}T{times[row['supplier'], weekday]}:00Z"
            lines[row["supplier"], at_] = lines.get((row["supplier"], at_), 0) + 1
    found = {(r["supplier"], r["at"]): r["lines"] for r in only(week, what="delivery")}
    assert found == lines


def test_PL5_a_cut_off_is_the_suppliers_less_the_time_to_send(week):
    """Tolsaig Creamery: Saturday 06:45, orders until 17:00 of the day before, ten minutes to send.

    Double cream for Saturday's posset and buttermilk for its pancakes, which both die on Friday.
    """
    friday = one(week, what="cut_off", supplier="Tolsaig Creamery", day="2027-03-12")
    assert friday == {
        "what": "cut_off",
        "at": "2027-03-12T16:50:00Z",
        "day": "2027-03-12",
        "supplier": "Tolsaig Creamery",
        "delivery": "2027-03-13T06:45:00Z",
        "items": 2,
        "alert": "none",
    }


def test_PL5_every_cut_off_follows_from_the_suppliers_calendar(week):
    rules = {(row["supplier"], row["weekday"], row["time"]): row for row in sheet("deliveries")}
    send = {row["supplier"]: int(row["send_minutes"]) for row in sheet("suppliers")}
    moved = {row["supplier"] for row in sheet("closures") if row["date"] in WEEK}
    found = [row for row in only(week, what="cut_off") if row["supplier"] not in moved]
    assert len(found) >= 4
    for row in found:
        delivery = datetime.fromisoformat(row["delivery"])
        rule = rules[row["supplier"], f"{delivery:%A}", f"{delivery:%H:%M}"]
        day = delivery.date() - timedelta(days=int(rule["cutoff_days_before"]))
        cutoff = datetime.fromisoformat(f"{day}T{rule['cutoff_time']}:00+00:00")
        assert read_instant(row["at"]) == cutoff - timedelta(minutes=send[row["supplier"]])


def test_PL5_a_dish_is_to_be_chosen_before_its_last_order_by(week):
    """Saddle of venison: orders ten days ahead, 10:00 on 13 March less half an hour to send.

    Duck breast: the boat of Tuesday 16 March, orders two days before until 10:00, twenty minutes.
    """
    chosen = {(row["at"], dish) for row in only(week, what="choose_by") for dish in row["dishes"]}
    assert ("2027-03-13T09:30:00Z", "Saddle of venison with redcurrant") in chosen
    assert ("2027-03-14T09:40:00Z", "Duck breast with rhubarb") in chosen
    saddle = one(week, what="choose_by", at="2027-03-13T09:30:00Z")
    assert saddle["service"] == "2027-03-24/dinner/family"


def test_SL2_what_dies_is_what_the_sheets_say_dies(week):
    items = {row["item"]: row for row in sheet("items")}
    batches = {row["label"]: row for row in sheet("batches")}
    expected = {
        label: day
        for label, row in batches.items()
        if (day := lives_end(row, items)) is not None and day in WEEK
    }
    found = {row["label"]: row for row in only(week, what="dies")}
    sheets = {
        label: row["day"] for label, row in found.items() if batches[label]["state"] != "thawed"
    }
    assert sheets == expected
    assert len(sheets) > 30
    for label, row in found.items():
        assert row["mark"] == batches[label]["date_kind"]
        assert row["area"] == batches[label]["area"]


def test_SL3_what_was_thawed_dies_within_its_hours_and_not_with_a_day(week):
    """Puff pastry, thawed on 10 March with a day to live, its hour not known: noon of the next."""
    thawed = {row["label"] for row in sheet("batches") if row["state"] == "thawed"}
    found = {row["label"]: row["at"] for row in only(week, what="dies") if row["label"] in thawed}
    assert found["B-0062"] == "2027-03-11T12:00:00Z"


def test_LG2_on_hand_is_promised_and_available_where_nothing_is_held(week):
    for row in only(week, what="dies"):
        assert value(row["promised"]) + value(row["available"]) == value(row["on_hand"])
    cream = one(week, what="dies", label="B-0004")
    assert value(cream["on_hand"]) == 2000


def test_RQ2_the_venison_is_out_the_evening_before_its_marinade(week):
    """Three portions and one without alcohol, of six for 1.2 kg: 800 g, in wine by 09:30.

    Half a kilogram and more thaws overnight, twelve hours in the house's policy.
    """
    venison = one(week, what="pull", label="B-0241")
    assert venison["at"] == "2027-03-10T21:30:00Z"
    assert venison["quantity"] == {"value": "800", "unit": "g"}
    assert venison["area"] == "Outhouse freezer"
    assert venison["service"] == "2027-03-11/dinner/family"


def test_RQ1_what_is_made_is_as_much_as_its_dish_wants(week):
    """Crab on toast for four wants mayonnaise; macaroni cheese for three children béchamel."""
    lines = {(row["recipe"], row["ingredient"]): row["amount"] for row in sheet("ingredients")}
    yields = {row["recipe"]: Decimal(row["yield"].split()[0]) for row in sheet("recipes")}
    for dish, item, covers, unit in (
        ("Crab on toast", "Mayonnaise", 4, "g"),
        ("Macaroni cheese", "Béchamel", 3, "ml"),
    ):
        found = one(week, what="make", dish=dish, day="2027-03-11")
        amount, written = lines[dish, item].split()
        assert written == unit
        assert value(found["quantity"]) * yields[dish] == int(amount) * covers
        assert found["item"] == item


@pytest.mark.parametrize(("question", "plans"), [(days, 1), (morning, 1), (menus, 0)])
def test_coverage_and_plan_are_worked_out_once(house, monkeypatch, question, plans):
    worked_out = []
    for module, name in ((coverage, "Projected"), (plan, "plan_of")):
        original = getattr(module, name)
        counted = partial(_counted, worked_out, name, original)
        monkeypatch.setattr(module, name, counted)
    asked(house, question)
    assert Counter(worked_out) == Counter({"Projected": 1, "plan_of": plans})


def _counted(worked_out, name, original, *arguments, **named):
    worked_out.append(name)
    return original(*arguments, **named)


def frozen_salmon(lodge):
    lodge.receive("fresh", "salmon", "1 kg", use_by(20))
    child = {"batch": "fresh", "quantity": "1 kg", "child": "frozen", "area": "Freezer"}
    lodge.do("freeze", child)


def test_LG2_what_is_to_be_pulled_stays_on_today_until_it_is_taken_out(lodge):
    frozen_salmon(lodge)
    breakfast = "2027-03-10/breakfast/family"
    lodge.menu(breakfast, "baked-salmon", time="08:00")
    pull = one(told(lodge, days), what="pull")
    assert pull["quantity"] == {"value": "600", "unit": "g"}
    assert pull["day"] == "2027-03-09"
    lodge.now = at(9, 23, 30)
    late = one(told(lodge, days, 1), what="pull")
    assert (late["at"], late["day"]) == (pull["at"], "2027-03-09")
    lodge.now = at(10, 7)
    overdue = one(told(lodge, days, 1), what="pull")
    assert (overdue["at"], overdue["day"]) == (pull["at"], "2027-03-10")
    lodge.do("take_out", {"batch": "frozen", "quantity": "600 g", "service": breakfast})
    assert only(told(lodge, days), what="pull") == []


def test_a_service_that_is_over_asks_for_nothing_more(lodge):
    frozen_salmon(lodge)
    lodge.menu(DINNER, "baked-salmon")
    lodge.now = at(10, 20)
    assert only(told(lodge, days), what="pull") == []
    assert one(told(lodge, days), what="service")["state"] == "confirmed"


def test_what_was_taken_off_is_on_no_day(lodge):
    lodge.menu(DINNER, "green-salad")
    lodge.do("take_off", {"service": DINNER, "reason": "nobody is here"})
    assert only(told(lodge, days), what="service") == []


def test_a_delivery_counts_the_lines_that_are_still_awaited(lodge):
    lines = [
        {"item": "Whole milk", "pack": "2 l bottle", "packs": 2},
        {"item": "Butter", "pack": "250 g block", "packs": 1},
    ]
    lodge.do("place_order", {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": lines})
    assert one(told(lodge, days), what="delivery")["lines"] == 2
    lodge.now = at(9, 7)
    lodge.receive("m", "whole-milk", "4 l", use_by(15), order="hill-dairy/2027-03-09")
    assert one(told(lodge, days), what="delivery")["lines"] == 1
    lodge.receive("b", "butter", "250 g", order="hill-dairy/2027-03-09")
    assert only(told(lodge, days), what="delivery") == []


def test_SL1_a_day_is_the_houses_own_day_over_a_clock_change(lodge):
    """Clocks go forward on Sunday 28 March 2027: 00:30 on Monday is 23:30 UTC of Sunday."""
    lodge.now = at(28, 12)
    lodge.receive("m", "whole-milk", "2 l", use_by(29))
    dies = one(told(lodge, days), what="dies")
    assert (dies["at"], dies["day"]) == ("2027-03-29T22:59:59Z", "2027-03-29")


def test_PL5_a_dish_that_cannot_be_had_has_no_choose_by(lodge):
    """Nobody sells salad leaves to the lodge."""
    lodge.propose("2027-03-12/dinner/family", "green-salad")
    assert only(told(lodge, days), what="choose_by") == []


def test_MS3_a_dish_of_what_nobody_counts_can_be_chosen_until_its_lead(lodge):
    with writing(lodge.engine) as connection:
        change(connection, ItemRow, {"house": ID, "id": "salad-leaves"}, measured=False)
        change(connection, RecipeRow, {"house": ID, "id": "green-salad"}, lead="PT2H")
    lodge.propose("2027-03-12/dinner/family", "green-salad")
    chosen = one(told(lodge, days), what="choose_by")
    assert (chosen["at"], chosen["dishes"]) == ("2027-03-12T17:30:00Z", ["Green salad"])


def test_an_empty_house_has_empty_days(lodge):
    assert told(lodge, days) == []
