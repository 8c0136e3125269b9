"""Hazel Court's porter, and a clock."""

from datetime import UTC, datetime

import pytest

from pantry.records.database import writing
from pantry.records.rows import one
from pantry.records.tables import PersonRow
from tests.hazel_court import found

NOW = datetime(2026, 11, 25, 12, tzinfo=UTC)


@pytest.fixture
def books(database):
    """A writing transaction on Hazel Court, on either database."""
    with writing(database) as connection:
        found(connection)
        yield connection


@pytest.fixture
def wilf(books):
    """The porter."""
    return one(books, PersonRow, name="Wilf Aske")
