"""'We are out of': the chef is asked and the order desk told, until some of it comes."""

import pytest

from pantry.records.tables import AskedForRow, ItemRow
from tests.commands.house import HOUR, use_by
from tests.commands.larkfield import MANAGER, PORTER


def out(house, item="butter", **more):
    rest = {key: more.pop(key) for key in ("at",) if key in more}
    return house.do("run_out", {"item": item} | more, person=PORTER, **rest)


def still(house):
    """What is asked for still."""
    return [row.item or row.words for row in house.rows(AskedForRow) if not row.closed_at]


def bought(house):
    lines = [{"batch": "new", "item": "butter", "quantity": "250 g"}]
    return house.do("shop_run", {"shop": "Corner shop", "lines": lines}, person=PORTER)


def harvested(house):
    body = {"batch": "new", "item": "butter", "quantity": "250 g", "area": "cold-room"}
    return house.do("harvest", body)


def test_the_chef_is_asked_and_the_books_stay_as_they_are(house):
    house.receive("b", "butter", "1 kg")
    out(house, note="for the scones")
    question = house.question("run_out")
    assert (question.owner, question.about) == ("chef", "butter")
    assert house.available("b") == 1_000_000
    assert house.row(AskedForRow).words == "for the scones"


def test_MS3_of_what_nobody_counts_it_is_out(house):
    out(house, "Salt")
    assert house.row(ItemRow, id="salt").level == "out"


def test_it_is_asked_once_however_often_it_is_said(house):
    out(house)
    out(house)
    assert len(house.questions("run_out")) == 1
    assert still(house) == ["butter", "butter"]


@pytest.mark.parametrize("comes", [bought, harvested])
def test_it_goes_by_itself_once_some_comes(house, comes):
    out(house)
    comes(house)
    assert still(house) == []
    assert house.questions() == []


def test_what_stands_on_hold_is_not_there_yet(house):
    out(house)
    house.receive("new", "butter", "250 g", person=PORTER)
    assert still(house) == ["butter"]
    assert len(house.questions("run_out")) == 1


def test_SY8_what_had_come_before_somebody_looked_answers_nothing(house):
    house.now += 2 * HOUR
    out(house)
    house.receive("new", "butter", "250 g", at=house.now - HOUR)
    assert still(house) == ["butter"]


def test_MS3_a_level_answers_it(house):
    out(house, "salt")
    house.do("set_level", {"item": "salt", "level": "low"})
    assert still(house) == []
    assert house.questions() == []


def test_LG4_it_is_asked_again_where_what_came_is_taken_back(house):
    out(house)
    command = bought(house)
    house.do("correct", {"command": command, "reason": "another item"})
    assert still(house) == ["butter"]
    assert len(house.questions("run_out")) == 1


def test_LG4_taking_an_opening_back_brings_nothing_new(house):
    house.receive("b", "butter", "1 kg")
    command = house.do("open", {"batch": "b", "quantity": "500 g", "child": "o"})
    house.now += HOUR
    out(house)
    house.do("correct", {"command": command, "reason": "not opened"})
    assert still(house) == ["butter"]


def test_the_chef_answers_it(house):
    out(house)
    question = house.question("run_out")
    house.do("settle", {"question": question.id, "answer": "we do without it"}, base=1)
    assert still(house) == []


def test_the_order_desk_sees_to_it(house):
    first = out(house)
    out(house)
    house.do("tick_off", {"asked": first}, person=MANAGER)
    assert still(house) == []
    assert house.questions() == []


@pytest.mark.parametrize("item", ["butter", "salt"])
def test_LG4_whoever_said_it_takes_it_back(house, item):
    before = house.row(ItemRow, id=item).level
    command = out(house, item)
    house.do("correct", {"command": command, "reason": "found some"}, person=PORTER)
    assert house.rows(AskedForRow) == []
    assert house.questions() == []
    assert house.row(ItemRow, id=item).level == before
    again = house.refuses("correct", {"command": command, "reason": "again"})
    assert again.code == "reversed_already"


def test_LG4_another_who_said_it_is_heard_still(house):
    command = out(house)
    out(house)
    house.do("correct", {"command": command, "reason": "found some"}, person=PORTER)
    assert still(house) == ["butter"]
    assert len(house.questions("run_out")) == 1


def test_other_things_are_asked_for_in_words(house):
    command = house.do("ask_for", {"words": "bin liners"}, person=PORTER)
    assert still(house) == ["bin liners"]
    assert house.questions() == []
    done = house.do("tick_off", {"asked": command}, person=MANAGER)
    assert still(house) == []
    house.do("correct", {"command": done, "reason": "not yet"}, person=MANAGER)
    assert still(house) == ["bin liners"]
    house.do("correct", {"command": command, "reason": "found some"}, person=PORTER)
    assert still(house) == []


def test_what_nobody_asked_for_cannot_be_seen_to(house):
    assert house.refuses("tick_off", {"asked": "x"}).code == "asked_for_unknown"


def test_LG6_used_without_naming_the_batch_is_of_what_dies_first(house):
    house.receive("late", "whole-milk", "1 l", use_by(20))
    house.receive("soon", "whole-milk", "1 l", use_by(12))
    house.do("use", {"item": "Whole milk", "quantity": "1.25 l"}, person=PORTER)
    assert (house.available("soon"), house.available("late")) == (0, 750_000)


def test_LG6_more_than_the_books_have_is_used_all_the_same(house):
    house.receive("m", "whole-milk", "1 l", use_by(12))
    command = house.do("use", {"item": "whole-milk", "quantity": "1.5 l"}, person=PORTER)
    assert house.question("overdrawn").owner == "chef"
    house.do("correct", {"command": command, "reason": "too much"})
    assert house.available("m") == 1_000_000


def test_SY3_use_of_what_never_was_there_is_asked_about(house):
    milk = {"item": "whole-milk", "quantity": "1 l"}
    assert house.keeps("use", milk).code == "item_never_there"
    assert house.keeps("use", {"quantity": "1 l"}).code == "use_of_nothing"
    house.do("use", {"item": "salt", "quantity": "some"})
