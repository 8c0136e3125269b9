"""A shop run in one line, and taking all of it back (LG6, LG4)."""

import pytest

from pantry.records.tables import ItemRow, ShopRunLineRow, ShopRunRow
from tests.commands.house import end_of, use_by
from tests.commands.larkfield import CHEF, PORTER

GBP = "GBP"
SHOP = "Sandnes Stores"


def money(minor):
    return {"minor": minor, "currency": GBP}


def bought(batch, item, quantity, **more):
    return {"batch": batch, "item": item, "quantity": quantity} | more


def run(house, *lines, **more):
    more = {"person": PORTER} | more
    rest = {key: more.pop(key) for key in ("person", "at") if key in more}
    return house.do("shop_run", {"shop": SHOP, "lines": list(lines)} | more, **rest)


def test_LG6_a_shop_and_a_total_are_enough(house):
    command = run(house, total=money(1_385))
    row = house.row(ShopRunRow)
    assert (row.command, row.shop, row.total, row.person) == (command, SHOP, 1_385, PORTER)
    assert house.movements(command) == []
    assert house.questions() == []


def test_LG6_what_was_bought_is_in_stock_at_once_whoever_went(house):
    run(house, bought("c", "Whole milk", "2 l", date_mark=use_by(12)))
    batch = house.batch("c")
    assert house.available("c") == 2_000_000
    assert (batch.usable_until, batch.supplier, batch.label != "") == (end_of(12), SHOP, True)
    assert house.balances("c") == {"area:cold-room": 2_000_000, "supplier": -2_000_000}
    assert house.questions() == []


def test_it_goes_where_it_was_put(house):
    run(house, bought("b", "butter", "250 g", area="Pantry"))
    assert house.balances("b")["area:pantry"] == 250_000


def test_a_known_supplier_is_meant_by_its_name(house):
    house.do("shop_run", {"shop": "hill dairy", "lines": [bought("b", "butter", "250 g")]})
    assert house.batch("b").supplier == "hill-dairy"


def test_MS1_the_total_is_never_spread_over_what_was_bought(house):
    lines = [bought("b", "butter", "250 g", cost=money(310)), bought("f", "plain-flour", "1 kg")]
    run(house, *lines, total=money(2_000))
    assert (house.batch("b").cost, house.batch("f").cost) == (310, 0)
    assert [row.cost for row in house.rows(ShopRunLineRow)] == [310, None]


def test_SL2_what_is_past_its_use_by_waits_for_the_chef(house):
    run(house, bought("m", "whole-milk", "1 l", date_mark=use_by(7)), person=CHEF)
    assert house.balances("m")["hold:cold-room"] == 1_000_000
    assert "use-by has passed" in house.question("on_hold").against


def test_a_recalled_lot_waits_for_the_chef(house):
    house.receive("old", "butter", "1 kg", lot="B7")
    house.do("recall", {"lot": "B7", "reason": "glass"})
    run(house, bought("b", "butter", "250 g", lot="B7"))
    assert house.available("b") == 0
    assert [row.about for row in house.questions("on_hold")].count("b") == 1


def test_SL3_what_goes_into_the_freezer_is_frozen_from_then_on(house):
    house.set_item("salmon", frozen_life_days=90)
    run(house, bought("s", "salmon", "1 kg", area="Freezer", date_mark=use_by(10)))
    assert (house.batch("s").state, house.batch("s").usable_until) == ("frozen", None)


def test_SY3_what_the_house_has_no_item_of_is_kept_in_words_for_the_chef(house):
    run(
        house,
        bought("x", "Dragon fruit", {"value": "2", "unit": "each"}),
        bought("b", "butter", "250 g"),
        others=["a bag of ice"],
    )
    words = [row.words for row in house.rows(ShopRunLineRow) if row.words]
    assert words == ["a bag of ice", "Dragon fruit, 2 each"]
    assert "a bag of ice; Dragon fruit, 2 each" in house.question("bought_unknown").recorded
    assert house.available("b") == 250_000


def test_MS3_of_what_nobody_counts_there_is_plenty_again(house):
    house.do("set_level", {"item": "salt", "level": "out"})
    run(house, bought("s", "salt", "1 kg"))
    assert house.row(ItemRow, id="salt").level == "plenty"


@pytest.mark.parametrize(
    ("wrong", "code", "field"),
    [
        ({"area": "Attic"}, "area_unknown", "body.lines[1].area"),
        ({"quantity": "some"}, "number_unreadable", "body.lines[1].quantity"),
        ({"batch": "b"}, "batch_taken", "body.batch"),
        ({"cost": {"minor": 1, "currency": "NOK"}}, "currency_foreign", None),
        ({"date_mark": {"kind": "use_by", "date": "x"}}, "date_mark_unreadable", None),
    ],
)
def test_SY3_what_cannot_be_applied_is_kept_whole_as_it_came(house, wrong, code, field):
    lines = [bought("b", "butter", "250 g"), bought("m", "whole-milk", "1 l") | wrong]
    problem = house.keeps("shop_run", {"shop": SHOP, "lines": lines}, person=PORTER)
    assert problem.code == code
    assert field in (None, problem.field)
    assert house.movements() == []
    assert house.rows(ShopRunRow) == []
    assert house.question("cannot_apply").owner == "chef"


def test_LG4_all_of_it_is_taken_back_at_once(house):
    lines = [
        bought("b", "butter", "250 g"),
        bought("m", "whole-milk", "1 l", date_mark=use_by(7)),
        bought("x", "Dragon fruit", "2"),
    ]
    command = run(house, *lines, total=money(900))
    house.do("correct", {"command": command, "reason": "typed wrongly"}, person=PORTER)
    assert (house.balances("b"), house.balances("m")) == ({}, {})
    assert (house.rows(ShopRunRow), house.rows(ShopRunLineRow)) == ([], [])
    assert house.questions() == []
    again = house.refuses("correct", {"command": command, "reason": "again"})
    assert again.code == "reversed_already"


def test_LG4_a_shop_run_without_a_line_is_taken_back_too(house):
    command = run(house, total=money(900))
    house.do("correct", {"command": command, "reason": "typed wrongly"})
    assert house.rows(ShopRunRow) == []


def test_LG4_not_once_something_bought_is_eaten(house):
    command = run(house, bought("b", "butter", "250 g"))
    house.do("use", {"batch": "b", "quantity": "100 g"})
    refused = house.refuses("correct", {"command": command, "reason": "typed wrongly"})
    assert refused.code == "depended_on"
    assert house.row(ShopRunRow).command == command
