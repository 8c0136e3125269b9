"""What comes of itself, and the deadline to stop it where nobody is in the house."""

from pantry.reports.alert_calendar import calendar
from pantry.reports.alert_words import words_of
from pantry.reports.alerts import alerts
from pantry.reports.orders import orders
from pantry.reports.plan import plan
from pantry.reports.standing_orders import standing_orders
from pantry.reports.view import view
from tests.commands.house import at
from tests.commands.larkfield import ID
from tests.reports.asking import told

MILK = {"item": "whole-milk", "pack": "2 l bottle", "packs": 3}
WEDNESDAY, NEXT = "hill-dairy/2027-03-17", "hill-dairy/2027-03-24"


def standing(lodge, *weekdays, **more):
    lines = [MILK | {"weekday": weekday} for weekday in weekdays]
    lodge.do("set_standing_order", {"supplier": "Hill Dairy", "lines": lines} | more)


def away(lodge, first, last, heads=6):
    body = {"away": "all", "who": "Everybody", "table": "family", "heads": heads}
    lodge.do("say_away", body | {"first": f"2027-03-{first:02d}", "last": f"2027-03-{last:02d}"})


def nobody(lodge):
    (row,) = told(lodge, standing_orders)
    return {each["order"]: each["nobody"] for each in row["coming"] if each["nobody"]}


def pressing(lodge):
    return [row for row in told(lodge, alerts) if row["nobody"]]


def test_it_is_told_with_its_lines_and_the_orders_that_were_written(lodge):
    paper = {"weekday": "friday", "words": "The county paper", "amount": None}
    standing(lodge, "wednesday", free=[paper])
    (row,) = told(lodge, standing_orders)
    assert (row["supplier"], row["said_by"], row["when_empty"]) == (
        "Hill Dairy",
        "Cato Brand",
        False,
    )
    assert [(line["weekday"], line["packs"], line["words"]) for line in row["lines"]] == [
        ("wednesday", 3, None),
        ("friday", None, "The county paper"),
    ]
    first = row["coming"][0]
    assert (first["order"], first["tell_by"]) == ("hill-dairy/2027-03-10", "2027-03-09T17:00:00Z")
    assert first["nobody"] is None


def test_PL1_what_comes_of_itself_is_not_to_be_ordered_besides(lodge):
    lodge.do("set_par", {"item": "whole-milk", "floor": "2 l"})
    assert "Whole milk" in {row["item"] for row in told(lodge, plan)}
    standing(lodge, "monday", "tuesday", "wednesday", "thursday", "friday")
    assert "Whole milk" not in {row["item"] for row in told(lodge, plan)}


def test_the_supplier_is_told_where_nobody_is_in_the_house_until_it_comes_again(lodge):
    standing(lodge, "wednesday")
    away(lodge, 15, 25)
    assert nobody(lodge) == {WEDNESDAY: {"first": "2027-03-15", "last": "2027-03-25"}}
    lodge.do("cancel_order", {"order": WEDNESDAY, "reason": "nobody is in the house"})
    assert nobody(lodge) == {}


def test_one_who_stays_behind_wants_the_milk(lodge):
    standing(lodge, "wednesday")
    away(lodge, 15, 25, heads=5)
    assert nobody(lodge) == {}


def test_what_comes_for_an_empty_house_too_is_left(lodge):
    standing(lodge, "wednesday", when_empty=True)
    away(lodge, 15, 25)
    assert nobody(lodge) == {}


def test_PL5_stopping_has_a_deadline_like_an_order(lodge):
    standing(lodge, "wednesday")
    away(lodge, 15, 25)
    assert pressing(lodge) == []
    lodge.now = at(16, 16, 45)
    (row,) = pressing(lodge)
    assert (row["alert"], row["stage"]) == (f"stop/{WEDNESDAY}", "last_call")
    lodge.now = at(16, 17, 1)
    (row,) = pressing(lodge)
    assert row["stage"] == "missed"
    lodge.now = at(17, 8)
    assert pressing(lodge) == []


def test_it_is_said_in_words_and_in_the_calendar(lodge):
    standing(lodge, "wednesday")
    away(lodge, 15, 25)
    lodge.now = at(16, 16, 45)
    (row,) = pressing(lodge)
    with lodge.engine.connect() as connection:
        house = view(connection, ID, lodge.now)
        words = words_of(house)
        text = calendar(house).decode().replace("\r\n ", "")
    assert words.title(row) == (
        "Last call: tell Hill Dairy to bring nothing, Wednesday 17 March, 06:45"
    )
    nobody_here, tell_them = words.lines(row)
    assert nobody_here == "Nobody is in the house from Tuesday 16 March to Thursday 25 March."
    assert tell_them == (
        "Their standing order comes on Wednesday 17 March, 06:45: tell them by "
        "Tuesday 16 March, 17:00, then cancel the order."
    )
    assert "SUMMARY:Tell Hill Dairy to bring nothing" in text


def test_the_desk_is_told_which_orders_come_of_themselves(lodge):
    standing(lodge, "wednesday")
    assert all(row["standing"] for row in told(lodge, orders))
    own = [MILK | {"packs": 9}]
    lodge.do("amend_order", {"order": WEDNESDAY, "lines": own})
    assert not next(row for row in told(lodge, orders) if row["order"] == WEDNESDAY)["standing"]
