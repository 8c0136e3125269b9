"""What has a deadline: what is to be ordered for one delivery, had no more, or stopped."""

from dataclasses import dataclass

from pantry.reports.standing_orders import Stop, stops
from pantry.reports.view import View
from pantry.rules.alerts import Deadline
from pantry.rules.deadlines import Alert, alert_at
from pantry.rules.plan import Plan, PlanRow


@dataclass(frozen=True, slots=True)
class Due:
    """A deadline with the rows of the plan that it is of, or the delivery that it would stop."""

    deadline: Deadline
    rows: tuple[PlanRow, ...]
    stop: Stop | None = None


def due(view: View, found: Plan) -> list[Due]:
    """Every deadline of the plan, the nearest first; what nobody can bring, and stops, are last.

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
    return [*together.values(), *(_stopping(view, stop) for stop in stops(view))]


def _deadline(row: PlanRow) -> Deadline:
    if row.delivery is None:
        return Deadline(f"nobody/{row.item}", None, None, None, row.alert)
    return Deadline(row.delivery.id, row.supplier, row.delivery.at, row.order_by, row.alert)


def _stopping(view: View, stop: Stop) -> Due:
    """Until its cut-off a supplier can be told to bring nothing; after it, that it is too late."""
    delivery = stop.delivery
    stage = alert_at(view.now, delivery.order_by, view.house, view.zone)
    named = f"stop/{stop.order.id}"
    return Due(Deadline(named, delivery.supplier, delivery.at, delivery.order_by, stage), (), stop)
