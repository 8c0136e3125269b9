"""`demo`: the invented house in its own week, shown page by page, afresh every time."""

import re
import shutil
import socket
import sqlite3
from datetime import datetime

import pytest

from tests.cli.conftest import Terminal

STORY = "2027-03-10T07:00:00Z"


@pytest.fixture(scope="module")
def shown(tmp_path_factory):
    """A data folder in which the demo was made on another Friday, and what it said."""
    data = tmp_path_factory.mktemp("demo")
    terminal = Terminal(data)
    terminal.environment["CHOOSEBY_NOW"] = "2026-11-27T15:30:00Z"
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(socket.socket, "connect", _no_network)
        return data, terminal.words("demo")


def _no_network(*_):
    raise AssertionError("the demo house needs no network")


@pytest.fixture
def demo(shown, tmp_path):
    shutil.copytree(shown[0], tmp_path / "demo")
    return Terminal(tmp_path / "demo")


def test_it_shows_its_pages_in_order(shown):
    titles = re.findall(r"^(.+?) ─+$", shown[1], flags=re.MULTILINE)
    assert titles == [
        "Ardlinnet House, Fri 27 Nov 15:30 (Europe/London)",
        "This morning, Fri 27 Nov",
        "The next days",
        "What to order, by when, and why",
        "What somebody must settle",
        "What to try next",
    ]


def test_it_fits_a_hundred_columns_and_each_page_a_screen(shown):
    for page in re.split(r"^.+? ─{3,}$", shown[1], flags=re.MULTILINE)[:-1]:
        assert len(page.splitlines()) <= 56
        assert max(len(line) for line in page.splitlines()) <= 100


def test_its_day_is_the_nearest_wednesday(shown):
    """Lemon posset for Saturday 13 March is of Saturday 28 November now."""
    assert "its dates are moved by 15 weeks" in " ".join(shown[1].split())
    assert "Sat 28 Nov" in shown[1]
    assert "2027" not in shown[1].partition("What to try next")[0].replace("Feb 2027", "")


def test_it_says_five_commands_that_work(shown, demo):
    said = shown[1].partition("What to try next")[2]
    calls = re.findall(r"^CHOOSEBY_DATA=(\S+) \S+ (.+)$", said, flags=re.MULTILINE)
    assert len(calls) == 5
    for data, words in calls:
        assert data == str(shown[0])
        demo.run(*words.split(), CHOOSEBY_NOW="2026-11-25T07:00:00Z")


def test_its_clock_begins_at_seven_of_its_wednesday_and_runs_on(tmp_path, monkeypatch):
    terminal = Terminal(tmp_path)
    del terminal.environment["CHOOSEBY_NOW"]
    now = datetime.fromisoformat("2027-01-22T18:00:00+00:00")
    monkeypatch.setattr("pantry.world.now", lambda: now)
    assert terminal.json("demo") == {
        "schema": 1,
        "house": "Ardlinnet House",
        "data": str(tmp_path),
        "afresh": False,
        "weeks": -7,
        "as_of": "2027-01-20T07:00:00Z",
    }
    later = datetime.fromisoformat("2027-01-22T19:30:00+00:00")
    monkeypatch.setattr("pantry.world.now", lambda: later)
    assert terminal.json("stock")["as_of"] == "2027-01-20T08:30:00Z"


def test_on_its_own_day_nothing_is_moved(tmp_path):
    terminal = Terminal(tmp_path)
    answer = terminal.json("demo", CHOOSEBY_NOW=STORY)
    assert answer["weeks"] == 0
    plan = terminal.json("plan", CHOOSEBY_NOW=STORY)["rows"]
    cream = [row for row in plan if row["item"] == "Double cream" and row["supplier"]]
    # two litres die on Friday; Saturday's posset wants 1.2 l, ordered by Friday 16:50
    assert any(
        row["order_by"] == "2027-03-12T16:50:00Z" and row["delivery"] == "2027-03-13T06:45:00Z"
        for row in cream
    )


def test_the_past_two_weeks_are_in_the_books_as_served_and_the_books_agree(demo):
    demo.run("verify", CHOOSEBY_NOW="2026-11-25T07:00:00Z")
    with sqlite3.connect(demo.data / "chooseby.db") as connection:
        days = connection.execute(
            'SELECT MIN("on"), MAX("on") FROM service WHERE state = \'served\''
        )
        assert days.fetchone() == ("2026-11-11", "2026-11-24")
    connection.close()


def test_its_people_have_been_at_work_on_the_days_before(demo):
    """Two shop runs, one with nothing written down but the money; what they ask for is open."""
    asked = demo.json("questions")["rows"]
    assert "creme-fraiche" in {row["about"] for row in asked if row["kind"] == "run_out"}
    (bought,) = [row for row in demo.json("stock")["rows"] if row["label"] == "B-0901"]
    assert bought["item"] == "Tomatoes"
    assert demo.run("verify").stdout


def test_a_supplier_owes_for_what_was_refused_five_days_before(demo):
    (owed,) = demo.json("credits")["rows"]
    assert (owed["item"], owed["refused"]) == ("Tomatoes", ["mould on the stalks"])
    assert owed["value"] == {"minor": 1760, "currency": "GBP"}
    assert owed["opened_at"] == "2026-11-20T08:45:00Z"
    assert "came_short" not in {row["kind"] for row in demo.json("questions")["rows"]}


def test_again_it_starts_afresh_and_says_so(demo):
    begun = demo.json("stock", CHOOSEBY_NOW="2026-11-25T07:00:00Z")["position"]
    demo.run("apply", "-", given="{}\n", code=1)
    said = demo.words("demo", CHOOSEBY_NOW="2026-11-25T07:00:00Z")
    assert said.startswith("The demo house that was there before is gone.")
    assert demo.json("stock", CHOOSEBY_NOW="2026-11-25T07:00:00Z")["position"] == begun


def test_a_house_of_one_s_own_is_never_touched(lodge):
    before = (lodge.data / "chooseby.db").read_bytes()
    result = lodge.run("demo", code=1)
    assert "[data_in_use]" in result.stderr
    assert (lodge.data / "chooseby.db").read_bytes() == before


def test_without_a_named_folder_it_has_one_beside_the_usual_data(tmp_path):
    terminal = Terminal("")
    home = {"XDG_DATA_HOME": str(tmp_path)}
    assert terminal.json("demo", **home)["data"] == str(tmp_path / "chooseby" / "demo")
    assert "[no_house]" in terminal.run("stock", code=1, **home).stderr


def test_a_database_of_one_s_own_takes_it_once(tmp_path):
    terminal = Terminal(tmp_path / "data")
    url = {"CHOOSEBY_DATABASE_URL": f"sqlite:///{tmp_path}/mine.db", "CHOOSEBY_NOW": STORY}
    assert "the database that CHOOSEBY_DATABASE_URL names" in " ".join(
        terminal.words("demo", **url).split()
    )
    assert terminal.json("stock", **url)["house"] == "Ardlinnet House"
    assert "[data_in_use]" in terminal.run("demo", code=1, **url).stderr
