"""Can we serve it, from what, by when must it be chosen: dish by dish (RQ1-RQ4, PL5).

A confirmed service is covered by what it has been promised and by what is on its way; each
alternative of a proposed one by what that leaves, and where two would need the same, it says so.
"""

from collections.abc import Iterator

from pantry.reports.coverage_rows import Covered, Projected, by_need, rows
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.fefo import Need
from pantry.rules.menu import Service, ServiceState, Serving
from pantry.rules.proposals import Proposal


def coverage(view: View, service: str | None = None) -> list[Row]:
    """A row for each item of each dish of the services ahead, or of one service."""
    found = Projected(view)
    answer: list[Row] = []
    for each in view.services:
        if service is not None and each.id != service:
            continue
        if each.state is ServiceState.CONFIRMED and each.id not in view.lapsed:
            answer.extend(_confirmed(found, each))
        elif each.state is ServiceState.PROPOSED:
            for proposal in found.proposals_of.get(each.id, ()):
                answer.extend(_proposed(found, proposal))
    return answer


def of_confirmed(view: View) -> Iterator[Row]:
    """The same of the confirmed services alone, which is much less to work out."""
    found = Projected(view)
    for each in view.services:
        if each.state is ServiceState.CONFIRMED and each.id not in view.lapsed:
            yield from _confirmed(found, each)


def _confirmed(found: Projected, service: Service) -> Iterator[Row]:
    given, short = found.confirmed_picks, found.confirmed_short
    needs = found.confirmed_needs_of.get(service.id, ())
    told: set[str] = set()
    for serving in service.servings:
        of_dish = tuple(n for n in needs if n.id not in told and _is_of(n, serving))
        told |= {need.id for need in of_dish}
        yield from rows(found, Covered(service, serving, of_dish, given, short))


def _is_of(need: Need, serving: Serving) -> bool:
    """Whether it is a need of this serving; what is made for several is told of the first."""
    if need.via:
        return need.dish == serving.dish
    _, course, dish, _, *variant = need.id.split("|")
    named = [serving.variant] if serving.variant else []
    return (course, dish, variant) == (serving.course, serving.dish, named)


def _proposed(found: Projected, proposal: Proposal) -> Iterator[Row]:
    given = by_need(proposal.picks)
    covered = Covered(proposal.service, proposal.serving, proposal.needs, given, proposal.short)
    yield from rows(found, covered)
