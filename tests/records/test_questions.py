"""Questions: few, each with an owner, asked once as long as they are open (SY3)."""

import json

import pytest

from pantry.records import questions
from pantry.records.questions import ask
from pantry.records.tables import ChangeRow, QuestionRow


def overdrawn(house, *, command="waste", now=None):
    with house.books(command, now) as books:
        return ask(
            books,
            "overdrawn",
            "chef",
            "milk|area:cold-room",
            recorded="Whole milk: 500 ml more was taken than the books had there.",
            against="A shelf cannot hold less than nothing.",
            answers=("count it", "another batch was used", "the amount was wrong"),
        )


def settled(house, answer="count it"):
    with house.books("count") as books:
        questions.close(books, "overdrawn", "milk|area:cold-room", answer, "wilf")


def test_SY3_a_question_says_what_was_recorded_what_speaks_against_it_and_who_decides(house):
    identity = overdrawn(house)
    (row,) = house.rows(QuestionRow)
    assert (row.id, row.owner, row.opened_by, row.opened_at) == (
        identity,
        "chef",
        "waste",
        house.now,
    )
    assert len(json.loads(row.answers)) == 3
    assert [(c.what, c.key) for c in house.rows(ChangeRow)] == [("question", identity)]


def test_SY3_the_same_question_is_asked_once_while_it_is_open(house):
    assert overdrawn(house) == overdrawn(house, command="another waste")
    assert len(house.rows(QuestionRow)) == 1
    assert house.heads().change == 1


def test_SY3_what_was_settled_and_is_contradicted_again_is_asked_again(house):
    first = overdrawn(house)
    settled(house)
    second = overdrawn(house, command="another waste")
    assert first != second
    rows = {row.id: row for row in house.rows(QuestionRow)}
    assert (rows[first].answer, rows[first].settled_by) == ("count it", "wilf")
    assert rows[first].version == 2
    assert rows[second].settled_at is None
    settled(house)
    assert len({first, second, overdrawn(house)}) == 3


def test_SY3_settling_what_nobody_asked_is_nothing(house):
    settled(house)
    assert house.rows(QuestionRow) == []
    assert house.heads().change == 0


def test_SY3_a_question_has_at_most_three_answers(house):
    with house.books() as books, pytest.raises(ValueError, match="at most 3"):
        ask(books, "any", "chef", "x", recorded="", against="", answers=("a", "b", "c", "d"))
