"""Signing in and out, by password and by way in; what a session is, and when it is over."""

from datetime import timedelta

import pytest

from pantry.access.sessions import IDLE, LONGEST
from pantry.access.throttle import LONGEST_WAIT
from pantry.records.database import writing
from pantry.records.rows import change
from pantry.records.tables import (
    JournalRow,
    PasswordRow,
    PersonRow,
    SessionRow,
    TryRow,
    WayInRow,
)
from tests.commands.larkfield import CHEF, MANAGER, PORTER
from tests.http.site import PASSWORD, code, cookie_in

HERE = {"sec-fetch-site": "same-origin"}


@pytest.fixture
def site(open_site):
    opened = open_site()
    for name in (PORTER, CHEF, MANAGER):
        opened.gives_password(name)
    return opened


def asking(token):
    return {"cookie": f"__Host-chooseby={token}", **HERE}


def test_name_and_password_open_a_session_in_a_cookie_that_only_this_host_gets(site):
    answer = site.signs_in(CHEF)
    assert answer.status_code == 200
    assert answer.json()["person"] == {"id": "cato", "name": CHEF, "role": "chef"}
    assert "token" not in answer.json()
    token, attributes = cookie_in(answer)
    assert attributes == {"secure", "httponly", "samesite=strict", "path=/", "max-age=2592000"}
    assert len(token) == 43, "256 bits in base64url"
    told = site.nobody.get("/api/me", headers={"cookie": f"__Host-chooseby={token}"})
    assert told.json() == answer.json()


@pytest.mark.parametrize("name", ["cato", "cato brand", "CATO BRAND", "Cato-Brand"])
def test_a_name_is_known_however_it_is_typed(site, name):
    assert site.signs_in(name).json()["person"]["name"] == CHEF


def test_a_script_is_given_its_token_and_no_cookie(site):
    answer = site.signs_in(CHEF, keep="token")
    assert "set-cookie" not in answer.headers
    bearer = {"authorization": f"Bearer {answer.json()['token']}"}
    assert site.nobody.get("/api/me", headers=bearer).json()["person"]["name"] == CHEF


@pytest.mark.parametrize(
    ("name", "password"),
    [(CHEF, "wrong"), (CHEF, ""), ("Nobody", PASSWORD), ("", PASSWORD), (CHEF, PASSWORD + " ")],
)
def test_whatever_is_wrong_it_is_said_in_the_same_words(site, name, password):
    answer = site.signs_in(name, password)
    assert code(answer) == (401, "sign_in_failed")
    assert answer.json()["detail"] == "That name and that password do not go together."
    assert "set-cookie" not in answer.headers


def test_who_has_no_password_yet_cannot_sign_in(site):
    assert code(site.signs_in("Lady Larkfield", "")) == (401, "sign_in_failed")
    assert code(site.signs_in("Lady Larkfield")) == (401, "sign_in_failed")


def test_a_house_that_is_not_here_is_no_other_house(site):
    assert code(site.signs_in(CHEF, house="Elsewhere")) == (401, "sign_in_failed")
    assert site.signs_in(CHEF, house="larkfield lodge").status_code == 200


def test_wrong_passwords_slow_the_next_try_down_and_never_for_good(site):
    for _ in range(5):
        assert code(site.signs_in(CHEF, "wrong")) == (401, "sign_in_failed")
    assert code(site.signs_in(CHEF, "wrong")) == (401, "sign_in_failed")
    answer = site.signs_in(CHEF)
    assert code(answer) == (429, "too_many_tries"), "even the right one must wait"
    assert answer.headers["retry-after"] == "2"
    assert site.signs_in(PORTER).status_code == 200, "others need not"
    site.clock += timedelta(seconds=3)
    assert code(site.signs_in(CHEF, "wrong")) == (401, "sign_in_failed")
    assert site.signs_in(CHEF).headers["retry-after"] == "4"
    site.clock += LONGEST_WAIT
    assert site.signs_in(CHEF).status_code == 200
    assert site.signs_in(CHEF, "wrong").status_code == 401, "and everything is forgotten"
    assert site.signs_in(CHEF).status_code == 200


def test_a_hundred_tries_at_once_are_not_looked_at_together(site):
    from concurrent.futures import ThreadPoolExecutor

    with ThreadPoolExecutor(16) as pool:
        answers = list(pool.map(lambda _: site.signs_in(CHEF, "wrong").status_code, range(100)))
    assert answers.count(401) <= 6
    assert answers.count(429) >= 94


def test_an_address_that_tries_many_names_is_slowed_down_too(site):
    """Twenty wrong ones from one address are those of a whole house on a bad morning."""
    answers = [site.signs_in(f"name {number}", "wrong").status_code for number in range(25)]
    assert answers == [401] * 21 + [429] * 4


def test_what_strangers_type_is_not_kept(site):
    site.signs_in("my secret by mistake", "wrong")
    assert "secret" not in repr([row.model_dump() for row in site.rows(TryRow)])


def test_a_token_that_was_put_into_the_browser_beforehand_is_worth_nothing(site):
    """Session fixation."""
    planted = "A" * 43
    answer = site.nobody.post(
        "/api/sign-in", json={"name": CHEF, "password": PASSWORD}, headers=asking(planted)
    )
    token, _ = cookie_in(answer)
    assert token != planted
    assert code(site.nobody.get("/api/me", headers=asking(planted))) == (401, "not_signed_in")


def test_signing_in_again_makes_a_new_token_and_ends_the_one_before(site):
    first, _ = cookie_in(site.signs_in(CHEF))
    again = {"name": MANAGER, "password": PASSWORD}
    answer = site.nobody.post("/api/sign-in", json=again, headers=asking(first))
    second, _ = cookie_in(answer)
    assert code(site.nobody.get("/api/me", headers=asking(first))) == (401, "not_signed_in")
    me = site.nobody.get("/api/me", headers=asking(second)).json()
    assert me["person"]["name"] == MANAGER


def test_signing_out_ends_the_session_on_the_server(site):
    token, _ = cookie_in(site.signs_in(CHEF))
    answer = site.nobody.post("/api/sign-out", headers=asking(token))
    assert answer.status_code == 204
    value, attributes = cookie_in(answer)
    assert value == '""'
    assert "max-age=0" in attributes
    assert code(site.nobody.get("/api/me", headers=asking(token))) == (401, "not_signed_in")
    assert site.rows(SessionRow) == []


def test_a_session_ends_thirty_days_after_it_was_last_used(site):
    token, _ = cookie_in(site.signs_in(CHEF))
    site.clock += IDLE
    assert site.nobody.get("/api/me", headers=asking(token)).status_code == 200
    site.clock += IDLE + timedelta(seconds=1)
    assert code(site.nobody.get("/api/me", headers=asking(token))) == (401, "not_signed_in")


def test_a_session_that_is_used_goes_on_with_a_new_cookie_but_for_ninety_days_at_most(site):
    token, _ = cookie_in(site.signs_in(CHEF))
    begun = site.clock
    quiet = site.nobody.get("/api/me", headers=asking(token))
    assert "set-cookie" not in quiet.headers, "not with every request"
    for _ in range(3):
        site.clock += timedelta(days=29)
        answer = site.nobody.get("/api/me", headers=asking(token))
        assert cookie_in(answer)[0] == token
    site.clock = begun + LONGEST
    assert site.nobody.get("/api/me", headers=asking(token)).status_code == 200
    site.clock += timedelta(seconds=1)
    assert code(site.nobody.get("/api/me", headers=asking(token))) == (401, "not_signed_in")


def test_a_session_ends_by_the_servers_clock_and_not_by_a_demo_houses(site):
    token, _ = cookie_in(site.signs_in(CHEF))
    site.house.now += timedelta(days=400)
    told = site.nobody.get("/api/me", headers=asking(token))
    assert told.json()["now"] == "2028-04-11T07:00:00Z"


def test_who_has_left_the_house_is_signed_out(site):
    token, _ = cookie_in(site.signs_in(PORTER))
    with writing(site.engine) as connection:
        change(connection, PersonRow, {"name": PORTER}, active=False)
    assert code(site.nobody.get("/api/me", headers=asking(token))) == (401, "not_signed_in")
    assert code(site.signs_in(PORTER)) == (401, "sign_in_failed")


def test_a_manager_ends_every_session_of_a_lost_phone(site):
    token, _ = cookie_in(site.signs_in(PORTER))
    other, _ = cookie_in(site.signs_in(PORTER))
    mara = site.as_(MANAGER)
    assert mara.post("/api/sessions/end", json={"person": "pia holm"}).json() == {"ended": 2}
    for ended in (token, other):
        assert code(site.nobody.get("/api/me", headers=asking(ended))) == (401, "not_signed_in")
    answer = mara.post("/api/sessions/end", json={"person": "Nobody"})
    assert code(answer) == (404, "nobody_called")
    answer = site.as_(CHEF).post("/api/sessions/end", json={"person": PORTER})
    assert code(answer) == (403, "not_a_manager")


def test_another_password_ends_the_other_sessions_and_no_longer_opens_with_the_old(site):
    mine, _ = cookie_in(site.signs_in(CHEF))
    other, _ = cookie_in(site.signs_in(CHEF))
    new = {"old": PASSWORD, "new": "another four words"}
    answer = site.nobody.post("/api/password", json=new, headers=asking(mine))
    assert answer.status_code == 204
    assert site.nobody.get("/api/me", headers=asking(mine)).status_code == 200
    assert code(site.nobody.get("/api/me", headers=asking(other))) == (401, "not_signed_in")
    assert code(site.signs_in(CHEF)) == (401, "sign_in_failed")
    assert site.signs_in(CHEF, "another four words").status_code == 200


@pytest.mark.parametrize(
    ("new", "refusal"),
    [
        ("short one", "password_short"),
        ("x" * 201, "password_long"),
        ("aaaaaaaaaaaa", "password_guessable"),
        ("Cato Brand", "password_guessable"),
    ],
)
def test_a_weak_password_is_refused_and_the_old_one_stays(site, new, refusal):
    chef = site.as_(CHEF)
    answer = chef.post("/api/password", json={"old": PASSWORD, "new": new})
    assert code(answer) == (422, refusal)
    answer = chef.post("/api/password", json={"old": "wrong", "new": "another four words"})
    assert code(answer) == (401, "sign_in_failed")
    assert site.signs_in(CHEF).status_code == 200


def test_a_way_in_sets_a_password_of_ones_own_and_works_once(site):
    made = site.as_(MANAGER).post("/api/ways-in", json={"person": "Lady Larkfield"}).json()
    assert made["expires_at"] == "2026-11-28T12:00:00Z", "72 hours"
    used = {"name": "lady larkfield", "code": made["code"].lower(), "password": PASSWORD}
    answer = site.nobody.post("/api/way-in", json=used)
    assert answer.json()["person"]["role"] == "approver"
    token, _ = cookie_in(answer)
    assert site.nobody.get("/api/me", headers=asking(token)).status_code == 200
    again = site.nobody.post("/api/way-in", json=used | {"password": "taken over by another"})
    assert code(again) == (401, "way_in_wrong")
    assert site.signs_in("Lady Larkfield").status_code == 200


def test_a_way_in_ends_after_three_days_and_with_the_next_one(site):
    mara = site.as_(MANAGER)
    first = mara.post("/api/ways-in", json={"person": PORTER}).json()["code"]
    second = mara.post("/api/ways-in", json={"person": PORTER}).json()["code"]
    used = {"name": PORTER, "code": first, "password": "another four words"}
    assert code(site.nobody.post("/api/way-in", json=used)) == (401, "way_in_wrong")
    site.clock += timedelta(hours=72, seconds=1)
    answer = site.nobody.post("/api/way-in", json=used | {"code": second})
    assert code(answer) == (401, "way_in_wrong")
    assert site.signs_in(PORTER).status_code == 200, "nothing has changed"


def test_a_way_in_is_one_persons_and_made_by_managers(site):
    made = site.as_(MANAGER).post("/api/ways-in", json={"person": PORTER}).json()["code"]
    used = {"name": CHEF, "code": made, "password": "another four words"}
    assert code(site.nobody.post("/api/way-in", json=used)) == (401, "way_in_wrong")
    answer = site.as_(CHEF).post("/api/ways-in", json={"person": MANAGER})
    assert code(answer) == (403, "not_a_manager")


def test_guesses_at_a_code_are_slowed_down(site):
    guess = {"name": PORTER, "code": "AAAA-AAAA-AAAA", "password": "another four words"}
    codes = [code(site.nobody.post("/api/way-in", json=guess))[0] for _ in range(8)]
    assert codes == [401] * 6 + [429] * 2


def test_a_new_way_in_ends_what_was_open_under_the_old_password(site):
    token, _ = cookie_in(site.signs_in(PORTER))
    made = site.as_(MANAGER).post("/api/ways-in", json={"person": PORTER}).json()["code"]
    used = {"name": PORTER, "code": made, "password": "another four words"}
    assert site.nobody.post("/api/way-in", json=used).status_code == 200
    assert code(site.nobody.get("/api/me", headers=asking(token))) == (401, "not_signed_in")


def test_no_secret_is_kept_and_nothing_of_it_is_in_the_journal(site):
    made = site.as_(MANAGER).post("/api/ways-in", json={"person": PORTER}).json()["code"]
    token, _ = cookie_in(site.signs_in(CHEF))
    kept = [
        row for model in (PasswordRow, SessionRow, WayInRow, TryRow) for row in site.rows(model)
    ]
    everything = repr([row.model_dump() for row in kept])
    for secret in (PASSWORD, token, made, made.replace("-", "")):
        assert secret not in everything
    assert site.rows(JournalRow) == []
    assert all(row.hash.startswith("$argon2id$") for row in site.rows(PasswordRow))


def test_nobody_sends_much_before_being_known(site):
    body = {"name": CHEF, "password": PASSWORD, "house": "x" * 30_000}
    for path in ("sign-in", "way-in", "first-manager"):
        assert code(site.nobody.post(f"/api/{path}", json=body)) == (413, "too_large"), path


def test_a_hash_of_other_costs_is_made_anew_when_its_owner_signs_in(site, monkeypatch):
    from argon2 import PasswordHasher

    from pantry.access import passwords

    before = {row.person: row.hash for row in site.rows(PasswordRow)}
    dearer = PasswordHasher(time_cost=2, memory_cost=16, parallelism=1)
    monkeypatch.setattr(passwords, "_HASHER", dearer)
    assert site.signs_in(CHEF).status_code == 200
    after = {row.person: row.hash for row in site.rows(PasswordRow)}
    assert {person for person in before if before[person] != after[person]} == {"cato"}
    assert site.signs_in(CHEF).status_code == 200


@pytest.mark.parametrize(
    "body",
    [
        b"",
        b"no JSON",
        b"[]",
        b'{"name": "x"}',
        b'{"name": "x", "password": 5}',
        b'{"name": "x", "password": "y", "role": "manager"}',
        b'{"name": "' + b"x" * 300 + b'", "password": "y"}',
        b'{"name": "x", "password": "\xff"}',
        b'{"name": "x", "password": "\\ud800"}',
    ],
)
def test_what_cannot_be_read_is_refused(site, body):
    assert code(site.nobody.post("/api/sign-in", content=body)) == (400, "request_unreadable")
