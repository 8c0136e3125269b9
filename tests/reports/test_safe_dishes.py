"""AL3: who cannot eat a dish of a menu, and their own safe dish; read the label all the same."""

import pytest

from pantry.reports.menus import menus
from tests.reports.demo_house import asked, one


@pytest.fixture(scope="module")
def ahead(house):
    return asked(house, menus)


def _of(ahead, service, name):
    row = one(ahead, service=service)
    return next(
        dish
        for course in row["courses"]
        for dish in course["dishes"]
        if (dish["name"], dish["variant"]) == (name, None)
    )["conflicts"]


def test_AL3_the_same_dish_in_a_safe_variant_comes_first(ahead):
    """By the sheets: the loaf holds gluten, and one variant takes the gluten-free loaf."""
    assert _of(ahead, "2027-03-15/lunch/staff", "Soup, ham and bread") == [
        {
            "person": "Tam Wedderlie",
            "cannot_eat": "gluten",
            "certainty": "contains",
            "through": ["Sourdough loaf"],
            "safe": {
                "dish": "soup-ham-and-bread",
                "name": "Soup, ham and bread",
                "variant": "without gluten",
                "on_menu": False,
            },
            "agreed": None,
            "asked": False,
        }
    ]


def test_AL3_where_no_variant_is_safe_another_dish_of_the_course_is(ahead):
    """Lasagne has no variant; the potatoes are proposed beside it and hold no gluten."""
    (conflict,) = _of(ahead, "2027-03-13/lunch/staff", "Lasagne")
    assert conflict["person"] == "Tam Wedderlie"
    assert conflict["safe"]["name"] == "Baked potatoes with cheese and beans"


def test_AL3_conflicts_and_flags_name_the_same_people(ahead):
    for row in ahead:
        for course in row["courses"]:
            for dish in course["dishes"]:
                named = {
                    f"{each['certainty']}:{each['cannot_eat']}:{each['person']}"
                    for each in dish["conflicts"]
                }
                flags = {flag for flag in dish["flags"] if flag.split(":")[0].endswith("contain")}
                flags |= {flag for flag in dish["flags"] if flag.startswith("contains:")}
                assert named == flags, (row["service"], dish["name"])


def test_AL3_nobody_is_named_once_the_meal_is_over(ahead):
    over = [row for row in ahead if row["state"] in ("served", "taken_off")]
    assert over
    assert not [
        dish
        for row in over
        for course in row["courses"]
        for dish in course["dishes"]
        if dish["conflicts"]
    ]
