"""The menus of a house projected once, and the rows that say what each dish is covered by."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property

from pantry.reports import safe_dishes
from pantry.reports.need_lines import derivation
from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View
from pantry.reports.ways import WaysOut
from pantry.rules.allergens import Certainty
from pantry.rules.conflicts import Conflict
from pantry.rules.deadlines import ChooseBy, choose_by
from pantry.rules.fefo import Need, Pick, Source
from pantry.rules.implied_use import FOREVER
from pantry.rules.kitchen import Projection, project
from pantry.rules.menu import Service, ServiceState, Serving
from pantry.rules.proposals import Beside, Menus, Proposal, propose, shared


def by_need(picks: Iterable[Pick]) -> dict[str, list[Pick]]:
    """Picks by the id of the need they are given to."""
    found: dict[str, list[Pick]] = {}
    for pick in picks:
        found.setdefault(pick.need, []).append(pick)
    return found


@dataclass(frozen=True)
class Projected:
    """The menus of a house, projected as of now."""

    view: View

    @cached_property
    def confirmed(self) -> Projection:
        """What every confirmed service is given."""
        view = self.view
        return project(
            view.needs,
            view.kitchen,
            view.now,
            last_order_by=view.last_order_by,
            covered=view.covered,
        )

    @cached_property
    def ways_out(self) -> WaysOut:
        """The ways out of what is short beside them."""
        return WaysOut(self.view, self.confirmed)

    @cached_property
    def label_of(self) -> Mapping[str, str]:
        """The label of every batch that stands in the house, by its id."""
        return {row.id: row.label for row in self.view.batches}

    @cached_property
    def direct(self) -> Mapping[str, Sequence[Need]]:
        """What the dishes of confirmed services still want, by item."""
        found: dict[str, list[Need]] = {}
        for need in self.view.needs:
            found.setdefault(need.item, []).append(need)
        return found

    @cached_property
    def confirmed_needs(self) -> Sequence[Need]:
        """Every need of a confirmed service, those of its makings included."""
        return [need for of_item in self.confirmed.needs.values() for need in of_item]

    @cached_property
    def confirmed_needs_of(self) -> Mapping[str, Sequence[Need]]:
        """The same by service."""
        found: dict[str, list[Need]] = {}
        for need in self.confirmed_needs:
            found.setdefault(need.service, []).append(need)
        return found

    @cached_property
    def confirmed_picks(self) -> Mapping[str, Sequence[Pick]]:
        """What each of them is given."""
        allocations = self.confirmed.allocations.values()
        return by_need(pick for allocation in allocations for pick in allocation.picks)

    @cached_property
    def confirmed_short(self) -> Mapping[str, int]:
        """What each of them lacks."""
        short: dict[str, int] = {}
        for allocation in self.confirmed.allocations.values():
            short |= allocation.short
        return short

    @cached_property
    def beside(self) -> Beside:
        """What they have, and leave for what is proposed."""
        return Beside(self.confirmed, self.direct, self.view.kitchen, self.view.now)

    @cached_property
    def proposals(self) -> Sequence[Proposal]:
        """Every alternative of every proposed service of the days ahead."""
        view = self.view
        menus = Menus(view.recipes, view.items, view.tables)
        return [
            propose(service, serving, menus, self.beside)
            for service in view.services
            if service.state is ServiceState.PROPOSED and service.at >= view.now
            for serving in service.servings
        ]

    @cached_property
    def proposals_of(self) -> Mapping[str, Sequence[Proposal]]:
        """The same by service."""
        found: dict[str, list[Proposal]] = {}
        for proposal in self.proposals:
            found.setdefault(proposal.service.id, []).append(proposal)
        return found

    @cached_property
    def shared(self) -> Mapping[tuple[str, str], tuple[str, ...]]:
        """For a proposed service and an item: the other proposed services that need it too."""
        left: dict[str, int] = {}
        for source in self.sources.values():
            left[source.item] = left.get(source.item, 0) + source.quantity
        for picks in self.confirmed_picks.values():
            for pick in picks:
                if pick.source in self.sources:
                    left[self.sources[pick.source].item] -= pick.quantity
        return shared(self.proposals, left)

    def dies(self, pick: Pick) -> tuple[datetime, datetime, datetime, str]:
        """The order in which what a need is given from is used up: first expired, first out."""
        source = self.sources.get(pick.source)
        if source is None:
            return FOREVER, FOREVER, FOREVER, pick.source
        return (
            source.usable_until or FOREVER,
            source.good_until or FOREVER,
            source.since,
            pick.source,
        )

    @cached_property
    def sources(self) -> Mapping[str, Source]:
        """Everything that can be given, by its id."""
        return {source.id: source for of_item in self.view.sources.values() for source in of_item}


@dataclass(frozen=True, slots=True)
class Covered:
    """One dish of one service: what it needs, is given and lacks."""

    service: Service
    serving: Serving
    needs: tuple[Need, ...]
    given: Mapping[str, Sequence[Pick]]
    short: Mapping[str, int]

    def lacking(self, need: Need) -> int:
        """What is short of a need, in thousandths."""
        return self.short.get(need.id, 0)


def rows(found: Projected, dish: Covered) -> Iterator[Row]:
    """A row for each item of a dish: the dish's own first, then those of what is made for it."""
    view = found.view
    chosen_by = dish_choose_by(view, dish)
    against = safe_dishes.against(view, dish.service, dish.serving)
    flags = dish_flags(view, dish, chosen_by, against)
    safe = [each for person in _people(against) for each in _safe_for(view, dish, person)]
    for need in sorted(dish.needs, key=lambda n: (n.via != "", view.item_name(n.item), n.id)):
        item = view.items[need.item]
        lacking = dish.lacking(need)
        yield {
            "service": dish.service.id,
            "state": dish.service.state.value,
            "course": dish.serving.course,
            "dish": view.recipes[dish.serving.dish].name,
            "variant": dish.serving.variant,
            "item": item.name,
            "for": view.item_name(need.via) if need.via else None,
            "need": amount(need.quantity + view.taken_out.get(need.id, 0), item),
            "taken_out": amount(view.taken_out.get(need.id, 0), item),
            "wanted_by": instant(need.wanted_by),
            "from": [
                given_from(found, need, pick)
                for pick in sorted(dish.given.get(need.id, ()), key=found.dies)
            ],
            "short": amount(lacking, item),
            "mend_until": instant(view.last_order_by(need)) if lacking else None,
            "choose_by": instant(chosen_by.at),
            "ways_out": _ways_out(found, dish, need) if lacking else [],
            "safe": safe,
            "flags": [*flags, *_need_flags(found, dish, need)],
            "derivation": derivation(view, dish.service, dish.serving, need),
        }


def given_from(found: Projected, need: Need, pick: Pick) -> Row:
    """What a need is given from: a batch, a delivery, a harvest, or what is to be made."""
    source = found.sources.get(pick.source)
    kind = source.kind if source else "making"
    name = pick.source.partition("|")[0] if kind in ("delivery", "harvest") else pick.source
    row: Row = {kind: name, "quantity": amount(pick.quantity, found.view.items[need.item])}
    if kind == "batch":
        row["label"] = found.label_of[pick.source]
    elif source is not None:
        row["ready"] = instant(source.ready)
    if pick.thaw_from is not None:
        row["thaw_from"] = instant(pick.thaw_from)
    return row


def _ways_out(found: Projected, dish: Covered, need: Need) -> list[Row]:
    """What is left where no order can bring it any more; of a confirmed dish the plan tells it."""
    order_by = found.view.last_order_by(need)
    ahead = order_by is not None and order_by >= found.view.now
    if ahead or dish.service.state is not ServiceState.PROPOSED:
        return []
    return found.ways_out.for_dish(dish.service, dish.serving, need, dish.lacking(need))


def dish_choose_by(view: View, dish: Covered) -> ChooseBy:
    """By when a dish has to be chosen, of what it lacks and its lead (PL5)."""
    lacking = [view.last_order_by(need) for need in dish.needs if dish.lacking(need)]
    lead = view.recipes[dish.serving.dish].lead
    return choose_by(dish.service.at, lead, lacking, view.house.notice, view.zone)


def _people(against: Iterable[Conflict]) -> Iterable[str]:
    return dict.fromkeys(conflict.person for conflict in against)


def _safe_for(view: View, dish: Covered, person: str) -> list[Row]:
    """What a person can eat instead: the dish in a variant, or what the course has beside it."""
    beside = safe_dishes.of_course(view, dish.service, dish.serving)
    found = safe_dishes.instead(view, dish.service, dish.serving, person, beside)
    return [
        {"person": person, "dish": view.recipes[each.dish].name, "variant": each.variant}
        for each in found
    ]


def dish_flags(
    view: View, dish: Covered, chosen_by: ChooseBy, against: Sequence[Conflict]
) -> list[str]:
    """What a person should know of the dish, whatever the item."""
    flags = []
    if dish.service.state is ServiceState.PROPOSED and chosen_by.earlier_than_notice:
        gone = chosen_by.at is None or chosen_by.at < view.now
        flags.append("cannot_be_had" if gone else "choose_early")
    if not view.recipes[dish.serving.dish].approved:
        flags.append("recipe_not_approved")
    flags += [
        f"{conflict.certainty.value}:{conflict.cannot_eat}:{conflict.person}"
        for conflict in against
        if conflict.certainty is not Certainty.UNKNOWN
    ]
    if any(conflict.certainty is Certainty.UNKNOWN for conflict in against):
        flags.append("allergens_unknown")
    return list(dict.fromkeys(flags))


def _need_flags(found: Projected, dish: Covered, need: Need) -> list[str]:
    """What a person should know of what an item is given from."""
    flags = []
    for pick in dish.given.get(need.id, ()):
        source = found.sources.get(pick.source)
        if source and source.good_until and source.good_until < need.until:
            flags.append("past_its_best")
        if pick.thaw_from is not None:
            flags.append("thaw")
        if source and _may_not_come(found.view, source):
            flags.append("may_not_come")
    if dish.service.state is ServiceState.PROPOSED:
        others = found.shared.get((dish.service.id, need.item), ())
        flags += [f"shared_with:{other}" for other in others]
    return list(dict.fromkeys(flags))


def _may_not_come(view: View, source: Source) -> bool:
    """Whether it is on its way from a supplier who may fail (PL2)."""
    supplier = view.suppliers.get(source.id.partition("/")[0])
    return source.kind == "delivery" and supplier is not None and supplier.may_fail
