"""RQ5: how many eat at a meal, with who said so, for whoever is to write a menu for it."""

from pantry.records.database import reading
from pantry.reports.presence import presence
from pantry.reports.view import view
from tests.commands.larkfield import APPROVER, ID
from tests.reports.in_shape import rows_in_shape

GUESTS = {"stay": "s", "who": "two walkers", "heads": 2, "table": "Family", "by": "Ada Brand"}
FRIDAY = "2027-03-12"


def here(lodge, *arguments):
    with reading(lodge.engine) as connection:
        seen = view(connection, ID, lodge.now)
        rows = rows_in_shape(seen, presence, presence(seen, *arguments))
    return {(row["date"], row["meal"], row["table"].casefold()): row for row in rows}


def test_a_number_says_who_said_it_last_and_one_that_is_only_usual_does_not(lodge):
    lodge.propose("2027-03-12/dinner/family", "rice-pudding")
    assert here(lodge)[FRIDAY, "dinner", "family"]["said"] is None
    lodge.do("say_stay", GUESTS | {"first": FRIDAY}, person=APPROVER)
    row = here(lodge)[FRIDAY, "dinner", "family"]
    assert (row["covers"], row["said"]["covers"], row["said"]["said_by"]) == (6, 6, "Ada Brand")


def test_a_meal_that_a_table_does_not_have_is_told_where_it_is_asked_for(lodge):
    lodge.propose("2027-03-12/dinner/family", "rice-pudding")
    lodge.do("say_stay", GUESTS | {"first": "2027-03-14", "first_at": "lunch"})
    rows = here(lodge, 2, "2027-03-14", "breakfast,Sunday walk, lunch")
    family = {
        (day, meal): row["covers"] for (day, meal, table), row in rows.items() if table == "family"
    }
    assert family == {
        ("2027-03-14", "breakfast"): 4,
        ("2027-03-14", "sunday-walk"): 4,  # its hour is not known: noon, before they come
        ("2027-03-14", "lunch"): 6,
        ("2027-03-15", "breakfast"): 6,
        ("2027-03-15", "sunday-walk"): 6,
        ("2027-03-15", "lunch"): 6,
    }
