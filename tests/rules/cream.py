"""A cold room with cream in it: what the tests of allocation are told of."""

from datetime import UTC, datetime, timedelta

from pantry.rules.fefo import Handling, Need, Source

DAY = timedelta(days=1)
HOUR = timedelta(hours=1)


def at(day, hour=18):
    return datetime(2027, 3, day, hour, tzinfo=UTC)


def end_of(day):
    return datetime(2027, 3, day, 23, 59, 59, tzinfo=UTC)


NOW = at(8, 7)


def need(id_, quantity, day, *, lead=0, rank=1, order_by=None):
    """Wanted `lead` days before the dinner of a day; `order_by`: the last day to order on."""
    last = None if order_by is None else at(order_by, 12)
    return Need(
        id_, id_, "dish", "cream", quantity, at(day - lead), at(day), rank, last_order_by=last
    )


def batch(id_, quantity, dies, **terms):
    usable_until = None if dies is None else end_of(dies)
    terms.setdefault("since", at(1))
    return Source("batch", id_, "cream", quantity, usable_until, None, **terms)


def delivery(id_, quantity, dies, ready, **terms):
    return Source(
        "delivery",
        id_,
        "cream",
        quantity,
        None if dies is None else end_of(dies),
        None,
        ready,
        ready=ready,
        **terms,
    )


def opened_for(days):
    """An opened life in calendar days, the day of opening being day 1."""
    return Handling(opened_until=lambda moment: end_of(moment.day + days - 1))


THAWING = Handling(
    thaw_start=lambda moment: moment - DAY, thawed_until=lambda start: start + 2 * DAY
)


def picked(answer):
    return [(pick.need, pick.source, pick.quantity) for pick in answer.picks]


def what_is_left(answer):
    return [(source.id, source.quantity) for source in answer.left]


class Market:
    """Sells packs of one size, each ready some hours before the need and dead days after it."""

    def __init__(self, quantity, *, days=5, before=2 * HOUR, packs=99):
        self.quantity = quantity
        self.days = days
        self.before = before
        self.packs = packs
        self.asked = []
        self.sold = []

    def __call__(self, need_, short):
        self.asked.append((need_.id, short))
        if len(self.sold) == self.packs:
            return None
        ready = need_.wanted_by - self.before
        self.sold.append(
            Source(
                "planned",
                f"pack {len(self.sold)}",
                "cream",
                self.quantity,
                ready + self.days * DAY,
                None,
                ready,
                ready=ready,
            )
        )
        return self.sold[-1]
