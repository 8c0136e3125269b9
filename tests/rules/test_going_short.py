"""Who goes short when there is not enough, and what is bought (AL2, PL1)."""

from datetime import timedelta

import pytest

from pantry.rules.fefo import Handling, Loss, Need, Pick, allocate
from tests.rules.cream import (
    HOUR,
    NOW,
    THAWING,
    Market,
    at,
    batch,
    delivery,
    need,
    opened_for,
    picked,
    what_is_left,
)


def test_AL2_what_can_still_be_bought_yields_to_what_cannot():
    needs = [need("can buy", 500, 9, order_by=9), need("cannot", 500, 10)]
    answer = allocate(needs, [batch("a", 700, 20)], NOW)
    assert answer.short == {"can buy": 300}


def test_AL2_an_order_by_that_is_now_can_still_be_met_and_one_that_has_passed_cannot():
    for last_order_by, short in ((NOW, {"n": 200}), (NOW - timedelta(seconds=1), {"o": 200})):
        early = Need("n", "n", "d", "cream", 400, at(9), at(9), 1, "", last_order_by)
        late = Need("o", "o", "d", "cream", 400, at(10), at(10), 2, "", None)
        assert allocate([early, late], [batch("a", 600, 20)], NOW).short == short


def test_AL2_among_what_cannot_be_bought_tables_are_served_by_rank():
    needs = [
        need("staff", 400, 9, rank=3),
        need("children", 400, 10, rank=2),
        need("family", 400, 11, rank=1),
    ]
    answer = allocate(needs, [batch("a", 900, 20)], NOW)
    assert answer.short == {"staff": 300}
    assert picked(answer) == [
        ("staff", "a", 100),
        ("children", "a", 400),
        ("family", "a", 400),
    ]


def test_AL2_rank_takes_nothing_that_the_higher_table_could_not_use():
    needs = [need("staff", 400, 9, rank=3), need("family", 400, 12, rank=1)]
    answer = allocate(needs, [batch("dies", 400, 9), batch("keeps", 100, 20)], NOW)
    assert picked(answer) == [("staff", "dies", 400), ("family", "keeps", 100)]
    assert answer.short == {"family": 300}


def test_AL2_a_promise_that_cannot_be_bought_again_is_not_uncovered_by_a_new_higher_table():
    needs = [need("staff", 400, 10, rank=3), need("new", 400, 9, rank=1)]
    sources = [batch("a", 600, 20)]
    assert allocate(needs, sources, NOW).short == {"staff": 200}
    assert allocate(needs, sources, NOW, covered={"staff": 400}).short == {"new": 200}
    assert allocate(
        needs, sources, NOW, covered={"staff": 400}, yielding=frozenset({"staff"})
    ).short == {"staff": 200}


def test_AL2_a_promise_that_can_be_bought_again_may_yield():
    needs = [need("staff", 400, 10, order_by=9), need("new", 400, 11)]
    answer = allocate(needs, [batch("a", 600, 20)], NOW, covered={"staff": 400})
    assert answer.short == {"staff": 200}


def test_AL2_a_promise_covers_no_more_than_is_still_wanted():
    needs = [need("staff", 100, 10, rank=3), need("new", 400, 9, rank=1)]
    answer = allocate(needs, [batch("a", 300, 20)], NOW, covered={"staff": 400})
    assert answer.short == {"new": 200}


def test_PL1_buying_is_asked_in_time_order_for_what_is_short_until_it_is_covered():
    needs = [need("b", 700, 11, order_by=9), need("a", 300, 9, order_by=8)]
    market = Market(300)
    answer = allocate(needs, [batch("x", 200, 20)], NOW, buy=market)
    assert market.asked == [("a", 100), ("b", 500), ("b", 200)]
    assert answer.short == {}
    assert what_is_left(answer) == [("pack 2", 100)]


def test_PL3_what_is_over_of_a_pack_serves_later_needs_while_in_date():
    needs = [need("a", 300, 9, order_by=8), need("b", 300, 10, order_by=9)]
    market = Market(1000)
    allocate(needs, [], NOW, buy=market)
    assert market.asked == [("a", 300)]
    market = Market(1000, days=1)
    assert allocate(needs, [], NOW, buy=market).lost == (Loss("pack 0", 700, at(10, 16)),)
    assert market.asked == [("a", 300), ("b", 300)]


def test_PL1_buying_ends_where_nobody_sells():
    market = Market(300, packs=1)
    answer = allocate([need("a", 700, 9, order_by=9)], [], NOW, buy=market)
    assert market.asked == [("a", 700), ("a", 400)]
    assert answer.short == {"a": 400}


def test_PL1_buying_ends_where_what_is_sold_does_not_help_and_what_is_sold_is_there():
    market = Market(300, before=-HOUR)
    answer = allocate([need("a", 700, 9, order_by=9)], [], NOW, buy=market)
    assert market.asked == [("a", 700)]
    assert answer.short == {"a": 700}
    assert answer.left == (market.sold[0],)


def test_AL2_nothing_is_bought_for_what_can_no_longer_be_ordered():
    market = Market(300)
    assert allocate([need("a", 700, 9)], [], NOW, buy=market).short == {"a": 700}
    assert market.asked == []


def test_AL2_stock_goes_to_what_cannot_be_bought_and_the_others_are_bought_in_time_order():
    needs = [
        need("can buy", 500, 9, order_by=9),
        need("cannot", 500, 10),
        need("late", 300, 12, order_by=10),
    ]
    market = Market(400)
    answer = allocate(needs, [batch("a", 700, 20)], NOW, buy=market)
    assert answer.short == {}
    assert market.asked == [("can buy", 300), ("late", 200)]


def test_AL2_what_is_over_goes_to_what_cannot_be_bought_though_another_could_use_it_sooner():
    needs = [
        need("first", 200, 9, order_by=9),
        need("second", 300, 10, order_by=9),
        need("cannot", 500, 11),
    ]
    market = Market(500)
    answer = allocate(needs, [batch("a", 100, 20)], NOW, buy=market)
    assert answer.short == {}
    assert market.asked == [("first", 200), ("second", 300)]


def test_AL2_what_was_bought_is_used_though_something_that_dies_first_is_kept_sealed():
    """The family's bottle dies before what is bought, but must stay sealed till the 10th."""
    bottle = batch("bottle", 1000, 12, sealed_quantity=None)
    needs = [need("can buy", 500, 9, order_by=9), need("family", 1000, 10)]
    market = Market(500, days=9)
    answer = allocate(needs, [bottle], NOW, buy=market, handling=opened_for(1))
    assert answer.short == {}
    assert market.asked == [("can buy", 500)]


def test_AL2_what_is_over_of_a_bought_pack_serves_what_cannot_be_bought_before_the_rest():
    needs = [
        need("first", 100, 9, order_by=9),
        need("second", 400, 10, order_by=9),
        need("cannot", 400, 11),
    ]
    market = Market(500)
    answer = allocate(needs, [], NOW, buy=market)
    assert answer.short == {}
    assert market.asked == [("first", 100), ("second", 400)]
    assert sum(source.quantity for source in answer.left) == 100


@pytest.mark.parametrize("frozen", [False, True])
def test_AL2_what_stands_beside_is_offered_to_what_was_refused(frozen):
    """The family's litre must stay sealed (or frozen) until its day; the staff's need would open
    (or thaw) it first, but another bottle does as well."""
    needs = [need("staff", 500, 9, rank=2), need("family", 1000, 12, rank=1)]
    bottles = [
        batch("a", 1000, 20, sealed_quantity=None, frozen=frozen),
        batch("b", 500, 20, sealed_quantity=None, frozen=frozen),
    ]
    handling = THAWING if frozen else opened_for(1)
    answer = allocate(needs, bottles, NOW + HOUR * 8, handling=handling)
    assert picked(answer) == [("staff", "b", 500), ("family", "a", 1000)]
    assert answer.short == {}


def test_AL2_what_stands_beside_goes_by_precedence_too():
    needs = [
        need("staff", 500, 9, rank=2),
        need("family", 500, 10, rank=1),
        need("can buy", 500, 10, order_by=9),
    ]
    bottles = [
        batch("older", 500, 20, sealed_quantity=None),
        batch("younger", 250, 20, sealed_quantity=None, since=at(2)),
    ]
    answer = allocate(needs, bottles, NOW, handling=opened_for(1))
    assert answer.short == {"staff": 250, "can buy": 500}


def test_AL2_a_refusal_does_not_fix_what_others_were_given():
    """No source reaches the long brine; the staff then still get what the family can do without,
    for whom the delivery of the 10th is in time."""
    needs = [
        need("family", 500, 10, rank=1),
        need("brine", 500, 30, rank=2, lead=20),
        need("staff", 500, 9, rank=3),
    ]
    sources = [batch("a", 500, 12), delivery("b", 500, 20, at(10))]
    answer = allocate(needs, sources, NOW, handling=opened_for(1))
    assert answer.short == {"brine": 500}


def test_AL2_odd_rests_of_whole_pieces_do_not_hide_one_another():
    """Two needs have a cut piece fixed. The rest of the one can only be cut from the family's whole
    piece and is refused; the rest of the other comes with the delivery."""
    needs = [
        need("family", 1000, 10, rank=1),
        need("staff", 1000, 9, rank=2),
        need("children", 1000, 11, rank=3),
    ]
    sources = [
        batch("cut", 400, 20),
        batch("other cut", 700, 20),
        batch("whole", 1000, 12),
        delivery("later", 1000, 20, at(11)),
    ]
    fixed = [Pick("staff", "cut", 400), Pick("children", "other cut", 700)]
    answer = allocate(needs, sources, NOW, fixed=fixed, handling=Handling(piece=1000))
    assert answer.short == {"staff": 600}


def test_PL1_nothing_sold_is_nothing_left():
    market = Market(0)
    answer = allocate([need("a", 700, 9, order_by=9)], [], NOW, buy=market)
    assert answer.left == ()
    assert answer.short == {"a": 700}


def test_AL2_time_then_rank_decides_among_what_can_still_be_bought():
    needs = [
        need("late family", 300, 10, rank=1, order_by=9),
        need("early staff", 300, 9, rank=3, order_by=9),
        need("cannot", 300, 11),
    ]
    answer = allocate(needs, [batch("a", 700, 20)], NOW)
    assert answer.short == {"late family": 200}
