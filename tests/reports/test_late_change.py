"""AL2, LG2: what a late change would do is what it does."""

import pytest

from pantry.records.database import reading
from pantry.refusals import Refusal
from pantry.reports.late_change import late_change
from pantry.reports.view import view
from tests.commands.house import at, use_by
from tests.commands.larkfield import ID
from tests.reports.in_shape import rows_in_shape

DINNER = "2027-03-12/dinner/family"
SUPPER = "2027-03-13/supper/staff"


def weighed(lodge, service, **to):
    with reading(lodge.engine) as connection:
        seen = view(connection, ID, lodge.now)
        return rows_in_shape(seen, late_change, late_change(seen, service, **to))


def brief(rows):
    return {(row["effect"], row["item"]): row["quantity"]["value"] for row in rows}


@pytest.fixture
def pudding(lodge):
    """Rice pudding for four: a litre of milk of three, and 40 g of butter of 50."""
    lodge.receive("m", "whole-milk", "3 l", use_by(14))
    lodge.receive("b", "butter", "50 g", use_by(20))
    lodge.menu(DINNER, "rice-pudding")
    return lodge


def test_AL2_eight_not_four_says_what_is_set_aside_and_what_is_still_to_be_ordered(pudding):
    rows = weighed(pudding, DINNER, covers=8)
    assert brief(rows) == {
        ("to_order", "Butter"): "30",
        ("set_aside", "Butter"): "10",
        ("set_aside", "Whole milk"): "1000",
    }
    order = rows[0]
    assert (order["service"], order["dish"]) == (DINNER, "Rice pudding")
    assert order["mend_until"] is not None


def test_AL2_what_cannot_be_ordered_any_more_comes_first(pudding):
    pudding.now = at(12, 12)
    rows = weighed(pudding, DINNER, covers=8)
    assert rows[0]["effect"] == "short"


def test_AL2_nobody_eats_and_what_dies_first_of_what_is_spare_stands_first(pudding):
    rows = weighed(pudding, DINNER, off="yes")
    assert [(row["effect"], row["item"], row["quantity"]["value"]) for row in rows] == [
        ("spare", "Whole milk", "1000"),
        ("spare", "Butter", "40"),
    ]
    assert rows[0]["batch"] == "m"
    assert rows[0]["usable_until"].startswith("2027-03-14")
    assert rows[0]["label"] == pudding.batch("m").label


def test_AL2_as_it_is_changes_nothing(pudding):
    assert weighed(pudding, DINNER) == weighed(pudding, DINNER, covers=4) == []


def test_AL2_after_its_use_by_the_milk_does_for_nobody(pudding):
    rows = weighed(pudding, DINNER, date="2027-03-15")
    assert ("spare", "Whole milk") in brief(rows)
    assert ("to_order", "Whole milk") in brief(rows)


def test_LG2_what_was_taken_out_is_not_asked_for_again(pudding):
    pudding.do("take_out", {"batch": "m", "quantity": "600 ml", "service": DINNER})
    assert brief(weighed(pudding, DINNER, covers=5))["set_aside", "Whole milk"] == "250"
    assert brief(weighed(pudding, DINNER, off="yes"))["spare", "Whole milk"] == "400"


def test_AL2_another_table_that_runs_short_is_named(lodge):
    lodge.receive("m", "whole-milk", "2500 ml", use_by(14))
    lodge.menu(DINNER, "rice-pudding")
    lodge.menu(SUPPER, "rice-pudding", covers=6)
    (short,) = [
        row
        for row in weighed(lodge, DINNER, covers=6)
        if (row["effect"], row["item"]) == ("to_order", "Whole milk")
    ]
    assert (short["service"], short["quantity"]["value"]) == (SUPPER, "500")


def test_RQ1_less_of_a_preparation_is_told_as_a_making(lodge):
    lodge.receive("c", "chicken-bones", "2 kg", use_by(20))
    lodge.menu(DINNER, "broth")
    effects = {row["effect"] for row in weighed(lodge, DINNER, covers=2)}
    assert "make_less" in effects
    assert "spare" in effects


@pytest.mark.parametrize("covers", [1, 3, 6, 11, 25])
def test_AL2_what_was_said_is_what_happens(pudding, covers):
    pudding.menu(SUPPER, "rice-pudding", covers=6)
    said = weighed(pudding, DINNER, covers=covers)
    before = {name: sum(pudding.promised(name).values()) for name in ("m", "b")}
    pudding.do("change_covers", {"service": DINNER, "covers": covers})
    moved = {name: sum(pudding.promised(name).values()) - before[name] for name in ("m", "b")}
    sign = {"spare": -1, "set_aside": 1}
    told = {"m": 0, "b": 0}
    for row in said:
        if row["effect"] in sign:
            told[row["batch"]] += sign[row["effect"]] * int(row["quantity"]["value"]) * 1000
    assert told == moved
    assert weighed(pudding, DINNER, covers=covers) == []


def test_what_cannot_be_weighed_is_refused_by_name(pudding):
    def code(*args, **to):
        with pytest.raises(Refusal) as refusal:
            weighed(pudding, *args, **to)
        return refusal.value.code

    pudding.propose(SUPPER, "pancakes")
    assert code(SUPPER) == "not_confirmed"
    assert code("2027-03-14/lunch/family") == "service_not_ahead"
    assert code(DINNER, table="terrace") == "table_not_there"
    assert code(DINNER, date="Friday") == code(DINNER, time="noon") == "meal_unreadable"
