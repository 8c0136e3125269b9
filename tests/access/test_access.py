"""Sessions, ways in and the throttle against their own clock, on both databases."""

import re
from datetime import timedelta

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry import world
from pantry.access import sessions, throttle, ways_in
from pantry.access.passwords import (
    LONGEST,
    SHORTEST,
    agrees,
    hashed,
    is_outdated,
    keep,
    kept,
    refuse_weak,
)
from pantry.access.people import house_named, person_named
from pantry.access.refused import NotKnown, TooManyTries
from pantry.access.throttle import FORGOTTEN, LONGEST_WAIT, by_address, by_person
from pantry.records.rows import add, every
from pantry.records.tables import PersonRow, SessionRow, TryRow
from pantry.refusals import Refusal
from tests.access.conftest import NOW
from tests.hazel_court import ID

SECOND = timedelta(seconds=1)
WILF = (by_person("password", ID, "wilf"),)


def wait(books, now, counted=WILF):
    """How long a try must wait, in seconds; 0: it is looked at."""
    try:
        throttle.count(books, counted, now)
    except TooManyTries as refusal:
        return refusal.wait
    return 0


def test_each_wait_is_twice_the_last_and_never_longer_than_five_minutes(books):
    for _ in range(5):
        assert wait(books, NOW) == 0
    now, waits = NOW, []
    for _ in range(20):
        assert wait(books, now) == 0, "the wait is over"
        waits.append(wait(books, now))
        now += waits[-1] * SECOND
    assert waits == [2, 4, 8, 16, 32, 64, 128, 256] + [300] * 12


def test_what_is_not_looked_at_is_not_counted(books):
    for _ in range(6):
        assert wait(books, NOW) == 0
    for _ in range(50):
        assert wait(books, NOW) == 2
    assert every(books, TryRow)[0].wrong == 6


def test_a_day_later_everything_is_forgotten(books):
    for _ in range(6):
        wait(books, NOW)
    assert wait(books, NOW + FORGOTTEN + SECOND) == 0
    assert [row.wrong for row in every(books, TryRow)] == [1]


def test_a_right_password_takes_back_its_own_try_at_an_address_and_no_other(books):
    """Or whoever has one password could try others' for ever between its own."""
    address = (by_address("10.0.0.7"),)
    for wrong in range(1, 21):
        assert wait(books, NOW, address) == 0
        assert every(books, TryRow)[0].wrong == wrong
        if wrong < 20:
            assert wait(books, NOW, address) == 0
            throttle.was_right(books, address)
    assert wait(books, NOW, address) == 0
    assert wait(books, NOW, address) == 2


def test_waits_of_one_are_not_those_of_another(books):
    for _ in range(6):
        wait(books, NOW)
    for other in (
        by_person("password", ID, "pia"),
        by_person("password", "another", "wilf"),
        by_person("way in", ID, "wilf"),
        by_address("wilf"),
    ):
        assert wait(books, NOW, (other,)) == 0


def test_nobody_waits_for_good(books):
    for _ in range(200):
        wait(books, NOW)
    assert wait(books, NOW + LONGEST_WAIT) == 0


def test_a_session_is_found_by_its_token_until_it_ends(books, wilf):
    token = sessions.begin(books, wilf, NOW)
    found = sessions.whose(books, token, NOW + sessions.IDLE)
    assert (found.house, found.person, found.role) == (ID, "wilf", "porter")
    assert sessions.whose(books, token, NOW + sessions.IDLE + SECOND) is None
    assert sessions.whose(books, token + "x", NOW) is None
    assert sessions.whose(books, "", NOW) is None
    assert sessions.whose(books, "\ud800", NOW) is None
    sessions.end(books, token)
    assert sessions.whose(books, token, NOW) is None


def test_a_session_slides_at_most_to_its_last_day(books, wilf):
    token, now = sessions.begin(books, wilf, NOW), NOW
    while now < NOW + sessions.LONGEST:
        found = sessions.whose(books, token, now)
        assert found is not None
        if sessions.wants_to_slide(found, now):
            sessions.slide(books, found, now)
        assert every(books, SessionRow)[0].expires_at <= NOW + sessions.LONGEST
        now += timedelta(days=7)
    assert sessions.whose(books, token, NOW + sessions.LONGEST) is not None
    assert sessions.whose(books, token, NOW + sessions.LONGEST + SECOND) is None


def test_sessions_that_are_over_are_cleared_away_with_the_next_one(books, wilf):
    for _ in range(3):
        sessions.begin(books, wilf, NOW)
    assert len(every(books, SessionRow)) == 3
    sessions.begin(books, wilf, NOW + sessions.IDLE + SECOND)
    assert len(every(books, SessionRow)) == 1


def test_all_sessions_of_a_person_end_but_the_one_that_is_named(books, wilf):
    mine = sessions.begin(books, wilf, NOW)
    other = sessions.begin(books, wilf, NOW)
    but = sessions.whose(books, mine, NOW).session
    assert sessions.end_all(books, ID, "wilf", but=but) == 1
    assert sessions.whose(books, mine, NOW)
    assert sessions.whose(books, other, NOW) is None


def test_a_code_is_read_however_it_is_typed_and_once(books, wilf):
    code, expires_at = ways_in.make(books, wilf, NOW)
    assert re.fullmatch(r"([A-HJKMNP-Z2-9]{4}-){2}[A-HJKMNP-Z2-9]{4}", code)
    assert expires_at == NOW + timedelta(hours=72)
    typed = code.lower().replace("-", " ")
    assert ways_in.use_up(books, wilf, typed, NOW + timedelta(hours=72)).id == "wilf"
    with pytest.raises(NotKnown):
        ways_in.use_up(books, wilf, code, NOW)


def test_a_code_that_is_too_old_wrong_or_nobodys_is_refused(books, wilf):
    code, _ = ways_in.make(books, wilf, NOW)
    for person, typed, at in (
        (wilf, code, NOW + timedelta(hours=72) + SECOND),
        (wilf, code[:-1], NOW),
        (wilf, "", NOW),
        (None, code, NOW),
        (PersonRow(house=ID, id="pia", name="Pia", role="chef"), code, NOW),
    ):
        with pytest.raises(NotKnown) as refused:
            ways_in.use_up(books, person, typed, at)
        assert refused.value.code == "way_in_wrong"
    assert ways_in.use_up(books, wilf, code, NOW).id == "wilf"


def test_a_person_is_found_by_name_or_id_while_active(books):
    add(books, PersonRow(house=ID, id="zoe", name="Zoë Brontë", role="chef"))
    add(books, PersonRow(house=ID, id="gone", name="Gone Away", role="chef", active=False))
    for name in ("zoe", "ZOË BRONTË", "zoe bronte", " Zoë  Brontë "):
        assert person_named(books, ID, name).id == "zoe"
    for name in ("Gone Away", "gone", "", "Nobody"):
        assert person_named(books, ID, name) is None
    assert person_named(books, "another", "zoe") is None


def test_a_house_is_found_by_name_or_id_or_because_it_is_the_only_one(books):
    assert house_named(books, None, None).id == ID
    assert house_named(books, "Hazel Court", None).id == ID
    assert house_named(books, "hazel court", None).id == ID
    assert house_named(books, "Elsewhere", None) is None
    assert house_named(books, None, "Elsewhere") is None


def test_a_password_takes_the_place_of_the_one_before(books):
    assert kept(books, ID, "wilf") is None
    keep(books, ID, "wilf", "first", NOW)
    keep(books, ID, "wilf", "second", NOW)
    assert kept(books, ID, "wilf") == "second"


def test_a_password_costs_what_it_should():
    """argon2id, t=3, p=4, 64 MiB, 128-bit salt.

    RFC 9106, section 4, second recommended option; from memory.
    """
    known = hashed("four words in a row")
    assert re.match(r"\$argon2id\$v=19\$m=65536,t=3,p=4\$[\w+/]{22}\$[\w+/]{43}$", known)
    assert known != hashed("four words in a row"), "each has its own salt"
    assert agrees(known, "four words in a row")
    assert not agrees(known, "four words in a rows")
    assert not agrees(None, "nobody has this password"), "not even what it is compared with"
    assert not agrees("no hash at all", "x")
    assert not is_outdated(known)


def test_one_password_may_be_typed_in_several_ways():
    """NIST SP 800-63B, revision 3, section 5.1.1.2 (from memory): NFKC before it is hashed."""
    assert agrees(hashed("crème brûlée ½"), "cre\u0300me bru\u0302le\u0301e 1⁄2")


@given(st.text(min_size=SHORTEST, max_size=LONGEST).filter(lambda t: len(set(t.casefold())) > 3))
def test_any_text_that_is_long_enough_can_be_a_password(text):
    refuse_weak(text, "Wilf")


@pytest.mark.parametrize(
    ("password", "code"),
    [
        ("", "password_short"),
        ("nine char", "password_short"),
        ("y" * (LONGEST + 1), "password_long"),
        ("1212121212", "password_guessable"),
        ("AAAAaaaaAAAA", "password_guessable"),
        ("wilf aske of hazel", "password_guessable"),
    ],
)
def test_what_would_be_tried_first_cannot(password, code):
    with pytest.raises(Refusal) as refused:
        refuse_weak(password, "Wilf Aske of Hazel")
    assert refused.value.code == code
    assert password not in refused.value.problem or not password


def test_no_two_secrets_and_no_two_codes_are_the_same():
    assert len({world.new_secret() for _ in range(500)}) == 500
    assert len({world.new_code() for _ in range(500)}) == 500
    assert all(len(world.new_secret()) == 43 for _ in range(20)), "256 bits in base64url"
