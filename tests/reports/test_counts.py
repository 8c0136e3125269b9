"""What is to be counted where, in the order of the shelves, and what counts found (LG3)."""

from datetime import timedelta

from pantry.reports.count_differences import count_differences
from pantry.reports.counts import counts
from tests.commands.house import at
from tests.commands.larkfield import CHEF, MANAGER, PORTER
from tests.reports.asking import told

COLD = "Cold room"


def cold(lodge):
    return next(row for row in told(lodge, counts) if row["area"] == COLD)


def names(row):
    return [line["item"] for line in row["lines"]]


def line(lodge, name):
    return next(each for each in cold(lodge)["lines"] if each["item"] == name)


def count(lodge, *lines, **rest):
    return lodge.do("count", {"area": COLD, "lines": list(lines)}, person=PORTER, **rest)


def test_LG3_an_area_lists_what_stands_there_and_what_nobody_counts(lodge):
    lodge.receive("b", "butter", "1 kg")
    lodge.receive("m", "whole-milk", "4 l")
    row = cold(lodge)
    assert (row["kind"], row["counted_at"], row["counted_by"]) == ("chilled", None, None)
    assert names(row) == ["Butter", "Whole milk"]
    assert line(lodge, "Whole milk")["closely"] is True
    assert "1" not in str(line(lodge, "Butter")["promised_soon"])
    pantry = next(row for row in told(lodge, counts) if row["area"] == "Pantry")
    assert pantry["levels"] == [{"item": "Salt", "item_id": "salt", "level": "plenty"}]


def test_LG3_a_count_is_remembered_in_its_order(lodge):
    lodge.receive("b", "butter", "1 kg")
    lodge.receive("m", "whole-milk", "4 l")
    count(lodge, {"batch": "m", "quantity": "4 l"}, {"batch": "b", "quantity": "1 kg"})
    row = cold(lodge)
    assert names(row) == ["Whole milk", "Butter"]
    assert (row["counted_at"], row["counted_by"]) == ("2027-03-08T07:00:00Z", PORTER)


def test_LG3_what_is_due_says_why(lodge):
    lodge.receive("m", "whole-milk", "4 l", at=at(1))
    lodge.receive("b", "butter", "1 kg")
    assert (cold(lodge)["due"], line(lodge, "Whole milk")["why"]) == (1, "weekly")
    count(lodge, {"batch": "m", "quantity": "4 l"})
    assert cold(lodge)["due"] == 0
    lodge.do("use", {"batch": "b", "quantity": "1 kg"})
    assert line(lodge, "Butter")["why"] == "nothing_left"
    lodge.do("use", {"batch": "m", "quantity": "5 l"})
    assert line(lodge, "Whole milk")["why"] == "below_nothing"


def test_LG3_what_was_found_gone_is_counted_no_more(lodge):
    lodge.receive("b", "butter", "1 kg")
    count(lodge, {"batch": "b", "quantity": "0 g"})
    assert names(cold(lodge)) == []


def test_LG3_a_second_count_that_is_awaited_is_due(lodge):
    lodge.receive("m", "whole-milk", "4 l")
    count(lodge, {"batch": "m", "quantity": "3 l", "second": False})
    assert line(lodge, "Whole milk")["why"] == "again"


def test_LG3_what_is_promised_for_today_and_tomorrow_is_told(lodge):
    lodge.receive("b", "butter", "1 kg")
    lodge.menu("2027-03-08/dinner/family", "baked-salmon")
    lodge.menu("2027-03-12/dinner/family", "baked-salmon")
    assert line(lodge, "Butter")["promised_soon"] == [
        {"batch": "b", "quantity": {"value": "40", "unit": "g"}}
    ]


def test_LG3_differences_have_their_quantity_their_money_and_why(lodge):
    cost = {"minor": 800, "currency": "GBP"}
    lodge.receive("b", "butter", "1 kg", cost=cost)
    command = count(lodge, {"batch": "b", "quantity": "700 g"})
    lodge.do(
        "settle", {"question": f"count_difference|{command}|b", "answer": "use was not recorded"}
    )
    lodge.receive("r", "rhubarb", "1 kg", cost=cost)
    count(lodge, {"batch": "r", "quantity": "1.1 kg", "reason": "wrong unit"})
    more, less = told(lodge, count_differences)
    assert less["difference"] == {"value": "-300", "unit": "g"}
    assert less["value"] == {"minor": -240, "currency": "GBP"}
    assert (less["area"], less["person"], less["explained"]) == (
        COLD,
        PORTER,
        "use was not recorded",
    )
    assert (more["difference"]["value"], more["reason"], more["explained"]) == (
        "100",
        "wrong unit",
        None,
    )


def test_LG3_a_count_taken_back_is_no_difference_and_counts_as_none(lodge):
    lodge.receive("b", "butter", "1 kg")
    command = count(lodge, {"batch": "b", "quantity": "700 g"})
    lodge.do("correct", {"command": command, "reason": "the wrong shelf"}, person=CHEF)
    assert told(lodge, count_differences) == []
    assert cold(lodge)["counted_at"] is None


def test_LG3_differences_are_told_for_a_season(lodge):
    lodge.receive("b", "butter", "1 kg")
    count(lodge, {"batch": "b", "quantity": "700 g"})
    lodge.now += timedelta(days=93)
    assert told(lodge, count_differences) == []


def test_LG3_the_house_sets_how_often_it_counts(lodge):
    lodge.receive("m", "whole-milk", "4 l", at=at(5))
    assert line(lodge, "Whole milk")["why"] is None
    own = {"name": "counting.closely_chilled.every", "value": 3, "reason": "milk goes missing"}
    lodge.do("set_policy", own, person=MANAGER)
    assert line(lodge, "Whole milk")["why"] == "weekly"
