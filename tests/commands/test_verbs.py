"""Every kind of command has one type, one right and one function."""

import pytest

from pantry.commands.decisions import DECISIONS
from pantry.commands.facts import FACTS
from pantry.commands.rights import RIGHTS
from pantry.commands.verbs import VERBS
from tests.commands.larkfield import APPROVER, CHEF, MANAGER, PORTER

PROMISED_TO_OTHERS = """
    receive move take_out open freeze thaw decant make waste count harvest propose confirm
    change_covers take_off serve place_order correct
"""
"""The kinds of command that people outside rely on."""


def test_SY3_facts_and_decisions_are_two_types():
    assert not FACTS.keys() & DECISIONS.keys()


def test_every_kind_has_its_function_and_its_right():
    assert VERBS.keys() == RIGHTS.keys() == FACTS.keys() | DECISIONS.keys()


def test_what_people_outside_rely_on_is_there():
    assert VERBS.keys() >= set(PROMISED_TO_OTHERS.split())


def test_kinds_are_kept_in_the_order_of_their_names():
    for kinds in (FACTS, DECISIONS, VERBS, RIGHTS):
        assert list(kinds) == sorted(kinds)


@pytest.mark.parametrize("kind", sorted(VERBS))
@pytest.mark.parametrize("person", [PORTER, CHEF, MANAGER, APPROVER])
def test_SY3_who_may_give_what_is_one_matrix(house, kind, person):
    role = {PORTER: "porter", CHEF: "chef", MANAGER: "manager", APPROVER: "approver"}[person]
    answer = house.give(kind, {}, person=person)
    allowed = role in RIGHTS[kind]
    assert (answer.problem is None or answer.problem.code != "role_lacking") == allowed
