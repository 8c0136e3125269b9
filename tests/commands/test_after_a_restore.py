"""The server's disk is lost: devices hand in what they hold, and it is done again (SY7)."""

from datetime import timedelta

import pytest

from pantry.access.devices import Known, came_in, give_key
from pantry.commands.gathered import Restored
from pantry.records.database import open_database, writing
from pantry.records.rows import find
from pantry.records.tables import (
    AwaitedRow,
    DeviceRow,
    GatheredRow,
    JournalRow,
    MissingRow,
    PersonRow,
)
from pantry.refusals import Refusal
from tests.commands.house import DAY, HOUR, at, best_before, use_by
from tests.commands.larkfield import CHEF, ID, MANAGER
from tests.commands.phones import Phone, epoch, goes_on, is_backed_up, loses_its_disk, stands

DINNER = "2027-03-12/dinner/family"


def butter(batch, quantity="1 kg"):
    return {
        "batch": batch,
        "item": "butter",
        "quantity": quantity,
        "area": "cold-room",
        "date_mark": best_before(30),
        "temperature_c": "3.5",
        "verdict": "accept",
    }


def used(batch, quantity):
    return {"batch": batch, "quantity": quantity}


def par(floor, base):
    return {"item": "butter", "floor": floor, "base": base}


@pytest.fixture
def file(tmp_path):
    return tmp_path / "last.backup"


@pytest.fixture
def two(house):
    """A phone in the cellar and one in the kitchen."""
    return Phone(house, "cellar"), Phone(house, "stove")


@pytest.fixture
def another_database(new_postgres_database):
    """An empty PostgreSQL database without tables."""
    with new_postgres_database() as url:
        engine = open_database(url)
        yield engine
        engine.dispose()


def test_SY7_a_house_whose_devices_hold_nothing_goes_on_once_they_have_said_so(house, two, file):
    restored = loses_its_disk(house, is_backed_up(house, file, *two))
    assert stands(restored, "cellar") == Restored(hand_in=True, awaited=2)
    two[0].hand_in(restored)
    assert stands(restored, "cellar") == Restored(hand_in=False, awaited=1)
    two[1].hand_in(restored)
    assert stands(restored, "cellar") is None
    assert restored.questions() == []


def test_SY7_a_house_without_devices_waits_for_nobody(house, file):
    restored = loses_its_disk(house, is_backed_up(house, file))
    assert stands(restored) is None
    restored.receive("b", "butter", "1 kg")


def test_SY7_while_it_gathers_nothing_new_is_taken(house, two, file):
    restored = loses_its_disk(house, is_backed_up(house, file, *two))
    before = restored.heads()
    answer = restored.give("receive", butter("b"))
    assert (answer.outcome, answer.position) == ("refused", None)
    assert answer.problem.code == "house_gathering"
    assert "cellar phone, stove phone" in answer.problem.detail
    assert restored.heads() == before


def test_SY7_what_devices_hold_is_done_again_in_the_order_of_the_lost_journal(house, two, file):
    """The chef uses what the porter brought in, and the porter counts what was left."""
    cellar, stove = two
    is_backed_up(house, file, *two)
    given = [
        cellar.do(house, "receive", butter("b")),
        stove.do(house, "use", used("b", "300 g")),
        cellar.do(house, "move", used("b", "200 g") | {"area": "pantry"}),
        stove.do(house, "waste", used("b", "50 g") | {"reason": "torn", "destination": "bin"}),
    ]
    restored = loses_its_disk(house, file)
    assert restored.rows(JournalRow)[-1].kind == "enrol_device"
    stove.hand_in(restored)
    assert restored.balances("b") == {}
    assert len(restored.rows(GatheredRow)) == 2
    cellar.hand_in(restored)
    assert [row.id for row in restored.rows(JournalRow)][-4:] == given
    assert restored.balances("b") == house.balances("b")
    assert restored.rows(GatheredRow) == []
    assert restored.questions() == []
    assert restored.disagreements() == []


def test_SY7_a_device_gets_its_answers_again_and_goes_on_with_its_numbers(house, two, file):
    cellar, stove = two
    is_backed_up(house, file, *two)
    first = cellar.do(house, "receive", butter("b"))
    waiting = cellar.save(house, "receive", butter("c"))
    restored = loses_its_disk(house, file)
    stove.hand_in(restored)
    answers = cellar.comes_again(restored)
    assert [answers[first].outcome, answers[waiting].outcome] == ["applied", "applied"]
    assert {row.id: row.highest for row in restored.rows(DeviceRow)} == {"cellar": 2, "stove": 0}
    cellar.do(restored, "receive", butter("d"))
    assert restored.disagreements() == []


def test_SY7_what_was_decided_at_a_desk_meanwhile_does_not_undo_a_decision(house, two, file):
    """A par that was set at a desk is lost; the phone's was taken on it, and is applied again."""
    _, stove = two
    is_backed_up(house, file, *two)
    house.do("set_par", par("250 g", None))
    stove.do(house, "set_par", par("750 g", 2))
    restored = loses_its_disk(house, file)
    for phone in two:
        phone.hand_in(restored)
    assert restored.journal()[-1].outcome == "applied"
    (asked,) = restored.questions()
    assert asked.kind == "places_missing"
    assert "had written down 1 more, at 3 in its journal" in asked.recorded


def test_SY7_what_was_refused_or_in_conflict_stays_so_with_its_first_answer(house, two, file):
    """On the restored books both could be done: that would be a second answer."""
    _, stove = two
    is_backed_up(house, file, *two)
    house.do("set_par", par("250 g", None))
    conflict = stove.give(house, "set_par", par("750 g", 1))
    refused = stove.give(house, "place_order", {"supplier": "nobody", "delivery": "x", "lines": []})
    assert (conflict.outcome, refused.outcome) == ("conflict", "refused")
    restored = loses_its_disk(house, file)
    two[0].hand_in(restored)
    answers = stove.comes_again(restored)
    for first in (conflict, refused):
        again = answers[first.id]
        assert (again.outcome, again.problem) == (first.outcome, first.problem)


def test_SY7_a_fact_that_was_kept_stays_without_effect_and_is_asked_about_again(house, two, file):
    """The item has come into the house since; what was put right by then is not counted twice."""
    cellar, stove = two
    is_backed_up(house, file, *two)
    wrong = cellar.give(house, "use", used("late", "100 g"))
    assert wrong.outcome == "kept"
    cellar.do(house, "receive", butter("late"))
    cellar.do(house, "use", used("late", "100 g"))
    restored = loses_its_disk(house, file)
    stove.hand_in(restored)
    assert cellar.comes_again(restored)[wrong.id].outcome == "kept"
    assert restored.balances("late")["area:cold-room"] == 900_000
    assert restored.question("cannot_apply").about == wrong.id


def test_SY3_what_nobody_had_the_right_to_goes_to_the_manager_again(house, two, file):
    cellar, stove = two
    is_backed_up(house, file, *two)
    answer = cellar.give(house, "use", used("b", "100 g"), person="Somebody New")
    assert answer.outcome == "kept"
    restored = loses_its_disk(house, file)
    stove.hand_in(restored)
    cellar.hand_in(restored)
    assert restored.question("no_right").owner == "manager"


def test_SY7_who_came_in_on_a_device_after_the_backup_did_what_they_did(house, two, file):
    cellar, _ = two
    with writing(house.engine) as connection:
        give_key(connection, ID, "cellar")
    is_backed_up(house, file, *two)
    with writing(house.engine) as connection:
        chef = find(connection, PersonRow, house=ID, name=CHEF)
        came_in(connection, Known(ID, "cellar", "cellar phone", revoked=False), chef, house.now)
    given = cellar.do(house, "receive", butter("b"))
    restored = loses_its_disk(house, file)
    for phone in two:
        phone.hand_in(restored)
    assert cellar.asks_again(restored)[given].outcome == "applied"
    assert restored.balances("b") == house.balances("b")


def test_SY7_numbers_that_nobody_holds_are_noted_and_the_device_goes_on(house, two, file, tmp_path):
    """The newest backup is lost as well; the phone had forgotten what that one had."""
    cellar, stove = two
    is_backed_up(house, file, *two)
    cellar.do(house, "receive", butter("b"))
    cellar.do(house, "receive", butter("c"))
    is_backed_up(house, tmp_path / "newest.backup", *two)
    cellar.do(house, "receive", butter("d"))
    restored = loses_its_disk(house, file)
    stove.hand_in(restored)
    cellar.hand_in(restored)
    row = restored.row(MissingRow)
    assert (row.device, row.first, row.last) == ("cellar", 1, 2)
    asked = restored.question("numbers_missing")
    assert asked.owner == "manager"
    assert "cellar phone had handed in its records 1-2" in asked.recorded
    assert cellar.asks_again(restored)
    cellar.do(restored, "receive", butter("e"))
    assert {row.id: row.highest for row in restored.rows(DeviceRow)}["cellar"] == 4
    assert restored.disagreements() == []


def test_SY7_a_device_that_holds_nothing_any_more_goes_on_behind_what_it_made(
    house, two, file, tmp_path
):
    cellar, _stove = two
    is_backed_up(house, file, *two)
    cellar.do(house, "receive", butter("b"))
    is_backed_up(house, tmp_path / "newest.backup", *two)
    restored = loses_its_disk(house, file)
    for phone in two:
        phone.hand_in(restored)
    assert restored.row(MissingRow).last == 1
    cellar.do(restored, "receive", butter("c"))


def test_SY7_a_command_whose_answer_was_never_heard_keeps_its_number(house, two, file):
    """The reply to the second was lost, the third was answered: the second is not missing."""
    cellar, stove = two
    is_backed_up(house, file, *two)
    cellar.do(house, "receive", butter("b"))
    cellar.do(house, "use", used("b", "100 g"))
    cellar.do(house, "use", used("b", "200 g"))
    for part in ("answer", "epoch", "answered_at"):
        del cellar.held[1][part]
    restored = loses_its_disk(house, file)
    stove.hand_in(restored)
    cellar.hand_in(restored)
    assert restored.rows(MissingRow) == []
    assert [row.n for row in restored.journal() if row.device == "cellar"] == [1, 2, 3]
    assert restored.balances("b") == house.balances("b")


def test_SY7_two_disks_lost_in_a_row(house, two, file):
    """Nothing was backed up in between, so that all of it is handed in again."""
    cellar, stove = two
    is_backed_up(house, file, *two)
    cellar.do(house, "receive", butter("b"))
    stove.do(house, "use", used("b", "100 g"))
    second = loses_its_disk(house, file)
    cellar.hand_in(second)
    stove.hand_in(second)
    cellar.asks_again(second)
    stove.asks_again(second)
    cellar.do(second, "use", used("b", "200 g"))
    third = loses_its_disk(second, file)
    assert epoch(third) > epoch(second)
    stove.hand_in(third)
    cellar.hand_in(third)
    assert third.balances("b") == second.balances("b")
    assert third.questions() == []


def test_SY7_the_disk_is_lost_again_while_the_house_gathers(house, two, file):
    """One phone has handed in by then, and does so again; the order is still the first one."""
    cellar, stove = two
    is_backed_up(house, file, *two)
    cellar.do(house, "receive", butter("b"))
    stove.do(house, "use", used("b", "100 g"))
    second = loses_its_disk(house, file)
    cellar.hand_in(second)
    is_backed_up(second, file.with_name("gathering.backup"))
    third = loses_its_disk(second, file.with_name("gathering.backup"))
    assert stands(third, "cellar") == Restored(hand_in=True, awaited=2)
    stove.hand_in(third)
    cellar.hand_in(third)
    assert third.balances("b") == house.balances("b")


def test_SY7_what_comes_in_parts_is_gathered_and_a_part_twice_counts_once(house, two, file):
    cellar, stove = two
    is_backed_up(house, file, *two)
    for number in range(5):
        cellar.do(house, "receive", butter(f"b{number}"))
    restored = loses_its_disk(house, file)
    stove.hand_in(restored)
    for part in (slice(0, 2), slice(0, 2), slice(2, 4)):
        cellar.hand_in(restored, part, complete=False)
        assert stands(restored, "cellar").hand_in
    cellar.hand_in(restored, slice(4, 5))
    assert len([row for row in restored.journal() if row.device == "cellar"]) == 5
    cellar.hand_in(restored)
    assert stands(restored, "cellar") is None


def test_SY7_a_manager_goes_on_without_a_device(house, two, file):
    cellar, _stove = two
    is_backed_up(house, file, *two)
    cellar.do(house, "receive", butter("b"))
    restored = loses_its_disk(house, file)
    cellar.hand_in(restored)
    assert goes_on(restored, "stove phone") == ["stove phone"]
    assert restored.balances("b")["area:cold-room"] == 1_000_000
    gone = restored.row(AwaitedRow, device="stove")
    assert (gone.given_up_by, gone.handed_in_at) == (MANAGER, None)
    restored.receive("c", "butter", "1 kg")
    assert stands(restored, "stove") == Restored(hand_in=True, awaited=0)


def test_SY7_going_on_without_one_of_two_still_waits_for_the_other(house, two, file):
    restored = loses_its_disk(house, is_backed_up(house, file, *two))
    assert goes_on(restored, "stove") == ["stove phone"]
    assert stands(restored).awaited == 1
    with pytest.raises(Refusal) as refusal:
        goes_on(restored, "stove")
    assert refusal.value.code == "not_awaited"
    assert goes_on(restored) == ["cellar phone"]
    with pytest.raises(Refusal) as refusal:
        goes_on(restored)
    assert refusal.value.code == "nothing_awaited"


def test_SY7_a_device_that_comes_late_brings_late_facts(house, two, file):
    cellar, stove = two
    is_backed_up(house, file, *two)
    cellar.do(house, "receive", butter("b"))
    stove.do(house, "use", used("b", "100 g"))
    restored = loses_its_disk(house, file)
    cellar.hand_in(restored)
    goes_on(restored)
    stove.comes_again(restored)
    assert restored.balances("b") == house.balances("b")
    stove.do(restored, "use", used("b", "50 g"))


def test_SY7_a_late_decision_is_held_against_what_stands_now(house, two, file):
    """Nobody's decision is overwritten by one of the days before the restore."""
    _, stove = two
    is_backed_up(house, file, *two)
    stove.do(house, "set_par", par("750 g", 1))
    restored = loses_its_disk(house, file)
    goes_on(restored)
    restored.do("set_par", par("500 g", None))
    (answer,) = stove.comes_again(restored).values()
    assert answer.outcome == "conflict"
    asked = restored.question("answered_otherwise")
    assert (asked.owner, asked.about) == ("manager", answer.id)


def test_SY7_a_decision_that_cannot_be_done_again_is_asked_about(house, two, file):
    """The service was proposed at a desk, and nobody proposes it again by himself."""
    _, stove = two
    is_backed_up(house, file, *two)
    house.propose(DINNER, "rice-pudding")
    stove.do(house, "confirm", {"service": DINNER, "dishes": [{"dish": "rice-pudding"}], "base": 1})
    restored = loses_its_disk(house, file)
    two[0].hand_in(restored)
    (answer,) = stove.comes_again(restored).values()
    assert answer.outcome == "refused"
    asked = restored.question("answered_otherwise")
    assert "confirm by Cato Brand on stove phone was applied" in asked.recorded


def test_SY7_a_revoked_device_is_not_awaited(house, two, file):
    cellar, _ = two
    house.do("revoke_device", {"device": "stove"}, person=MANAGER)
    restored = loses_its_disk(house, is_backed_up(house, file, *two))
    cellar.hand_in(restored)
    assert stands(restored) is None


def test_SY7_a_device_that_the_backup_does_not_know_is_not_waited_for(house, file):
    is_backed_up(house, file)
    phone = Phone(house, "new")
    phone.do(house, "receive", butter("b"))
    restored = loses_its_disk(house, file)
    assert stands(restored, "new") is None
    phone.hand_in(restored)
    (answer,) = phone.asks_again(restored).values()
    assert answer.problem.code == "device_unknown"
    assert restored.rows(GatheredRow) == []


def test_SY7_an_order_that_met_its_cut_off_meets_it_again(house, two, file):
    """It was placed at eight for a cut-off at five; the disk was lost in the evening."""
    _, stove = two
    is_backed_up(house, file, *two)
    lines = [{"item": "butter", "pack": "250 g block", "packs": 2}]
    house.now = at(8, 8)
    order = {"supplier": "hill-dairy", "delivery": "2027-03-09", "lines": lines, "base": 1}
    stove.do(house, "place_order", order)
    house.now = at(8, 20)
    restored = loses_its_disk(house, file)
    two[0].hand_in(restored)
    (answer,) = stove.comes_again(restored).values()
    assert answer.outcome == "applied"
    assert restored.journal()[-1].recorded_at == at(8, 8)


def test_SY7_a_place_in_the_future_is_none(house, two, file):
    """Whatever a phone says about the time: nothing is recorded later than now."""
    cellar, stove = two
    is_backed_up(house, file, *two)
    cellar.do(house, "receive", butter("b"))
    cellar.held[0]["answered_at"] = "2031-01-01T00:00:00Z"
    restored = loses_its_disk(house, file)
    stove.hand_in(restored)
    cellar.hand_in(restored)
    assert restored.journal()[-1].recorded_at == house.now


def test_SY7_a_service_that_has_passed_since_lets_go_of_what_it_held(house, two, file):
    cellar, stove = two
    cellar.do(
        house, "receive", butter("b", "2 l") | {"item": "whole-milk", "date_mark": use_by(20)}
    )
    house.propose(DINNER, "rice-pudding")
    is_backed_up(house, file, *two)
    stove.do(house, "confirm", {"service": DINNER, "dishes": [{"dish": "rice-pudding"}], "base": 1})
    house.now += 10 * DAY + HOUR
    house.hand_in()
    restored = loses_its_disk(house, file)
    for phone in two:
        phone.hand_in(restored)
    assert restored.promised("b") == house.promised("b")
    assert [row.kind for row in restored.questions()] == [row.kind for row in house.questions()]


def test_SY7_another_devices_command_is_not_gathered(house, two, file):
    cellar, stove = two
    is_backed_up(house, file, *two)
    stove.do(house, "set_par", par("750 g", 1))
    restored = loses_its_disk(house, file)
    cellar.held = stove.held
    with pytest.raises(Refusal) as refusal:
        cellar.hand_in(restored)
    assert refusal.value.code == "held_by_another"


def test_SY2_a_number_that_the_backup_knows_otherwise_is_a_cloned_device(house, two, file):
    cellar, stove = two
    cellar.do(house, "receive", butter("b"))
    is_backed_up(house, file)
    restored = loses_its_disk(house, file)
    cellar.held[0]["command"] |= {"id": house.new_id(), "body": butter("clone")}
    stove.hand_in(restored)
    (answer,) = cellar.comes_again(restored).values()
    assert answer.problem.code == "device_cloned"
    assert restored.disagreements() == []


def test_SY7_a_fact_said_to_have_been_refused_is_done(house, two, file):
    """The house never refuses one: such an answer is not its own."""
    cellar, stove = two
    is_backed_up(house, file, *two)
    cellar.do(house, "receive", butter("b"))
    refused = stove.give(house, "set_par", par("1 kg", 7))
    cellar.held[0]["answer"] = refused
    restored = loses_its_disk(house, file)
    stove.hand_in(restored)
    cellar.hand_in(restored)
    assert restored.balances("b")["area:cold-room"] == 1_000_000


@pytest.mark.parametrize("kind", ["sqlite", pytest.param("postgres", marks=pytest.mark.postgres)])
def test_SY7_it_is_the_same_on_either_database(house, two, file, kind, request):
    cellar, stove = two
    is_backed_up(house, file, *two)
    cellar.do(house, "receive", butter("b"))
    stove.do(house, "use", used("b", "100 g"), at=house.now - timedelta(minutes=5))
    engine = request.getfixturevalue("another_database") if kind == "postgres" else None
    restored = loses_its_disk(house, file, engine)
    stove.hand_in(restored)
    cellar.hand_in(restored)
    assert restored.balances("b") == house.balances("b")
    assert restored.disagreements() == []
