"""First expired, first out against first in, first out, on figures worked out by hand.

The figures are computed from the stated rule, day by day, with pencil and paper; the tie-breaks are
common practice, no source. First in, first out is written anew here and shares nothing with rules/.
"""

from datetime import UTC, datetime

from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.fefo import Need, Source, allocate

UNIT = 1000


def morning(day):
    return datetime(2027, 3, day, 8, tzinfo=UTC)


def end_of(day):
    return datetime(2027, 3, day, 23, 59, 59, tzinfo=UTC)


def batch(id_, units, use_by, received):
    return Source("batch", id_, "cream", units * UNIT, end_of(use_by), None, morning(received))


def one_a_day(first, days, units=1):
    return [
        Need(f"{day:02}", f"{day}", "tray", "cream", units * UNIT, morning(day), morning(day))
        for day in range(first, first + days)
    ]


def first_in_first_out(needs, batches):
    """Oldest first among what is still in date; returns which batch each need got, and waste."""
    left = {batch.id: batch.quantity for batch in batches}
    given_to = {}
    for need in sorted(needs, key=lambda need: need.wanted_by):
        wanted = need.quantity
        for one in sorted(batches, key=lambda one: (one.since, one.id)):
            if one.usable_until >= need.until and left[one.id] and wanted:
                taken = min(wanted, left[one.id])
                left[one.id] -= taken
                wanted -= taken
                given_to[need.id] = one.id
    last = max(need.until for need in needs)
    waste = sum(left[one.id] for one in batches if one.usable_until < last)
    return given_to, waste


def test_AL1_first_expired_wastes_nothing_where_first_in_wastes_four():
    """A: 4 units, received 1 March, use by the 12th; B: 5 units, received the 3rd, use by the 8th;
    one unit a day from the 4th. First expired: B 4-8 March, A 9-12 March, waste 0. First in: A 4-7
    March, B 8 March, waste 4 (computed by hand, 2027)."""
    batches = [batch("A", 4, use_by=12, received=1), batch("B", 5, use_by=8, received=3)]
    needs = one_a_day(first=4, days=9)

    answer = allocate(needs, batches, morning(3))

    assert [(pick.need, pick.source) for pick in answer.picks] == [
        ("04", "B"),
        ("05", "B"),
        ("06", "B"),
        ("07", "B"),
        ("08", "B"),
        ("09", "A"),
        ("10", "A"),
        ("11", "A"),
        ("12", "A"),
    ]
    assert answer.lost == ()
    assert answer.left == ()
    assert answer.short == {}

    given_to, waste = first_in_first_out(needs, batches)
    assert given_to == {"04": "A", "05": "A", "06": "A", "07": "A", "08": "B"}
    assert waste == 4 * UNIT


def test_AL1_ties_go_to_the_opened_then_the_older_then_the_lower_id():
    """Same last day: opened before unopened, earlier received, lower id (common practice, no
    source)."""
    opened = Source(
        "batch", "z", "cream", UNIT, end_of(8), None, morning(3), sealed_quantity=0, opened=True
    )
    batches = [
        batch("d", 1, use_by=8, received=2),
        batch("c", 1, use_by=8, received=2),
        batch("b", 1, use_by=8, received=1),
        opened,
    ]
    answer = allocate(one_a_day(first=4, days=4), batches, morning(3))
    assert [pick.source for pick in answer.picks] == ["z", "b", "c", "d"]


def cream_orders(life_days):
    """2.5 l packs that arrive on the morning of the day they are wanted; day of receipt = day 1."""
    receipts = []

    def buy(need, _short):
        day = need.wanted_by.day
        receipts.append(day)
        last = end_of(day + life_days - 1)
        id_ = f"pack {len(receipts)}"
        return Source("planned", id_, "cream", 2500, last, None, morning(day), morning(day))

    needs = [
        Need(
            f"{day}",
            f"{day}",
            "dish",
            "cream",
            wanted,
            morning(day),
            morning(day),
            last_order_by=morning(day - 1),
        )
        for day, wanted in ((2, 3600), (5, 4200), (7, 2400))
    ]
    on_hand = Source("batch", "on hand", "cream", 1500, end_of(30), None, morning(1))
    return allocate(needs, [on_hand], morning(1), buy=buy), receipts


def test_RQ3_the_kitchen_shaped_requirements_table():
    """Cream in 2.5 l packs, on hand 1.5 l; wanted 3.6 l on day 2, 4.2 on day 5, 2.4 on day 7: one
    pack, two packs, one pack, and 1.3 l over after day 7. With a life of four days from receipt
    the 0.4 l left on day 2 is in date through day 5, the last (computed by hand)."""
    for life_days in (20, 4):
        answer, receipts = cream_orders(life_days)
        assert receipts == [2, 5, 5, 7]
        assert answer.short == {}
        assert answer.lost == ()
        assert [source.quantity for source in answer.left] == [1300]


def test_RQ3_expired_stock_leaves_the_projected_balance():
    """As above with a life of three days: the 0.4 l dies with day 4, day 5 takes 4.2 of two new
    packs, 0.8 of which serve day 7, so that 0.9 l of its pack is over (computed by hand)."""
    answer, receipts = cream_orders(life_days=3)
    assert receipts == [2, 5, 5, 7]
    assert [(loss.quantity, loss.at) for loss in answer.lost] == [(400, end_of(4))]
    assert [source.quantity for source in answer.left] == [900]


@given(
    st.lists(st.tuples(st.integers(1, 4), st.integers(4, 14)), min_size=1, max_size=5),
    st.integers(1, 9),
)
def test_AL1_first_expired_never_covers_less_nor_wastes_more_than_first_in(stock, days):
    batches = [
        batch(f"{number}", units, use_by, received=1 + number)
        for number, (units, use_by) in enumerate(stock)
    ]
    needs = one_a_day(first=4, days=days)
    answer = allocate(needs, batches, morning(3))
    given_to, waste = first_in_first_out(needs, batches)
    covered = len(needs) - len(answer.short)
    assert covered >= len(given_to)
    if covered == len(given_to):
        assert sum(loss.quantity for loss in answer.lost) <= waste
