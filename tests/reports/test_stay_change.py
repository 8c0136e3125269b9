"""RQ5: what a stay would do to the menus to come; the house does the same once it is said."""

import pytest

from pantry.records.database import reading
from pantry.records.tables import ServiceRow
from pantry.refusals import Refusal
from pantry.reports.stay_change import stay_change
from pantry.reports.view import view
from tests.commands.larkfield import ID
from tests.reports.in_shape import rows_in_shape

FRIDAY, SATURDAY = "2027-03-12/dinner/family", "2027-03-13/dinner/family"
SUNDAY, MONDAY = "2027-03-14/dinner/family", "2027-03-15/dinner/family"
STAY = {"stay": "s", "heads": 2, "table": "Family", "first": "2027-03-12", "last": "2027-03-13"}


def if_so(lodge, **stay):
    with reading(lodge.engine) as connection:
        seen = view(connection, ID, lodge.now)
        rows = rows_in_shape(seen, stay_change, stay_change(seen, **stay))
    return {row["service"]: (row["said"], row["would_be"], row["following"]) for row in rows}


@pytest.fixture
def menus(lodge):
    """Friday's dinner is chosen, Saturday's proposed, Sunday's for a number of the chef's."""
    lodge.receive("m", "whole-milk", "9 l", {"kind": "use_by", "date": "2027-03-16"})
    lodge.menu(FRIDAY, "rice-pudding")
    lodge.propose(SATURDAY, "rice-pudding")
    lodge.propose(SUNDAY, "rice-pudding", covers=9)
    lodge.propose(MONDAY, "rice-pudding")
    return lodge


def test_a_new_stay_says_which_menus_follow_which_ask_and_which_keep_their_number(menus):
    assert if_so(menus, **STAY | {"last": "2027-03-14"}) == {
        FRIDAY: (4, 6, "asked"),
        SATURDAY: (4, 6, "follows"),
        SUNDAY: (4, 6, "keeps"),
    }


def test_a_stay_that_is_moved_longer_or_called_off_tells_only_what_is_otherwise(menus):
    menus.do("say_stay", STAY | {"who": "Ann Hale"})
    assert if_so(menus, **STAY) == {}
    moved = STAY | {"first": "2027-03-13", "last": "2027-03-15", "last_at": "lunch"}
    assert if_so(menus, **moved) == {FRIDAY: (6, 4, "agrees"), SUNDAY: (4, 6, "keeps")}
    nobody = if_so(menus, **STAY | {"heads": 0})
    assert nobody == {FRIDAY: (6, 4, "agrees"), SATURDAY: (6, 4, "follows")}
    until_further_notice = {name: part for name, part in STAY.items() if name != "last"}
    assert MONDAY in if_so(menus, **until_further_notice)


def test_what_is_told_is_what_saying_it_does(menus):
    told = if_so(menus, **STAY)
    menus.do("say_stay", STAY | {"who": "Ann Hale"})
    asked = {row.about for row in menus.questions("covers_said") if row.settled_at is None}
    assert asked == {service for service, (_, _, does) in told.items() if does == "asked"}
    for service, (_, then, does) in told.items():
        follows = menus.row(ServiceRow, id=service).covers == then
        assert follows == (does == "follows")


@pytest.mark.parametrize(
    ("stay", "code"),
    [
        ({"table": "attic"}, "table_not_there"),
        ({"first": "Friday"}, "day_unreadable"),
        ({"last": "2027-03-11"}, "days_turned"),
    ],
)
def test_what_cannot_be_so_is_refused_by_name(lodge, stay, code):
    with pytest.raises(Refusal) as refused:
        if_so(lodge, **STAY | stay)
    assert refused.value.code == code
