"""A restored house over the wire: it gathers, answers the same, is told to go on (SY7)."""

import pytest

from tests.commands.larkfield import CHEF, MANAGER, PORTER
from tests.commands.phones import Phone, epoch, is_backed_up, loses_its_disk
from tests.http.site import code
from tests.reports.in_shape import in_shape

FLOUR = {
    "item": "plain-flour",
    "quantity": "1 kg",
    "area": "pantry",
    "date_mark": {"kind": "none"},
    "verdict": "accept",
}


@pytest.fixture
def lost(site, open_site, tmp_path):
    """Larkfield restored: the phone in the cellar holds a record, the one in the kitchen none."""
    house = site.house
    cellar, stove = Phone(house, "cellar"), Phone(house, "stove")
    is_backed_up(house, tmp_path / "last.backup", cellar, stove)
    cellar.do(house, "receive", FLOUR | {"batch": "b"})
    restored = loses_its_disk(house, tmp_path / "last.backup")
    opened = open_site(restored.engine)
    opened.house = restored
    return opened, cellar, epoch(house)


def wire(phone):
    entries = [
        entry | {"answer": {"id": a.id, "outcome": a.outcome, "position": a.position}}
        for entry in phone.held
        for a in [entry["answer"]]
    ]
    return {"first": 1, "commands": entries}


def exchange(client, device, commands=(), **more):
    body = {"protocol": 1, "device": device, "commands": list(commands)} | more
    answer = client.post("/api/exchange", json=body)
    assert answer.status_code == 200, answer.text
    return answer.json()


def test_SY7_a_device_of_another_epoch_is_told_so_and_nothing_is_taken(lost):
    site, cellar, old = lost
    waiting = cellar.save(site.house, "receive", FLOUR | {"batch": "c"})
    said = exchange(site.as_(CHEF), None, [cellar.held[-1]["command"]], epoch=old)
    assert said["answers"] == []
    assert said["restored"] == {"hand_in": True, "awaited": 2}
    assert said["epoch"] == epoch(site.house) != old
    assert waiting not in [row.id for row in site.house.journal()]


def test_SY7_it_hands_in_waits_for_the_others_and_goes_on(lost):
    site, cellar, _ = lost
    chef = site.as_(CHEF)
    now = epoch(site.house)
    said = exchange(chef, "cellar", held=wire(cellar), epoch=now)
    assert said["restored"] == {"hand_in": False, "awaited": 1}
    refused = chef.post("/api/commands", json=[site.command("set_par", {"item": "butter"})])
    assert refused.json()[0]["problem"]["code"] == "house_gathering"
    assert chef.get("/api/reports/stock").json()["rows"] == []
    waits = chef.get("/api/reports/awaited").json()
    in_shape("awaited", waits)
    assert [row["name"] for row in waits["rows"]] == ["stove phone"]
    exchange(chef, "stove", held={"first": 1}, epoch=now)
    (answer,) = exchange(chef, "cellar", [cellar.held[0]["command"]], epoch=now)["answers"]
    assert answer["outcome"] == "applied"
    assert [row["batch"] for row in chef.get("/api/reports/stock").json()["rows"]] == ["b"]
    assert chef.get("/api/reports/awaited").json()["rows"] == []


def test_SY7_a_manager_goes_on_without_a_device(lost):
    site, cellar, _ = lost
    assert code(site.as_(PORTER).post("/api/devices/go-on", json={})) == (403, "not_a_manager")
    manager = site.as_(MANAGER)
    exchange(site.as_(CHEF), "cellar", held=wire(cellar))
    said = manager.post("/api/devices/go-on", json={"device": "stove phone"}).json()
    assert said == {"without": ["stove phone"], "awaited": []}
    assert [row.id for row in site.house.journal()][-1] == cellar.held[0]["command"]["id"]
    (row,) = manager.get("/api/reports/awaited").json()["rows"]
    assert row["went_on_at"] is not None
    assert code(manager.post("/api/devices/go-on", json={})) == (409, "nothing_awaited")


def test_SY7_a_late_device_is_asked_for_what_it_holds_before_anything_new(lost):
    site, cellar, _ = lost
    site.as_(MANAGER).post("/api/devices/go-on", json={})
    cellar.save(site.house, "receive", FLOUR | {"batch": "c"})
    chef, commands = site.as_(CHEF), [entry["command"] for entry in cellar.held]
    said = exchange(chef, "cellar", commands)
    assert (said["answers"], said["restored"]["hand_in"]) == ([], True)
    held = wire(Only(cellar.held[:1]))
    said = exchange(chef, "cellar", commands, held=held)
    assert [answer["outcome"] for answer in said["answers"]] == ["applied", "applied"]
    assert "restored" not in said


class Only:
    def __init__(self, held):
        self.held = held


def test_SY13_nobody_hands_in_what_another_person_is_said_to_have_recorded(lost):
    site, cellar, _ = lost
    body = {"protocol": 1, "device": "cellar", "held": wire(cellar)}
    refused = site.as_(PORTER).post("/api/exchange", json=body)
    assert code(refused) == (403, "person_not_you")


def test_a_hand_in_of_no_device_or_of_another_is_refused(lost):
    site, cellar, _ = lost
    chef, held = site.as_(CHEF), wire(cellar)
    nobody = chef.post("/api/exchange", json={"protocol": 1, "held": held})
    assert code(nobody) == (400, "device_unsaid")
    another = chef.post("/api/exchange", json={"protocol": 1, "device": "stove", "held": held})
    assert code(another) == (422, "held_by_another")
    held["commands"][0]["command"]["kind"] = "sing"
    broken = chef.post("/api/exchange", json={"protocol": 1, "device": "cellar", "held": held})
    assert code(broken) == (400, "kind_unknown")
    held["commands"] = [{"command": {}}] * 501
    many = chef.post("/api/exchange", json={"protocol": 1, "device": "cellar", "held": held})
    assert code(many)[1] == "too_many_commands"
