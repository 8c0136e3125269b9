"""What was given before and stays given (AL2)."""

import pytest

from pantry.rules.fefo import Handling, Pick, allocate
from tests.rules.cream import (
    NOW,
    THAWING,
    at,
    batch,
    delivery,
    end_of,
    need,
    opened_for,
    picked,
)


def test_AL2_a_fixed_pick_stays_though_another_batch_dies_first():
    """The chef keeps the best for the family and gives the shorter dated to staff."""
    needs = [need("family", 500, 9), need("staff", 500, 10)]
    batches = [batch("early", 500, 10), batch("late", 500, 20)]
    answer = allocate(needs, batches, NOW, fixed=[Pick("family", "late", 500)])
    assert picked(answer) == [("family", "late", 500), ("staff", "early", 500)]


def test_AL2_a_fixed_pick_covers_its_part_and_the_rest_is_given_anew():
    answer = allocate(
        [need("n", 500, 9)],
        [batch("a", 300, 10), batch("b", 900, 20)],
        NOW,
        fixed=[Pick("n", "b", 100)],
    )
    assert sorted(picked(answer)) == [("n", "a", 300), ("n", "b", 200)]


def test_AL2_a_fixed_pick_is_cut_to_what_its_source_still_has():
    answer = allocate(
        [need("n", 500, 9)],
        [batch("a", 200, 20), batch("b", 900, 20)],
        NOW,
        fixed=[Pick("n", "a", 500)],
    )
    assert picked(answer) == [("n", "a", 200), ("n", "b", 300)]


def test_AL2_a_fixed_pick_is_cut_to_what_its_need_still_wants():
    answer = allocate([need("n", 300, 9)], [batch("a", 900, 20)], NOW, fixed=[Pick("n", "a", 500)])
    assert picked(answer) == [("n", "a", 300)]


def test_AL2_a_fixed_pick_cut_in_an_item_of_whole_pieces_is_cut_to_whole_ones():
    answer = allocate(
        [need("n", 3000, 9)],
        [batch("a", 1400, 20), batch("b", 9000, 25)],
        NOW,
        fixed=[Pick("n", "a", 3000)],
        handling=Handling(piece=1000),
    )
    assert picked(answer) == [("n", "a", 1000), ("n", "b", 2000)]


@pytest.mark.parametrize("gone", [Pick("n", "gone", 500), Pick("gone", "a", 500)])
def test_AL2_a_fixed_pick_of_what_is_gone_is_dropped(gone):
    answer = allocate([need("n", 500, 9)], [batch("a", 500, 20)], NOW, fixed=[gone])
    assert picked(answer) == [("n", "a", 500)]


@pytest.mark.parametrize(
    "unfit", [batch("a", 500, 8), delivery("a", 500, 20, at(10))], ids=["dead", "late"]
)
def test_SL2_a_fixed_pick_of_what_is_dead_or_late_by_then_is_released(unfit):
    answer = allocate(
        [need("n", 500, 9)], [unfit, batch("b", 500, 20)], NOW, fixed=[Pick("n", "a", 500)]
    )
    assert picked(answer) == [("n", "b", 500)]


def test_AL2_where_a_fixed_source_has_shrunk_precedence_says_who_keeps():
    needs = [need("all staff", 300, 9, rank=3), need("family", 300, 10, rank=1)]
    fixed = [Pick("all staff", "a", 300), Pick("family", "a", 300)]
    answer = allocate(needs, [batch("a", 400, 20)], NOW, fixed=fixed)
    assert picked(answer) == [("all staff", "a", 100), ("family", "a", 300)]


def test_AL2_a_fixed_frozen_pick_keeps_its_thaw_though_that_has_begun():
    """Promised for today, to be taken out early yesterday, before it had to be: that has begun."""
    fixed = Pick("n", "joint", 500, thaw_from=at(7, 9))
    answer = allocate(
        [need("n", 500, 8)],
        [batch("joint", 500, None, frozen=True)],
        NOW,
        fixed=[fixed],
        handling=THAWING,
    )
    assert answer.picks == (fixed,)


def test_RQ3_a_container_that_a_fixed_pick_opens_later_is_opened_now_if_it_lives_till_then():
    bottle = batch("bottle", 1000, 20, sealed_quantity=None)
    needs = [need("today", 300, 8), need("pinned", 300, 10)]
    fixed = [Pick("pinned", "bottle", 300)]
    answer = allocate(needs, [bottle], NOW, fixed=fixed, handling=opened_for(3))
    assert picked(answer) == [("today", "bottle", 300), ("pinned", "bottle", 300)]
    assert [(left.quantity, left.usable_until) for left in answer.left] == [(400, end_of(10))]


def test_AL2_a_container_that_a_fixed_pick_opens_later_is_not_opened_if_it_would_die_before():
    bottle = batch("bottle", 1000, 20, sealed_quantity=None)
    needs = [need("today", 300, 8), need("pinned", 300, 10), need("after", 300, 11)]
    fixed = [Pick("pinned", "bottle", 300)]
    answer = allocate(needs, [bottle], NOW, fixed=fixed, handling=opened_for(2))
    assert picked(answer) == [("pinned", "bottle", 300), ("after", "bottle", 300)]
    assert answer.short == {"today": 300}


def test_AL2_a_container_still_to_be_delivered_is_not_opened_before_it_is_there():
    crate = delivery("crate", 1000, 20, at(9), sealed_quantity=None)
    needs = [need("today", 300, 8), need("pinned", 300, 10)]
    fixed = [Pick("pinned", "crate", 300)]
    answer = allocate(needs, [crate], NOW, fixed=fixed, handling=opened_for(5))
    assert answer.short == {"today": 300}


def test_AL2_two_thaws_of_one_source_for_one_need_stay_two():
    """One bag of a kilo and a half was thawed for the 10th; the dinner after takes its rest and a
    part of the other bag, which is taken out a day later."""
    bags = batch("bags", 3000, None, sealed_quantity=1500, frozen=True)
    needs = [need("a", 500, 10), need("b", 1500, 11)]
    answer = allocate(needs, [bags], NOW, handling=THAWING)
    assert answer.picks == (
        Pick("a", "bags", 500, thaw_from=at(9)),
        Pick("b", "bags", 1000, thaw_from=at(9)),
        Pick("b", "bags", 500, thaw_from=at(10)),
    )
    again = allocate(needs, [bags], NOW, fixed=answer.picks, handling=THAWING)
    assert again == answer


def test_AL2_a_second_thaw_that_was_fixed_is_not_moved_to_the_rest_of_the_first():
    bags = batch("bags", 2000, None, sealed_quantity=1000, frozen=True)
    fixed = (
        Pick("a", "bags", 500, thaw_from=at(9)),
        Pick("b", "bags", 500, thaw_from=at(10)),
    )
    needs = [need("a", 500, 10), need("b", 500, 11)]
    assert allocate(needs, [bags], NOW, fixed=fixed, handling=THAWING).picks == fixed


def test_RQ3_a_container_opened_early_is_opened_once():
    """Opened today for three days; its use on the 9th as well does not lengthen its life."""
    bottle = batch("bottle", 1000, 20, sealed_quantity=None)
    needs = [need("today", 200, 8), need("tomorrow", 200, 9), need("pinned", 200, 10)]
    fixed = [Pick("pinned", "bottle", 200)]
    answer = allocate(needs, [bottle], NOW, fixed=fixed, handling=opened_for(3))
    assert answer.short == {}
    assert [left.usable_until for left in answer.left] == [end_of(10)]


def test_AL2_a_container_is_not_opened_early_if_the_last_of_its_fixed_picks_would_suffer():
    """Pinned for the 10th and, out of the same bottle, for the 11th: opened on the 9th for three
    days it would do for both, opened today only for the first."""
    bottle = batch("bottle", 1000, 20, sealed_quantity=None)
    fixed = [Pick("first", "bottle", 200), Pick("second", "bottle", 200)]
    pinned = [need("first", 200, 10), need("second", 200, 11)]
    for day, short in ((9, {}), (8, {"n": 200})):
        needs = [*pinned, need("n", 200, day)]
        answer = allocate(needs, [bottle], NOW, fixed=fixed, handling=opened_for(3))
        assert answer.short == short
