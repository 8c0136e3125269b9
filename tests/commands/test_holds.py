"""Hold, release, recall, set aside (LG1, SL2, AL1)."""

from tests.commands.house import at, use_by
from tests.commands.larkfield import CHEF, PORTER

DINNER = "2027-03-10/dinner/family"


def milk(house, batch="m", **more):
    house.receive(batch, "whole-milk", "2 l", use_by(12), **more)


def hold(house, batch="m", **rest):
    return house.do("hold", {"batch": batch, "reason": "smells"}, **rest)


def release(house, batch="m", **rest):
    return house.do("release", {"batch": batch, "reason": "tasted"}, **rest)


def test_what_is_held_is_promised_to_nobody(house):
    milk(house)
    house.menu(DINNER, "rice-pudding")
    hold(house, person=PORTER)
    assert house.balances("m")["hold:cold-room"] == 2_000_000
    assert house.promised("m") == {}


def test_all_of_it_is_held_wherever_it_stands(house):
    milk(house)
    house.menu(DINNER, "rice-pudding")
    house.do("take_out", {"batch": "m", "quantity": "500 ml", "service": DINNER})
    house.do("move", {"batch": "m", "quantity": "300 ml", "area": "Pantry"})
    house.do("set_aside", {"batch": "m", "quantity": "200 ml", "area": "Cold room"})
    hold(house)
    assert house.balances("m") == {
        "hold:cold-room": 1_700_000,
        "hold:pantry": 300_000,
        "supplier": -2_000_000,
    }


def test_what_is_released_may_be_used_again_and_its_question_has_its_answer(house):
    milk(house, verdict="hold")
    house.menu(DINNER, "rice-pudding")
    release(house, person=CHEF)
    assert house.promised("m") == {DINNER: 1_000_000}
    assert house.questions() == []


def test_only_a_chef_releases(house):
    milk(house, verdict="hold")
    body = {"batch": "m", "reason": "?"}
    assert house.refuses("release", body, person=PORTER).code == "role_lacking"


def test_SL2_what_is_past_its_date_is_not_released(house):
    milk(house, verdict="hold")
    house.now = at(13)
    problem = house.refuses("release", {"batch": "m", "reason": "?"})
    assert problem.code == "past_use"
    assert "2027-03-12T23:59:59Z" in problem.detail


def test_what_is_not_there_is_neither_held_nor_released(house):
    milk(house)
    assert house.refuses("release", {"batch": "m", "reason": "?"}).code == "nothing_there"
    hold(house)
    assert house.refuses("hold", {"batch": "m", "reason": "?"}).code == "nothing_there"
    assert house.refuses("hold", {"batch": "?", "reason": "?"}).code == "batch_unknown"


def test_a_recall_holds_every_batch_of_the_lot_whatever_it_was_promised_to(house):
    milk(house, "m", lot="C1")
    milk(house, "n", lot="C1")
    milk(house, "o", lot="C2")
    house.menu(DINNER, "rice-pudding", covers=20)
    house.do("recall", {"lot": "C1", "reason": "glass"}, person=CHEF)
    assert house.promised("m") == house.promised("n") == {}
    assert house.promised("o") == {DINNER: 2_000_000}
    assert house.batch("m").recalled
    assert not house.batch("o").recalled


def test_a_recall_may_be_of_one_item_only(house):
    milk(house, "m", lot="C1")
    house.receive("b", "butter", "1 kg", lot="C1")
    house.do("recall", {"lot": "C1", "item": "Butter", "reason": "glass"})
    assert not house.batch("m").recalled
    assert house.batch("b").recalled


def test_a_recall_follows_into_what_was_opened_and_what_was_made(house):
    milk(house, lot="C1")
    house.do("open", {"batch": "m", "quantity": "1 l", "child": "o"})
    used = [{"batch": "o", "quantity": "500 ml"}]
    batter = {"recipe": "Pancake batter", "quantity": "1 l", "child": "b", "area": "Cold room"}
    house.do("make", batter | {"used": used})
    house.do("recall", {"lot": "C1", "reason": "glass"})
    for batch in ("m", "o", "b"):
        assert house.batch(batch).recalled
        assert house.available(batch) == 0
        assert "hold:cold-room" in house.balances(batch)


def test_a_recalled_batch_is_not_released(house):
    milk(house, lot="C1")
    house.do("recall", {"lot": "C1", "reason": "glass"})
    assert house.refuses("release", {"batch": "m", "reason": "?"}).code == "recalled"


def test_what_is_made_of_recalled_food_is_on_hold(house):
    milk(house, lot="C1")
    house.do("recall", {"lot": "C1", "reason": "glass"})
    batter = {"recipe": "Pancake batter", "quantity": "1 l", "child": "b", "area": "Cold room"}
    house.do("make", batter | {"used": [{"batch": "m", "quantity": "500 ml"}]})
    assert "hold:cold-room" in house.balances("b")


def test_a_lot_nobody_knows_is_refused(house):
    problem = house.refuses("recall", {"lot": "?", "reason": "?"})
    assert (problem.code, problem.value) == ("lot_unknown", "?")
    milk(house, lot="C1")
    body = {"lot": "C1", "item": "butter", "reason": "?"}
    assert house.refuses("recall", body).code == "lot_unknown"


def test_the_emergency_meal_is_nobodys_and_is_freed_again(house):
    milk(house)
    house.menu(DINNER, "rice-pudding")
    aside = {"batch": "m", "quantity": "1.5 l", "area": "Cold room"}
    house.do("set_aside", aside)
    assert house.balances("m")["emergency:cold-room"] == 1_500_000
    assert house.promised("m") == {DINNER: 500_000}
    house.do("set_aside", aside | {"kept": False})
    assert house.promised("m") == {DINNER: 1_000_000}


def test_no_more_is_set_aside_than_stands_there(house):
    milk(house)
    aside = {"batch": "m", "quantity": "3 l", "area": "Cold room"}
    assert house.refuses("set_aside", aside).code == "nothing_there"
    assert house.refuses("set_aside", aside | {"kept": False}).code == "nothing_there"
    assert house.refuses("set_aside", aside | {"area": "?"}).code == "area_unknown"
    assert house.refuses("set_aside", aside | {"batch": "?"}).code == "batch_unknown"
