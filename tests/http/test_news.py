"""News: a change is told at once, of whatever process it is, and no stream holds the server up."""

import os
import subprocess
import sys
import time
from datetime import timedelta
from pathlib import Path

import pytest

from pantry.access.sessions import IDLE
from pantry.http import news
from tests.commands.larkfield import CHEF, MANAGER, PORTER
from tests.http.site import code, events

PATIENCE = 20


@pytest.fixture
def listening(site):
    """A stream of news to the chef."""
    with site.as_(CHEF).stream("GET", "/api/news", timeout=PATIENCE) as answer:
        assert answer.headers["content-type"].startswith("text/event-stream")
        yield events(answer)


def set_level(site, level="low", **more):
    return site.command("set_level", {"item": "salt", "level": level}, **more)


def test_where_the_house_stands_is_told_first(listening):
    assert next(listening) == ("change", {"position": 0, "change": 0})


def test_a_change_by_this_process_is_told(site, listening):
    next(listening)
    site.as_(PORTER).post("/api/commands", json=[set_level(site)])
    assert next(listening) == ("change", {"position": 1, "change": 1})
    site.as_(PORTER).post("/api/exchange", json={"protocol": 1, "commands": [set_level(site)]})
    assert next(listening) == ("change", {"position": 2, "change": 2})


def test_a_change_by_another_process_is_told(site, listening, tmp_path):
    next(listening)
    line = news.msgspec.json.encode(set_level(site, person=CHEF))
    inherited = {k: v for k, v in os.environ.items() if not k.startswith("CHOOSEBY_")}
    begun = time.monotonic()
    subprocess.run(
        [Path(sys.executable).with_name("chooseby"), "apply", "-"],
        input=line,
        env=inherited
        | {
            "CHOOSEBY_DATABASE_URL": str(site.engine.url),
            "CHOOSEBY_DATA": str(tmp_path),
            "CHOOSEBY_NOW": "2027-03-08T07:00:00Z",
        },
        check=True,
        capture_output=True,
    )
    assert next(listening) == ("change", {"position": 1, "change": 1})
    assert time.monotonic() - begun < PATIENCE


def test_two_who_listen_are_both_told_and_of_their_own_house(site, listening):
    from pantry.records.database import writing
    from tests.hazel_court import found

    with writing(site.engine) as connection:
        found(connection)
    next(listening)
    with site.as_("Wilf Aske").stream("GET", "/api/news", timeout=PATIENCE) as answer:
        other = events(answer)
        assert next(other) == ("change", {"position": 0, "change": 0})
        site.as_(PORTER).post("/api/commands", json=[set_level(site)])
        assert next(listening) == ("change", {"position": 1, "change": 1})
        given = [site.command("set_level", {"item": "plain-flour", "level": "out"})]
        site.as_("Wilf Aske").post("/api/commands", json=given)
        assert next(other) == ("change", {"position": 1, "change": 1})


def test_in_a_quiet_house_a_comment_says_that_it_is_still_there(site, monkeypatch):
    monkeypatch.setattr(news, "STILL_THERE_EVERY", 0.05)
    with site.as_(CHEF).stream("GET", "/api/news", timeout=PATIENCE) as answer:
        told = events(answer)
        assert next(told) in (None, ("change", {"position": 0, "change": 0}))
        assert None in (next(told), next(told))


def test_the_stream_ends_when_the_session_is_ended(site, listening):
    next(listening)
    ended = site.as_(MANAGER).post("/api/sessions/end", json={"person": CHEF})
    assert ended.json() == {"ended": 1}
    assert list(listening) == []


def test_the_stream_ends_with_the_session_even_in_a_quiet_house(site, monkeypatch):
    monkeypatch.setattr(news, "STILL_THERE_EVERY", 0.05)
    with site.as_(CHEF).stream("GET", "/api/news", timeout=PATIENCE) as answer:
        told = events(answer)
        next(told)
        site.clock += IDLE + timedelta(seconds=1)
        deadline = time.monotonic() + PATIENCE
        for _ in told:
            assert time.monotonic() < deadline, "it does not end"


def test_no_stream_holds_the_server_up(site, listening):
    next(listening)
    begun = time.monotonic()
    site.stop()
    assert list(listening) == []
    assert time.monotonic() - begun < PATIENCE


def test_a_listener_that_goes_away_is_forgotten(site, monkeypatch):
    monkeypatch.setattr(news, "STILL_THERE_EVERY", 0.01)
    with site.as_(CHEF).stream("GET", "/api/news", timeout=PATIENCE) as answer:
        next(events(answer))
    deadline = time.monotonic() + PATIENCE
    while site.served.news._listeners and time.monotonic() < deadline:
        site.nobody.get("/api/health")
    assert not site.served.news._listeners


def test_nobody_listens_without_a_session(quiet_site):
    assert code(quiet_site.nobody.get("/api/news")) == (401, "not_signed_in")
