"""Numbered labels: reserved before they are printed, put on a batch, taken from an empty jar."""

import pytest

from pantry.records.tables import LabelRangeRow, NumberedLabelRow, PrintedLabelRow
from pantry.rules.label_numbers import numbered
from tests.commands.house import at, use_by
from tests.commands.larkfield import MANAGER, PORTER

NUMBER = numbered(1001)
WRONG = NUMBER[:-1] + str((int(NUMBER[-1]) + 1) % 10)


def decanted(house, child="jar", **more):
    if not house.balance_rows("m"):
        house.receive("m", "whole-milk", "4 l", use_by(20))
    house.do("decant", {"batch": "m", "quantity": "1 l", "child": child} | more, person=PORTER)


def ranges(house):
    return [(row.first, row.last) for row in house.rows(LabelRangeRow)]


def test_no_number_is_ever_reserved_twice(house):
    house.do("reserve_labels", {"count": 24}, person=PORTER)
    house.do("reserve_labels", {"count": 1}, person=MANAGER)
    house.do("reserve_labels", {"count": 40})
    assert ranges(house) == [(1001, 1024), (1025, 1025), (1026, 1065)]


def test_numbers_go_on_after_what_was_found_on_a_jar(house):
    decanted(house)
    house.do("bind_label", {"batch": "jar", "label": numbered(5000)})
    house.do("reserve_labels", {"count": 2})
    assert ranges(house) == [(5001, 5002)]


@pytest.mark.parametrize("count", [0, 1001])
def test_a_sheet_has_at_least_one_number_and_not_thousands(house, count):
    answer = house.give("reserve_labels", {"count": count})
    assert answer.problem.field == "body.count"


def test_a_batch_is_named_by_the_number_that_was_put_on_it(house):
    decanted(house)
    house.do("bind_label", {"batch": "jar", "label": NUMBER}, person=PORTER)
    house.do("use", {"batch": NUMBER, "quantity": "200 ml"})
    house.do("use", {"batch": NUMBER.replace("-", ""), "quantity": "300 ml"})
    house.do("use", {"batch": house.batch("jar").label, "quantity": "100 ml"})
    assert house.balances("jar")["area:cold-room"] == 400_000


def test_a_batch_in_several_jars_has_several_numbers(house):
    decanted(house)
    for number in (1001, 1002):
        house.do("bind_label", {"batch": "jar", "label": numbered(number)})
    assert [row.batch for row in house.rows(NumberedLabelRow)] == ["jar", "jar"]


def test_a_misread_number_is_not_put_on(house):
    decanted(house)
    problem = house.keeps("bind_label", {"batch": "jar", "label": WRONG})
    assert problem.code == "label_misread"
    assert house.rows(NumberedLabelRow) == []


def test_only_numbered_labels_are_put_on(house):
    decanted(house)
    problem = house.keeps("bind_label", {"batch": "jar", "label": "KQ7PM"})
    assert problem.code == "label_not_numbered"


def test_a_number_on_another_batch_is_refused_with_what_it_is_on(house):
    decanted(house)
    house.receive("s", "salmon", "1 kg", use_by(12))
    house.do("bind_label", {"batch": "s", "label": NUMBER})
    problem = house.keeps("bind_label", {"batch": "jar", "label": NUMBER})
    assert problem.code == "label_taken"
    assert "Salmon" in problem.detail


def test_an_empty_jar_is_washed_and_takes_its_number_along(house):
    decanted(house)
    decanted(house, "other")
    house.do("bind_label", {"batch": "jar", "label": NUMBER})
    house.do("use", {"batch": NUMBER, "quantity": "1 l"})
    house.do("bind_label", {"batch": "other", "label": NUMBER}, at=at(9))
    assert house.row(NumberedLabelRow).batch == "other"


def test_a_child_may_have_a_number_from_the_start_and_an_empty_one_gives_it_back(house):
    decanted(house, label=NUMBER)
    assert house.batch("jar").label == NUMBER
    taken = {"batch": "m", "quantity": "1 l", "child": "two", "label": NUMBER}
    assert house.keeps("decant", taken).code == "label_taken"
    house.do("use", {"batch": NUMBER, "quantity": "1 l"})
    decanted(house, "three", label=NUMBER)
    assert house.batch("three").label == NUMBER
    assert house.batch("jar").label not in (NUMBER, None)


def test_a_number_put_on_a_batch_is_taken_for_a_new_one_too(house):
    decanted(house)
    house.do("bind_label", {"batch": "jar", "label": NUMBER})
    taken = {"batch": "m", "quantity": "1 l", "child": "two", "label": NUMBER}
    assert house.keeps("decant", taken).code == "label_taken"


def test_a_misread_number_is_no_label_of_a_new_batch(house):
    house.receive("m", "whole-milk", "4 l", use_by(20))
    misread = {"batch": "m", "quantity": "1 l", "child": "two", "label": WRONG}
    assert house.keeps("decant", misread).code == "label_misread"


def test_putting_the_same_number_on_twice_changes_nothing(house):
    decanted(house)
    for _ in range(2):
        house.do("bind_label", {"batch": "jar", "label": NUMBER})
    assert len(house.rows(NumberedLabelRow)) == 1


def test_LG4_a_label_put_on_by_mistake_is_taken_off_again(house):
    decanted(house)
    put = house.do("bind_label", {"batch": "jar", "label": NUMBER})
    house.do("correct", {"command": put, "reason": "the other jar"})
    assert house.rows(NumberedLabelRow) == []
    again = house.give("correct", {"command": put, "reason": "the other jar"})
    assert again.problem.code == "reversed_already"


def test_LG4_goods_taken_back_free_the_number_that_was_put_on_them_at_the_door(house):
    came = house.receive("m", "whole-milk", "4 l", use_by(20))
    house.do("bind_label", {"batch": "m", "label": NUMBER}, person=PORTER)
    house.do("correct", {"command": came, "reason": "the other crate"})
    house.receive("n", "whole-milk", "4 l", use_by(21))
    house.do("bind_label", {"batch": "n", "label": NUMBER}, person=PORTER)
    assert house.row(NumberedLabelRow).batch == "n"


def test_a_number_used_elsewhere_meanwhile_keeps_no_goods_out_of_the_books(house):
    decanted(house)
    house.do("bind_label", {"batch": "jar", "label": NUMBER}, person=PORTER)
    house.receive("n", "whole-milk", "4 l", use_by(21))
    problem = house.keeps("bind_label", {"batch": "n", "label": NUMBER}, person=PORTER)
    assert problem.code == "label_taken"
    assert house.balances("n")["area:cold-room"] == 4_000_000


def test_that_labels_were_printed_is_noted_and_noted_anew(house):
    decanted(house)
    house.do("print_labels", {"batches": ["jar", "m"]}, person=PORTER)
    house.do("print_labels", {"batches": ["jar"]}, at=at(9))
    printed = {row.batch: row.at for row in house.rows(PrintedLabelRow)}
    assert printed == {"jar": at(9), "m": at(8)}
