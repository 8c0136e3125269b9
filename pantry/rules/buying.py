"""What has to be bought, of whom, so that some needs are covered (PL3, PL5)."""

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from datetime import datetime
from typing import NamedTuple

from pantry.rules.allocation import Need
from pantry.rules.market import Offer

Available = Callable[[str, datetime, datetime], int]
"""Thousandths of an item that are there for use from an instant through another."""

Offers = Callable[[str, datetime, datetime], Sequence[Offer]]
"""What can still be bought of an item for use from an instant through another."""


@dataclass(frozen=True, slots=True)
class Purchase:
    """So many packs on one delivery for what is lacking of an item (thousandths)."""

    item: str
    quantity: int
    packs: int
    offer: Offer


class Want(NamedTuple):
    """What is wanted of one item, there from `wanted_by` and usable through `until`."""

    item: str
    quantity: int
    wanted_by: datetime
    until: datetime


def wants_of(needs: Iterable[Need]) -> tuple[Want, ...]:
    """One want an item: all of it, over the widest window that any of the needs has."""
    wants: dict[str, Want] = {}
    for need in needs:
        known = wants.get(need.item, Want(need.item, 0, need.wanted_by, need.until))
        wants[need.item] = Want(
            need.item,
            known.quantity + need.quantity,
            min(known.wanted_by, need.wanted_by),
            max(known.until, need.until),
        )
    return tuple(wants.values())


def purchases_for(
    wants: Iterable[Want], available: Available, offers: Offers
) -> tuple[Purchase, ...] | None:
    """What is to be bought so that every want is covered; None: one cannot be."""
    purchases: list[Purchase] = []
    for want in wants:
        window = (want.wanted_by, want.until)
        lacking = want.quantity - available(want.item, *window)
        if lacking <= 0:
            continue
        possible = [
            purchase_from(want.item, lacking, offer) for offer in offers(want.item, *window)
        ]
        if not possible:
            return None
        purchases.append(min(possible, key=cost_of))
    return tuple(purchases)


def purchase_from(item: str, quantity: int, offer: Offer) -> Purchase:
    """Whole packs of one offer for so much of an item."""
    return Purchase(item, quantity, -(-quantity // offer.pack.quantity), offer)


def cost_of(purchase: Purchase) -> tuple[bool, int, datetime]:
    """What is sure before what may fail, then by price, then by the earlier order-by."""
    price = purchase.packs * purchase.offer.pack.price
    return purchase.offer.at_risk, price, purchase.offer.delivery.order_by
