"""What the kitchen makes on which day: how much, of what, for whom, in order (RQ1, RQ2)."""

from pantry.records.database import writing
from pantry.records.rows import add, change
from pantry.records.tables import ItemRow, RecipeRow
from pantry.reports.preparations import preparations
from tests.commands.house import at, use_by
from tests.commands.larkfield import ID, _lines, _recipe
from tests.reports.asking import told
from tests.reports.demo_house import asked, only, value

DINNER = "2027-03-10/dinner/family"
SUPPER = "2027-03-10/supper/staff"
STOCK = {"recipe": "chicken-stock", "quantity": "600 ml", "child": "s", "area": "Cold room"}


def bones(lodge, quantity="2 kg"):
    lodge.receive("c", "chicken-bones", quantity, use_by(12))


def set_recipe(lodge, recipe, **columns):
    with writing(lodge.engine) as connection:
        change(connection, RecipeRow, {"house": ID, "id": recipe}, **columns)


def test_RQ1_what_is_there_already_is_not_made_again(lodge):
    bones(lodge)
    lodge.menu(DINNER, "broth")
    (row,) = told(lodge, preparations)
    assert (value(row["quantity"]), value(row["there"])) == (1000, 0)
    lodge.now = at(10, 9)
    lodge.do("make", STOCK)
    due, made = told(lodge, preparations)
    assert (value(due["quantity"]), value(due["there"])) == (400, 600)
    assert (value(made["quantity"]), made["done"]["batch"]) == (600, "s")


def test_RQ1_what_several_dishes_of_a_day_want_is_made_once(lodge):
    bones(lodge)
    lodge.menu(DINNER, "broth")
    lodge.menu(SUPPER, "broth", covers=6, time="18:00")
    (row,) = told(lodge, preparations)
    assert value(row["quantity"]) == 2500
    assert [(part["service"], value(part["quantity"])) for part in row["wanted"]] == [
        (SUPPER, 1500),
        (DINNER, 1000),
    ]
    assert row["ready"] == "2027-03-10T18:00:00Z"


def test_RQ1_what_is_only_made_whole_says_how_many_full_recipes(lodge):
    bones(lodge)
    set_recipe(lodge, "chicken-stock", full_recipes=True)
    lodge.menu(DINNER, "broth")
    (row,) = told(lodge, preparations)
    assert (row["full_recipes"], row["recipes"], value(row["quantity"])) == (True, "1", 2000)
    assert row["is_cooked"]


def test_RQ2_it_is_begun_its_lead_before_it_is_wanted_on_whichever_day_that_is(lodge):
    bones(lodge)
    set_recipe(lodge, "chicken-stock", lead="P1D")
    lodge.menu(DINNER, "broth")
    (row,) = told(lodge, preparations)
    assert (row["day"], row["start"]) == ("2027-03-09", "2027-03-09T19:30:00Z")
    assert row["usable_until"] == "2027-03-11T23:59:59Z"
    lodge.now = at(10, 9)
    (row,) = told(lodge, preparations)
    assert row["late"]


def test_what_goes_into_it_stands_with_the_batch_and_its_place(lodge):
    bones(lodge, "300 g")
    lodge.menu(DINNER, "broth")
    (row,) = told(lodge, preparations)
    (line,) = row["lines"]
    assert (line["item"], value(line["need"]), value(line["short"])) == ("Chicken bones", 500, 200)
    (part,) = line["from"]
    assert (part["batch"], part["area"], value(part["quantity"])) == ("c", "Cold room", 300)


def test_RQ1_what_goes_into_another_preparation_is_made_before_it(lodge):
    bones(lodge)
    with writing(lodge.engine) as connection:
        item = ItemRow(house=ID, id="glaze", name="Glaze", base_unit="ml", area="cold-room")
        made = _recipe("glaze", "preparation", yields="500", makes="glaze", lead="PT4H")
        add(connection, item, made, *_lines("glaze", chicken_stock="1000"))
        add(connection, _recipe("glazed-leaves"), *_lines("glazed-leaves", glaze="25"))
    lodge.menu(DINNER, "glazed-leaves")
    first, second = told(lodge, preparations)
    assert (first["preparation"], second["preparation"]) == ("Chicken stock", "Glaze")
    assert first["wanted"][0]["into"] == "Glaze"
    (line,) = second["lines"]
    assert line["from"][0]["making"] == first["making"]


def test_LG4_what_was_made_can_be_taken_back_and_is_to_be_made_again(lodge):
    bones(lodge)
    lodge.menu(DINNER, "broth")
    lodge.now = at(10, 9)
    lodge.do("make", STOCK)
    (made,) = [row for row in told(lodge, preparations) if row["done"]]
    lodge.do("correct", {"command": made["done"]["command"], "reason": "by mistake"})
    (row,) = told(lodge, preparations)
    assert (row["done"], value(row["quantity"])) == (None, 1000)


def test_only_the_days_that_are_asked_for_are_told(house):
    rows = asked(house, preparations, 2)
    assert {row["preparation"] for row in rows} == {"Béchamel", "Mayonnaise"}
    assert {row["day"] for row in rows} == {"2027-03-11"}
    assert only(asked(house, preparations), preparation="Custard base")
