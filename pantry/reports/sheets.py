"""The sheets that were shown to the household: sent when, read when, answered what."""

from datetime import timedelta

from pantry.records.read import menu
from pantry.records.rows import among
from pantry.records.tables import ServiceRow, SheetRow
from pantry.reports.ahead import Ahead
from pantry.reports.menu_answers import MenuAnswers, answer_by
from pantry.reports.report import Row, instant
from pantry.reports.view import View

KEPT = timedelta(days=90)
"""So long a sheet is told of after it was sent."""


def sheets(view: View) -> list[Row]:
    """A row for each sheet of the last three months, the newest first.

    `read_at` is when its link was first followed, which may have been a machine that looks at links
    before people do; null: not yet, or it is on paper only. `state` is *shown*, *over* or
    *withdrawn*.
    """
    answers, ahead = MenuAnswers(view), Ahead(view)
    rows = [row for row in answers.sheets.values() if row.sent_at >= view.now - KEPT]
    return [_row(ahead, answers, row) for row in reversed(rows)]


def _row(ahead: Ahead, answers: MenuAnswers, row: SheetRow) -> Row:
    view = ahead.view
    ids = answers.services_of.get(row.id, [])
    services = {each.id: each for each in among(view.connection, ServiceRow, view.id, "id", ids)}
    return {
        "sheet": row.id,
        "version": row.version,
        "to": row.recipient and answers.names.get(row.recipient, row.recipient),
        "table": row.dining_table and view.tables[row.dining_table].name,
        "sent_by": answers.names.get(row.sent_by, row.sent_by),
        "sent_at": instant(row.sent_at),
        "until": instant(row.expires_at),
        "state": state_of(view, row),
        "has_link": row.id in answers.links,
        "read_at": instant(answers.read_at(row.id)),
        "services": [_service(ahead, answers, services[each]) for each in ids if each in services],
    }


def state_of(view: View, row: SheetRow) -> str:
    """Whether a sheet is *shown*, *over* or *withdrawn*."""
    if row.withdrawn_at is not None:
        return "withdrawn"
    return "over" if row.expires_at < view.now else "shown"


def _service(ahead: Ahead, answers: MenuAnswers, row: ServiceRow) -> Row:
    view = ahead.view
    service = menu.service(view.connection, view.id, row)
    return {
        "service": row.id,
        "date": row.on.isoformat(),
        "meal": row.meal,
        "table": view.tables[row.dining_table].name,
        "state": row.state,
        "answer_by": instant(answer_by(ahead, service)),
        "answer": answers.told(row),
    }
