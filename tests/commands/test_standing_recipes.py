"""A recipe has another name, or is put away; what was and what stands on menus keeps it."""

from pantry.records.tables import ItemRow, RecipeRow, ServingRow
from pantry.reports.instead import instead
from pantry.reports.served import served
from tests.commands.house import at, chosen
from tests.commands.larkfield import MANAGER
from tests.reports.asking import told

DINNER, LATER = "2027-03-12/dinner/family", "2027-03-13/dinner/family"
NAME = "Salad of the garden"


def recipe(house, name="green-salad"):
    return house.row(RecipeRow, id=name)


def rename(house, name=NAME, of="green-salad"):
    return house.do("rename_recipe", {"recipe": of, "name": name}, base=recipe(house, of).version)


def put_away(house, *, away=True):
    base = recipe(house).version
    return house.do("put_away_recipe", {"recipe": "Green salad", "away": away}, base=base)


def test_what_was_served_keeps_the_name_it_was_served_under(house):
    house.menu(DINNER, "green-salad")
    house.menu(LATER, "green-salad")
    house.now = at(12, 20)
    house.do("serve", {"service": DINNER})
    rename(house)
    house.now = at(13, 20)
    house.do("serve", {"service": LATER})
    assert [row["name"] for row in told(house, served)] == [NAME, "Green salad"]
    rename(house, "Leaves")
    assert [row["name"] for row in told(house, served)] == [NAME, "Green salad"]


def test_it_is_found_by_the_new_name_and_by_the_one_that_it_began_with(house):
    rename(house)
    house.propose(DINNER, NAME)
    house.propose(LATER, "green-salad")
    assert {row.dish for row in house.rows(ServingRow)} == {"green-salad"}


def test_what_a_preparation_makes_is_called_the_same(house):
    rename(house, "Brown stock", of="chicken-stock")
    assert house.row(ItemRow, id="chicken-stock").name == "Brown stock"


def test_a_name_that_another_has_or_that_it_has_itself_is_refused(house):
    base = recipe(house).version
    for name, code in (
        ("Broth", "recipe_there"),
        ("Green salad", "recipe_stands_so"),
        ("  ", "recipe_unnamed"),
    ):
        body = {"recipe": "green-salad", "name": name}
        assert house.refuses("rename_recipe", body, base=base).code == code


def test_LG4_a_name_is_taken_back_while_it_stands(house):
    first = rename(house)
    second = rename(house, "Leaves")
    assert house.refuses("correct", {"command": first, "reason": "x"}).code == "reversed_already"
    house.do("correct", {"command": second, "reason": "a slip"})
    assert recipe(house).name == NAME


def test_a_recipe_that_is_written_anew_keeps_its_name_and_stays_put_away(house):
    rename(house)
    house.do("put_away_recipe", {"recipe": NAME})
    lines = [{"ingredient": "Salad leaves", "amount": "60 g"}]
    body = {"recipe": NAME, "yields": "1", "ingredients": lines}
    house.do("write_recipe", body, base=recipe(house).version)
    row = recipe(house)
    assert (row.name, row.put_away_by is None) == (NAME, False)
    assert [each.id for each in house.rows(RecipeRow, name=NAME)] == ["green-salad"]


def test_a_book_that_is_imported_again_does_not_take_the_name_back(house):
    rename(house)
    line = {"recipe": "Green salad", "kind": "dish", "yield": "1", "dates": "cooked"}
    house.do("import_book", {"sheets": {"recipes": [line]}}, person=MANAGER)
    assert recipe(house).name == NAME


def test_a_dish_that_is_put_away_is_not_offered_and_not_chosen_anew(house):
    house.menu(LATER, "broth")
    assert "green-salad" in {row["dish"] for row in told(house, instead, LATER)}
    put_away(house)
    assert "green-salad" not in {row["dish"] for row in told(house, instead, LATER)}
    part = {"date": "2027-03-12", "meal": "dinner", "table": "family", "time": "19:30"}
    courses = [{"course": "main", "dishes": ["green-salad"]}]
    body = {"service": part | {"covers": 4}, "courses": courses}
    assert house.refuses("propose", body).code == "recipe_put_away"
    by = {"service": LATER, "dish": "broth", "by": {"dish": "green-salad"}}
    assert house.refuses("swap_dish", by).code == "recipe_put_away"


def test_AL3_what_is_put_away_is_nobodys_safe_dish(house):
    house.propose(DINNER, "walnut-salad")
    body = {"service": DINNER, "dishes": chosen("walnut-salad")}
    assert house.refuses("confirm", body).todo.startswith("Safe for them: Walnut salad, without")
    for row in house.rows(RecipeRow, kind="dish"):
        if row.id != "walnut-salad":
            house.do("put_away_recipe", {"recipe": row.id})
    house.do("add_guest", {"person": "Ottilie", "table": "family", "cannot_eat": ["salad leaves"]})
    assert house.refuses("confirm", body).todo.startswith("No dish of the house is known")


def test_menus_on_which_it_stands_keep_it(house):
    house.propose(DINNER, "green-salad")
    put_away(house)
    house.do("confirm", {"service": DINNER, "dishes": chosen("green-salad")})
    house.do("change_covers", {"service": DINNER, "covers": 6})
    house.now = at(12, 20)
    house.do("serve", {"service": DINNER})


def test_LG4_it_is_offered_again_by_taking_that_back_or_by_saying_so(house):
    away = put_away(house)
    house.do("correct", {"command": away, "reason": "a slip"})
    assert recipe(house).put_away_by is None
    put_away(house)
    put_away(house, away=False)
    assert recipe(house).put_away_by is None
    again = house.refuses("put_away_recipe", {"recipe": "Green salad", "away": False})
    assert again.code == "recipe_stands_so"
