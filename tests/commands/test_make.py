"""Making a preparation: what went in, what it costs, how long it keeps (SL4, LG1)."""

import pytest

from pantry.records.database import writing
from pantry.records.rows import add
from pantry.records.tables import BatchParentRow, ItemRow, RecipeRow
from tests.commands.house import at, end_of, use_by
from tests.commands.larkfield import ID, PORTER, _lines, _recipe

DINNER = "2027-03-10/dinner/family"


def stock(**more):
    body = {"recipe": "Chicken stock", "quantity": "2 l", "child": "s", "area": "Cold room"}
    return body | more


def batter(**more):
    body = {"recipe": "Pancake batter", "quantity": "1 l", "child": "b", "area": "Cold room"}
    return body | more


def bones(house, batch="c", quantity="2 kg", day=12, **more):
    price = {"minor": 300, "currency": "GBP"}
    house.receive(batch, "chicken-bones", quantity, use_by(day), cost=price, **more)


def for_batter(house):
    house.receive("m", "whole-milk", "2 l", use_by(9))
    house.receive("f", "plain-flour", "1 kg")
    house.receive("e", "eggs", "12", use_by(20))


def test_SL4_cooked_it_has_its_own_life_from_the_day_it_was_made(house):
    bones(house, day=8)
    house.do("make", stock(), person=PORTER)
    made = house.batch("s")
    assert (made.state, made.item, made.made_by) == ("made", "chicken-stock", "chicken-stock")
    assert (made.usable_until, made.cooked) == (end_of(10), True)
    assert house.available("s") == 2_000_000


def test_SL4_assembled_it_takes_the_earliest_of_its_ingredients(house):
    for_batter(house)
    house.do("make", batter())
    assert house.batch("b").usable_until == end_of(9)


def test_SL4_assembled_it_has_its_own_life_where_that_is_shorter(house):
    for_batter(house)
    house.receive("m2", "whole-milk", "2 l", use_by(20))
    used = [{"batch": "m2", "quantity": "500 ml"}, {"batch": "f", "quantity": "250 g"}]
    house.do("make", batter(used=used))
    assert house.batch("b").usable_until == end_of(9)


def test_LG1_without_a_list_the_recipes_ingredients_are_taken_first_expired_first(house):
    bones(house, "late", "1 kg", 14)
    bones(house, "early", "400 g", 10)
    house.do("make", stock())
    assert house.balances("early")["made_into"] == 400_000
    assert house.balances("late")["made_into"] == 600_000
    assert {row.link for row in house.rows(BatchParentRow)} == {"assumed"}


def test_LG1_what_was_scanned_is_what_went_in(house):
    bones(house, "late", "1 kg", 14)
    bones(house, "early", "1 kg", 10)
    house.do("make", stock(used=[{"batch": "late", "quantity": "800 g"}]))
    assert house.balances("late")["made_into"] == 800_000
    assert "made_into" not in house.balances("early")
    link = house.row(BatchParentRow)
    assert (link.parent, link.quantity, link.link) == ("late", 800_000, "scanned")


def test_MS1_what_is_made_costs_what_went_in(house):
    bones(house)
    house.do("make", stock())
    assert house.batch("s").cost == 150


def test_MS3_what_nobody_counts_goes_in_and_moves_nothing(house):
    bones(house)
    house.receive("salt", "salt", "1 kg")
    used = [{"batch": "c", "quantity": "1 kg"}, {"batch": "salt", "quantity": "a pinch"}]
    house.do("make", stock(used=used))
    assert house.balances("salt") == {}
    assert {row.parent for row in house.rows(BatchParentRow)} == {"c", "salt"}


def test_what_is_not_there_is_not_assumed(house):
    bones(house, quantity="300 g")
    house.do("make", stock())
    assert house.balances("c") == {"made_into": 300_000, "supplier": -300_000}
    assert house.questions() == []


def test_SL4_made_of_what_was_past_its_date_it_is_recorded_and_held(house):
    bones(house, day=9)
    house.now = at(11)
    house.do("make", stock(used=[{"batch": "c", "quantity": "1 kg"}]))
    assert house.balances("s")["hold:cold-room"] == 2_000_000
    assert house.question("unsafe").about == "s"


def test_made_of_what_was_on_hold_it_is_on_hold(house):
    bones(house, verdict="hold")
    house.do("make", stock(used=[{"batch": "c", "quantity": "1 kg"}]))
    assert "hold:cold-room" in house.balances("s")
    assert "was on hold" in house.question("unsafe").against


def test_assumed_is_only_what_may_be_used(house):
    bones(house, "dead", "1 kg", 9)
    bones(house, "held", "1 kg", 14, verdict="hold")
    house.now = at(10)
    house.do("make", stock())
    assert "made_into" not in house.balances("dead")
    assert "made_into" not in house.balances("held")


def test_SL3_what_is_assembled_of_thawed_food_is_not_frozen_again(house):
    for_batter(house)
    house.do("freeze", {"batch": "m", "quantity": "1 l", "child": "fm"})
    house.do("thaw", {"batch": "fm", "quantity": "1 l", "child": "tm"})
    house.do("make", batter(used=[{"batch": "tm", "quantity": "500 ml"}]))
    assert house.batch("b").was_thawed
    house.do("freeze", {"batch": "b", "quantity": "1 l", "child": "fb"})
    assert "hold:freezer" in house.balances("fb")


def test_RQ1_making_it_covers_what_was_wanted_and_frees_the_ingredients(house):
    bones(house)
    house.menu(DINNER, "broth")
    assert house.promised("c") == {DINNER: 500_000}
    house.do("make", stock(quantity="1 l"), at=at(10, 9))
    assert house.promised("s") == {DINNER: 1_000_000}
    assert house.promised("c") == {}
    assert house.available("c") == 1_500_000
    assert house.needs(via="chicken-stock") == []


def test_RQ1_making_part_of_it_leaves_the_rest_to_be_made(house):
    bones(house)
    house.menu(DINNER, "broth")
    house.do("make", stock(quantity="600 ml"), at=at(10, 9))
    assert house.promised("s") == {DINNER: 600_000}
    assert house.promised("c") == {DINNER: 200_000}


def test_RQ1_a_preparation_that_goes_in_and_was_not_recorded_is_made_first(house):
    with writing(house.engine) as connection:
        add(
            connection,
            ItemRow(house=ID, id="glaze", name="Glaze", base_unit="ml", area="cold-room"),
            _recipe("glaze", "preparation", yields="100", makes="glaze", life_days=5),
            *_lines("glaze", chicken_stock="1000"),
        )
    bones(house)
    body = {"recipe": "Glaze", "quantity": "200 ml", "child": "g", "area": "Cold room"}
    command = house.do("make", body)
    assert house.balances("g/chicken-stock") == {}
    assert house.balances("c")["made_into"] == 1_000_000
    links = {(row.batch, row.parent) for row in house.rows(BatchParentRow)}
    assert links == {("g", "g/chicken-stock"), ("g/chicken-stock", "c")}
    assert {row.command for row in house.movements()} >= {command}


def test_a_dish_makes_no_batch(house):
    assert house.keeps("make", stock(recipe="Pancakes")).code == "not_a_preparation"


@pytest.mark.parametrize(
    ("change", "code"),
    [
        ({"recipe": "?"}, "recipe_unknown"),
        ({"area": "?"}, "area_unknown"),
        ({"quantity": "two pots"}, None),
        ({"used": [{"batch": "?", "quantity": "1 g"}]}, "batch_unknown"),
        ({"used": [{"batch": "c", "quantity": "?"}]}, None),
        ({"child": "c"}, "batch_taken"),
    ],
)
def test_what_cannot_be_read_is_asked_about(house, change, code):
    bones(house)
    problem = house.keeps("make", stock(**change))
    assert code in (None, problem.code)
    assert "made_into" not in house.balances("c")


def test_a_full_recipe_may_still_be_made_in_part(house):
    with writing(house.engine) as connection:
        row = RecipeRow.__table__
        connection.execute(row.update().where(row.c.id == "chicken-stock"), {"full_recipes": True})
    bones(house)
    house.menu(DINNER, "broth")
    assert house.promised("c") == {DINNER: 1_000_000}
    house.do("make", stock(quantity="1 l"), at=at(10, 9))
    assert house.promised("s") == {DINNER: 1_000_000}
