"""The first manager is one, whoever else asks at the same moment and through whatever server."""

from concurrent.futures import ThreadPoolExecutor

import pytest
from sqlalchemy import text

from pantry.access import first_manager, passwords
from pantry.records.database import reading, writing
from pantry.refusals import Refusal
from tests.access.conftest import NOW
from tests.hazel_court import ID, found

WAITING = text("SELECT count(*) FROM pg_locks WHERE locktype = 'advisory' AND NOT granted")
PATIENCE = 20


def ask(engine):
    """The code with which somebody who asks is refused."""
    with writing(engine) as connection:
        try:
            first_manager.refuse_unless_wanted(connection)
        except Refusal as refusal:
            return refusal.code
    return None


@pytest.mark.postgres
def test_who_asks_while_another_becomes_it_waits_and_is_refused(postgres_database):
    """On SQLite a writer waits for another anyhow; PostgreSQL has no row yet to lock."""
    engine = postgres_database
    with writing(engine) as connection:
        found(connection)
    with ThreadPoolExecutor(1) as other:
        with writing(engine) as connection:
            first_manager.refuse_unless_wanted(connection)
            passwords.keep(connection, ID, "wilf", "a hash", NOW)
            answer = other.submit(ask, engine)
            with reading(engine) as looking:
                while not answer.done() and not looking.execute(WAITING).scalar():
                    pass
            assert not answer.done(), "it waits"
        assert answer.result(PATIENCE) == "first_manager_there"


def test_an_empty_secret_is_none():
    for given, secret in (("", ""), ("x", ""), ("", "x"), ("x", "X")):
        with pytest.raises(Refusal) as refused:
            first_manager.refuse_wrong_secret(given, secret)
        assert refused.value.code == "secret_wrong"
    first_manager.refuse_wrong_secret("crème", "crème")
