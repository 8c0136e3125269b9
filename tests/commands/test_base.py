"""Decisions are taken on a version of what stands; what has moved is a conflict (SY3)."""

from datetime import datetime

import pytest

from pantry.records.tables import ServiceRow, SupplierRow
from tests.commands.house import chosen
from tests.commands.larkfield import CHEF, MANAGER

DINNER = "2027-03-12/dinner/family"
LINES = [{"item": "butter", "pack": "250 g block", "packs": 1}]


def covers(house, number, **rest):
    return house.give("change_covers", {"service": DINNER, "covers": number}, **rest)


def phone(house):
    house.do("enrol_device", {"device": "phone", "name": "Phone"}, person=MANAGER)
    return {"device": "phone", "n": 1}


def test_SY3_the_version_that_stands_is_a_base(house):
    house.propose(DINNER, "pancakes")
    assert covers(house, 5, base=1).outcome == "applied"
    assert covers(house, 6, base=2).outcome == "applied"


def test_SY3_a_version_that_has_moved_is_a_conflict_with_both_versions(house):
    house.propose(DINNER, "pancakes")
    moved = covers(house, 5, base=1)
    answer = covers(house, 6, base=1)
    assert answer.outcome == "conflict"
    assert (answer.problem.code, answer.problem.status) == ("base_moved", 409)
    assert "decided on version 1" in answer.problem.detail
    assert f"version 2 stands, by the command {moved.id}" in answer.problem.detail
    assert house.row(ServiceRow).covers == 5


def test_SY2_a_conflict_says_what_stands_who_decided_it_and_when(house):
    house.propose(DINNER, "pancakes")
    moved = house.command("change_covers", {"service": DINNER, "covers": 5}, base=1, person=MANAGER)
    house.hand_in(moved)
    stands = covers(house, 6, base=1).problem.stands
    assert (stands.version, stands.command, stands.kind) == (2, moved["id"], "change_covers")
    assert stands.person == MANAGER
    assert stands.at == datetime.fromisoformat(moved["at"])
    assert stands.body == {"service": DINNER, "covers": 5}


def test_SY2_what_was_decided_on_nothing_is_told_what_stands_too(house):
    command = house.propose(DINNER, "pancakes")
    stands = covers(house, 6, **phone(house)).problem.stands
    assert (stands.version, stands.command, stands.kind) == (1, command, "propose")


def test_SY3_a_conflict_is_kept_and_answered_the_same_again(house):
    house.propose(DINNER, "pancakes")
    command = house.command("change_covers", {"service": DINNER, "covers": 6}, base=7)
    first = house.hand_in(command)
    covers(house, 5)
    assert house.hand_in(command) == first


def test_SY3_ones_own_earlier_command_is_a_base(house):
    command = house.propose(DINNER, "pancakes")
    first = covers(house, 5, base=command)
    assert first.outcome == "applied"
    assert covers(house, 6, base=first.id).outcome == "applied"


def test_SY3_ones_own_earlier_command_is_no_base_once_somebody_else_has_changed_it(house):
    command = house.propose(DINNER, "pancakes")
    covers(house, 5)
    answer = covers(house, 6, base=command)
    assert answer.outcome == "conflict"
    assert command in answer.problem.detail


def test_SY3_an_earlier_command_that_was_refused_is_no_base(house):
    house.propose(DINNER, "pancakes")
    refused = house.give("confirm", {"service": DINNER, "dishes": []})
    assert covers(house, 6, base=refused.id).outcome == "conflict"


def test_SY3_a_base_in_the_body_counts_too(house):
    house.propose(DINNER, "pancakes")
    body = {"service": DINNER, "covers": 6, "base": 3}
    assert house.give("change_covers", body).outcome == "conflict"


def test_SY3_from_a_device_a_decision_says_what_it_was_taken_on(house):
    house.propose(DINNER, "pancakes")
    answer = covers(house, 6, **phone(house))
    assert (answer.outcome, answer.problem.code) == ("conflict", "base_missing")


def test_SY3_a_chain_of_decisions_made_offline_is_done_in_its_order(house):
    house.propose(DINNER, "pancakes")
    outbox = phone(house)
    dishes = {"service": DINNER, "dishes": chosen("pancakes")}
    one = house.command("confirm", dishes, **outbox, base=1)
    body = {"service": DINNER, "covers": 6}
    two = house.command("change_covers", body, device="phone", n=2, base=one["id"])
    assert [answer.outcome for answer in house.hand_in(one, two)] == ["applied", "applied"]


def test_SY3_when_the_first_of_a_chain_conflicts_the_rest_does_too(house):
    house.propose(DINNER, "pancakes")
    outbox = phone(house)
    dishes = {"service": DINNER, "dishes": chosen("pancakes")}
    one = house.command("confirm", dishes, **outbox, base=9)
    body = {"service": DINNER, "covers": 6}
    two = house.command("change_covers", body, device="phone", n=2, base=one["id"])
    assert [answer.outcome for answer in house.hand_in(one, two)] == ["conflict", "conflict"]


def test_SY3_two_people_who_have_not_seen_each_others_order_do_not_order_twice(house):
    order = {"supplier": "hill-dairy", "delivery": "2027-03-09", "lines": LINES}
    assert house.give("place_order", order, base=1, person=CHEF).outcome == "applied"
    answer = house.give("place_order", order, base=1, person=MANAGER)
    assert answer.outcome == "conflict"
    assert house.give("place_order", order, base=2, person=MANAGER).outcome == "applied"
    assert house.row(SupplierRow, id="hill-dairy").version == 3


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("propose", {"service": {"date": "2027-03-12", "meal": "dinner", "table": "family"}}),
        ("confirm", {"service": DINNER, "dishes": [{"dish": "pancakes"}]}),
        ("change_covers", {"service": DINNER, "covers": 2}),
        ("take_off", {"service": DINNER, "reason": "away"}),
        ("set_par", {"item": "butter"}),
        ("set_calendar", {"supplier": "hill-dairy"}),
        ("set_terms", {"supplier": "hill-dairy"}),
        ("approve_recipe", {"recipe": "pancakes"}),
        ("change_product", {"pack": "hill-dairy/butter/250-g-block"}),
        ("place_order", {"supplier": "hill-dairy", "delivery": "2027-03-09", "lines": LINES}),
    ],
)
def test_SY3_every_decision_on_something_that_stands_looks_at_its_base(house, kind, body):
    house.propose(DINNER, "pancakes")
    if kind == "propose":
        body |= {"courses": [{"course": "main", "dishes": ["pancakes"]}]}
    answer = house.give(kind, body, base=77, person=MANAGER)
    assert answer.outcome == "conflict", answer
