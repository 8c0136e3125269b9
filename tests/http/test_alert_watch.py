"""The server raises alerts by itself, once, however many servers there are (PL5)."""

import subprocess
import sys
from email import message_from_bytes
from email.policy import default
from pathlib import Path

import anyio
import pytest

from pantry.http.alert_watch import AlertWatch
from pantry.mail.letters import Letter
from pantry.mail.mail_server import NotSent
from pantry.mail.trying_again import WORTH, next_try
from pantry.records.database import writing
from pantry.records.rows import change
from pantry.records.tables import AlertRow, AlertStageRow, HouseRow, LetterRow, PersonRow
from tests.commands.house import HOUR, House, at
from tests.commands.larkfield import ID, MANAGER, found_house
from tests.mail.smtp_server import mail_server

ROOT = Path(__file__).parents[2]
DINNER = "2027-03-12/dinner/family"
ORDER_BY = at(11, 17)


class Refusing:
    """A mail server that answers what it is told to."""

    def __init__(self, *answers):
        self.answers = list(answers)
        self.taken: list[Letter] = []

    def hand_over(self, letter, _sent_at):
        if self.answers:
            raise NotSent("mail_not_taken", "no", "later", again=self.answers.pop(0) == "for now")
        self.taken.append(letter)


def pressing(house):
    """A dinner for which something must be ordered within two hours, and a manager with mail."""
    house.menu(DINNER, "rice-pudding")
    with writing(house.engine) as connection:
        change(
            connection,
            PersonRow,
            {"house": ID, "name": MANAGER},
            email="mara@larkfield.example",
        )
    house.now = ORDER_BY - HOUR


@pytest.fixture
def pressed(site):
    pressing(site.house)
    return site


def look_round(site):
    anyio.run(AlertWatch(site.served).look_round)


def moved(site):
    """How far the house's sequence has come."""
    return site.rows(HouseRow, id=ID)[0].change


def sent(site):
    return [row for row in site.rows(LetterRow) if row.sent_at]


def test_PL5_a_look_raises_what_presses_and_writes_nothing_twice(pressed):
    look_round(pressed)
    stages = {(row.stage, row.passed_over) for row in pressed.rows(AlertStageRow)}
    assert stages == {("open", True), ("last_call", False)}
    before = moved(pressed)
    look_round(pressed)
    assert moved(pressed) == before


def test_a_letter_goes_through_the_mail_server_once(pressed, tmp_path):
    with mail_server(tmp_path) as (box, server):
        pressed.served.mail = server
        look_round(pressed)
        look_round(pressed)
        assert len(box.letters) == len(sent(pressed)) >= 1


def test_whoever_declines_letters_through_the_server_is_sent_none(pressed, tmp_path):
    """Each letter says where to decline; once somebody has, their alerts stand on the screen."""
    pressed.served.address = "https://larkfield.home.arpa"
    with mail_server(tmp_path) as (box, server):
        pressed.served.mail = server
        look_round(pressed)
        written = message_from_bytes(box.letters[0].content, policy=default)
        assert "https://larkfield.home.arpa/alerts" in written.get_content()
        before = len(box.letters)
        mara = pressed.as_(MANAGER)
        command = pressed.command("set_own_letters", {"wanted": False}, person=MANAGER)
        (answer,) = mara.post("/api/commands", json=[command]).json()
        assert answer["outcome"] == "applied", answer
        pressed.house.now = ORDER_BY + HOUR
        look_round(pressed)
        assert len(box.letters) == before
        alerts = mara.get("/api/reports/alerts").json()
        assert alerts["no_letters_to"] == [MANAGER]
        assert "missed" in {row["stage"] for row in alerts["rows"]}


def test_a_letter_that_is_not_taken_is_tried_again_later_and_then_given_up(pressed):
    pressed.served.mail = server = Refusing("for now")
    look_round(pressed)
    (row,) = pressed.rows(LetterRow)
    assert (row.tries, row.sent_at, row.said) == (1, None, "no")
    look_round(pressed)
    assert server.taken == []
    pressed.clock += HOUR
    look_round(pressed)
    (letter,) = server.taken
    assert letter.id == row.id
    assert len(sent(pressed)) == 1


def test_a_letter_that_a_server_ended_with_is_taken_up_again_by_the_same_name(pressed):
    class Ending(BaseException):
        """The program is killed after the mail server has taken the letter."""

    server = Refusing()
    take = server.hand_over

    def taken_and_ended(letter, sent_at):
        take(letter, sent_at)
        raise Ending

    server.hand_over = taken_and_ended
    pressed.served.mail = server
    with pytest.raises(Ending):
        look_round(pressed)
    server.hand_over = take
    pressed.clock += HOUR
    look_round(pressed)
    first, second = server.taken
    assert first.id == second.id
    assert len(sent(pressed)) == 1


def test_each_try_waits_twice_as_long_and_a_day_is_the_end():
    written = now = at(11)
    waits = []
    for tries in range(1, 100):
        found = next_try(written, tries, now, again=True)
        if found is None:
            break
        waits.append((found - now).total_seconds() / 60)
        now = found
    assert waits[:8] == [1, 2, 4, 8, 16, 32, 64, 120]
    assert now - written <= WORTH
    assert next_try(written, 1, written, again=False) == written + 2 * HOUR


def test_PL5_a_house_that_cannot_be_looked_at_does_not_silence_the_watch(pressed, monkeypatch):
    def broken(*_arguments, **_more):
        raise RuntimeError("a plan that cannot be made")

    monkeypatch.setattr("pantry.http.alert_watch.look", broken)
    look_round(pressed)
    monkeypatch.undo()
    look_round(pressed)
    assert pressed.rows(AlertRow) != []


@pytest.fixture
def lodge_anywhere(database):
    """Larkfield Lodge in a database of either kind, with something that presses."""
    with writing(database) as connection:
        found_house(connection)
    house = House(database)
    pressing(house)
    return house


def test_PL5_two_servers_on_one_database_tell_each_stage_once(lodge_anywhere):
    """Real processes of their own, which look at the same moment and then again."""
    house = lodge_anywhere
    url = house.engine.url.render_as_string(hide_password=False)
    house.engine.dispose()
    command = [sys.executable, "-m", "tests.http.watchers", url, house.now.isoformat(), "2", "2"]
    done = subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert "Traceback" not in done.stderr
    stages = [(row.turn, row.stage) for row in house.rows(AlertStageRow)]
    assert stages == [(1, "last_call"), (1, "open")]
    assert [row.sequence for row in house.rows(AlertRow)] == [0]
    letters = [row.id for row in house.rows(LetterRow)]
    assert len(letters) == 1
    handed_over = done.stdout.split()
    assert handed_over == letters, "handed over once, by one of them"
