"""Which batch a need is given (AL1)."""

from datetime import timedelta

import pytest

from pantry.rules.case import Case
from pantry.rules.fefo import Handling, Loss, Source, allocate, one_by_one
from tests.rules.cream import NOW, at, batch, delivery, end_of, need, picked, what_is_left


def test_AL1_the_batch_that_dies_first_goes_first():
    answer = allocate([need("n", 500, 9)], [batch("late", 1000, 20), batch("early", 1000, 10)], NOW)
    assert picked(answer) == [("n", "early", 500)]
    assert answer.short == {}
    assert what_is_left(answer) == [("early", 500), ("late", 1000)]


def test_AL1_a_need_is_given_from_as_many_batches_as_it_takes():
    batches = [batch("a", 300, 10), batch("b", 300, 11), batch("c", 300, 12)]
    answer = allocate([need("n", 700, 9)], batches, NOW)
    assert picked(answer) == [("n", "a", 300), ("n", "b", 300), ("n", "c", 100)]


def test_AL1_a_batch_whose_last_day_is_the_day_before_is_not_counted():
    """Dinner on the 13th, last day the 12th: not counted as cover, it must be ordered."""
    answer = allocate([need("13 March", 500, 13)], [batch("a", 500, 12)], NOW)
    assert answer.picks == ()
    assert answer.short == {"13 March": 500}
    assert answer.lost == (Loss("a", 500, end_of(12)),)


def test_AL1_the_last_usable_instant_is_inclusive():
    dinner = need("n", 500, 13)
    to_the_second = Source("batch", "a", "cream", 500, dinner.until, None, at(1))
    too_early = Source("batch", "a", "cream", 500, dinner.until - timedelta(seconds=1), None, at(1))
    assert allocate([dinner], [to_the_second], NOW).short == {}
    assert allocate([dinner], [too_early], NOW).short == {"n": 500}


def test_AL1_it_must_be_usable_from_wanted_by_through_the_service():
    """Brined for two days: what dies the day before the service is no use, though there in time."""
    answer = allocate([need("n", 500, 12, lead=2)], [batch("a", 500, 11), batch("b", 500, 12)], NOW)
    assert picked(answer) == [("n", "b", 500)]


def test_AL1_what_passes_over_a_long_need_still_serves_a_later_short_one():
    needs = [need("brined", 500, 13, lead=3), need("tray", 500, 11)]
    answer = allocate(needs, [batch("a", 500, 11), batch("b", 500, 13)], NOW)
    assert picked(answer) == [("brined", "b", 500), ("tray", "a", 500)]


def test_AL1_past_its_best_is_counted_and_goes_before_what_is_not():
    stale = Source("batch", "stale", "cream", 500, None, at(2), at(1))
    fresh = Source("batch", "fresh", "cream", 500, None, at(20), at(1))
    assert picked(allocate([need("n", 500, 9)], [fresh, stale], NOW)) == [("n", "stale", 500)]


def test_AL1_what_has_no_end_goes_last():
    answer = allocate([need("n", 500, 9)], [batch("salted", 500, None), batch("a", 500, 27)], NOW)
    assert picked(answer) == [("n", "a", 500)]


def test_AL1_ties_go_to_the_opened_then_the_older_then_the_id():
    batches = [
        batch("b", 100, 10, since=at(3)),
        batch("a", 100, 10, since=at(3)),
        batch("c", 100, 10, since=at(2)),
        batch("d", 100, 10, since=at(4), opened=True),
    ]
    answer = allocate([need("n", 400, 9)], batches, NOW)
    assert [pick.source for pick in answer.picks] == ["d", "c", "a", "b"]


@pytest.mark.parametrize(("late", "short"), [(0, {}), (1, {"n": 500})])
def test_AL1_a_delivery_serves_from_the_instant_it_is_in_the_house(late, short):
    ready = at(9) + timedelta(seconds=late)
    assert allocate([need("n", 500, 9)], [delivery("d", 500, 20, ready)], NOW).short == short


def test_AL1_needs_go_by_wanted_by_then_rank_then_id():
    needs = [
        need("d", 100, 10, rank=1, order_by=9),
        need("c", 100, 9, rank=2, order_by=9),
        need("b", 100, 9, rank=1, order_by=9),
        need("a", 100, 9, rank=2, order_by=9),
    ]
    answer = allocate(needs, [batch("x", 250, 20)], NOW)
    assert picked(answer) == [("b", "x", 100), ("a", "x", 100), ("c", "x", 50)]
    assert answer.short == {"c": 50, "d": 100}


def test_AL1_what_should_have_been_there_is_wanted_now():
    overdue = need("n", 500, 7)
    ready_now = delivery("d", 500, 20, NOW)
    assert picked(allocate([overdue], [ready_now, batch("dead", 500, 7)], NOW)) == [("n", "d", 500)]


def test_AL1_nothing_wanted_leaves_everything_but_what_is_dead():
    answer = allocate([], [batch("a", 500, 9), batch("dead", 300, 7)], NOW)
    assert what_is_left(answer) == [("a", 500)]
    assert answer.lost == (Loss("dead", 300, end_of(7)),)


def test_AL1_an_untouched_source_is_left_as_it_is():
    untouched = batch("a", 500, 20, sealed_quantity=None)
    assert allocate([need("n", 500, 9)], [batch("b", 500, 9), untouched], NOW).left == (untouched,)


def test_PL1_a_lot_that_comes_before_one_that_was_counted_already_goes_first_where_it_dies_first():
    needs = [need("early", 500, 9), need("late", 500, 14)]
    case = Case(needs, [batch("there", 500, None)], NOW, (), Handling())
    lots = [
        delivery("second", 500, None, at(13, 9)),
        delivery("first", 500, 10, at(8, 9)),
        delivery("third", 500, None, at(14, 9)),
    ]
    found = [picked(run.allocation()) for run in one_by_one(case, lots, {}, frozenset())]
    assert found == [
        [("early", "there", 500)],
        [("early", "there", 500), ("late", "second", 500)],
        [("early", "first", 500), ("late", "there", 500)],
    ]
