"""Freezing, thawing and cooking one after another, as the books know of it (SL3).

What goes from the freezer into a pan is thawed on its way, whether or not anybody records it.
"""

from datetime import timedelta

import pytest

from tests.commands.house import use_by

FREEZE, THAW, COOK, ASSEMBLE = "freeze", "thaw", "cook", "assemble"
MINUTE = timedelta(minutes=1)


def orders(most):
    """Every order of at most so many steps that a kitchen can do: only frozen food is thawed."""
    found = [()]
    for order in found:
        if len(order) < most:
            in_freezer = order and order[-1] == FREEZE
            steps = (THAW, COOK, ASSEMBLE) if in_freezer else (FREEZE, COOK, ASSEMBLE)
            found.extend((*order, step) for step in steps)
    return [order for order in found if order and order[-1] == FREEZE]


def refused(order):
    """The rule said plainly: whether one of these freezings is forbidden."""
    thawed_before_cooking = thawed_after = cooked = False
    since_cooked = False
    in_freezer = False
    for step in order:
        if in_freezer:
            in_freezer, since_cooked = False, True
            thawed_after = thawed_after or cooked
            thawed_before_cooking = thawed_before_cooking or not cooked
        if step == FREEZE:
            if since_cooked or (thawed_before_cooking and thawed_after):
                return True
            in_freezer = True
        elif step == COOK:
            cooked, since_cooked = True, False
    return False


def do(house, step, batch, child):
    quantity = "1 kg" if house.batch(batch).item == "chicken-bones" else "1 l"
    part = {"batch": batch, "quantity": quantity}
    if step in (FREEZE, THAW):
        house.do(step, part | {"child": child})
        return
    recipe = "Chicken stock" if step == COOK else "Pancake batter"
    body = {"recipe": recipe, "quantity": "1 l", "child": child, "used": [part]}
    house.do("make", body | {"area": "Cold room"})


def held(house, batch):
    return any(account.startswith("hold:") for account in house.balances(batch))


@pytest.mark.parametrize("order", orders(5), ids=" ".join)
def test_SL3_every_order_of_freezing_thawing_and_cooking(house, order):
    """Up to the first freezing that is forbidden: that one goes on hold, and none before it."""
    house.receive("b0", "chicken-bones", "1 kg", use_by(20))
    for number, step in enumerate(order, start=1):
        house.now += MINUTE
        do(house, step, f"b{number - 1}", f"b{number}")
        assert held(house, f"b{number}") == refused(order[:number])
        if held(house, f"b{number}"):
            return


def test_SL3_one_of_several_ingredients_is_enough(house):
    house.receive("b0", "chicken-bones", "1 kg", use_by(20))
    for number, step in enumerate((FREEZE, THAW, COOK, FREEZE, THAW), start=1):
        do(house, step, f"b{number - 1}", f"b{number}")
    house.receive("fresh", "chicken-bones", "1 kg", use_by(20))
    used = [{"batch": "fresh", "quantity": "1 kg"}, {"batch": "b5", "quantity": "1 l"}]
    body = {"recipe": "Chicken stock", "quantity": "2 l", "child": "pot", "used": used}
    house.do("make", body | {"area": "Cold room"})
    house.do("freeze", {"batch": "pot", "quantity": "2 l", "child": "again"})
    assert held(house, "again")
    assert "frozen and thawed before" in house.question("unsafe").against
