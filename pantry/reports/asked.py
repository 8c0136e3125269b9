"""Every report by its name: what the command line and the server ask alike."""

from collections.abc import Mapping
from typing import Any

from pantry.refusals import NotThere, declare
from pantry.reports import (
    alerts,
    asked_for,
    awaited,
    budget,
    changes,
    checks,
    code,
    cold_places,
    coolings,
    count_differences,
    counts,
    coverage,
    credits_owed,
    days,
    devices,
    dishes,
    dishes_for,
    expected,
    failed_places,
    house,
    instead,
    invoices,
    items,
    labels,
    late_change,
    menus,
    morning,
    notice,
    orders,
    people,
    pick,
    plan,
    preparations,
    presence,
    prices,
    pull,
    questions,
    recipes,
    reorder,
    served,
    serving,
    sheets,
    shop_runs,
    standing_orders,
    stay_change,
    stock,
    supplier_record,
    suppliers,
    trace,
    use_first,
    waste,
    waste_without_batch,
    wrong_places,
)
from pantry.reports.arguments import read_arguments
from pantry.reports.askable import Asked
from pantry.reports.report import Row
from pantry.reports.shapes.alerts import AlertsReport
from pantry.reports.shapes.code import CodeRow
from pantry.reports.shapes.cold_chain import CheckRow, ColdPlaceRow, CoolingRow, FailedPlaceRow
from pantry.reports.shapes.counts import CountDifferenceRow, CountsRow
from pantry.reports.shapes.coverage import CoverageRow
from pantry.reports.shapes.credits import CreditRow
from pantry.reports.shapes.days import DaysRow, MorningRow
from pantry.reports.shapes.dishes import DishRow
from pantry.reports.shapes.dishes_for import DishForRow
from pantry.reports.shapes.envelope import NoticeReport, Report
from pantry.reports.shapes.expected import ExpectedRow
from pantry.reports.shapes.house import AwaitedRow, HouseRow, OneDevice, PersonRow
from pantry.reports.shapes.invoices import InvoicesReport
from pantry.reports.shapes.items import ItemRow
from pantry.reports.shapes.labels import LabelRow
from pantry.reports.shapes.late_change import LateChangeRow
from pantry.reports.shapes.lists import PickRow, PullRow
from pantry.reports.shapes.menus import MenuRow
from pantry.reports.shapes.notice import LongerNoticeRow
from pantry.reports.shapes.ordering import BudgetRow, OrderRow, PriceRow, ReorderRow
from pantry.reports.shapes.plan import PlanRow
from pantry.reports.shapes.preparations import PreparationRow
from pantry.reports.shapes.presence import PresenceReport, StayChangeRow
from pantry.reports.shapes.questions import ChangeRow, QuestionRow
from pantry.reports.shapes.recipes import RecipeRow
from pantry.reports.shapes.serving import InsteadRow, ServedRow, ServingRow
from pantry.reports.shapes.sheets import SheetRow
from pantry.reports.shapes.shop import AskedForRow, ShopRunRow
from pantry.reports.shapes.standing_orders import StandingOrderRow
from pantry.reports.shapes.stock import StockRow, UseFirstRow
from pantry.reports.shapes.suppliers import SupplierRecordRow, SupplierRow
from pantry.reports.shapes.trace import TraceRow
from pantry.reports.shapes.waste import WasteRow, WasteWithoutBatchRow
from pantry.reports.shapes.wrong_places import WrongPlaceRow
from pantry.reports.view import LOOK_AHEAD, View
from pantry.reports.which_service import service_ahead

REPORT_UNKNOWN = declare("report_unknown", "There is no report of that name.")

_ANY_NUMBER = range(2**53)
_DAYS = range(1, LOOK_AHEAD.days + 1)
_DAYS_BACK = range(1, 367)
_BETWEEN: Mapping[str, range | None] = {"from": None, "to": None}
_COVERS = range(1, 1001)


def _coverage(view: View, service: str | None = None) -> list[Row]:
    return coverage.coverage(view, None if service is None else service_ahead(view, service))


def _presence(view: View, days: int = presence.DAYS, **given: str) -> list[Row]:
    return presence.presence(view, days, given.get("from"), given.get("meals"))


def _served(view: View, **given: str) -> list[Row]:
    return served.served(view, *(given.get(name) for name in ("from", "to", "table", "dish")))


def _waste(view: View, **days: str) -> list[Row]:
    return waste.waste(view, days.get("from"), days.get("to"))


def _waste_without_batch(view: View, **days: str) -> list[Row]:
    return waste_without_batch.waste_without_batch(view, days.get("from"), days.get("to"))


ASKED: Mapping[str, Asked] = {
    "alerts": Asked(
        alerts.alerts,
        AlertsReport,
        beside={
            "digest_at": alerts.digest_at,
            "letters_to": alerts.letters_to,
            "no_letters_to": alerts.no_letters_to,
        },
    ),
    "asked-for": Asked(asked_for.asked_for, Report[AskedForRow]),
    "awaited": Asked(awaited.awaited, Report[AwaitedRow]),
    "budget": Asked(budget.budget, Report[BudgetRow]),
    "changes": Asked(changes.changes, Report[ChangeRow], {"since": _ANY_NUMBER}),
    "checks": Asked(checks.checks, Report[CheckRow], {"days": _DAYS_BACK}),
    "code": Asked(code.code, Report[CodeRow], {"text": None}, frozenset({"text"})),
    "count-differences": Asked(count_differences.count_differences, Report[CountDifferenceRow]),
    "counts": Asked(counts.counts, Report[CountsRow]),
    "cooling": Asked(coolings.coolings, Report[CoolingRow]),
    "coverage": Asked(_coverage, Report[CoverageRow], {"service": None}),
    "credits": Asked(credits_owed.credits_owed, Report[CreditRow]),
    "days": Asked(days.days, Report[DaysRow], {"days": _DAYS}),
    "devices": Asked(devices.devices, Report[OneDevice]),
    "dishes": Asked(dishes.dishes, Report[DishRow]),
    "dishes-for": Asked(
        dishes_for.dishes_for,
        Report[DishForRow],
        {"date": None, "meal": None, "table": None, "time": None, "covers": _COVERS},
        frozenset({"date", "meal", "table", "time"}),
    ),
    "expected": Asked(expected.expected, Report[ExpectedRow]),
    "failed-places": Asked(failed_places.failed_places, Report[FailedPlaceRow]),
    "house": Asked(house.house, Report[HouseRow]),
    "instead": Asked(
        instead.instead, Report[InsteadRow], {"service": None}, frozenset({"service"})
    ),
    "invoices": Asked(
        invoices.invoices,
        InvoicesReport,
        beside={"not_billed": invoices.not_billed, "owed": invoices.owed},
    ),
    "items": Asked(items.items, Report[ItemRow]),
    "labels": Asked(labels.labels, Report[LabelRow]),
    "late-change": Asked(
        late_change.late_change,
        Report[LateChangeRow],
        {
            "service": None,
            "covers": _COVERS,
            "date": None,
            "meal": None,
            "table": None,
            "time": None,
            "off": None,
        },
        frozenset({"service"}),
    ),
    "longer-notice": Asked(notice.longer_notice, Report[LongerNoticeRow]),
    "menus": Asked(menus.menus, Report[MenuRow]),
    "morning": Asked(morning.morning, Report[MorningRow]),
    "notice": Asked(notice.notice, NoticeReport, follows={"needed_by_menu": notice.needed_by_menu}),
    "orders": Asked(orders.orders, Report[OrderRow]),
    "people": Asked(people.people, Report[PersonRow]),
    "pick": Asked(pick.pick, Report[PickRow]),
    "plan": Asked(plan.plan, Report[PlanRow]),
    "preparations": Asked(preparations.preparations, Report[PreparationRow], {"days": _DAYS}),
    "presence": Asked(
        _presence,
        PresenceReport,
        {"from": None, "days": _DAYS, "meals": None},
        beside={"stays": presence.stays, "away": presence.away, "rotas": presence.rotas},
    ),
    "prices": Asked(prices.prices, Report[PriceRow]),
    "pull": Asked(pull.pull, Report[PullRow]),
    "questions": Asked(questions.questions, Report[QuestionRow]),
    "recipes": Asked(
        recipes.recipes,
        Report[RecipeRow],
        {"recipe": None, "covers": range(1, recipes.MOST_COVERS + 1)},
    ),
    "reorder": Asked(reorder.reorder, Report[ReorderRow]),
    "served": Asked(
        _served, Report[ServedRow], {"from": None, "to": None, "table": None, "dish": None}
    ),
    "serving": Asked(serving.serving, Report[ServingRow]),
    "sheets": Asked(sheets.sheets, Report[SheetRow]),
    "shop-runs": Asked(shop_runs.shop_runs, Report[ShopRunRow]),
    "standing-orders": Asked(standing_orders.standing_orders, Report[StandingOrderRow]),
    "stay-change": Asked(
        stay_change.stay_change,
        Report[StayChangeRow],
        {
            "stay": None,
            "heads": range(1_001),
            "table": None,
            "first": None,
            "first_at": None,
            "last": None,
            "last_at": None,
        },
        frozenset({"table", "first"}),
    ),
    "stock": Asked(stock.stock, Report[StockRow]),
    "supplier-record": Asked(
        supplier_record.supplier_record, Report[SupplierRecordRow], {"days": _DAYS_BACK}
    ),
    "suppliers": Asked(suppliers.suppliers, Report[SupplierRow]),
    "temperatures": Asked(cold_places.temperatures, Report[ColdPlaceRow], {"days": _DAYS_BACK}),
    "trace": Asked(trace.trace, Report[TraceRow], {"name": None}, frozenset({"name"})),
    "use-first": Asked(use_first.use_first, Report[UseFirstRow]),
    "waste": Asked(_waste, Report[WasteRow], _BETWEEN),
    "waste-without-batch": Asked(_waste_without_batch, Report[WasteWithoutBatchRow], _BETWEEN),
    "wrong-places": Asked(wrong_places.wrong_places, Report[WrongPlaceRow]),
}


def asked(name: str) -> Asked:
    """The report of this name.

    Raises:
        NotThere: `report_unknown`.
    """
    if name not in ASKED:
        raise NotThere(
            REPORT_UNKNOWN,
            f"There is no report {name!r}.",
            f"Ask for one of: {', '.join(sorted(ASKED))}.",
            value=name,
        )
    return ASKED[name]


def arguments(name: str, written: Mapping[str, str]) -> dict[str, Any]:
    """The arguments of a report, as text, read for it.

    Raises:
        NotThere: `report_unknown`.
        UnreadableInput: `argument_unknown`, `argument_missing`, `argument_unreadable`.
    """
    one = asked(name)
    return read_arguments(name, one.takes, one.needs, written)


def ask(view: View, name: str, /, **given: Any) -> dict[str, Any]:  # noqa: ANN401 - each its own
    """Ask a report by its name; answers it whole, `rows` last.

    Raises:
        NotThere: `report_unknown`, or what the report itself refuses.
    """
    one = asked(name)
    return one.whole(view, one.rows(view, **given))
