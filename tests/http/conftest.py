"""Larkfield Lodge behind the real server."""

import pytest
from argon2 import PasswordHasher

from pantry.access import passwords
from tests.commands.larkfield import found_database, open_copy
from tests.http.site import Site


@pytest.fixture(autouse=True)
def _passwords_cost_little(monkeypatch):
    """What they cost otherwise is a test of its own."""
    cheap = PasswordHasher(time_cost=1, memory_cost=8, parallelism=1)
    monkeypatch.setattr(passwords, "_HASHER", cheap)
    passwords._nobodys.cache_clear()
    yield
    passwords._nobodys.cache_clear()


@pytest.fixture(scope="session")
def founded(tmp_path_factory):
    """A file with Larkfield Lodge in it, to be copied."""
    return found_database(tmp_path_factory.mktemp("house") / "founded.db")


@pytest.fixture
def open_site(founded, tmp_path):
    """Ways to open a server of Larkfield Lodge."""
    opened = []

    def open_one(engine=None, **more):
        engine = engine or open_copy(founded, tmp_path / f"house {len(opened)}.db")
        opened.append((Site(engine, **more), engine))
        return opened[-1][0]

    yield open_one
    for site, engine in opened:
        site.close()
        engine.dispose()


@pytest.fixture
def site(open_site):
    """A server of Larkfield Lodge, to do with as one likes."""
    return open_site()


@pytest.fixture(scope="module")
def quiet_site(founded, tmp_path_factory):
    """A server of Larkfield Lodge in which nothing is changed."""
    engine = open_copy(founded, tmp_path_factory.mktemp("quiet") / "house.db")
    opened = Site(engine)
    yield opened
    opened.close()
    engine.dispose()
