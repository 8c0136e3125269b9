"""The porter's lists: what to pull out of the freezer, what to bring to the kitchen."""

from datetime import timedelta

from pantry.reports.days import days
from pantry.reports.morning import morning
from pantry.reports.pick import pick
from pantry.reports.pull import pull
from tests.commands.house import at, use_by
from tests.reports.asking import told
from tests.reports.demo_house import NOW, asked, one, only, value

TUESDAY = "2027-03-09/dinner/family"
WEDNESDAY = "2027-03-10/dinner/family"
BREAKFAST = "2027-03-10/breakfast/family"


def frozen_salmon(lodge):
    lodge.receive("fresh", "salmon", "1 kg", use_by(20))
    child = {"batch": "fresh", "quantity": "1 kg", "child": "frozen", "area": "Freezer"}
    lodge.do("freeze", child)


def test_RQ2_what_must_be_out_in_the_night_is_pulled_on_the_day_before(house):
    """Pastry for a tart is wanted at 16:30 and thaws for twelve hours: nobody walks at 04:30."""
    rows = asked(house, pull)
    pastry = one(rows, label="B-0219")
    assert pastry["out_by"] == "2027-03-11T04:30:00Z"
    marks = only(asked(house, morning), what="pull")
    assert {row["label"] for row in marks} == {row["label"] for row in rows} == {"B-0219", "B-0241"}


def test_RQ3_whole_containers_are_pulled_and_said_beside_what_is_wanted(house):
    """800 g of venison stand in one bag of a kilogram."""
    venison = one(asked(house, pull), label="B-0241")
    assert (value(venison["quantity"]), value(venison["take"])) == (800, 1000)
    assert [value(part["quantity"]) for part in venison["wanted"]] == [800]
    assert (venison["area"], venison["into"]) == ("Outhouse freezer", "Cold room")


def test_SL3_what_would_die_before_its_service_is_not_pulled_at_once(house):
    """Out at 07:00 it is thawed by 19:00 and good for a day: dinner tomorrow is at 19:30."""
    venison = one(asked(house, pull), label="B-0241")
    assert venison["usable_until"] == "2027-03-11T19:00:00Z"
    assert venison["not_before"] == "2027-03-10T07:30:00Z"
    later = one(asked(house, pull, at=NOW + timedelta(minutes=30)), label="B-0241")
    assert later["not_before"] is None


def test_what_is_cooked_from_frozen_is_brought_and_not_pulled(house):
    """Peas with the sausages: out of the freezer when they are cooked."""
    assert only(asked(house, pull), item="Peas") == []
    assert only(asked(house, days, 1), what="pull", item="Peas") == []
    peas = one(asked(house, pick), item="Peas")
    assert (peas["area"], peas["quantity"]) == ("Kitchen freezer", {"value": "150", "unit": "g"})


def test_what_was_not_pulled_in_time_comes_first_and_says_so(lodge):
    frozen_salmon(lodge)
    lodge.menu(BREAKFAST, "baked-salmon", time="08:00")
    lodge.now = at(9, 12)
    assert [row["late"] for row in told(lodge, pull)] == [False]
    lodge.now = at(10, 7)
    (late,) = told(lodge, pull)
    assert late["late"]
    assert late["thawed_at"] > late["wanted"][0]["wanted_by"]


def test_LG2_what_was_pulled_is_ticked_asked_for_no_more_and_can_be_taken_back(lodge):
    frozen_salmon(lodge)
    lodge.menu(TUESDAY, "baked-salmon")
    lodge.now = at(9, 7)
    (due,) = told(lodge, pull)
    body = {"batch": due["batch"], "quantity": due["take"], "child": "thawed", "area": due["into"]}
    given = lodge.do("thaw", body)
    (done,) = told(lodge, pull)
    assert done["done"]["command"] == given
    assert done["batch"] == due["batch"]
    assert done["wanted"] == due["wanted"]
    assert done["area"] == due["area"]
    assert done["usable_until"] == due["usable_until"]
    lodge.do("correct", {"command": given, "reason": "not yet"})
    assert told(lodge, pull) == [due]


def test_LG2_what_was_pulled_in_part_of_a_batch_is_promised_in_place_of_the_rest(lodge):
    """A kilogram is frozen, 600 g are wanted and thawed; the rest stays frozen and unasked for."""
    frozen_salmon(lodge)
    lodge.menu(TUESDAY, "baked-salmon")
    lodge.now = at(9, 7)
    lodge.do("thaw", {"batch": "frozen", "quantity": "600 g", "child": "thawed"})
    rows = told(lodge, pull)
    assert [row["done"] is not None for row in rows] == [True]
    assert only(told(lodge, pick), item_id="salmon")[0]["batch"] == "thawed"


def test_AL2_the_picks_of_today_and_tomorrow_stay_when_stock_that_dies_sooner_comes(lodge):
    lodge.receive("first", "salmon", "1 kg", use_by(20))
    lodge.menu(TUESDAY, "baked-salmon")
    before = told(lodge, pick)
    assert [row["batch"] for row in only(before, item_id="salmon")] == ["first"]
    lodge.receive("second", "salmon", "1 kg", use_by(15))
    lodge.now += timedelta(hours=1)
    again = told(lodge, pick)
    assert [row["batch"] for row in only(again, item_id="salmon")] == ["first"]
    assert [other["batch"] for other in only(again, item_id="salmon")[0]["others"]] == ["second"]


def test_what_is_wanted_after_tomorrow_is_not_picked_yet(lodge):
    lodge.receive("salmon", "salmon", "1 kg", use_by(20))
    lodge.menu(WEDNESDAY, "baked-salmon")
    assert only(told(lodge, pick), item_id="salmon") == []
    lodge.now = at(9, 7)
    assert len(only(told(lodge, pick), item_id="salmon")) == 1


def test_LG2_what_was_brought_is_ticked_and_taking_it_back_asks_for_it_again(lodge):
    lodge.receive("salmon", "salmon", "1 kg", use_by(20))
    lodge.menu(TUESDAY, "baked-salmon")
    (due,) = only(told(lodge, pick), item_id="salmon")
    body = {"batch": due["batch"], "quantity": due["quantity"], "service": due["service"]}
    given = lodge.do("take_out", body | {"area": due["area"]})
    (done,) = only(told(lodge, pick), item_id="salmon")
    assert done["done"]["command"] == given
    assert (done["quantity"], done["area"]) == (due["quantity"], due["area"])
    lodge.do("correct", {"command": given, "reason": "the wrong door"})
    assert only(told(lodge, pick), item_id="salmon") == [due]


def test_another_batch_than_was_suggested_settles_the_need_as_well(lodge):
    lodge.receive("first", "salmon", "1 kg", use_by(15))
    lodge.receive("second", "salmon", "1 kg", use_by(20))
    lodge.menu(TUESDAY, "baked-salmon")
    (due,) = only(told(lodge, pick), item_id="salmon")
    assert due["batch"] == "first"
    other = due["others"][0]["batch"]
    lodge.do("take_out", {"batch": other, "quantity": due["quantity"], "service": TUESDAY})
    rows = only(told(lodge, pick), item_id="salmon")
    assert [(row["batch"], row["done"] is not None) for row in rows] == [("second", True)]


def test_what_is_brought_for_a_preparation_is_asked_for_once(house):
    """Béchamel for tomorrow's macaroni: flour, butter and milk, for the making and not the dish."""
    rows = only(asked(house, pick), preparation="Béchamel")
    assert {row["item"] for row in rows} >= {"Plain flour", "Butter, unsalted", "Whole milk"}
    assert {row["service"] for row in rows} == {"2027-03-11/supper/children"}


def test_SY10_the_lists_say_nothing_of_costs_or_of_who_cannot_eat_what(house):
    said = str(asked(house, pick)) + str(asked(house, pull))
    assert "minor" not in said
    assert "Ellacott" not in said


def test_MS1_what_is_counted_in_pieces_is_brought_in_whole_ones(house):
    """The house has no third of an apple to carry: the whole one is brought."""
    rows = [row for row in asked(house, pick) if not row["done"]]
    pieces = [row for row in rows if row["quantity"]["unit"] == "each"]
    rounded = [row for row in pieces if value(row["quantity"]) % 1]
    assert rounded
    for row in rounded:
        assert value(row["quantity"]) < value(row["take"]) < value(row["quantity"]) + 1
        assert value(row["take"]) % 1 == 0
    assert all(row["take"] == row["quantity"] for row in rows if row not in rounded)


def test_AL2_what_was_brought_days_before_is_not_asked_for_again(lodge):
    lodge.receive("salmon", "salmon", "1 kg", use_by(20))
    lodge.receive("later", "salmon", "1 kg", use_by(20))
    lodge.menu(WEDNESDAY, "baked-salmon")
    lodge.do("take_out", {"batch": "salmon", "quantity": "600 g", "service": WEDNESDAY})
    lodge.now = at(9, 7)
    assert [row["batch"] for row in only(told(lodge, pick), item_id="salmon", done=None)] == []
