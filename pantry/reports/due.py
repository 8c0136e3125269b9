"""The deadlines of the plan: what is to be ordered for one delivery, or cannot be had at all."""

from dataclasses import dataclass

from pantry.reports.view import View
from pantry.rules.alerts import Deadline
from pantry.rules.deadlines import Alert
from pantry.rules.plan import Plan, PlanRow


@dataclass(frozen=True, slots=True)
class Due:
    """A deadline with the rows of the plan that it is of."""

    deadline: Deadline
    rows: tuple[PlanRow, ...]


def due(view: View, found: Plan) -> list[Due]:
    """Every deadline of the plan, the nearest first; what nobody can bring is last.

    What was missed is told for as long as a service that wanted it is still to come: what was only
    to be kept in comes with a later delivery, or is on the morning sheet.
    """
    ahead = {service.id for service in view.services if service.at >= view.now}
    together: dict[str, Due] = {}
    for row in found.rows:
        if row.alert is not Alert.MISSED or ahead & set(row.because):
            named = _deadline(row)
            known = together.get(named.id)
            rows = (*known.rows, row) if known else (row,)
            together[named.id] = Due(named, rows)
    return list(together.values())


def _deadline(row: PlanRow) -> Deadline:
    if row.delivery is None:
        return Deadline(f"nobody/{row.item}", None, None, None, row.alert)
    return Deadline(row.delivery.id, row.supplier, row.delivery.at, row.order_by, row.alert)
