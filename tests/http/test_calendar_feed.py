"""A person's own calendar: its address, and what other programs read there (RFC 5545)."""

from datetime import timedelta

import pytest
import vobject

from pantry.records.database import writing
from pantry.records.rows import change
from pantry.records.tables import CalendarFeedRow, PersonRow
from tests.commands.house import DAY, HOUR, at
from tests.commands.larkfield import CHEF, ID, MANAGER, PORTER
from tests.http.site import code
from tests.http.test_alert_watch import DINNER, ORDER_BY, look_round

LAST_CALL = timedelta(hours=2)


@pytest.fixture
def pressed(site):
    site.house.menu(DINNER, "rice-pudding")
    site.house.now = ORDER_BY - 20 * HOUR
    look_round(site)
    return site


def made(site, name=MANAGER):
    answer = site.as_(name).post("/api/calendar/make")
    assert answer.status_code == 200, answer.text
    return answer.json()["path"]


def read(site, path, **headers):
    return site.nobody.get(path, headers=headers)


def events(site, path):
    """By supplier, as an independent reader finds them."""
    found = vobject.readOne(read(site, path).content.decode())
    return {event.uid.value: event for event in found.contents.get("vevent", [])}


def dairy(site, path):
    (event,) = (e for e in events(site, path).values() if "Hill Dairy" in e.summary.value)
    return event


def test_an_address_cannot_be_guessed_and_only_its_hash_is_kept(pressed):
    path = made(pressed)
    secret = path.removeprefix("/calendar/").removesuffix(".ics")
    assert len(secret) * 6 >= 128
    (row,) = pressed.rows(CalendarFeedRow)
    assert secret not in f"{row}"
    assert made(pressed, CHEF) != path


def test_RFC_5545_another_program_reads_what_to_order_and_by_when(pressed):
    event = dairy(pressed, made(pressed))
    assert event.dtend.value == ORDER_BY
    assert event.dtstart.value < event.dtend.value
    assert event.summary.value == "Order of Hill Dairy"
    assert event.description.value.startswith("Order of Hill Dairy by Thursday 11 March, 17:00,")
    assert "Whole milk" in event.description.value
    assert "dinner on Friday 12 March, family" in event.description.value
    assert event.status.value == "CONFIRMED"
    assert event.transp.value == "TRANSPARENT"
    assert event.valarm.action.value == "DISPLAY"
    assert event.valarm.trigger.value == ORDER_BY - LAST_CALL


def test_RFC_5545_section_3_1_lines_end_with_CRLF_and_are_folded_at_75_octets(pressed):
    body = read(pressed, made(pressed)).content
    assert body.startswith(b"BEGIN:VCALENDAR\r\n")
    assert body.endswith(b"END:VCALENDAR\r\n")
    lines = body.split(b"\r\n")
    assert max(map(len, lines)) <= 75
    assert not any(b"\n" in line or b"\r" in line for line in lines)
    assert any(line.startswith(b" ") for line in lines), "some line was folded"
    body.decode("utf-8")


def test_RFC_5545_section_3_8_7_4_a_deadline_keeps_its_name_and_counts_its_changes(pressed):
    path = made(pressed)
    first = dairy(pressed, path)
    pressed.house.now = ORDER_BY - LAST_CALL
    look_round(pressed)
    second = dairy(pressed, path)
    assert second.uid.value == first.uid.value
    assert int(second.sequence.value) > int(first.sequence.value)
    pressed.house.do("take_off", {"service": DINNER, "reason": "away"})
    look_round(pressed)
    third = dairy(pressed, path)
    assert (third.uid.value, third.status.value) == (first.uid.value, "CANCELLED")
    assert int(third.sequence.value) > int(second.sequence.value)
    assert "valarm" not in third.contents
    assert third.summary.value == "Not needed any more: Hill Dairy"


def test_what_is_not_due_yet_stands_in_it_too_and_what_is_long_done_does_not(pressed):
    path = made(pressed)
    pressed.house.now = ORDER_BY - 2 * DAY
    assert dairy(pressed, path).dtend.value == ORDER_BY
    pressed.house.do("take_off", {"service": DINNER, "reason": "away"})
    look_round(pressed)
    pressed.house.now = ORDER_BY + 15 * DAY
    assert not [e for e in events(pressed, path).values() if "Hill Dairy" in e.summary.value]


def test_what_has_not_changed_is_not_sent_again(pressed):
    path = made(pressed)
    first = read(pressed, path)
    tag = first.headers["etag"]
    assert first.headers["content-type"].startswith("text/calendar")
    pressed.house.now += HOUR / 2
    again = read(pressed, path, **{"if-none-match": f'"other", W/{tag}'})
    assert (again.status_code, again.content) == (304, b"")
    pressed.house.do("take_off", {"service": DINNER, "reason": "away"})
    assert read(pressed, path, **{"if-none-match": tag}).status_code == 200


def test_a_new_address_ends_the_old_one_and_a_withdrawn_one_leads_nowhere(pressed):
    old, new = made(pressed), made(pressed)
    assert code(read(pressed, old)) == (404, "calendar_wrong")
    assert read(pressed, new).status_code == 200
    mine = pressed.as_(MANAGER)
    told = mine.get("/api/calendar").json()
    assert told == {"made_at": "2027-03-10T21:00:00Z", "read_at": "2027-03-10T21:00:00Z"}
    assert mine.post("/api/calendar/withdraw").status_code == 204
    assert code(read(pressed, new)) == (404, "calendar_wrong")
    assert mine.get("/api/calendar").json() == {"made_at": None, "read_at": None}


def test_it_says_what_its_persons_role_may_read_now(pressed):
    assert code(pressed.as_(PORTER).post("/api/calendar/make")) == (403, "report_lacking")
    path = made(pressed, CHEF)
    with writing(pressed.engine) as connection:
        change(connection, PersonRow, {"house": ID, "name": CHEF}, role="porter")
    assert code(read(pressed, path)) == (404, "calendar_wrong")
    with writing(pressed.engine) as connection:
        change(connection, PersonRow, {"house": ID, "name": CHEF}, role="chef", active=False)
    assert code(read(pressed, path)) == (404, "calendar_wrong")


def test_wrong_addresses_are_slowed_down(pressed):
    answers = [read(pressed, f"/calendar/{number}.ics").status_code for number in range(40)]
    assert answers[0] == 404
    assert answers[-1] == 429


def test_RFC_5545_an_order_by_over_the_clock_change_is_the_houses_wall_time(pressed):
    """From 28 March 2027 on London is an hour ahead: an order-by at 17:00 is 16:00 in UTC."""
    pressed.house.menu("2027-03-30/dinner/family", "rice-pudding")
    pressed.house.now = at(26)
    look_round(pressed)
    found = [e for e in events(pressed, made(pressed)).values() if "Hill Dairy" in e.summary.value]
    (event,) = (e for e in found if e.dtend.value.day == 29)
    assert event.dtend.value == at(29, 16)
    assert "by Monday 29 March, 17:00," in event.description.value
