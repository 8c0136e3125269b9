"""Every report says the same of the same house on PostgreSQL and on SQLite."""

import json

import pytest

from pantry.records.database import reading
from pantry.reports.changes import changes
from pantry.reports.coverage import coverage
from pantry.reports.notice import needed_by_menu, notice
from pantry.reports.plan import plan
from pantry.reports.questions import questions
from pantry.reports.report import report
from pantry.reports.stock import stock
from pantry.reports.trace import trace
from pantry.reports.use_first import use_first
from pantry.reports.view import view
from tests.reports.demo_house import NOW, found_in


def traced(seen):
    return trace(seen, "B-0241")


REPORTS = (stock, use_first, plan, coverage, notice, questions, changes, traced)


def written(engine, house):
    """Every report as it goes over the wire."""
    with reading(engine) as connection:
        seen = view(connection, house, NOW)
        said = {each.__name__: report(seen, each(seen)) for each in REPORTS}
        said["notice needed"] = needed_by_menu(notice(seen))
    return {name: json.dumps(answer) for name, answer in said.items()}


@pytest.mark.postgres
def test_every_report_is_the_same_on_postgresql_and_on_sqlite(house, postgres_database):
    here = written(*house)
    there = written(postgres_database, found_in(postgres_database))
    assert here.keys() == there.keys()
    for name, answer in here.items():
        assert len(answer) > 2
        assert there[name] == answer, name
