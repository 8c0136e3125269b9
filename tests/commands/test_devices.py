"""Outboxes: numbers without gaps, one device an outbox (SY1-SY3, SY13)."""

from pantry.records.tables import DeviceRow, JournalRow
from tests.commands.house import NO_MARK
from tests.commands.larkfield import CHEF, MANAGER, PORTER

PHONE = "phone-1"


def enrol(house, device=PHONE):
    house.do("enrol_device", {"device": device, "name": "Cold room phone"}, person=MANAGER)


def numbered(house, n, batch=None, **rest):
    body = {
        "batch": batch or f"b{n}",
        "item": "butter",
        "quantity": "250 g",
        "area": "Cold room",
        "date_mark": NO_MARK,
        "verdict": "accept",
    }
    return house.command("receive", body, device=PHONE, n=n, **rest)


def test_SY1_numbers_are_taken_in_order_and_counted(house):
    enrol(house)
    answers = house.hand_in(numbered(house, 1), numbered(house, 2))
    assert [answer.outcome for answer in answers] == ["applied", "applied"]
    assert house.row(DeviceRow).highest == 2


def test_SY2_a_gap_stops_the_list(house):
    enrol(house)
    answers = house.hand_in(numbered(house, 1), numbered(house, 3), numbered(house, 2))
    assert [answer.outcome for answer in answers] == ["applied", "refused"]
    assert answers[1].problem.code == "number_gap"
    assert "Number 2" in answers[1].problem.detail
    assert house.row(DeviceRow).highest == 1


def test_SY2_a_number_with_another_id_is_a_cloned_device_and_stops_the_list(house):
    enrol(house)
    house.hand_in(numbered(house, 1))
    answers = house.hand_in(numbered(house, 1, "other"), numbered(house, 2))
    assert [answer.problem.code for answer in answers] == ["device_cloned"]
    assert len(house.rows(JournalRow)) == 2


def test_SY2_the_same_command_again_is_no_clone(house):
    enrol(house)
    command = numbered(house, 1)
    assert house.hand_in(command) == house.hand_in(command)


def test_SY2_a_device_nobody_enrolled_is_refused_and_stops_the_list(house):
    answers = house.hand_in(numbered(house, 1), numbered(house, 2))
    assert [answer.problem.code for answer in answers] == ["device_unknown"]
    assert house.rows(JournalRow) == []


def test_SY3_a_broken_envelope_leaves_its_number_free(house):
    enrol(house)
    first, second = house.hand_in(numbered(house, 1) | {"at": "?"}, numbered(house, 1))
    assert (first.outcome, second.outcome) == ("refused", "applied")


def test_SY3_an_unreadable_body_uses_its_number(house):
    enrol(house)
    bad = numbered(house, 1) | {"body": {"batch": "b1"}}
    answers = house.hand_in(bad, numbered(house, 2))
    assert [answer.outcome for answer in answers] == ["kept", "applied"]


def test_SY3_a_refused_decision_uses_its_number(house):
    enrol(house)
    bad = house.command("set_par", {"item": "?"}, device=PHONE, n=1)
    answers = house.hand_in(bad, numbered(house, 2))
    assert [answer.outcome for answer in answers] == ["refused", "applied"]


def test_SY3_a_revoked_device_hands_in_its_outbox_and_nothing_else(house):
    enrol(house)
    house.do("revoke_device", {"device": PHONE}, person=MANAGER)
    decision = house.command("set_par", {"item": "butter"}, device=PHONE, n=2)
    opened = house.command(
        "open", {"batch": "b1", "quantity": "1 g", "child": "c1"}, device=PHONE, n=3
    )
    answers = house.hand_in(numbered(house, 1, person=PORTER), decision, opened)
    assert [answer.outcome for answer in answers] == ["kept", "refused", "kept"]
    assert {answer.problem.code for answer in answers} == {"device_revoked"}
    assert [asked.owner for asked in house.questions()] == ["manager", "manager"]
    assert house.movements() == []
    assert house.row(DeviceRow).highest == 3


def test_SY13_only_a_manager_enrols_and_revokes(house):
    body = {"device": PHONE, "name": "Phone"}
    assert house.refuses("enrol_device", body, person=CHEF).code == "role_lacking"
    enrol(house)
    assert house.refuses("revoke_device", {"device": PHONE}, person=CHEF).code == "role_lacking"


def test_SY13_a_device_is_enrolled_once_and_an_unknown_one_cannot_be_revoked(house):
    enrol(house)
    body = {"device": PHONE, "name": "Phone"}
    assert house.refuses("enrol_device", body, person=MANAGER).code == "device_enrolled"
    assert house.refuses("revoke_device", {"device": "?"}, person=MANAGER).code == "device_unknown"
