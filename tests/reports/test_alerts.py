"""What presses, what was told of it, and the letters that tell it (PL5)."""

from dataclasses import dataclass
from datetime import timedelta

import pytest

from pantry.commands.rights import READS
from pantry.records import alerts as kept_alerts
from pantry.records.database import reading, writing
from pantry.records.rows import change
from pantry.records.tables import AlertRow, AlertStageRow, LetterRow, PersonRow, SeenToRow
from pantry.reports import alerts
from pantry.reports.alert_look import look
from pantry.reports.view import view
from tests.commands.house import DAY, HOUR, at
from tests.commands.larkfield import CHEF, ID, MANAGER
from tests.reports.asking import told

DINNER = "2027-03-12/dinner/family"
DAIRY = "hill-dairy/2027-03-12T06:45:00Z"
ORDER_BY = at(11, 17)
WARNING = timedelta(hours=24)
LAST_CALL = timedelta(hours=2)
MINUTE = timedelta(minutes=1)


@dataclass
class Watched:
    """A lodge that is looked at as the server does."""

    lodge: object
    sends: bool = True

    def look(self, at=None):
        """One look, and writing what it found; whether it found anything."""
        if at is not None:
            self.lodge.now = at
        roles = READS["alerts"] if self.sends else None
        with reading(self.lodge.engine) as connection:
            found = look(view(connection, ID, self.lodge.now), told_to=roles, clock=self.lodge.now)
        if not found.is_nothing:
            with writing(self.lodge.engine) as connection:
                assert kept_alerts.keep(connection, ID, found, self.lodge.now)
        return found

    def stages(self):
        rows = self.lodge.rows(AlertStageRow, alert=DAIRY)
        return {(row.turn, row.stage): row.passed_over for row in rows}

    def alert(self):
        return self.lodge.rows(AlertRow, id=DAIRY)[-1]

    def letters(self):
        return sorted(self.lodge.rows(LetterRow), key=lambda row: (row.written_at, row.address))


@pytest.fixture
def watched(lodge):
    """A dinner is chosen for which milk and eggs have to be ordered by Thursday at five."""
    lodge.menu(DINNER, "rice-pudding")
    with writing(lodge.engine) as connection:
        for name, address in (
            (CHEF, "cato@larkfield.example"),
            (MANAGER, "mara@larkfield.example"),
        ):
            change(connection, PersonRow, {"house": ID, "name": name}, email=address)
    return Watched(lodge)


def test_PL5_an_alert_rises_with_the_hour_each_stage_written_once(watched):
    assert watched.look(ORDER_BY - WARNING - MINUTE).rises == []
    for now, stage in (
        (ORDER_BY - WARNING, "open"),
        (ORDER_BY - LAST_CALL, "last_call"),
        (ORDER_BY + MINUTE, "missed"),
    ):
        watched.look(now)
        assert watched.alert().stage == stage
        assert watched.look(now + MINUTE / 2).is_nothing
    assert watched.stages() == dict.fromkeys([(1, "open"), (1, "last_call"), (1, "missed")], False)


def test_PL5_a_look_says_when_the_next_is_due(watched):
    watched.sends = False
    assert watched.look(ORDER_BY - WARNING - MINUTE).next_at <= ORDER_BY - WARNING
    assert watched.look(ORDER_BY - WARNING).next_at <= ORDER_BY - LAST_CALL


def test_PL5_the_report_says_what_to_order_of_whom_by_when_and_for_what(watched, lodge):
    lodge.now = ORDER_BY - LAST_CALL
    rows = {row["alert"]: row for row in told(lodge, alerts.alerts)}
    row = rows[DAIRY]
    assert (row["stage"], row["supplier"]) == ("last_call", "Hill Dairy")
    assert (row["order_by"], row["delivery"]) == ("2027-03-11T17:00:00Z", "2027-03-12T06:45:00Z")
    assert row["last_call"] == "2027-03-11T15:00:00Z"
    (milk,) = (line for line in row["lines"] if line["item"] == "Whole milk")
    assert milk["because"] == [DINNER]
    assert milk["packs"] >= 1
    assert row["raised_at"] is None, "the server has not told it yet"
    watched.look()
    (row,) = (row for row in told(lodge, alerts.alerts) if row["alert"] == DAIRY)
    assert row["raised_at"] == "2027-03-11T15:00:00Z"


def test_PL5_what_was_missed_says_the_ways_out(watched, lodge):
    watched.look(ORDER_BY + MINUTE)
    (row,) = (row for row in told(lodge, alerts.alerts) if row["alert"] == DAIRY)
    assert row["stage"] == "missed"
    assert {way["kind"] for way in row["ways_out"]} >= {"shop_run"}
    assert watched.stages() == {(1, "open"): True, (1, "last_call"): True, (1, "missed"): False}
    lodge.now = at(12, 23)
    assert DAIRY not in {row["alert"] for row in told(lodge, alerts.alerts)}, "the dinner is over"


@pytest.mark.parametrize(
    ("terms", "said"),
    [
        (
            {"order_given": "telephone", "order_words": "01632 960 010, ask for Moira"},
            "Telephone: 01632 960 010, ask for Moira.",
        ),
        (
            {"order_given": "email", "email": "orders@hill-dairy.example"},
            "Send it by e-mail: orders@hill-dairy.example.",
        ),
        ({"email": "orders@hill-dairy.example"}, "Send it by e-mail: orders@hill-dairy.example."),
        (
            {"order_given": "portal", "order_words": "https://orders.hill-dairy.example"},
            "Order on their own page: https://orders.hill-dairy.example.",
        ),
        ({"order_given": "by_hand", "email": "x@y.example"}, "Give it by hand."),
        ({"order_words": "Moira at the gate"}, "How they take orders: Moira at the gate."),
    ],
)
def test_PL5_the_last_call_says_how_the_order_is_given(watched, lodge, terms, said):
    lodge.do("set_terms", {"supplier": "hill-dairy"} | terms, person=MANAGER)
    watched.look(ORDER_BY - LAST_CALL)
    letter = watched.letters()[0]
    assert said in letter.text.splitlines()


def test_PL5_of_whom_nothing_is_known_nothing_is_said(watched, lodge):
    watched.look(ORDER_BY - LAST_CALL)
    (row,) = (row for row in told(lodge, alerts.alerts) if row["alert"] == DAIRY)
    assert row["order_given"] is None


def test_PL5_a_missed_order_names_the_shop_that_was_agreed_on_with_its_hours(watched, lodge):
    shop = "Larkfield Stores, every day 7 to 19"
    lodge.do("set_terms", {"supplier": "hill-dairy", "fallback_shop": shop}, person=MANAGER)
    watched.look(ORDER_BY + MINUTE)
    (row,) = (row for row in told(lodge, alerts.alerts) if row["alert"] == DAIRY)
    runs = [way for way in row["ways_out"] if way["kind"] == "shop_run"]
    assert {way["item"] for way in runs} == {"Whole milk", "Butter"}
    assert {tuple(way["shops"]) for way in runs} == {(shop,)}
    letter = watched.letters()[0]
    assert f"- Somebody goes to the shop for 1 l Whole milk: {shop}" in letter.text.splitlines()


def test_PL5_an_order_that_covers_it_closes_it_and_more_opens_it_again(watched, lodge):
    watched.look(ORDER_BY - WARNING)
    (row,) = (row for row in told(lodge, alerts.alerts) if row["alert"] == DAIRY)
    lines = [{key: line[key] for key in ("item", "pack", "packs")} for line in row["lines"]]
    body = {"supplier": "Hill Dairy", "delivery": "2027-03-12T06:45:00Z", "lines": lines}
    order = lodge.do("place_order", body)
    watched.look(ORDER_BY - WARNING + HOUR)
    assert watched.alert().why == "ordered"
    lodge.do("cancel_order", {"order": "hill-dairy/2027-03-12", "reason": "by mistake"})
    watched.look(ORDER_BY - WARNING + 2 * HOUR)
    assert (watched.alert().turn, watched.alert().why) == (2, None)
    assert order


def test_PL5_a_menu_that_is_taken_off_closes_it(watched, lodge):
    watched.look(ORDER_BY - WARNING)
    lodge.do("take_off", {"service": DINNER, "reason": "away"})
    watched.look(ORDER_BY - WARNING + HOUR)
    assert watched.alert().why == "not_needed"
    assert watched.alert().sequence == 1


@pytest.mark.usefixtures("watched")
def test_a_look_at_a_house_that_has_moved_meanwhile_writes_nothing(lodge):
    lodge.now = ORDER_BY - WARNING
    with reading(lodge.engine) as connection:
        seen = view(connection, ID, lodge.now)
        found = look(seen, told_to=None, clock=lodge.now)
    lodge.do("take_off", {"service": DINNER, "reason": "away"})
    with writing(lodge.engine) as connection:
        assert not kept_alerts.keep(connection, ID, found, lodge.now)
    assert lodge.rows(AlertRow) == []


# Who sees to it


def test_somebody_sees_to_it_by_name_and_it_stays_open(watched, lodge):
    watched.look(ORDER_BY - WARNING)
    given = lodge.do("see_to_alert", {"alert": DAIRY}, person=MANAGER)
    (row,) = (row for row in told(lodge, alerts.alerts) if row["alert"] == DAIRY)
    assert row["seen_to"] == {"command": given, "person": MANAGER, "at": "2027-03-10T17:00:00Z"}
    watched.look(ORDER_BY - LAST_CALL)
    assert watched.alert().stage == "last_call"
    lodge.do("correct", {"command": given, "reason": "I cannot"}, person=MANAGER)
    assert lodge.rows(SeenToRow) == []


def test_what_is_not_open_cannot_be_seen_to(watched, lodge):
    assert lodge.refuses("see_to_alert", {"alert": DAIRY}).code == "alert_unknown"
    watched.look(ORDER_BY - WARNING)
    lodge.do("take_off", {"service": DINNER, "reason": "away"})
    watched.look()
    assert lodge.refuses("see_to_alert", {"alert": DAIRY}).code == "alert_unknown"


# Letters


def test_PL5_what_presses_is_told_at_once_and_what_opens_with_the_days_letter(watched):
    watched.look(ORDER_BY - WARNING)
    assert watched.letters() == []
    watched.look(ORDER_BY - LAST_CALL)
    letters = [row for row in watched.letters() if row.subject.startswith("Last call")]
    assert [row.address for row in letters] == ["cato@larkfield.example", "mara@larkfield.example"]
    letter = letters[0]
    assert letter.subject == "Last call: Hill Dairy by Thursday 11 March, 17:00"
    assert "for the delivery of Friday 12 March, 06:45:" in letter.text
    assert "Whole milk" in letter.text
    assert "dinner on Friday 12 March, family" in letter.text
    before = len(watched.letters())
    watched.look(ORDER_BY - LAST_CALL + MINUTE)
    assert len(watched.letters()) == before


def test_PL5_a_server_that_slept_says_what_nobody_was_told(watched):
    watched.look(ORDER_BY + MINUTE)
    (letter, *_) = (row for row in watched.letters() if row.subject.startswith("Too late"))
    assert "Nobody was told before that it was time to order and that it was the last call." in (
        letter.text
    )
    assert "What is left:" in letter.text


def test_the_days_letter_goes_out_once_a_day_at_the_houses_own_hour(watched, lodge):
    def of_the_day():
        return [row for row in watched.letters() if row.subject.startswith("Today")]

    watched.look(at(11, 6, 59))
    assert of_the_day() == []
    watched.look(at(11, 7))
    assert len(of_the_day()) == 2
    assert "Order now: Hill Dairy by Thursday 11 March, 17:00" in of_the_day()[0].text
    watched.look(at(11, 9))
    assert len(of_the_day()) == 2
    lodge.do("set_digest", {"at": "18:30"}, person=MANAGER)
    watched.look(at(12, 8))
    assert len(of_the_day()) == 2
    watched.look(at(12, 18, 30))
    assert len(of_the_day()) == 4
    lodge.do("set_digest", {"at": None}, person=MANAGER)
    watched.look(at(13, 20))
    assert len(of_the_day()) == 4
    assert told(lodge, alerts.alerts) is not None


def test_who_may_not_read_it_and_who_has_no_address_get_no_letter(watched, lodge):
    with writing(lodge.engine) as connection:
        change(connection, PersonRow, {"house": ID, "role": "porter"}, email="p@larkfield.example")
        change(connection, PersonRow, {"house": ID, "name": MANAGER}, email=None)
    watched.look(ORDER_BY - LAST_CALL)
    assert {row.address for row in watched.letters()} == {"cato@larkfield.example"}


def test_whoever_declines_gets_no_letter_until_they_want_them_again(watched, lodge):
    def stand():
        with reading(lodge.engine) as connection:
            seen = view(connection, ID, lodge.now)
            return alerts.letters_to(seen), alerts.no_letters_to(seen)

    assert stand() == ([CHEF, MANAGER], [])
    lodge.do("set_own_letters", {"wanted": False}, person=CHEF)
    lodge.do("set_own_letters", {"wanted": False}, person=CHEF)
    assert stand() == ([MANAGER], [CHEF])
    watched.look(ORDER_BY - LAST_CALL)
    assert {row.address for row in watched.letters()} == {"mara@larkfield.example"}
    lodge.do("set_own_letters", {"wanted": True}, person=CHEF)
    watched.look(ORDER_BY + MINUTE)
    missed = {row.address for row in watched.letters() if row.subject.startswith("Too late")}
    assert (stand()[1], missed) == ([], {"mara@larkfield.example", "cato@larkfield.example"})


def test_who_is_told_is_whoever_may_read_the_alerts():
    assert READS["alerts"] == alerts.TOLD


def test_a_house_that_sends_no_mail_writes_no_letters(watched):
    watched.sends = False
    watched.look(ORDER_BY + MINUTE)
    assert watched.letters() == []
    assert watched.alert().stage == "missed"


def test_an_hour_that_is_none_is_refused(lodge):
    problem = lodge.refuses("set_digest", {"at": "7"}, person=MANAGER)
    assert problem.code == "wall_time_unreadable"


@pytest.mark.usefixtures("watched")
def test_a_letter_is_known_by_the_same_name_whoever_writes_it(lodge):
    lodge.now = ORDER_BY - LAST_CALL
    with reading(lodge.engine) as connection:
        seen = view(connection, ID, lodge.now)
        first, second = (
            look(seen, told_to=READS["alerts"], clock=lodge.now + each * DAY) for each in (0, 1)
        )
    assert [each.id for each in first.letters] == [each.id for each in second.letters]
    assert len({each.id for each in first.letters}) == len(first.letters)
