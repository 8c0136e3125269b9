"""Promises are a function of batches, needs, fixed promises and now, whatever led there (LG2, AL2).

What every command writes is planned for the items it touched only. Here the whole house is planned
at once, from what stands on the books, and must come to the same.
"""

from contextlib import contextmanager
from datetime import timedelta

from hypothesis import HealthCheck, settings
from hypothesis.stateful import invariant, rule

from pantry.commands.replan import replan
from pantry.records.books import Books
from pantry.records.promises import settle
from pantry.records.read.kitchen_part import held_by
from pantry.records.rows import every
from pantry.records.tables import ItemRow, NeedRow, PromisedRow
from pantry.rules.house_time import local_date
from tests.commands.larkfield import ID
from tests.properties.any_day import Kitchen


class AtOneInstant(Kitchen):
    """A history at one instant: planned bit by bit as it goes, or all at once."""

    @rule()
    def time_passes(self):
        """It does not."""

    @invariant()
    def planning_everything_anew_changes_nothing(self):
        with _books(self.house) as books:
            before = _promised(books)
            _plan_everything(books)
            assert _promised(books) == before
            assert not any(books.promises.values())

    @invariant()
    def what_is_not_fixed_comes_out_the_same_when_it_is_forgotten(self):
        with _books(self.house) as books:
            before = _promised(books)
            _forget_what_is_not_fixed(books)
            _plan_everything(books)
            assert _promised(books) == before


class AsTimePasses(Kitchen):
    """The same over days: once everything is planned at an instant, nothing in it is chance."""

    @invariant()
    def planned_twice_it_is_the_same(self):
        with _books(self.house) as books:
            _plan_everything(books)
            once = _promised(books)
            _plan_everything(books)
            assert _promised(books) == once
            _forget_what_is_not_fixed(books)
            _plan_everything(books)
            assert _promised(books) == once


@contextmanager
def _books(house):
    """The books of a house, open for writing; nothing that is written stays."""
    connection = house.engine.connect().execution_options(writing=True)
    with connection, connection.begin() as transaction:
        yield Books(connection, ID, house.now)
        transaction.rollback()


def _plan_everything(books):
    books.touched = {row.id for row in every(books.connection, ItemRow, house=ID)}
    replan(books)


def _promised(books):
    rows = every(books.connection, PromisedRow, house=ID)
    return {(row.need, row.batch): (row.service, row.quantity, row.pinned) for row in rows}


def _forget_what_is_not_fixed(books):
    """Let go of what is neither pinned, nor wanted by tomorrow, nor to be bought no more (AL2)."""
    tomorrow = local_date(books.now, books.zone) + timedelta(days=1)
    needs = {row.id: row for row in every(books.connection, NeedRow, house=ID)}
    held = {}
    for key, row in held_by(books, sorted(needs)).items():
        need = needs[key[0]]
        pressing = need.last_order_by is None or need.last_order_by < books.now
        near = local_date(need.wanted_by, books.zone) <= tomorrow
        if not (row.pinned or near or pressing):
            held[key] = row
    settle(books, held, {}, {})


SETTINGS = settings(
    max_examples=12,
    stateful_step_count=25,
    deadline=None,
    derandomize=True,
    suppress_health_check=list(HealthCheck),
)
OneInstant = AtOneInstant.TestCase
OneInstant.settings = SETTINGS
TimePasses = AsTimePasses.TestCase
TimePasses.settings = SETTINGS
