"""What to order, of whom, by when: examples from the trade (PL1, PL3, PL4, PL5, RQ5)."""

from dataclasses import replace
from datetime import timedelta
from fractions import Fraction

import pytest

from pantry.rules.deadlines import Alert
from pantry.rules.house_time import Span
from pantry.rules.menu import Ingredient, Recipe, RecipeKind
from pantry.rules.supply import Closure, ClosureKind
from tests.rules.planned_house import (
    HOUSE,
    NOW,
    at,
    batch,
    coming,
    delivers,
    figures,
    item,
    need,
    opened_lasts,
    pack,
    planned,
)

TUESDAY, THURSDAY, FRIDAY = 1, 3, 4
PAR = item(floor=2000, order_up_to=5000)
MILL = delivers("mill")
KILO = pack("mill", "flour", 1000)


def dinner(day):
    return f"2027-03-{day:02}/dinner/family"


def test_PL1_what_stands_there_is_not_ordered_again():
    plan = planned([item()], [MILL], [KILO], [need("flour", 800, 10)], [batch("flour", 800)])
    assert plan.rows == ()
    assert plan.cost == 0


def test_PL1_net_is_what_allocation_could_not_cover():
    plan = planned([item()], [MILL], [KILO], [need("flour", 800, 10)], [batch("flour", 300)])
    assert figures(plan) == [("flour", 500, 1, 10, (dinner(10),))]
    (row,) = plan.rows
    assert (row.supplier, row.pack, row.cost) == ("mill", KILO, 100)
    assert row.wanted_by == at(10, 12)
    assert row.order_by == at(9, 22)


def test_PL1_stock_that_dies_before_the_meal_is_not_counted():
    """Menu on the 13th, batch usable until the 12th: it must be ordered."""
    stock = [batch("flour", 800, dies=12)]
    plan = planned([item()], [MILL], [KILO], [need("flour", 800, 13)], stock)
    assert figures(plan) == [("flour", 800, 1, 13, (dinner(13),))]


def test_PL1_an_open_order_that_comes_in_time_counts_and_one_that_does_not_does_not():
    for day, rows in ((9, 0), (10, 0), (11, 1)):
        plan = planned(
            [item()], [MILL], [KILO], [need("flour", 800, 10)], [coming("flour", 800, day)]
        )
        assert len(plan.rows) == rows


def test_PL1_two_needs_of_one_delivery_are_one_requirement():
    needs = [need("flour", 2100, 10, id_="a"), need("flour", 900, 10, hour=15, id_="b")]
    plan = planned([item()], [MILL], [pack("mill", "flour", 2500)], needs)
    assert figures(plan) == [("flour", 3000, 2, 10, (dinner(10),))]


def test_PL1_par_orders_up_to_from_what_is_available():
    plan = planned([PAR], [MILL], [KILO], stock=[batch("flour", 1500)])
    assert figures(plan) == [("flour", 3500, 4, 9, ("par",))]
    assert plan.rows[0].wanted_by == plan.rows[0].delivery.at


def test_PL1_at_the_floor_nothing_is_ordered():
    assert planned([PAR], [MILL], [KILO], stock=[batch("flour", 2000)]).rows == ()


def test_PL1_without_an_order_up_to_par_orders_up_to_the_floor():
    plan = planned([item(floor=2000)], [MILL], [KILO], stock=[batch("flour", 1500)])
    assert figures(plan) == [("flour", 500, 1, 9, ("par",))]


@pytest.mark.parametrize(("size", "packs"), [(1000, 6), (500, 12), (2500, 3), (700, 9)])
def test_PL1_par_and_menu_are_never_both_ordered(size, packs):
    """3 kg there, 4 kg wanted, floor 2, order up to 5: six kilos in all, whatever the pack."""
    plan = planned(
        [PAR],
        [MILL],
        [pack("mill", "flour", size)],
        [need("flour", 4000, 9)],
        [batch("flour", 3000)],
    )
    assert figures(plan) == [("flour", 6000, packs, 9, (dinner(9), "par"))]


def test_PL1_what_is_over_of_the_menus_packs_can_keep_par():
    """One pack of 4 kg for the missing kilo leaves 3 kg, which is above the floor."""
    plan = planned(
        [PAR],
        [MILL],
        [pack("mill", "flour", 4000)],
        [need("flour", 4000, 9)],
        [batch("flour", 3000)],
    )
    assert figures(plan) == [("flour", 1000, 1, 9, (dinner(9),))]


def test_PL1_what_is_promised_to_a_menu_far_off_is_not_par():
    plan = planned([PAR], [MILL], [KILO], [need("flour", 4000, 18)], [batch("flour", 5000)])
    assert figures(plan) == [("flour", 4000, 4, 9, ("par",))]


def test_PL1_an_open_order_counts_for_par_from_the_day_it_comes():
    stock = [batch("flour", 1500), coming("flour", 3000, 10)]
    daily = planned([PAR], [MILL], [KILO], stock=stock)
    assert figures(daily) == [("flour", 3500, 4, 9, ("par",))]
    weekly = planned([PAR], [delivers("mill", [FRIDAY])], [KILO], stock=stock)
    assert weekly.rows == ()


def test_PL1_stock_that_dies_is_replaced_when_it_falls_below_the_floor():
    """3 kg die on Wednesday night: Wednesday's delivery is the last before that, and 2 kg do."""
    plan = planned([PAR], [MILL], [KILO], stock=[batch("flour", 3000, dies=10)])
    assert figures(plan) == [("flour", 2000, 2, 10, ("par",))]


def test_RQ5_par_falls_with_daily_use_and_is_filled_up_again_and_again():
    """4 kg, half a kilo every morning: 2 kg on Thursday, on Friday there would be less."""
    plan = planned(
        [replace(PAR, daily_per_head=250_000)],
        [MILL],
        [KILO],
        stock=[batch("flour", 4000)],
        people=2,
        horizon=at(18, 12),
    )
    assert figures(plan) == [
        ("flour", 3000, 3, 11, ("par",)),
        ("flour", 3000, 3, 17, ("par",)),
    ]
    first = plan.rows[0].derivation.par
    assert (sum(n for _, n in first.free), first.lowest) == (2_000_000, 1_500_000)


def test_RQ5_daily_use_without_par_is_ordered_as_it_falls_short():
    plan = planned(
        [item(daily_per_head=250)],
        [MILL],
        [KILO],
        stock=[batch("flour", 1000)],
        people=2,
        horizon=at(11, 12),
    )
    assert figures(plan) == [("flour", 500, 1, 9, ("daily use",))]


def test_RQ5_daily_use_beyond_what_par_brings_is_ordered_too():
    """Order up to 3 kg, 1 kg a day, a delivery a week: par alone would not last."""
    plan = planned(
        [item(floor=1000, order_up_to=3000, daily_per_head=500)],
        [delivers("mill", [TUESDAY])],
        [KILO],
        stock=[batch("flour", 2000)],
        people=2,
        horizon=at(14, 12),
    )
    assert figures(plan) == [("flour", 5000, 5, 9, ("par", "daily use"))]
    assert not plan.projection.allocations["flour"].short


def test_PL3_the_latest_delivery_that_does_is_taken():
    twice = delivers("mill", [TUESDAY, THURSDAY])
    plan = planned([item()], [twice], [KILO], [need("flour", 800, 12)])
    assert figures(plan) == [("flour", 800, 1, 11, (dinner(12),))]


def test_PL3_the_receiving_margin_comes_off_wanted_by():
    careful = replace(HOUSE, receiving_margin=Span(exact=timedelta(hours=5, seconds=1)))
    plan = planned([item()], [MILL], [KILO], [need("flour", 800, 10)], house=careful)
    assert plan.rows[0].delivery.at == at(9)


def test_PL3_nothing_in_the_margin_is_given_what_has_only_just_come():
    """Flour that comes at 07:00 on the 10th is not there for a need at 08:00 of that day."""
    careful = replace(HOUSE, receiving_margin=Span(exact=timedelta(hours=2)))
    needs = [need("flour", 500, 10, hour=8, id_="early"), need("flour", 400, 10, id_="late")]
    plan = planned([item()], [MILL], [KILO], needs, house=careful)
    assert figures(plan) == [("flour", 500, 1, 9, (dinner(10),))]


def test_PL3_life_on_arrival_must_reach_the_need():
    twice = delivers("mill", [TUESDAY, THURSDAY])
    for life, comes in ((2, 11), (1, None)):
        fresh = pack("mill", "flour", 1000, life=life)
        plan = planned([item()], [twice], [fresh], [need("flour", 800, 12)])
        assert plan.rows[0].delivery == comes or plan.rows[0].delivery.at == at(comes)
    assert plan.rows[0].alert is Alert.MISSED


def test_PL3_whole_packs_and_the_rest_serves_later_needs_while_in_date():
    """A 2.5 kg pack for 2 kg leaves half a kilo, that is used on the 12th or dead by then."""
    needs = [need("flour", 2000, 10), need("flour", 400, 12)]
    for life, rows in ((3, 1), (2, 2)):
        plan = planned([item()], [MILL], [pack("mill", "flour", 2500, life=life)], needs)
        assert [row.packs for row in plan.rows] == [1] * rows
        assert not plan.projection.allocations["flour"].short


def test_PL3_of_several_packs_and_suppliers_the_cheapest_for_what_is_short():
    packs = [
        pack("mill", "flour", 1000, 300),
        pack("mill", "flour", 5000, 700),
        pack("shop", "flour", 1500, 320),
    ]
    suppliers = [MILL, delivers("shop")]
    for grams, chosen in ((900, "mill:flour:1000"), (1200, "shop:flour:1500")):
        plan = planned([item()], suppliers, packs, [need("flour", grams, 10)])
        assert [row.pack.id for row in plan.rows] == [chosen]
    plan = planned([item()], suppliers, packs, [need("flour", 4000, 10)])
    assert [row.pack.id for row in plan.rows] == ["mill:flour:5000"]


def test_PL3_a_boat_that_may_fail_is_planned_one_delivery_earlier():
    boat = delivers("boat", [TUESDAY, THURSDAY], may_fail=True)
    fish = pack("boat", "flour", 1000)
    (row,) = planned([item()], [boat], [fish], [need("flour", 800, 12)]).rows
    assert (row.delivery.at, row.at_risk) == (at(9), False)
    short_lived = replace(fish, life_on_arrival_days=3)
    (row,) = planned([item()], [boat], [short_lived], [need("flour", 800, 12)]).rows
    assert (row.delivery.at, row.at_risk) == (at(11), True)


def test_PL3_a_boat_too_late_to_be_sure_of_is_still_planned_and_said_to_be_at_risk():
    boat = delivers("boat", [TUESDAY, THURSDAY], may_fail=True)
    plan = planned(
        [item()], [boat], [pack("boat", "flour", 1000)], [need("flour", 800, 12)], now=at(9)
    )
    (row,) = plan.rows
    assert (row.delivery.at, row.at_risk, row.alert) == (at(11), True, Alert.NONE)


def test_PL3_an_opened_pack_that_does_not_keep_is_bought_again():
    """A litre each time, opened for a tenth of it; opened it lasts two days."""
    needs = [need("cream", 100, 10), need("cream", 100, 14)]
    plan = planned(
        [item("cream")],
        [MILL],
        [pack("mill", "cream", 1000, sealed=1000_000)],
        needs,
        handling=opened_lasts(2),
    )
    assert [row.packs for row in plan.rows] == [1, 1]
    assert not plan.projection.allocations["cream"].short


def test_PL2_a_closed_day_moves_the_order_with_the_delivery():
    closed = Closure(at(10).date(), ClosureKind.NO_DELIVERY)
    mill = delivers("mill", closures=(closed,))
    plan = planned([item()], [mill], [KILO], [need("flour", 800, 10)])
    assert (plan.rows[0].delivery.at, plan.rows[0].order_by) == (at(9), at(8, 22))


def test_PL4_a_line_moves_to_a_delivery_that_comes_anyway():
    """Flour could come on Thursday; the sugar has to come on Tuesday: one charge less."""
    twice = delivers("mill", [TUESDAY, THURSDAY], charge=900)
    packs = [KILO, pack("mill", "sugar", 1000)]
    needs = [need("flour", 800, 12), need("sugar", 800, 10)]
    plan = planned([item(), item("sugar")], [twice], packs, needs)
    assert [row.delivery.at for row in plan.rows] == [at(9), at(9)]
    assert plan.cost == 100 + 100 + 900
    moved = next(row for row in plan.rows if row.item == "flour")
    assert "PL4" in moved.derivation.rules


def test_PL4_an_order_already_placed_costs_no_second_charge():
    twice = delivers("mill", [TUESDAY, THURSDAY], charge=900, minimum=5000)
    placed = frozenset(["mill/2027-03-09T07:00:00Z"])
    plan = planned([item()], [twice], [KILO], [need("flour", 800, 12)], placed=placed)
    assert (plan.rows[0].delivery.at, plan.cost) == (at(9), 100)


def test_PL4_what_is_below_the_minimum_is_in_the_cost():
    mill = delivers("mill", minimum=450, charge=50)
    plan = planned([item()], [mill], [KILO], [need("flour", 2500, 10)])
    (order,) = plan.orders
    assert (order.goods, order.charge, order.below_minimum) == (300, 50, 150)
    assert plan.cost == 500


def test_PL4_what_is_left_to_die_is_in_the_cost_at_its_share_of_the_price():
    plan = planned([item()], [MILL], [pack("mill", "flour", 1000, life=2)], [need("flour", 800, 9)])
    assert (plan.lost, plan.cost) == (20, 120)
    kept = planned([item()], [MILL], [KILO], [need("flour", 800, 9)])
    assert kept.cost == 100


def test_PL5_the_alert_follows_the_clock():
    for now, alert in (
        (at(8, 21, 59), Alert.NONE),
        (at(8, 22), Alert.OPEN),
        (at(9, 19, 59), Alert.OPEN),
        (at(9, 20), Alert.LAST_CALL),
        (at(9, 22), Alert.LAST_CALL),
    ):
        (row,) = planned([item()], [MILL], [KILO], [need("flour", 800, 10)], now=now).rows
        assert (row.alert, row.order_by) == (alert, at(9, 22))


def test_PL5_what_no_delivery_can_make_is_missed_and_names_the_last_that_could():
    late = at(9, 22) + timedelta(seconds=1)
    plan = planned([item()], [MILL], [KILO], [need("flour", 800, 10)], now=late)
    (row,) = plan.rows
    assert (row.alert, row.net, row.packs, row.cost) == (Alert.MISSED, 800_000, 0, 0)
    assert (row.supplier, row.order_by, row.delivery.at) == ("mill", at(9, 22), at(10))
    assert plan.projection.allocations["flour"].short == {row.derivation.lines[0].need.id: 800_000}


def test_PL5_what_nobody_sells_is_missed_without_a_name():
    plan = planned([item()], [MILL], [], [need("flour", 800, 10)], [batch("flour", 300)])
    (row,) = plan.rows
    assert (row.alert, row.net, row.supplier, row.order_by) == (Alert.MISSED, 500_000, None, None)


def test_PL1_par_that_nobody_can_bring_is_said():
    plan = planned([PAR], [MILL], [], stock=[batch("flour", 1500)])
    (row,) = plan.rows
    assert (row.alert, row.net, row.because) == (Alert.MISSED, 3_500_000, ("par",))


def test_PL1_what_is_made_here_is_ordered_as_its_ingredients():
    """Two kilos of dough want 1.2 kg flour the day before, and par on dough orders nothing."""
    dough = Recipe(
        "dough",
        "Dough",
        RecipeKind.PREPARATION,
        Fraction(1000),
        (Ingredient("flour", Fraction(600)),),
        makes="dough",
        lead=Span(days=1),
        life_days=3,
    )
    plan = planned(
        [item(), item("dough", floor=500)],
        [MILL],
        [KILO],
        [need("dough", 2000, 11)],
        preparations={"dough": dough},
    )
    assert figures(plan) == [("flour", 1200, 2, 10, (dinner(11),))]
    assert plan.rows[0].wanted_by == at(10, 12)


def test_AL2_the_lower_rank_goes_short_of_what_cannot_be_bought_any_more():
    needs = [need("flour", 800, 9, rank=2, id_="staff"), need("flour", 800, 9, id_="family")]
    plan = planned([item()], [MILL], [KILO], needs, [batch("flour", 1000)], now=at(8, 23))
    assert plan.projection.allocations["flour"].short == {"staff": 600_000}
    (row,) = plan.rows
    assert (row.alert, row.net) == (Alert.MISSED, 600_000)


def test_PL1_a_need_beyond_the_horizon_is_planned_from_its_own_deliveries():
    plan = planned([item()], [MILL], [KILO], [need("flour", 800, 28)], horizon=at(15))
    assert plan.rows[0].delivery.at == at(28, 6)  # 07:00 in summer time


def test_PL1_time_alone_moves_the_plan():
    """Nothing is decided; the order-by passes, and the order becomes a missed one."""
    needs = [need("flour", 800, 10)]
    before = planned([item()], [MILL], [KILO], needs, now=NOW)
    after = planned([item()], [MILL], [KILO], needs, now=before.rows[0].order_by)
    assert before.rows[0].packs == after.rows[0].packs == 1
