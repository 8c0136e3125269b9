"""How much is used, and how much must stand there so that it lasts (PL6)."""

from statistics import NormalDist, fmean

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.demand import (
    croston_rate,
    deviation_of_use,
    rare_rate,
    rate_of_use,
    reorder_point,
    review_level,
)

rates = st.floats(0, 10_000)
deviations = st.floats(0, 5_000)
periods = st.floats(0.1, 60)
service_levels = st.floats(0.5, 0.999)
uses = st.lists(st.integers(0, 5_000), min_size=1, max_size=40)


@given(rates, deviations, periods, service_levels, service_levels)
def test_PL6_a_higher_service_level_never_asks_for_less_stock(rate, deviation, lead, one, other):
    low, high = sorted((one, other))

    assert reorder_point(rate, deviation, lead, low) <= reorder_point(rate, deviation, lead, high)


@given(rates, deviations, periods)
def test_PL6_an_even_chance_needs_the_average_use_and_no_safety_stock(rate, deviation, lead):
    assert reorder_point(rate, deviation, lead, 0.5) == pytest.approx(rate * lead)


@given(rates, periods, service_levels)
def test_PL6_use_without_spread_needs_no_safety_stock(rate, lead, service_level):
    assert reorder_point(rate, 0, lead, service_level) == rate * lead


@given(rates, deviations, periods, periods, service_levels)
def test_PL6_the_level_outlasts_the_review_as_well(rate, deviation, review, lead, service_level):
    level = review_level(rate, deviation, review, lead, service_level)

    assert level >= reorder_point(rate, deviation, lead, service_level)
    assert level == reorder_point(rate, deviation, review + lead, service_level)


def test_PL6_what_is_used_nearly_every_day_has_the_rate_of_its_mean():
    week = [500, 620, 480, 0, 550, 700, 610]

    assert rate_of_use(week) == fmean(week)


@pytest.mark.parametrize(("days", "rare"), [(33, False), (34, True)])
def test_PL6_use_is_rare_above_an_average_interval_of_1_32(days, rare):
    series = [1000] * 25 + [0] * (days - 25)

    assert (rate_of_use(series) == rare_rate(series)) is rare
    assert (rate_of_use(series) == fmean(series)) is not rare


@pytest.mark.parametrize("series", [[], [0], [0] * 30])
def test_PL6_what_was_never_used_has_no_rate_and_no_spread(series):
    assert rate_of_use(series) == 0
    assert croston_rate(series) == 0
    assert deviation_of_use(series) == 0


def test_PL6_one_day_of_use_has_no_spread_yet():
    assert deviation_of_use([750]) == 0
    assert deviation_of_use([700, 800]) == pytest.approx(50 * 2**0.5)


@given(st.integers(1, 12), st.integers(1, 5_000), st.integers(1, 8))
def test_PL6_a_use_of_one_size_every_so_many_days_has_exactly_that_rate(interval, size, times):
    series = ([0] * (interval - 1) + [size]) * times

    assert croston_rate(series) == pytest.approx(size / interval)


@given(uses, st.integers(1, 9))
def test_PL6_a_rate_is_in_the_unit_of_the_use(series, factor):
    assert rate_of_use([factor * use for use in series]) == pytest.approx(
        factor * rate_of_use(series)
    )


@given(uses, st.integers(0, 20))
def test_PL6_days_without_use_at_the_end_move_no_croston_average(series, idle):
    assert croston_rate(series + [0] * idle) == croston_rate(series)


def test_PL6_the_correction_takes_out_the_bias_of_crostons_rate():
    """Long runs of a use of 1000 on one day of four: the true rate is 250."""
    draws = NormalDist().samples(400_000, seed=41)
    days = [1000 if NormalDist().cdf(draw) < 0.25 else 0 for draw in draws]
    runs = [days[start : start + 400] for start in range(0, len(days), 400)]

    croston = fmean(croston_rate(run) for run in runs)
    corrected = fmean(rare_rate(run) for run in runs)

    assert croston > 255
    assert corrected == pytest.approx(250, rel=0.02)
