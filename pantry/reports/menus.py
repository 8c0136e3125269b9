"""The menus of the days ahead: what is proposed or chosen, by when, and what of it is lacking."""

from collections.abc import Iterable
from datetime import timedelta

from pantry.records.rows import among
from pantry.records.tables import ServiceRow
from pantry.reports import safe_dishes
from pantry.reports.agreed import only_agreed
from pantry.reports.ahead import Ahead
from pantry.reports.menu_answers import MenuAnswers, answer_by, choose_by
from pantry.reports.presence import Told, said_last
from pantry.reports.report import Row, instant
from pantry.reports.view import View
from pantry.rules.house_time import before, local_date
from pantry.rules.menu import Service, ServiceState, Serving

_TO_COME = (ServiceState.PROPOSED, ServiceState.CONFIRMED)


def menus(view: View) -> list[Row]:
    """A row for each service from yesterday to four weeks ahead, in the order of time.

    `notice_by` is the service less the house's notice; `choose_by` of a proposed service is the
    earliest instant at which one of its dishes can be chosen no more, of any other service null.
    `portions` null is one for each cover. What is `short` is what confirmed services leave a dish
    without (RQ4), or what a confirmed dish itself still lacks; nothing once a service is over.
    `conflicts` name who cannot eat a dish, and their own safe dish (AL3). `answer` is what the
    household chose, which the chef confirms; without one the first dish of each course holds from
    `answer_by`. `shown` is the sheet on which they see it now. `said` is another number of covers
    than it stands at, by who is said to be in the house; null where they agree or it is over.
    """
    ahead = Ahead(view)
    yesterday = local_date(view.now, view.zone) - timedelta(days=1)
    services = [service for service in view.services if service.date >= yesterday]
    ids = [service.id for service in services]
    rows = {row.id: row for row in among(view.connection, ServiceRow, view.id, "id", ids)}
    answers = MenuAnswers(view)
    told = Told(view)
    return [
        _row(ahead, service)
        | {
            "version": rows[service.id].version,
            "answer": answers.told(rows[service.id]),
            "shown": answers.shown(service.id),
            "said": _said(told, service),
        }
        for service in services
    ]


def _said(told: Told, service: Service) -> Row | None:
    found = told.covers(service)
    if service.state not in _TO_COME or found.number == service.covers:
        return None
    return said_last(found)


def _row(ahead: Ahead, service: Service) -> Row:
    view = ahead.view
    return {
        "service": service.id,
        "date": service.date.isoformat(),
        "meal": service.meal,
        "table": view.tables[service.table].name,
        "at": instant(service.at),
        "covers": service.covers,
        "state": service.state.value,
        "choose_by": instant(choose_by(ahead, service)),
        "answer_by": instant(answer_by(ahead, service)),
        "notice_by": instant(before(service.at, view.house.notice, view.zone)),
        "short": len(ahead.short(service.id)),
        "courses": [
            {"course": course, "dishes": [_dish(ahead, service, each) for each in servings]}
            for course, servings in _by_course(service.servings).items()
        ],
    }


def _by_course(servings: Iterable[Serving]) -> dict[str, list[Serving]]:
    found: dict[str, list[Serving]] = {}
    for serving in servings:
        found.setdefault(serving.course, []).append(serving)
    return found


def _dish(ahead: Ahead, service: Service, serving: Serving) -> Row:
    recipe, known = ahead.view.recipes[serving.dish], ahead.dish(service, serving)
    return {
        "dish": recipe.id,
        "name": recipe.name,
        "variant": serving.variant,
        "portions": serving.portions,
        "chosen": serving.chosen,
        "approved": recipe.approved,
        "choose_by": instant(known.choose_by),
        "short": list(known.short),
        "flags": list(known.flags),
        "conflicts": safe_dishes.told(ahead.view, service, serving)
        if ahead.is_ahead(service)
        else only_agreed(ahead.view, service.id, serving),
    }
