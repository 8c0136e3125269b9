"""The rows of the plan: what to order by when, why, and what can be had no more (PL5, PL7)."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from datetime import datetime, timedelta

from pantry.rules.allocation import Allocation, Need
from pantry.rules.below_par import Refill
from pantry.rules.deadlines import Alert, alert_at
from pantry.rules.deliveries import Delivery
from pantry.rules.derivation import Derivation, Line
from pantry.rules.lots import Bought, Lot, packs_for
from pantry.rules.market import Market, Offer
from pantry.rules.outlook import Step
from pantry.rules.planning import ItemPlan
from pantry.rules.supply import House, Pack

PAR = "par"
DAILY_USE = "daily use"


@dataclass(frozen=True, slots=True)
class PlanRow:
    """One item on one delivery, or what no delivery can make.

    Attributes:
        net: thousandths of the item's base unit that are required.
        wanted_by: when the first of it is.
        supplier: None, as are pack, order-by and delivery, where it is not the clock that forbids
            it; for what is missed, the one whose order-by passed last.
        packs: how many to order; 0 for what is missed.
        alert: how near order-by is.
        because: ids of services, then `par`, then `daily use`.
        cost: minor units, without what the delivery costs beside.
        at_risk: the supplier may fail and no later delivery would be in time.
    """

    item: str
    net: int
    wanted_by: datetime
    supplier: str | None
    pack: Pack | None
    packs: int
    order_by: datetime | None
    delivery: Delivery | None
    alert: Alert
    because: tuple[str, ...]
    cost: int
    at_risk: bool
    derivation: Derivation


@dataclass(frozen=True, slots=True)
class Rows:
    """Writes the rows; `daily` holds the ids of the needs of daily use."""

    house: House
    market: Market
    daily: frozenset[str]

    def to_order(self, plan: ItemPlan) -> Iterator[PlanRow]:
        """One row for each lot."""
        menu = {step.lot.key: step for step in plan.menu.steps or ()}
        for lot in plan.final.lots:
            refill = next((r for r in plan.refills if r.lot and r.lot.key == lot.key), None)
            extra = [one for one in plan.extra if one.lot.key == lot.key]
            step = menu.get(lot.key)
            lines = self._lines(plan, step, everything=bool(refill or extra)) if step else ()
            yield self._ordered(lot, step.lot.packs if step else 0, lines, refill, extra)

    def missed(self, needs: Sequence[Need], allocation: Allocation) -> Iterator[PlanRow]:
        """What needs are short of and no delivery can make, by the order-by that passed last."""
        found: dict[str, tuple[Offer | None, list[Line]]] = {}
        for need in needs:
            short = allocation.short.get(need.id, 0)
            if short:
                offer = self._passed(need)
                line = Line(need, _given(allocation, need), short, 0, counts=True)
                found.setdefault(Lot(offer, 0).id if offer else "", (offer, []))[1].append(line)
        for offer, lines in found.values():
            yield self._missed(offer, lines, None, lines[0].need.item)

    def par_missed(self, item: str, refills: Iterable[Refill]) -> Iterator[PlanRow]:
        """What par wants and no delivery of the horizon brings."""
        for refill in refills:
            if refill.lot is None:
                yield self._missed(None, [], refill, item)

    def _lines(self, plan: ItemPlan, step: Step, *, everything: bool) -> tuple[Line, ...]:
        """The needs that the lot covers something of, and whether they are why it is bought.

        They are where no later delivery would do; and of the others the first ones, as far as
        there would be a pack less without them. Where par or daily use come to it, all are, and
        daily use is not among them.
        """
        beside = self.daily if plan.refills else frozenset()
        gains = {id_: gain for id_, gain in step.gains.items() if id_ not in beside}
        needs = [need for need in plan.menu.needs if need.id in gains]
        counted = {n.id for n in needs if everything or not self._could_wait(n, step.lot)}
        so_far = sum(gains[id_] for id_ in counted)
        for need in needs:
            if need.id not in counted and packs_for(so_far, step.lot.offer) < step.lot.packs:
                counted.add(need.id)
                so_far += gains[need.id]
        given = step.before.given_to(gains)
        return tuple(
            Line(
                need,
                tuple(given.get(need.id, {}).items()),
                step.short.get(need.id, 0),
                step.gains[need.id],
                need.id in counted,
            )
            for need in needs
        )

    def _could_wait(self, need: Need, lot: Lot) -> bool:
        """Whether a later delivery would do for the need."""
        latest = self.market.latest(need.item, need.wanted_by, need.until)
        return latest is not None and latest.at > lot.offer.delivery.at

    def _ordered(
        self,
        lot: Lot,
        menu_packs: int,
        lines: tuple[Line, ...],
        refill: Refill | None,
        extra: Sequence[Bought],
    ) -> PlanRow:
        counted = [line for line in lines if line.counts]
        covered = sum(line.covered for line in counted)
        wanted = refill.quantity if refill else 0
        par_packs = refill.lot.packs if refill and refill.lot else 0
        size = lot.offer.pack.quantity
        used_up = (menu_packs + par_packs) * size - covered - wanted if extra else 0
        derivation = replace(
            self._terms(lot.offer),
            rules=self._rules(counted, refill, extra, lot),
            lines=lines,
            par=refill,
            daily=tuple((one.need, one.short) for one in extra),
            used_up=used_up,
            menu_packs=menu_packs,
            par_packs=par_packs,
            daily_packs=sum(one.lot.packs for one in extra),
            opened=menu_packs > packs_for(covered, lot.offer),
        )
        net = covered + wanted + used_up + sum(one.short for one in extra)
        because = _because(counted, par=refill is not None, daily=bool(extra))
        at = min((line.need.wanted_by for line in counted), default=lot.offer.delivery.at)
        return self._row(lot, net, at, because, derivation)

    def _row(
        self, lot: Lot, net: int, wanted_by: datetime, because: tuple[str, ...], why: Derivation
    ) -> PlanRow:
        delivery, pack = lot.offer.delivery, lot.offer.pack
        calendar = self.market.calendar
        return PlanRow(
            pack.item,
            net,
            wanted_by,
            pack.supplier,
            pack,
            lot.packs,
            delivery.order_by,
            delivery,
            alert_at(calendar.now, delivery.order_by, self.house, calendar.zone),
            because,
            lot.goods,
            lot.offer.at_risk,
            why,
        )

    def _missed(
        self, offer: Offer | None, lines: Sequence[Line], refill: Refill | None, item: str
    ) -> PlanRow:
        derivation = replace(
            self._terms(offer), rules=("PL1", "PL3", "PL5"), lines=tuple(lines), par=refill
        )
        pack, delivery = (offer.pack, offer.delivery) if offer else (None, None)
        return PlanRow(
            item,
            sum(line.lacking for line in lines) + (refill.quantity if refill else 0),
            min((line.need.wanted_by for line in lines), default=self.market.calendar.now),
            pack.supplier if pack else None,
            pack,
            0,
            delivery.order_by if delivery else None,
            delivery,
            Alert.MISSED,
            _because(lines, par=refill is not None, daily=False),
            0,
            at_risk=False,
            derivation=derivation,
        )

    def _terms(self, offer: Offer | None) -> Derivation:
        """A derivation with the terms on which the offer is sold, and nothing bought yet."""
        pack, delivery = (offer.pack, offer.delivery) if offer else (None, None)
        return Derivation(
            rules=(),
            lines=(),
            par=None,
            daily=(),
            used_up=0,
            menu_packs=0,
            par_packs=0,
            daily_packs=0,
            pack_quantity=pack.quantity if pack else 0,
            price=pack.price if pack else 0,
            at=delivery.at if delivery else None,
            cutoff=delivery.cutoff if delivery else None,
            send=self.market.suppliers[pack.supplier].send if pack else timedelta(0),
            margin=self.market.margin,
            usable_until=offer.usable_until if offer else None,
            opened=False,
        )

    def _passed(self, need: Need) -> Offer | None:
        """The delivery whose order-by passed last; None where it is not the clock that forbids."""
        offer = self.market.last_offer(need.item, need.wanted_by, need.until)
        return offer if offer and offer.delivery.order_by < self.market.calendar.now else None

    def _rules(
        self, counted: Iterable[Line], refill: Refill | None, extra: Sequence[Bought], lot: Lot
    ) -> tuple[str, ...]:
        """The rules that made it; PL4 where a need could have waited for a later delivery."""
        moved = not refill and any(self._could_wait(line.need, lot) for line in counted)
        daily = bool(extra) or any(line.need.id in self.daily for line in counted)
        rules = ["PL1", "PL2", "PL3", *(["PL4"] if moved else []), "PL5"]
        if refill and refill.reckoned:
            rules.append("PL6")
        return (*rules, "RQ5") if daily else tuple(rules)


def _given(allocation: Allocation, need: Need) -> tuple[tuple[str, int], ...]:
    given: dict[str, int] = {}
    for pick in allocation.picks:
        if pick.need == need.id:
            given[pick.source] = given.get(pick.source, 0) + pick.quantity
    return tuple(given.items())


def _because(lines: Iterable[Line], *, par: bool, daily: bool) -> tuple[str, ...]:
    """Ids of services in the order of time, then par, then daily use."""
    services = dict.fromkeys(line.need.service or DAILY_USE for line in lines)
    daily = daily or DAILY_USE in services
    services.pop(DAILY_USE, None)
    return (*services, *((PAR,) if par else ()), *((DAILY_USE,) if daily else ()))
