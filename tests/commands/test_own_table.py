"""Who answers for one table decides on its menus, and hears nothing of who eats at another."""

import pytest

from tests.commands.larkfield import APPROVER, MANAGER

DINNER, BREAKFAST = "2027-03-12/dinner/family", "2027-03-11/breakfast/staff"


@pytest.fixture
def of_the_family(house):
    house.do("set_answers_for", {"person": APPROVER, "table": "family"}, person=MANAGER)
    house.propose(DINNER, "rice-pudding")
    house.propose(BREAKFAST, "pancakes", time="08:00")
    return house


def chosen(service, dish):
    return {"service": service, "dishes": [{"dish": dish}]}


def test_the_menu_of_ones_own_table_is_confirmed(of_the_family):
    of_the_family.do("confirm", chosen(DINNER, "rice-pudding"), person=APPROVER)
    of_the_family.do("change_covers", {"service": DINNER, "covers": 3}, person=APPROVER)


def test_AL3_the_menu_of_another_table_is_refused_and_nobody_there_is_named(of_the_family):
    guest = {"person": "Bo Lind", "table": "staff", "cannot_eat": ["milk"]}
    of_the_family.do("add_guest", guest)
    said = of_the_family.refuses("confirm", chosen(BREAKFAST, "pancakes"), person=APPROVER)
    assert (said.code, said.status) == ("table_of_another", 403)
    assert "Bo" not in f"{said.detail} {said.todo} {said.value}"
    said = of_the_family.refuses("confirm", chosen(BREAKFAST, "pancakes"))
    assert "Bo" in said.detail


@pytest.mark.parametrize(
    ("kind", "body"),
    [
        ("change_covers", {"covers": 2}),
        ("take_off", {"reason": "away"}),
    ],
)
def test_nothing_else_of_another_table_is_decided(of_the_family, kind, body):
    body = body | {"service": BREAKFAST}
    assert of_the_family.refuses(kind, body, person=APPROVER).code == "table_of_another"


def test_AL3_what_somebody_cannot_eat_is_taken_down_whoever_says_it(of_the_family):
    guest = {"person": "Bo Lind", "table": "staff", "cannot_eat": ["milk"]}
    of_the_family.do("add_guest", guest, person=APPROVER)


def test_who_answers_for_no_table_decides_on_all(house):
    house.propose(BREAKFAST, "pancakes", time="08:00")
    house.do("confirm", chosen(BREAKFAST, "pancakes"), person=APPROVER)
