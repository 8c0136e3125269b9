"""What orders come to together: goods, charges, minimums (PL4)."""

from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.basket import Basket
from pantry.rules.deliveries import coming
from pantry.rules.lots import Lot
from pantry.rules.market import Offer
from tests.rules.planned_house import HORIZON, LONDON, NOW, delivers, pack

MILL = delivers("mill", minimum=1000, charge=300)
SHOP = delivers("shop")
SELLERS = {"mill": MILL, "shop": SHOP}
FIRST, SECOND = coming(MILL, NOW, HORIZON, LONDON)[1:3]
NEXT_DOOR = coming(SHOP, NOW, HORIZON, LONDON)[1]


def lot(delivery, packs, price=200):
    return Lot(Offer(pack(delivery.supplier, "flour", 1000, price), delivery, None), packs)


def basket(*lots, placed=()):
    found = Basket(SELLERS, frozenset(placed))
    found.add(lots)
    return found


def test_PL4_a_delivery_costs_its_charge_and_what_is_below_the_minimum():
    assert basket(lot(FIRST, 2)).total == 400 + 300 + 600
    assert basket(lot(FIRST, 6)).total == 1200 + 300
    assert basket(lot(NEXT_DOOR, 2)).total == 400


def test_PL4_more_on_a_delivery_fills_up_its_minimum_and_costs_no_second_charge():
    started = basket(lot(FIRST, 2))
    assert started.adding(FIRST, 200) == -200
    assert started.adding(FIRST, 900) == -600
    assert started.adding(SECOND, 200) == 300 + 800


def test_PL4_an_order_already_placed_has_paid_its_charge_and_minimum():
    assert basket(placed=[FIRST.id]).adding(FIRST, 200) == 0
    (order,) = basket(lot(FIRST, 1), placed=[FIRST.id]).orders()
    assert (order.goods, order.charge, order.below_minimum) == (200, 0, 0)


lots = st.builds(
    lot, st.sampled_from((FIRST, SECOND, NEXT_DOOR)), st.integers(1, 9), st.integers(0, 500)
)


@given(st.lists(lots), st.lists(lots))
def test_PL4_the_running_total_is_the_sum_of_the_orders(kept, taken_out):
    found = basket(*kept, *taken_out)
    found.remove(taken_out)
    orders = found.orders()
    assert found.total == sum(o.goods + o.charge + o.below_minimum for o in orders)
    assert orders == basket(*kept).orders()
