"""SY13: devices are enrolled by a code, people come in by PIN, and a lost one is revoked."""

from datetime import timedelta

import pytest

from pantry.access.devices import FREE, LASTS, MOST_WRONG
from tests.commands.larkfield import APPROVER, CHEF, MANAGER, PORTER
from tests.http.site import PASSWORD
from tests.http.site import code as refused

HERE = {"sec-fetch-site": "same-origin"}
PIN = "4831"


class Phone:
    """A browser that keeps the cookies of one phone: whose device it is, and who is signed in."""

    def __init__(self, site):
        self._site = site
        self._kept = {}

    def get(self, path):
        return self._heard(self._site.nobody.get(path, headers=self._headers()))

    def post(self, path, **body):
        return self._heard(self._site.nobody.post(path, json=body, headers=self._headers()))

    def _headers(self):
        written = "; ".join(f"{name}={value}" for name, value in self._kept.items())
        return HERE | ({"cookie": written} if written else {})

    def _heard(self, answer):
        for set_cookie in answer.headers.get_list("set-cookie"):
            name, _, value = set_cookie.partition(";")[0].partition("=")
            self._kept[name] = value
        return answer


@pytest.fixture
def site(open_site):
    opened = open_site()
    for name in (PORTER, CHEF, MANAGER, APPROVER):
        opened.gives_password(name)
    return opened


def made(site, name="Back door phone"):
    return site.as_(MANAGER).post("/api/device-codes", json={"name": name}).json()


@pytest.fixture
def phone(site):
    """A phone of the house on which nobody has come in yet."""
    enrolled = Phone(site)
    assert enrolled.post("/api/devices/enrol", code=made(site)["code"]).status_code == 200
    return enrolled


def with_pin(phone, person=PORTER, pin=PIN):
    return phone.post("/api/pin/set", person=person, pin=pin, password=PASSWORD)


def test_a_code_makes_a_phone_one_of_the_house_and_a_pin_names_who_has_it(phone):
    told = phone.get("/api/device").json()
    assert told["device"]["name"] == "Back door phone"
    assert {"name": PORTER, "has_pin": False} in told["people"]
    assert with_pin(phone).json()["device"] == told["device"]
    assert phone.post("/api/pin", person=PORTER, pin=PIN).json()["person"]["name"] == PORTER
    assert phone.get("/api/me").json()["device"] == told["device"]


def test_who_approves_menus_has_no_place_at_the_back_door(phone):
    assert APPROVER not in [person["name"] for person in phone.get("/api/device").json()["people"]]


def test_a_code_works_once_and_for_a_quarter_of_an_hour(site):
    first, late = made(site), made(site)
    assert Phone(site).post("/api/devices/enrol", code=first["code"]).status_code == 200
    assert (
        refused(Phone(site).post("/api/devices/enrol", code=first["code"]))[1]
        == "device_code_wrong"
    )
    site.clock += LASTS + timedelta(seconds=1)
    assert (
        refused(Phone(site).post("/api/devices/enrol", code=late["code"]))[1] == "device_code_wrong"
    )


def test_a_code_is_made_by_a_manager_and_is_a_picture_too(site):
    by_porter = site.as_(PORTER).post("/api/device-codes", json={"name": "Mine"})
    assert refused(by_porter)[1] == "not_a_manager"
    told = made(site)
    assert told["address"].endswith(f"/enrol#{told['code']}")
    assert "<svg" in told["picture"]


def test_a_browser_that_is_no_device_has_no_use_for_a_pin(site):
    assert refused(Phone(site).post("/api/pin", person=PORTER, pin=PIN))[1] == "device_not_known"
    assert refused(Phone(site).get("/api/device"))[1] == "device_not_known"


@pytest.mark.parametrize("pin", ["123", "1111", "1234", "9876", "12a4", "123456789", "٣٤٥٧"])
def test_a_pin_is_four_to_eight_figures_and_none_that_is_tried_first(phone, pin):
    assert refused(with_pin(phone, pin=pin))[1] == "pin_unfit"


def test_a_pin_is_chosen_by_password_or_by_a_way_in(site, phone):
    wrong = phone.post("/api/pin/set", person=PORTER, pin=PIN, password="some other words")
    assert refused(wrong)[1] == "sign_in_failed"
    way = site.as_(MANAGER).post("/api/ways-in", json={"person": CHEF}).json()
    assert phone.post("/api/pin/set", person=CHEF, pin=PIN, code=way["code"]).status_code == 200
    assert phone.get("/api/me").json()["person"]["name"] == CHEF


def test_SY13_wrong_pins_slow_down_and_lock_the_device_and_never_the_person(site, phone):
    with_pin(phone)
    for _ in range(FREE):
        assert refused(phone.post("/api/pin", person=PORTER, pin="0000"))[1] == "pin_wrong"
    assert refused(phone.post("/api/pin", person=PORTER, pin="0000"))[1] == "pin_wrong"
    assert refused(phone.post("/api/pin", person=PORTER, pin=PIN))[1] == "too_many_tries"
    for _ in range(MOST_WRONG - FREE - 1):
        site.clock += timedelta(minutes=10)
        phone.post("/api/pin", person=PORTER, pin="0000")
    site.clock += timedelta(days=1)
    assert refused(phone.post("/api/pin", person=PORTER, pin=PIN))[1] == "device_locked"
    assert phone.get("/api/device").json()["locked"] is True
    other = Phone(site)
    other.post("/api/devices/enrol", code=made(site, "Cellar phone")["code"])
    assert other.post("/api/pin", person=PORTER, pin=PIN).status_code == 200


def test_a_manager_unlocks_a_device(site, phone):
    with_pin(phone)
    for _ in range(MOST_WRONG):
        site.clock += timedelta(minutes=10)
        phone.post("/api/pin", person=PORTER, pin="0000")
    device = phone.get("/api/device").json()["device"]["id"]
    unlock = {"device": device}
    assert refused(site.as_(CHEF).post("/api/devices/unlock", json=unlock))[1] == "not_a_manager"
    assert site.as_(MANAGER).post("/api/devices/unlock", json=unlock).status_code == 204
    assert phone.post("/api/pin", person=PORTER, pin=PIN).status_code == 200


def test_a_right_pin_forgets_the_wrong_ones(phone):
    with_pin(phone)
    for _ in range(MOST_WRONG):
        phone.post("/api/pin", person=PORTER, pin="0000")
        assert phone.post("/api/pin", person=PORTER, pin=PIN).status_code == 200


def test_SY13_a_revoked_device_is_out_and_its_sessions_with_it(site, phone):
    with_pin(phone)
    device = phone.get("/api/me").json()["device"]["id"]
    revoke = site.command("revoke_device", {"device": device})
    (answer,) = site.as_(MANAGER).post("/api/commands", json=[revoke]).json()
    assert answer["outcome"] == "applied"
    assert refused(phone.get("/api/me"))[1] == "not_signed_in"
    assert refused(phone.get("/api/device"))[1] == "device_taken_out"
    assert refused(phone.post("/api/pin", person=PORTER, pin=PIN))[1] == "device_taken_out"


def test_who_signs_in_by_password_on_a_device_is_on_it_too(phone):
    phone.post("/api/sign-in", name=CHEF, password=PASSWORD)
    assert phone.get("/api/me").json()["device"]["name"] == "Back door phone"


def exchange(phone, commands=(), **more):
    return phone.post("/api/exchange", protocol=1, commands=list(commands), **more)


def counted(site, phone, n, person=PORTER):
    """A count that nobody can book, saved on the phone."""
    device = phone.get("/api/device").json()["device"]["id"]
    body = {"area": "nowhere at all", "lines": []}
    return site.house.command("count", body, person=person, device=device, n=n)


def test_SY13_whoever_came_in_on_a_device_may_be_in_its_outbox_and_nobody_else(site, phone):
    with_pin(phone)
    with_pin(phone, CHEF)
    commands = [
        counted(site, phone, n, person) for n, person in enumerate((PORTER, CHEF, MANAGER), 1)
    ]
    answers = exchange(phone, commands).json()["answers"]
    assert [answer["problem"]["code"] for answer in answers] == [
        "area_unknown",
        "area_unknown",
        "not_on_device",
    ]
    assert [answer["outcome"] for answer in answers] == ["kept"] * 3


def test_a_device_hands_in_its_own_outbox_only(site, phone):
    with_pin(phone)
    other = Phone(site)
    other.post("/api/devices/enrol", code=made(site, "Cellar phone")["code"])
    (answer,) = exchange(phone, [counted(site, other, 1)]).json()["answers"]
    assert (answer["outcome"], answer["problem"]["code"]) == ("refused", "device_not_yours")


def test_SY3_a_revoked_device_hands_in_its_outbox_and_is_told_nothing(site, phone):
    with_pin(phone)
    saved = counted(site, phone, 1)
    revoke = site.command("revoke_device", {"device": saved["device"]})
    site.as_(MANAGER).post("/api/commands", json=[revoke])
    told = exchange(phone, [saved]).json()
    assert [each["problem"]["code"] for each in told["answers"]] == ["device_revoked"]
    assert told["changes"] == []
    assert refused(phone.get("/api/reports/stock"))[1] == "not_signed_in"
    questions = site.as_(MANAGER).get("/api/reports/questions").json()["rows"]
    assert any("revoked" in row["against"] for row in questions)


def test_a_session_that_ended_is_asked_for_again_before_anything_is_handed_in(site, phone):
    with_pin(phone)
    saved = counted(site, phone, 1)
    phone.post("/api/sign-out")
    assert refused(exchange(phone, [saved]))[1] == "not_signed_in"


def test_SY11_people_are_told_what_a_device_has_not_handed_in(site, phone):
    with_pin(phone)
    exchange(phone, [counted(site, phone, 1)], made=3)
    (row,) = site.as_(MANAGER).get("/api/reports/devices").json()["rows"]
    assert row | {"enrolled_at": None, "id": None} == {
        "id": None,
        "name": "Back door phone",
        "enrolled_at": None,
        "heard_at": "2026-11-25T12:00:00Z",
        "unsent": 2,
        "people": [PORTER],
        "locked": False,
        "revoked": False,
    }
    exchange(phone, made=5)
    (row,) = site.as_(MANAGER).get("/api/reports/devices").json()["rows"]
    assert row["unsent"] == 4
    assert refused(phone.get("/api/reports/devices"))[1] == "report_lacking"


def test_SY13_no_browser_but_the_phone_itself_speaks_for_its_outbox(site, phone):
    with_pin(phone)
    saved = counted(site, phone, 1)
    (answer,) = site.as_(PORTER).post("/api/commands", json=[saved]).json()
    assert (answer["outcome"], answer["problem"]["code"]) == ("refused", "device_not_yours")
    held = {"first": 1, "commands": [{"command": saved}]}
    asked = {"protocol": 1, "commands": [], "device": saved["device"], "held": held}
    by_desk = site.as_(PORTER).post("/api/exchange", json=asked)
    assert refused(by_desk)[1] == "device_not_yours"
    (own,) = exchange(phone, [saved]).json()["answers"]
    assert own["outcome"] == "kept"


def test_SY3_a_revoked_device_says_nothing_that_is_not_of_its_outbox(site, phone):
    with_pin(phone)
    saved = counted(site, phone, 1)
    revoke = site.command("revoke_device", {"device": saved["device"]})
    site.as_(MANAGER).post("/api/commands", json=[revoke])
    loose = {name: said for name, said in saved.items() if name not in ("device", "n")}
    for person in ("", PORTER):
        (answer,) = exchange(phone, [loose | {"person": person}]).json()["answers"]
        assert (answer["outcome"], answer["problem"]["code"]) == ("refused", "device_not_yours")


def test_SY13_who_knows_their_own_pin_is_not_given_more_guesses_at_anothers(site, phone):
    with_pin(phone, CHEF, "9362")
    with_pin(phone)
    answers = []
    for _ in range(MOST_WRONG):
        answers.append(refused(phone.post("/api/pin", person=CHEF, pin="0000"))[1])
        assert phone.post("/api/pin", person=PORTER, pin=PIN).status_code == 200
    assert set(answers) == {"pin_wrong", "too_many_tries"}
    assert refused(phone.post("/api/pin", person=CHEF, pin="9362"))[1] == "too_many_tries"
    site.clock += timedelta(minutes=10)
    assert phone.post("/api/pin", person=CHEF, pin="9362").status_code == 200


def test_SY13_a_password_does_not_unlock_a_device(site, phone):
    with_pin(phone)
    for _ in range(MOST_WRONG):
        site.clock += timedelta(minutes=10)
        phone.post("/api/pin", person=PORTER, pin="0000")
    phone.post("/api/sign-in", name=CHEF, password=PASSWORD)
    assert phone.get("/api/device").json()["locked"] is True


def test_SY13_who_approves_menus_does_not_come_in_by_pin(phone):
    assert refused(with_pin(phone, APPROVER))[1] == "nobody_called"
