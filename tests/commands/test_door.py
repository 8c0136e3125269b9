"""The one way in: each command once, its answer kept, nothing lost (SY1-SY3, SY6)."""

import msgspec
import pytest

from pantry.commands import door, waste
from pantry.commands.verbs import VERBS
from pantry.records.tables import ChangeRow, JournalRow, QuestionRow
from tests.commands.house import NOW, best_before, written
from tests.commands.larkfield import APPROVER, CHEF, PORTER


def flour(house, batch="f1", quantity="1 kg", **rest):
    body = {
        "batch": batch,
        "item": "Plain flour",
        "quantity": quantity,
        "area": "Pantry",
        "date_mark": best_before(30),
        "verdict": "accept",
    }
    return house.command("receive", body, **rest)


def test_SY2_the_same_id_again_gets_the_first_answer_byte_for_byte(house):
    command = flour(house)
    first = msgspec.json.encode(house.hand_in(command))
    house.do(
        "waste", {"batch": "f1", "quantity": "1 kg", "reason": "weevils", "destination": "bin"}
    )
    assert msgspec.json.encode(house.hand_in(command)) == first
    assert len(house.rows(JournalRow)) == 2


def test_SY2_the_same_id_twice_in_one_list_is_done_once(house):
    command = flour(house)
    first, second = house.hand_in(command, command)
    assert first == second
    assert house.balances("f1") == {"area:pantry": 1_000_000, "supplier": -1_000_000}


def test_SY2_a_refusal_is_an_answer_too_and_stays(house):
    command = house.command("confirm", {"service": "2027-03-10/dinner/family", "dishes": []})
    first = house.hand_in(command)
    house.propose("2027-03-10/dinner/family", "green-salad")
    assert house.hand_in(command) == first
    assert first[0].outcome == "refused"


def test_SY2_the_same_id_with_another_body_is_refused(house):
    command = flour(house)
    house.hand_in(command)
    (answer,) = house.hand_in(command | {"body": command["body"] | {"quantity": "2 kg"}})
    assert (answer.outcome, answer.position) == ("refused", None)
    assert (answer.problem.code, answer.problem.status) == ("id_reused", 422)
    assert house.balances("f1")["area:pantry"] == 1_000_000


def test_SY1_the_order_of_the_fields_does_not_make_another_command(house):
    command = flour(house)
    (first,) = house.hand_in(command)
    (second,) = house.hand_in(dict(reversed(command.items())))
    assert first == second


@pytest.mark.parametrize(
    "broken",
    [
        None,
        [],
        "receive",
        {},
        {"id": 7},
        {"id": "not-a-uuid"},
        {"kind": 3},
        {"at": "yesterday"},
        {"at": "2027-03-08T07:00:00"},
        {"body": []},
        {"surprise": 1},
        {"device": "phone"},
        {"n": 1},
        {"device": "phone", "n": 0},
        {"device": "phone", "n": 2**70},
        {"person": "Pia\u0000"},
        {"person": "\ud800"},
        {"base": 1.5},
        {"clock": {"offset_ms": 0}},
        {"clock": {"offset_ms": 0, "bound_ms": -1}},
    ],
)
def test_SY3_a_broken_envelope_is_rejected_and_nothing_of_it_is_kept(house, broken):
    raw = flour(house) | broken if isinstance(broken, dict) and broken else broken
    (answer,) = house.hand_in(raw)
    assert (answer.outcome, answer.position) == ("refused", None)
    assert (answer.problem.code, answer.problem.status) == ("envelope_broken", 400)
    assert house.rows(JournalRow) == []
    assert house.rows(QuestionRow) == []


def test_SY3_a_kind_nobody_knows_is_a_broken_envelope(house):
    problem = house.refuses("order_pizza")
    assert (problem.code, problem.field) == ("kind_unknown", "kind")
    assert "receive" in problem.todo


def test_SY3_what_comes_after_a_broken_envelope_is_still_done(house):
    answers = house.hand_in({"id": "?"}, flour(house))
    assert [answer.outcome for answer in answers] == ["refused", "applied"]


def test_SY2_each_command_of_a_list_has_its_own_savepoint(house):
    bad = house.command("take_off", {"service": "2027-03-10/dinner/family", "reason": "away"})
    answers = house.hand_in(flour(house, "f1"), bad, flour(house, "f2"))
    assert [answer.outcome for answer in answers] == ["applied", "refused", "applied"]
    assert [answer.position for answer in answers] == [1, 2, 3]
    assert house.balances("f2")["area:pantry"] == 1_000_000


def test_SY3_a_fact_with_an_unreadable_body_is_kept_and_a_person_is_asked(house):
    command = flour(house, quantity="a good deal")
    (answer,) = house.hand_in(command)
    assert (answer.outcome, answer.position) == ("kept", 1)
    assert answer.problem.field == "body.quantity"
    asked = house.question("cannot_apply")
    assert (asked.owner, asked.about) == ("chef", answer.id)
    assert "a good deal" in asked.recorded
    kept = house.row(JournalRow)
    assert msgspec.json.decode(kept.envelope) == command
    assert kept.outcome == "kept"


@pytest.mark.parametrize(
    "change",
    [
        {"item": "Unicorn"},
        {"area": "Attic"},
        {"verdict": "perhaps"},
        {"quantity": 3},
        {"quantity": "1 furlong"},
        {"quantity": "0 g"},
        {"date_mark": {"kind": "use_by", "date": "soon"}},
        {"date_mark": {"kind": "use_by"}},
        {"temperature_c": "warm"},
        {"cost": {"minor": -1, "currency": "GBP"}},
        {"cost": {"minor": 450, "currency": "EUR"}},
        {"colour": "white"},
    ],
)
def test_SY3_a_fact_that_cannot_be_applied_moves_nothing(house, change):
    command = flour(house)
    (answer,) = house.hand_in(command | {"body": command["body"] | change})
    assert answer.outcome == "kept"
    assert answer.problem.field.startswith("body")
    assert house.movements() == []


def test_SY3_a_decision_with_an_unreadable_body_is_refused(house):
    problem = house.refuses("set_par", {"item": "butter", "floor": ["much"]})
    assert (problem.code, problem.field) == ("body_unreadable", "body.floor")
    assert house.questions() == []
    assert house.row(JournalRow).outcome == "refused"


def test_SY3_a_fact_of_somebody_without_the_right_waits_for_the_manager(house):
    (answer,) = house.hand_in(flour(house, person=APPROVER))
    assert answer.outcome == "kept"
    assert answer.problem.code == "role_lacking"
    asked = house.question("no_right")
    assert (asked.owner, asked.about) == ("manager", answer.id)
    assert house.movements() == []


def test_SY3_what_depends_on_a_fact_that_waits_for_the_manager_waits_with_it(house):
    house.hand_in(flour(house, person=APPROVER))
    body = {"batch": "f1", "quantity": "100 g", "child": "f2"}
    assert house.keeps("open", body).code == "batch_unknown"
    assert [asked.owner for asked in house.questions()] == ["manager", "manager"]


def test_SY3_a_fact_of_a_stranger_is_kept_and_a_decision_of_one_is_refused(house):
    assert house.keeps("use", {"batch": "f1", "quantity": "1 g"}, person="?").status == 403
    problem = house.refuses("set_par", {"item": "butter"}, person="Nobody")
    assert problem.code == "person_unknown"
    assert CHEF in problem.todo


def test_SY3_a_decision_without_the_right_is_refused(house):
    problem = house.refuses("set_par", {"item": "butter"}, person=PORTER)
    assert (problem.code, problem.status) == ("role_lacking", 403)
    assert problem.todo == "Ask a chef or a manager."


def test_SY6_every_change_has_the_next_number_and_the_position_of_its_command(house):
    house.hand_in(flour(house, "f1"), flour(house, quantity="?"), flour(house, "f2"))
    changes = house.rows(ChangeRow)
    assert [row.number for row in changes] == list(range(1, len(changes) + 1))
    assert sorted({row.position for row in changes}) == [1, 2, 3]


def test_SY1_what_happened_is_told_apart_from_when_it_was_recorded(house):
    house.hand_in(flour(house, at=NOW.replace(hour=5)))
    movement = house.movements()[0]
    assert (movement.at.hour, movement.recorded_at) == (5, NOW)


def test_SY8_the_offset_that_a_device_measured_puts_its_clock_right(house):
    slow = {"clock": {"offset_ms": 3_600_000, "bound_ms": 400}}
    house.hand_in(flour(house, at=NOW.replace(hour=5), **slow))
    assert written(house.movements()[0].at) == "2027-03-08T06:00:00Z"


def test_SY3_a_fault_of_the_program_keeps_the_command_and_lets_the_others_through(
    house, monkeypatch
):
    def breaks(_books, _given):
        raise ZeroDivisionError

    house.hand_in(flour(house))
    monkeypatch.setitem(VERBS, "waste", breaks)
    body = {"batch": "f1", "quantity": "1 g", "reason": "spilt", "destination": "bin"}
    first, second = house.hand_in(house.command("waste", body), flour(house, "f2"))
    assert (first.outcome, first.problem.code) == ("kept", "program_failed")
    assert first.problem.status == 500
    assert second.outcome == "applied"
    monkeypatch.setitem(VERBS, "waste", waste.waste)


def test_SY2_answers_are_told_one_by_one(house):
    from pantry.records.database import writing
    from tests.commands.larkfield import ID

    heard = []
    with writing(house.engine) as connection:
        commands = [flour(house, "f1"), flour(house, "f2")]
        answers = door.apply(connection, ID, commands, house.now, told=heard.append)
    assert heard == answers
