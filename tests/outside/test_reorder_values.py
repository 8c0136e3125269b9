"""Reorder points, review levels and rare use against published numbers (PL6).

Books print z with two decimals and round as they go; `level` turns such a z back into the service
level it stands for, and the tolerance is half of the last digit printed.
"""

from datetime import timedelta
from statistics import NormalDist

import pytest

from pantry.rules.demand import croston_rate, rare_rate, rate_of_use, reorder_point, review_level
from pantry.rules.par import Replenishment, proposed_levels
from tests.rules.planned_house import batch, delivers, item, pack, planned


def level(z):
    return NormalDist().cdf(z)


def test_PL6_reorder_point_where_the_use_over_the_lead_time_is_given():
    """Stevenson, Operations Management, 14th edition, p. 528, example 8: construction supply.

    Mean 50 and deviation 5 over the lead time, risk of 3 % (z = 1.88): safety 9.40, point 59.40.
    """
    assert reorder_point(50, 5, 1, level(1.88)) == pytest.approx(59.40, abs=0.005)
    assert reorder_point(50, 5, 1, 0.97) == pytest.approx(59.40, abs=0.005)


def test_PL6_reorder_point_with_variable_demand():
    """Inputs: Taylor, Introduction to Management Science, reorder point example (flylib.com).

    30 a day, deviation 5, lead time 10 days, 95 % (z = 1.65): safety 26.1 (computed), point 326.1.
    """
    assert reorder_point(30, 5, 10, level(1.65)) == pytest.approx(326.1, abs=0.05)


def test_PL6_reorder_point_given_a_spread_that_comes_from_the_lead_time():
    """Heizer and Render, Operations Management, p. 543 (fdocuments.net): variable lead time.

    60 a week, lead time 6 weeks with a deviation of 2 weeks: over the lead time 360 and
    60 x 2 = 120; 90 % (z = 1.28): 513.6, in the book 514.
    """
    assert reorder_point(360, 60 * 2, 1, level(1.28)) == pytest.approx(513.6, abs=0.05)


def test_PL6_reorder_point_of_the_hospital_kits():
    """Heizer and Render, Operations Management, example 10 (from memory): 350, 10, z 1.65."""
    assert reorder_point(350, 10, 1, level(1.65)) == pytest.approx(366.5, abs=0.05)


def test_PL6_reorder_point_over_two_days():
    """Heizer and Render, variable demand (from memory): 15 a day, deviation 5, 2 days, z 1.28.

    The book has 39.02 because it rounds the root of 2 to 1.41 (and 5 x 1.41 x 1.28 to 9.02).
    """
    assert reorder_point(15, 5, 2, level(1.28)) == pytest.approx(39.05, abs=0.005)


@pytest.mark.parametrize(("on_hand", "order"), [(48, 866), (13, 901), (100, 814)])
def test_PL6_periodic_review(on_hand, order):
    """Fixed-interval model, q = d (T + L) + z s sqrt(T + L) - I (wizedu.com, question 1717633).

    62 a day, deviation 6, review every 11 days, lead time 3 days, z 2.05.
    """
    assert round(review_level(62, 6, 11, 3, level(2.05)) - on_hand) == order


def days(mean, deviation):
    """Three days of use, in thousandths, whose mean and sample deviation are these."""
    return [1000 * use for use in (mean - deviation, mean, mean + deviation)]


def every(review, lead):
    return Replenishment(timedelta(days=review), timedelta(days=lead), None)


@pytest.mark.parametrize(
    ("mean", "deviation", "lead", "z", "point"),
    [(50, 5, 1, 1.88, 59_400), (30, 5, 10, 1.65, 326_089), (15, 5, 2, 1.28, 39_051)],
)
def test_PL6_the_floor_that_is_proposed_is_the_reorder_point(mean, deviation, lead, z, point):
    """The examples above through the levels of what is kept in, rounded up to thousandths."""
    levels = proposed_levels(days(mean, deviation), every(7, lead), 0, level(z))
    assert levels.floor == point


@pytest.mark.parametrize(("on_hand", "order"), [(48, 866), (13, 901), (100, 814)])
def test_PL6_the_plan_orders_what_periodic_review_orders(on_hand, order):
    """The fixed-interval example above: levels from use, then the order that par wants of them.

    The book rounds 914.02 down; whole packs of one cover all of it, and so are one more.
    """
    levels = proposed_levels(days(62, 6), every(11, 3), 0, level(2.05))
    kept = item("tonic", floor=levels.floor / 1000, order_up_to=levels.order_up_to / 1000)
    found = planned(
        [kept], [delivers("cellar")], [pack("cellar", "tonic", 1)], (), [batch("tonic", on_hand)]
    )
    (row,) = found.rows
    assert (round(row.net / 1000), row.packs, row.because) == (order, order + 1, ("par",))


@pytest.mark.parametrize(
    ("service_level", "z"),
    [(0.90, 1.2816), (0.95, 1.6449), (0.97, 1.8808), (0.98, 2.0537), (0.99, 2.3263)],
)
def test_PL6_the_normal_table(service_level, z):
    """One-sided points of the standard normal distribution, any statistical table (from memory)."""
    assert reorder_point(0, 1, 1, service_level) == pytest.approx(z, abs=0.00005)


RARE = [0, 0, 5, 0, 0, 0, 3, 0, 4, 0]
"""Worked by hand from Croston's rule: first size and interval as start, counted from period 1."""


@pytest.mark.parametrize(("periods", "rate"), [(3, 1.6667), (7, 1.548387), (9, 1.578595)])
def test_PL6_crostons_rate_use_by_use(periods, rate):
    """Croston (1972), smoothing 0.1: sizes 5, 4.8, 4.72 over intervals 3, 3.1, 2.99."""
    assert croston_rate(RARE[:periods]) == pytest.approx(rate, abs=0.00005)


def test_PL6_the_corrected_rate():
    """Syntetos and Boylan (2005): Croston's rate times 1 - 0.1 / 2 = 0.95, here 1.499666."""
    assert rare_rate(RARE) == pytest.approx(1.499666, abs=0.0000005)
    assert rate_of_use(RARE) == rare_rate(RARE)
