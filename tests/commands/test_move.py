"""Putting part of a batch elsewhere."""

from tests.commands.house import use_by


def move(**more):
    return {"batch": "b", "quantity": "200 g", "area": "Cold room"} | more


def test_part_of_a_batch_is_put_into_another_area(house):
    house.receive("b", "plain-flour", "1 kg")
    house.do("move", move())
    assert house.balances("b")["area:pantry"] == 800_000
    assert house.balances("b")["area:cold-room"] == 200_000
    assert house.available("b") == 1_000_000


def test_what_is_on_hold_stays_on_hold(house):
    house.receive("b", "butter", "1 kg", verdict="hold")
    house.do("move", move(area="Pantry"))
    assert house.balances("b")["hold:pantry"] == 200_000


def test_the_emergency_meal_stays_the_emergency_meal(house):
    house.receive("b", "butter", "1 kg")
    house.do("set_aside", {"batch": "b", "quantity": "1 kg", "area": "Cold room"})
    house.do("move", move(area="Pantry"))
    assert house.balances("b")["emergency:pantry"] == 200_000
    assert house.available("b") == 0


def test_the_area_that_is_named_is_taken_from(house):
    house.receive("b", "plain-flour", "1 kg")
    house.do("move", move())
    house.do("move", move(area="Pantry", quantity="150 g", from_area="Cold room"))
    assert house.balances("b")["area:cold-room"] == 50_000


def test_to_where_it_stands_nothing_moves(house):
    house.receive("b", "butter", "1 kg")
    house.do("move", move())
    assert len(house.movements()) == 1


def test_from_several_areas_the_fullest_goes_first(house):
    house.receive("b", "plain-flour", "1 kg")
    house.do("move", move())
    house.do("use", {"batch": "b", "quantity": "900 g"})
    assert house.balances("b")["area:cold-room"] == 100_000
    assert "area:pantry" not in house.balances("b")
    assert house.questions() == []


def test_LG3_a_promise_stays_where_the_batch_goes(house):
    house.receive("b", "butter", "1 kg", use_by(12))
    house.menu("2027-03-10/dinner/family", "baked-salmon")
    house.do("move", move(area="Pantry", quantity="1 kg"))
    assert house.promised("b") == {"2027-03-10/dinner/family": 40_000}


def test_an_unknown_batch_or_area_is_asked_about(house):
    house.receive("b", "butter", "1 kg")
    assert house.keeps("move", move(batch="?")).code == "batch_unknown"
    assert house.keeps("move", move(area="?")).field == "body.area"
    assert house.keeps("move", move(from_area="?")).field == "body.from_area"
