"""Making orders that were found lot by lot cheaper together, without uncovering anything (PL4)."""

from collections.abc import Mapping
from datetime import datetime

from pantry.rules.basket import Basket
from pantry.rules.covering import FINE
from pantry.rules.delivery_search import DeliverySearch
from pantry.rules.outlook import Outlook, trimmed, with_lots
from pantry.rules.sizing import Sizings

EFFORT = 12_000
"""How many partial answers may be looked at; a hundred thousand take about a second."""


def consolidated(
    outlooks: Mapping[str, Outlook],
    basket: Basket,
    sizings: Sizings,
    effort: int = EFFORT,
) -> dict[str, Outlook]:
    """The outlooks with cheaper lots where some were found; the basket is changed alike.

    Lots that would leave a need shorter than it was are not taken, nor such as cost more once it is
    known what they leave to die (opening a pack, whole pieces and fixed picks are not looked at in
    the search).

    Args:
        outlooks: by item, each with its lots, all of them in the basket.
        basket: everything proposed; what is of other items stays.
        sizings: of what can be bought when; what dies by their horizon unused counts as lost.
        effort: how many partial answers may be looked at.
    """
    market, horizon = sizings.market, sizings.horizon
    wanted = {item: sizings.of(outlook) for item, outlook in outlooks.items()}
    total = basket.total
    search = DeliverySearch(
        wanted,
        basket,
        {item: outlook.lots for item, outlook in outlooks.items()},
        {item: int(outlook.lost(horizon) * FINE) for item, outlook in outlooks.items()},
        horizon,
        effort,
    )
    search.improve()
    found = dict(outlooks)
    for item, outlook in outlooks.items():
        if search.lots[item] == outlook.lots:
            continue
        moved = trimmed(with_lots(outlook, search.lots[item], market), market)
        found[item] = moved if moved.is_no_shorter_than(outlook) else outlook
        basket.remove(search.lots[item])
        basket.add(found[item].lots)
    _take_back(found, outlooks, basket, horizon, total)
    return found


def _take_back(
    found: dict[str, Outlook],
    before: Mapping[str, Outlook],
    basket: Basket,
    horizon: datetime,
    total: int,
) -> None:
    """Put lots back where they were as long as that is cheaper; and all, if they were cheaper so.

    Args:
        found: by item; it is changed.
        before: as they were.
        basket: with what is found; it is changed alike.
        horizon: what dies by then unused counts as lost.
        total: of the basket as it was.
    """

    def put(item: str, outlook: Outlook) -> None:
        basket.remove(found[item].lots)
        basket.add(outlook.lots)
        found[item] = outlook

    moved = {item: one for item, one in found.items() if one is not before[item]}
    for item, one in moved.items():
        cost = basket.total + one.lost(horizon)
        put(item, before[item])
        if basket.total + before[item].lost(horizon) >= cost:
            put(item, one)
    lost = sum(found[item].lost(horizon) - before[item].lost(horizon) for item in moved)
    if basket.total + lost > total:
        for item in moved:
            put(item, before[item])
