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
