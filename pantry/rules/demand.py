"""How much is used, and how much must stand there so that it lasts (PL6).

Statistics, so floats are allowed in here: a rate and a deviation are estimates, in whatever unit
the use is given in, per period. Whoever makes a stock level of them rounds it **up** to whole
thousandths, once. Periods are any length of time as long as all arguments mean the same one.
"""

from collections.abc import Sequence
from math import sqrt
from statistics import NormalDist, fmean, stdev

SMOOTHING = 0.1
"""Weight of the newest value in both of Croston's averages; 0.1 as in his paper (from memory)."""

RARE_INTERVAL = 1.32
"""Average periods from one use to the next above which use is rare.

Syntetos, Boylan and Croston, "On the categorization of demand patterns", Journal of the
Operational Research Society 56 (2005), 495-503 (from memory).
"""


def reorder_point(rate: float, deviation: float, lead: float, service_level: float) -> float:
    """The stock at which an order must go out so that it lasts until the goods are in.

    d L + z s sqrt(L): use over the lead time and the safety stock against its spread.

    Args:
        rate: average use in one period.
        deviation: standard deviation of the use in one period; uses are taken as independent.
        lead: periods from the moment the point is passed until the goods are in.
        service_level: the chance, over 0 and under 1, that the stock lasts.

    Source: Stevenson, Operations Management, "How much to order: fixed-order-interval model" and
    the reorder point models before it; Silver, Pyke and Thomas, Inventory and Production
    Management in Supply Chains, chapter 6 (both from memory).
    """
    return rate * lead + NormalDist().inv_cdf(service_level) * deviation * sqrt(lead)


def review_level(
    rate: float, deviation: float, review: float, lead: float, service_level: float
) -> float:
    """The level an order brings the stock back to, where it can be ordered only every `review`.

    d (T + L) + z s sqrt(T + L): what is ordered now has to last until the order after it is in.
    Arguments and source as for `reorder_point`; `review` is the periods between two orders.
    """
    return reorder_point(rate, deviation, review + lead, service_level)


def rate_of_use(series: Sequence[int]) -> float:
    """Average use in one period: the mean, or for rare use the corrected Croston rate.

    Args:
        series: use in each period without gaps, the oldest first; 0 where nothing was used.
    """
    uses = sum(1 for use in series if use)
    if uses == 0:
        return 0.0
    if len(series) / uses > RARE_INTERVAL:
        return rare_rate(series)
    return fmean(series)


def deviation_of_use(series: Sequence[int]) -> float:
    """Sample standard deviation of the use in one period; 0 where fewer than two are known."""
    return stdev(series) if len(series) > 1 else 0.0


def rare_rate(series: Sequence[int], smoothing: float = SMOOTHING) -> float:
    """Croston's rate less his method's bias: times 1 - smoothing / 2.

    Source: Syntetos and Boylan, "The accuracy of intermittent demand estimates", International
    Journal of Forecasting 21 (2005), 303-314 (from memory).
    """
    return (1 - smoothing / 2) * croston_rate(series, smoothing)


def croston_rate(series: Sequence[int], smoothing: float = SMOOTHING) -> float:
    """Smoothed size of a use over the smoothed interval between uses; 0.0 without any use.

    Both averages start with the first use: its size, and its place counted from period 1; they
    move only in periods with use. Packages differ in how they start, hence in the last digits.

    Source: Croston, "Forecasting and stock control for intermittent demands", Operational Research
    Quarterly 23 (1972), 289-303 (from memory).
    """
    size = interval = 0.0
    last = 0
    for period, use in enumerate(series, start=1):
        if not use:
            continue
        weight = smoothing if last else 1.0
        size += weight * (use - size)
        interval += weight * (period - last - interval)
        last = period
    return size / interval if last else 0.0
