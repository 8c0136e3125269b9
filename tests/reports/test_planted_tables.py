"""Who cannot eat what at the tables of the demo house, and what is not to be cooked at all (AL3).

People and products are invented. Whoever serves looks at the label and asks; local codes and
medical advice come first.
"""

import pytest

from pantry.reports.coverage import coverage
from pantry.reports.questions import questions
from pantry.reports.stock import stock
from pantry.reports.use_first import use_first
from tests.reports.demo_house import one, only, value

MONDAY = "2027-03-15/dinner/family"
SAFE_PUDDING = "Rhubarb crumble with custard"


def dish(told, service, name):
    """The rows of a dish of a service; every one of them says what is wrong with the dish."""
    rows = only(told(coverage), service=service, dish=name)
    assert rows
    return rows


def every_flag(rows):
    return set.intersection(*(set(row["flags"]) for row in rows))


def test_AL3_nuts_in_a_confirmed_tart_are_a_conflict_and_the_variant_without_is_safe(told):
    rows = dish(told, "2027-03-12/dinner/family", "Almond and pear tart")
    assert "contains:nuts:Mrs Ellacott" in every_flag(rows)
    assert rows[0]["safe"][0] == {
        "person": "Mrs Ellacott",
        "dish": "Almond and pear tart",
        "variant": "without nuts",
    }
    question = one(told(questions), kind="allergen", about="2027-03-12/dinner/family")
    assert question["owner"] == "chef"
    assert "Ground almonds" in question["against"]
    assert "Safe for them: Almond and pear tart, without nuts." in question["against"]


def test_AL3_walnuts_in_a_proposed_salad_are_a_conflict_with_the_safe_variant_first(told):
    rows = dish(told, MONDAY, "Beetroot and goat's cheese salad")
    assert "contains:nuts:Mrs Ellacott" in every_flag(rows)
    assert rows[0]["safe"][0] == {
        "person": "Mrs Ellacott",
        "dish": "Beetroot and goat's cheese salad",
        "variant": "without nuts",
    }


def test_AL3_chocolate_that_may_contain_nuts_is_flagged_and_the_pudding_beside_it_is_safe(told):
    rows = dish(told, MONDAY, "Chocolate pots")
    assert "may_contain:nuts:Mrs Ellacott" in every_flag(rows)
    assert rows[0]["safe"][0]["dish"] == SAFE_PUDDING
    beside = dish(told, MONDAY, SAFE_PUDDING)
    assert not any("nuts" in flag for row in beside for flag in row["flags"])
    assert beside[0]["safe"] == []


def test_AL3_what_nobody_knows_of_the_island_fudge_is_not_taken_to_be_safe(told):
    fudge = one(told(stock), label="B-0134")
    assert fudge["lot"] == "gift of the harbour master"
    rows = dish(told, "2027-03-15/lunch/family", "Ice cream with island fudge")
    assert "allergens_unknown" in every_flag(rows)
    later = dish(told, "2027-03-21/dinner/family", "Ice cream with island fudge")
    assert not any("allergens_unknown" in row["flags"] for row in later)
    safe = [each["dish"] for each in rows[0]["safe"] if each["person"] == "Mrs Ellacott"]
    assert safe[0] == "Bowl of fruit"
    assert "Ice cream with island fudge" not in safe


def test_AL3_crustaceans_in_the_childrens_fish_pie_and_the_variant_for_children(told):
    rows = dish(told, "2027-03-17/supper/children", "Fish pie")
    assert "contains:crustaceans:Finlay" in every_flag(rows)
    assert rows[0]["safe"][0] == {
        "person": "Finlay",
        "dish": "Fish pie",
        "variant": "for children",
    }
    parents = dish(told, "2027-03-22/dinner/family", "Fish pie")
    assert not any("Finlay" in flag for row in parents for flag in row["flags"])


def test_AL3_the_coeliac_at_the_staff_table_has_his_own_dish_on_saturday(told):
    service = "2027-03-13/lunch/staff"
    assert "contains:gluten:Tam Wedderlie" in every_flag(dish(told, service, "Lasagne"))
    own = dish(told, service, "Baked potatoes with cheese and beans")
    assert not any("gluten" in flag for row in own for flag in row["flags"])
    butter = one(own, item="Butter, salted")
    assert value(butter["need"]) == 10
    assert only(told(questions), about=service) == []


@pytest.mark.parametrize(
    ("day", "name"),
    [
        ("16", "Lasagne"),
        ("20", "Lasagne"),
        ("15", "Soup, ham and bread"),
        ("22", "Soup, ham and bread"),
    ],
)
def test_AL3_what_is_proposed_to_the_coeliac_lacks_his_own_dish_or_its_variant(told, day, name):
    rows = dish(told, f"2027-03-{day}/lunch/staff", name)
    assert "contains:gluten:Tam Wedderlie" in every_flag(rows)
    assert {each["person"] for each in rows[0]["safe"]} == {"Tam Wedderlie"}


def test_CH1_what_is_out_of_season_or_not_approved_is_suggested_for_nothing(told):
    suggested = {use["dish"] for row in told(use_first) for use in row["could_use"]}
    assert suggested
    assert not suggested & {
        "Asparagus with clarified butter",
        "Nettle and wild garlic soup",
        "Seaweed and tahini flatbread",
    }
    assert "Meringues with lemon curd" in suggested
