"""What is found only by moving several lots, or by sharing a need, costs less (PL4)."""

import pytest

from tests.rules.planned_house import batch, delivers, item, need, opened_lasts, pack, planned

TUESDAY, WEDNESDAY, THURSDAY, SATURDAY, SUNDAY = 1, 2, 3, 5, 6


def bought(plan):
    """Item, packs and the day they come."""
    return sorted((row.item, row.packs, row.delivery.at.day) for row in plan.rows)


def test_PL4_a_whole_order_moves_to_the_day_on_which_another_item_can_come_with_it():
    """Flour and sugar reach the minimum only together; the eggs are for Friday."""
    mill = delivers("mill", [THURSDAY, SATURDAY], minimum=500)
    shop = delivers("shop", [WEDNESDAY], charge=90)
    packs = [
        pack("mill", "flour", 1000, 400),
        pack("mill", "sugar", 1000, 150),
        pack("mill", "eggs", 1000, 50),
        pack("shop", "eggs", 1000, 40),
    ]
    needs = [need("flour", 1000, 17), need("sugar", 1000, 17), need("eggs", 1000, 12)]
    plan = planned([item(), item("sugar"), item("eggs")], [mill, shop], packs, needs)
    assert bought(plan) == [("eggs", 1, 11), ("flour", 1, 11), ("sugar", 1, 11)]
    assert plan.cost == 600


def test_PL4_one_need_is_shared_by_two_deliveries_that_both_need_it_for_their_minimum():
    """Butter for Saturday's dinner and for the week after; flour fills up both orders."""
    mill = delivers("mill", [SATURDAY, SUNDAY], minimum=300)
    packs = [pack("mill", "flour", 1000, 100), pack("mill", "butter", 1000, 200, life=8)]
    needs = [need("flour", 1800, 15), need("butter", 1000, 13), need("butter", 1000, 21)]
    plan = planned([item(), item("butter")], [mill], packs, needs)
    assert bought(plan) == [
        ("butter", 1, 13),
        ("butter", 1, 14),
        ("flour", 1, 13),
        ("flour", 1, 14),
    ]
    assert plan.cost == 600


def test_PL4_fresh_food_comes_for_a_covered_need_where_later_it_would_be_left_to_die():
    """1.4 kg in a tin would do on the 11th; a fresh kilo then leaves a kilo of it for the 14th."""
    fishmonger = delivers("fishmonger", [TUESDAY, SATURDAY])
    packs = [pack("fishmonger", "fish", 1000, 900, life=3)]
    needs = [need("fish", 1350, 11), need("fish", 1100, 14)]
    plan = planned([item("fish")], [fishmonger], packs, needs, [batch("fish", 1400)])
    assert bought(plan) == [("fish", 1, 9), ("fish", 1, 13)]
    assert (plan.lost, plan.cost) == (0, 1800)


@pytest.mark.parametrize("sealed", [1000, 250])
def test_PL4_a_large_pack_is_not_cheaper_where_what_is_opened_of_it_dies_unused(sealed):
    """A litre for 80, of which 700 ml (or, in four cartons, 200 ml) die opened; or half for 60."""
    dairy = delivers("dairy", [THURSDAY])
    packs = [
        pack("dairy", "cream", 250, 30, life=1, sealed=250_000),
        pack("dairy", "cream", 1000, 80, sealed=sealed * 1000),
    ]
    needs = [need("cream", 300, 11)]
    plan = planned([item("cream")], [dairy], packs, needs, handling=opened_lasts(1))
    assert [(row.pack.quantity, row.packs) for row in plan.rows] == [(250_000, 2)]
    assert (plan.lost, plan.cost) == (24, 84)
