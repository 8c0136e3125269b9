"""Costs in whole minor units, the last use taking the remainder."""

from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.records import accounts
from pantry.records.accounts import SUPPLIER, WASTE
from pantry.records.costs import cost_between, share_of_cost
from pantry.records.rows import one
from pantry.records.tables import BatchRow
from tests.hazel_court import COLD_ROOM, DINNER, batch_row


def test_MS1_three_thirds_of_a_pound_cost_a_pound():
    """100 pence over three equal uses: 33, 33, and 34 for the last."""
    batch = batch_row("cream", "cream", 300_000, 100)
    shares = [cost_between(batch, gone, 100_000) for gone in (0, 100_000, 200_000)]
    assert shares == [33, 33, 34]


@given(
    uses=st.lists(st.integers(1, 10**9), min_size=1, max_size=30),
    cost=st.integers(0, 10**9),
)
def test_MS1_the_shares_of_all_uses_are_whole_and_sum_to_the_cost(uses, cost):
    batch = batch_row("any", "any", sum(uses), cost)
    shares, gone = [], 0
    for quantity in uses:
        shares.append(cost_between(batch, gone, quantity))
        gone += quantity
    assert sum(shares) == cost
    assert all(isinstance(share, int) and share >= 0 for share in shares)


@given(
    quantity=st.integers(1, 10**9),
    cost=st.integers(0, 10**9),
    gone=st.integers(0, 10**9),
    used=st.integers(0, 10**9),
)
def test_MS1_a_share_is_within_a_unit_of_its_exact_part(quantity, cost, gone, used):
    batch = batch_row("any", "any", quantity, cost)
    upto, since = min(gone + used, quantity), min(gone, quantity)
    exact = Fraction(cost * (upto - since), quantity)
    assert abs(cost_between(batch, gone, used) - exact) < 1


@pytest.mark.parametrize(
    ("gone", "quantity", "cost"),
    [
        (1_000, 500, 0),  # more was used than there ever was: it cost nothing again
        (-200, 200, 0),  # a count found more than was bought: what was found cost nothing
        (-200, 1_200, 90),
        (0, 5_000, 90),
    ],
)
def test_MS1_more_or_less_than_the_batch_held_costs_no_more_and_no_less(gone, quantity, cost):
    assert cost_between(batch_row("any", "any", 1_000, 90), gone, quantity) == cost


def test_MS1_a_batch_of_nothing_costs_nothing():
    assert cost_between(batch_row("any", "any", 0, 90), 0, 5) == 0


def test_MS1_what_is_still_in_the_house_has_carried_no_cost_away(house):
    house.post("milk", 2_000_000, SUPPLIER, COLD_ROOM)
    house.post("milk", 500_000, COLD_ROOM, accounts.kitchen(DINNER))
    shares = []
    for source, quantity in ((accounts.kitchen(DINNER), 500_000), (COLD_ROOM, 1_500_000)):
        with house.books() as books:
            milk = one(books.connection, BatchRow, house=house.id, id="milk")
            shares.append(share_of_cost(books, milk, quantity))
        house.post("milk", quantity, source, WASTE)
    assert shares == [53, 162], "of 215 pence"
