"""Whom an item that has run out leaves without, and what can replace it by when (PL5).

Worked out when it is read, as though nothing of it stood in the house, whatever the books say.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

from pantry.records.tables import PromisedRow
from pantry.reports.coverage_rows import Projected
from pantry.reports.lacking import lacking
from pantry.reports.report import Row, amount, instant
from pantry.reports.view import View
from pantry.rules.fefo import Pick, Source
from pantry.rules.menu import ServiceState


@dataclass(frozen=True)
class RanOut:
    """The items of which nothing is left, all at once; what is read for one serves the others."""

    view: View
    items: frozenset[str]

    def lines(self, item: str) -> list[Row]:
        """One row: what every confirmed service lacks of an item, with the dishes that lack it."""
        if item not in self.view.items:
            return []
        of = self.view.items[item]
        dishes = lacking(self._found, item) if of.measured else self._using(item)
        missing = sum(self._found.confirmed_short.get(need, 0) for need in self._needs(item))
        return [{"item": of.name, "missing": amount(missing, of), "dishes": dishes}]

    def _needs(self, item: str) -> list[str]:
        return [need.id for need in self._found.confirmed_needs if need.item == item]

    def _using(self, item: str) -> list[Row]:
        """Of what nobody counts no amount is lacking: the dishes that ask for it."""
        return [
            {
                "service": service.id,
                "dish": self.view.recipes[serving.dish].name,
                "lacking": amount(0, self.view.items[item]),
                "wanted_by": instant(service.at),
                "ways_out": [],
            }
            for service in self.view.services
            if service.state is ServiceState.CONFIRMED and service.at >= self.view.now
            for serving in service.servings
            if any(each.item == item for each in self.view.recipes[serving.dish].ingredients)
        ]

    @cached_property
    def _found(self) -> Projected:
        view = self.view
        return Projected(_WithNone(view.connection, view.row, view.now, self.items))


@dataclass(frozen=True)
class _WithNone(View):
    """The house as though nothing of some items stood there; what is on its way still comes."""

    lacking: frozenset[str]

    @cached_property
    def _gone(self) -> frozenset[str]:
        return frozenset(row.id for row in self.batches if row.item in self.lacking)

    @cached_property
    def held(self) -> Sequence[PromisedRow]:
        """What every need holds, but for what is not there."""
        whole = View(self.connection, self.row, self.now).held
        return [row for row in whole if row.batch not in self._gone]

    @cached_property
    def sources(self) -> Mapping[str, Sequence[Source]]:
        """Everything there is and is to come, but for what is not there."""
        whole = View(self.connection, self.row, self.now).sources
        return {
            item: [source for source in of_item if source.id not in self._gone]
            for item, of_item in whole.items()
        }

    @cached_property
    def fixed(self) -> Mapping[str, Sequence[Pick]]:
        """The picks that stay, but for those of what is not there."""
        whole = View(self.connection, self.row, self.now).fixed
        return {item: picks for item, picks in whole.items() if item not in self.lacking}
