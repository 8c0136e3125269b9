"""What was left unfinished, and on which day it still has to be done.

A kitchen's day ends with its local date; what was due on an earlier one and was not done is not
done with. Common practice, no source: in the morning a kitchen takes over what the evening left.
"""

from collections.abc import Iterable
from datetime import date, datetime, time, timedelta
from zoneinfo import ZoneInfo

from pantry.rules.house_time import local_date
from pantry.rules.menu import ServiceState

DAY_BEGINS = time(7)
"""When the morning sheet is read, in the house's zone."""


def day_to_do(at: datetime, now: datetime, zone: ZoneInfo) -> date:
    """The day on which something is to be done: its own, or today where that has gone undone."""
    return max(local_date(at, zone), local_date(now, zone))


def day_to_pull(at: datetime, now: datetime, zone: ZoneInfo) -> date:
    """The day on which something is taken out of the freezer that must be out at an instant.

    What must be out in the night is taken out on the day before: nobody walks to a freezer then.
    """
    begins = datetime.combine(local_date(at, zone), DAY_BEGINS, zone)
    return max(local_date(at, zone) - timedelta(days=at < begins), local_date(now, zone))


def delivery_left(at: datetime, outstanding: int, now: datetime, zone: ZoneInfo) -> bool:
    """Whether a delivery's day is over and something of it is still awaited, in thousandths."""
    return outstanding > 0 and _of_an_earlier_day(at, now, zone)


def service_left(state: ServiceState, at: datetime, now: datetime, zone: ZoneInfo) -> bool:
    """Whether a service's day is over and nobody has said that it was served, or was not (LG5)."""
    return state is ServiceState.CONFIRMED and _of_an_earlier_day(at, now, zone)


def batch_left(usable_until: datetime, now: datetime, zone: ZoneInfo) -> bool:
    """Whether a batch died on an earlier day; of today's the day itself tells (SL2)."""
    return _of_an_earlier_day(usable_until, now, zone)


def cut_off_left(order_by: datetime, needed_at: Iterable[datetime], now: datetime) -> bool:
    """Whether an order-by has passed while something that it was for is still to come (PL5)."""
    return order_by < now and any(at >= now for at in needed_at)


def _of_an_earlier_day(at: datetime, now: datetime, zone: ZoneInfo) -> bool:
    return local_date(at, zone) < local_date(now, zone)
