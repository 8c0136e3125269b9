"""What opening, thawing and whole pieces imply for a projection (RQ3, RQ1)."""

import pytest

from pantry.rules.fefo import Handling, Loss, Pick, allocate
from pantry.rules.house_time import Span
from tests.rules.cream import (
    HOUR,
    NOW,
    THAWING,
    at,
    batch,
    delivery,
    end_of,
    need,
    opened_for,
    picked,
    what_is_left,
)


def test_RQ3_stock_that_dies_before_the_next_need_leaves_on_its_day():
    needs = [need("a", 200, 9), need("b", 500, 12)]
    answer = allocate(needs, [batch("x", 500, 10), batch("y", 500, 20)], NOW)
    assert picked(answer) == [("a", "x", 200), ("b", "y", 500)]
    assert answer.lost == (Loss("x", 300, end_of(10)),)
    assert answer.left == ()


def test_RQ3_opening_a_pack_starts_its_opened_life():
    """A bottle of a litre, opened on the 9th for three days: its rest dies with the 11th."""
    bottle = batch("bottle", 1000, 20, sealed_quantity=None)
    needs = [need("a", 300, 9), need("b", 300, 11), need("c", 300, 12)]
    answer = allocate(needs, [bottle], NOW, handling=opened_for(3))
    assert picked(answer) == [("a", "bottle", 300), ("b", "bottle", 300)]
    assert answer.short == {"c": 300}
    assert answer.lost == (Loss("bottle", 400, end_of(11)),)


def test_RQ3_no_more_units_are_opened_than_needed_and_the_opened_rest_goes_first():
    case = batch("case", 6000, 20, sealed_quantity=1000)
    needs = [need("a", 1300, 9), need("b", 500, 10)]
    answer = allocate(needs, [case], NOW, handling=opened_for(3))
    assert picked(answer) == [("a", "case", 1300), ("b", "case", 500)]
    opened, sealed = answer.left
    assert (opened.id, opened.quantity, opened.opened, opened.sealed_quantity) == (
        "case",
        200,
        True,
        0,
    )
    assert opened.usable_until == end_of(11)
    assert (sealed.id, sealed.quantity, sealed.opened, sealed.sealed_quantity) == (
        "case",
        4000,
        False,
        1000,
    )
    assert sealed.usable_until == end_of(20)


def test_RQ3_what_is_taken_from_an_opened_rest_and_a_sealed_unit_is_one_pick():
    case = batch("case", 2000, 20, sealed_quantity=1000)
    answer = allocate([need("a", 300, 9), need("b", 900, 10)], [case], NOW, handling=opened_for(3))
    assert picked(answer) == [("a", "case", 300), ("b", "case", 900)]


def test_RQ3_an_opened_rest_never_outlives_the_date_mark():
    answer = allocate(
        [need("a", 300, 9), need("b", 300, 11)],
        [batch("a", 1000, 10, sealed_quantity=None)],
        NOW,
        handling=opened_for(5),
    )
    assert answer.lost == (Loss("a", 700, end_of(10)),)


def test_RQ3_the_opened_life_must_reach_through_the_service():
    """Opened two days before the dinner for a life of two days, it would be dead at the dinner."""
    sealed = batch("a", 1000, 20, sealed_quantity=None)
    brined = [need("n", 300, 12, lead=2)]
    assert allocate(brined, [sealed], NOW, handling=opened_for(2)).short == {"n": 300}
    assert allocate(brined, [sealed], NOW, handling=opened_for(3)).short == {}


@pytest.mark.parametrize(
    "source",
    [
        batch("a", 1000, 20, sealed_quantity=0),
        batch("a", 1000, 20, sealed_quantity=None, opened=True),
    ],
)
def test_RQ3_where_opening_changes_nothing_the_rest_keeps_its_life(source):
    answer = allocate(
        [need("a", 300, 9), need("b", 300, 15)], [source], NOW, handling=opened_for(1)
    )
    assert answer.short == {}
    assert [left.usable_until for left in answer.left] == [end_of(20)]


def test_RQ3_a_frozen_source_is_taken_out_in_time_and_only_what_is_needed():
    frozen = batch("peas", 1000, None, frozen=True)
    answer = allocate([need("n", 300, 10)], [frozen], NOW, handling=THAWING)
    assert answer.picks == (Pick("n", "peas", 300, thaw_from=at(9)),)
    assert [(left.quantity, left.frozen, left.usable_until) for left in answer.left] == [
        (700, True, None)
    ]


def test_RQ3_what_can_no_longer_thaw_in_time_cannot_serve():
    frozen = batch("joint", 1000, None, frozen=True)
    assert allocate([need("n", 300, 8)], [frozen], NOW, handling=THAWING).short == {"n": 300}


def test_RQ3_a_frozen_delivery_must_be_there_when_its_thawing_starts():
    late = delivery("d", 1000, None, at(9, 19), frozen=True)
    in_time = delivery("d", 1000, None, at(9, 18), frozen=True)
    assert allocate([need("n", 300, 10)], [late], NOW, handling=THAWING).short == {"n": 300}
    assert allocate([need("n", 300, 10)], [in_time], NOW, handling=THAWING).short == {}


def test_RQ3_the_thawed_life_must_reach_through_the_service():
    frozen = batch("joint", 1000, None, frozen=True)
    assert allocate([need("n", 300, 13, lead=1)], [frozen], NOW, handling=THAWING).short == {}
    assert allocate([need("n", 300, 13, lead=2)], [frozen], NOW, handling=THAWING).short == {
        "n": 300
    }


def test_RQ3_a_sealed_frozen_unit_thaws_whole_and_its_rest_goes_first():
    """Two bags; one is thawed for the 10th from the 9th, and what is left of it dies on the 11th
    at six; the pull list sees one thaw, whoever is given of it."""
    bags = batch("bags", 2000, None, sealed_quantity=1000, frozen=True)
    needs = [need("a", 300, 10), need("b", 300, 11), need("c", 300, 12)]
    answer = allocate(needs, [bags], NOW, handling=THAWING)
    assert answer.picks == (
        Pick("a", "bags", 300, thaw_from=at(9)),
        Pick("b", "bags", 300, thaw_from=at(9)),
        Pick("c", "bags", 300, thaw_from=at(11)),
    )
    assert answer.lost == (Loss("bags", 400, at(11)),)
    assert [(left.quantity, left.frozen) for left in answer.left] == [(700, False)]


def test_RQ3_what_is_thawed_already_needs_no_time():
    thawed = batch("a", 1000, 9)
    assert allocate([need("n", 300, 8)], [thawed], NOW, handling=THAWING).picks == (
        Pick("n", "a", 300),
    )


def test_RQ1_whole_pieces_are_given_whole_and_the_cut_one_stays():
    """Needs are whole pieces already; four tenths of a chicken serve nobody who needs one."""
    batches = [batch("a", 1400, 9), batch("b", 3000, 12)]
    answer = allocate([need("n", 3000, 9)], batches, NOW, handling=Handling(piece=1000))
    assert picked(answer) == [("n", "a", 1000), ("n", "b", 2000)]
    assert what_is_left(answer) == [("a", 400), ("b", 1000)]


def test_RQ1_an_odd_rest_that_a_fixed_pick_leaves_is_cut_from_a_whole_piece():
    batches = [batch("a", 400, 9), batch("b", 1000, 12)]
    answer = allocate(
        [need("n", 1000, 9)],
        batches,
        NOW,
        fixed=[Pick("n", "a", 400)],
        handling=Handling(piece=1000),
    )
    assert picked(answer) == [("n", "a", 400), ("n", "b", 600)]


def test_RQ3_an_odd_small_unit_is_opened_where_it_is_enough():
    """Two full bottles and a half one: half a litre opens the half one."""
    bottles = batch("bottles", 2500, 20, sealed_quantity=1000)
    answer = allocate([need("n", 500, 9)], [bottles], NOW, handling=opened_for(1))
    assert [(left.quantity, left.opened) for left in answer.left] == [(2000, False)]


def test_RQ3_an_odd_small_unit_is_not_opened_where_it_is_not_enough():
    bottles = batch("bottles", 2500, 20, sealed_quantity=1000)
    answer = allocate([need("n", 600, 9)], [bottles], NOW, handling=opened_for(1))
    assert [(left.quantity, left.opened) for left in answer.left] == [(400, True), (1500, False)]


def test_RQ3_thawing_a_pack_and_taking_part_of_it_opens_it_too():
    pack = batch("pack", 1000, None, sealed_quantity=None, frozen=True)
    handling = Handling(
        opened_until=lambda moment: moment + HOUR,
        thaw_start=THAWING.thaw_start,
        thawed_until=THAWING.thawed_until,
    )
    answer = allocate([need("a", 300, 10), need("b", 300, 11)], [pack], NOW, handling=handling)
    assert answer.lost == (Loss("pack", 700, at(10, 19)),)


def test_RQ3_a_thaw_cannot_have_started_before_now():
    """In the freezer since the first; to be usable tonight it should have come out last night."""
    frozen = batch("joint", 1000, None, frozen=True, ready=at(1))
    assert allocate([need("n", 300, 8)], [frozen], NOW, handling=THAWING).short == {"n": 300}


def test_RQ3_what_is_left_of_a_delivery_to_come_is_still_to_come():
    crate = delivery("crate", 1000, 20, at(10), sealed_quantity=None)
    answer = allocate([need("n", 300, 11)], [crate], NOW)
    assert [(left.quantity, left.ready, left.sealed_quantity) for left in answer.left] == [
        (700, at(10), None)
    ]


def test_SL3_what_is_left_in_the_freezer_keeps_what_was_left_of_its_clock():
    bags = batch("bags", 2000, None, sealed_quantity=1000, frozen=True, left=Span(days=4))
    answer = allocate([need("n", 300, 10)], [bags], NOW, handling=THAWING)
    assert [(left.quantity, left.frozen, left.left) for left in answer.left] == [
        (700, False, None),
        (1000, True, Span(days=4)),
    ]
