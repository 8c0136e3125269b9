"""Commands over the wire: a list and its answers, once, in the name of who is signed in."""

import pytest

from pantry.records.tables import JournalRow
from tests.commands.larkfield import CHEF, ID, MANAGER, PORTER
from tests.http.site import code

MILK = {
    "batch": "m",
    "item": "whole-milk",
    "quantity": "2 l",
    "area": "cold-room",
    "verdict": "accept",
    "date_mark": {"kind": "use_by", "date": "2027-03-12"},
}


def test_SY1_a_list_of_commands_has_a_list_of_answers(site):
    given = [
        site.command("receive", MILK),
        site.command("set_level", {"item": "salt", "level": "low"}),
    ]
    answers = site.as_(PORTER).post("/api/commands", json=given)
    assert answers.status_code == 200
    assert answers.json() == [
        {"id": given[0]["id"], "outcome": "applied", "position": 1},
        {"id": given[1]["id"], "outcome": "applied", "position": 2},
    ]
    assert [row.person for row in site.rows(JournalRow)] == ["pia", "pia"]
    (row,) = site.as_(CHEF).get("/api/reports/stock").json()["rows"]
    assert row["on_hand"] == {"value": "2000", "unit": "ml"}


def test_an_empty_list_is_answered_by_one_and_nothing_is_written(site):
    assert site.as_(PORTER).post("/api/commands", json=[]).json() == []
    assert site.house.heads() == (0, 0, "")


def test_SY2_the_same_command_again_gets_the_first_answer(site):
    pia, given = site.as_(PORTER), site.command("receive", MILK)
    first = pia.post("/api/commands", json=[given]).json()
    assert pia.post("/api/commands", json=[given]).json() == first
    assert site.as_(PORTER).post("/api/commands", json=[given, given]).json() == first * 2
    assert len(site.rows(JournalRow)) == 1


def test_SY2_the_same_id_with_another_body_is_refused(site):
    pia, given = site.as_(PORTER), site.command("receive", MILK)
    pia.post("/api/commands", json=[given])
    (answer,) = pia.post(
        "/api/commands", json=[given | {"body": MILK | {"quantity": "3 l"}}]
    ).json()
    assert (answer["outcome"], answer["problem"]["code"]) == ("refused", "id_reused")
    (answer,) = site.as_(CHEF).post("/api/commands", json=[given]).json()
    assert answer["problem"]["code"] == "id_reused", "in another's name it is another command"


@pytest.mark.parametrize("name", ["pia", PORTER, ""])
def test_one_gives_commands_in_ones_own_name(site, name):
    given = site.command("receive", MILK, person=name)
    (answer,) = site.as_(PORTER).post("/api/commands", json=[given]).json()
    assert answer["outcome"] == "applied"


def test_one_gives_no_commands_in_the_name_of_another(site):
    given = [
        site.command("receive", MILK),
        site.command("set_level", {"item": "salt", "level": "low"}, person=CHEF),
        site.command("set_level", {"item": "salt", "level": "out"}),
    ]
    answers = site.as_(MANAGER).post("/api/commands", json=given).json()
    assert [answer["outcome"] for answer in answers] == ["applied", "refused", "applied"]
    problem = answers[1]["problem"]
    assert (problem["code"], problem["status"], problem["field"]) == (
        "person_not_you",
        403,
        "person",
    )
    assert len(site.rows(JournalRow)) == 2


def test_each_refusal_is_its_own_commands_and_says_what_to_do(site):
    given = [
        5,
        None,
        {},
        {"id": "no uuid", "kind": "receive", "at": "2027-03-08T07:00:00Z"},
        site.command("no such kind"),
        site.command("confirm", {"service": "2027-03-13/dinner/family", "dishes": []}),
        site.command("receive", MILK),
    ]
    answers = site.as_(CHEF).post("/api/commands", json=given).json()
    codes = [answer.get("problem", {}).get("code") for answer in answers]
    assert codes[:5] == ["envelope_broken"] * 4 + ["kind_unknown"]
    assert answers[5]["outcome"] == "refused"
    assert answers[6]["outcome"] == "applied"
    for answer in answers[:6]:
        assert answer["problem"]["detail"]
        assert answer["problem"]["todo"]


@pytest.mark.parametrize(
    "body", [b"", b"no JSON", b"{}", b"5", b'"text"', b"null", b"[", b'["\xff"]', b"[" * 100_000]
)
def test_what_is_no_list_of_json_is_refused_and_nothing_is_written(site, body):
    answer = site.as_(CHEF).post("/api/commands", content=body)
    assert code(answer) == (400, "request_unreadable")
    assert site.house.heads() == (0, 0, "")


def test_five_hundred_commands_are_taken_at_once_and_no_more(site):
    given = [site.command("set_level", {"item": "salt", "level": "low"}) for _ in range(501)]
    pia = site.as_(PORTER)
    assert code(pia.post("/api/commands", json=given)) == (400, "too_many_commands")
    assert site.rows(JournalRow) == []
    answers = pia.post("/api/commands", json=given[:500]).json()
    assert [answer["position"] for answer in answers] == list(range(1, 501))


def test_what_is_too_large_is_refused(site):
    body = b"[" + b" " * 11_000_000 + b"]"
    assert code(site.as_(PORTER).post("/api/commands", content=body)) == (413, "too_large")


def outbox(site, *numbers, device="phone"):
    return [
        site.command("set_level", {"item": "salt", "level": "low"}, device=device, n=n)
        for n in numbers
    ]


@pytest.fixture
def phone(site):
    """Pia's phone, enrolled."""
    site.house.do("enrol_device", {"device": "phone", "name": "Pia's phone"}, person=MANAGER)
    return site.as_(PORTER)


def test_SY5_an_exchange_answers_the_outbox_and_tells_what_has_changed(site, phone):
    given = outbox(site, 1, 2)
    asked = {"protocol": 1, "epoch": "first", "cursor": 1, "commands": given}
    told = phone.post("/api/exchange", json=asked).json()
    assert [answer["outcome"] for answer in told["answers"]] == ["applied"] * 2
    assert told["epoch"] == "first"
    assert told["server_time"] == "2027-03-08T07:00:00Z"
    assert told["backed_up"] == 0
    assert [change["number"] for change in told["changes"]] == [2, 3]
    assert told["cursor"] == 3
    assert {(change["what"], change["key"]) for change in told["changes"]} == {("item", "salt")}
    again = phone.post("/api/exchange", json=asked).json()
    assert again == told, "a retry of the same bytes gets the same"


def test_SY5_with_nothing_to_hand_in_nothing_is_written(site, phone):
    before = site.house.heads()
    told = phone.post("/api/exchange", json={"protocol": 1, "cursor": 0}).json()
    assert told["answers"] == []
    assert told["cursor"] == 1
    assert site.house.heads() == before
    told = phone.post("/api/exchange", json={"protocol": 1, "cursor": 1}).json()
    assert (told["changes"], told["cursor"]) == ([], 1)


def test_SY2_where_a_number_is_missing_nothing_behind_is_answered(site, phone):
    given = [*outbox(site, 1), *outbox(site, 3, 4)]
    told = phone.post("/api/exchange", json={"protocol": 1, "commands": given}).json()
    assert [a.get("problem", {}).get("code") for a in told["answers"]] == [None, "number_gap"]


def test_SY7_a_cursor_of_another_epoch_says_nothing(phone):
    asked = {"protocol": 1, "epoch": "before the restore", "cursor": 1}
    assert phone.post("/api/exchange", json=asked).json()["changes"][0]["number"] == 1
    asked = {"protocol": 1, "epoch": "first", "cursor": 999}
    assert phone.post("/api/exchange", json=asked).json()["changes"][0]["number"] == 1


def test_SY9_another_protocol_is_refused_before_anything_is_taken(site, phone):
    asked = {"protocol": 2, "commands": outbox(site, 1)}
    assert code(phone.post("/api/exchange", json=asked)) == (400, "protocol_unknown")
    assert len(site.rows(JournalRow)) == 1


def test_changes_come_five_hundred_at_a_time(site, phone):
    for _ in range(2):
        given = [site.command("set_level", {"item": "salt", "level": "low"}) for _ in range(300)]
        phone.post("/api/commands", json=given)
    cursor, seen = 0, []
    while told := phone.post("/api/exchange", json={"protocol": 1, "cursor": cursor}).json():
        if not told["changes"]:
            break
        seen += [change["number"] for change in told["changes"]]
        cursor = told["cursor"]
    assert seen == list(range(1, 602))


def test_a_report_is_the_one_of_the_command_line(site, monkeypatch, tmp_path):
    import json
    import os

    from click.testing import CliRunner

    from pantry.cli import main

    site.house.receive("m", "whole-milk", "2 l", MILK["date_mark"])
    site.house.menu("2027-03-11/dinner/family", "pancakes")
    for name in [name for name in os.environ if name.startswith("CHOOSEBY_")]:
        monkeypatch.delenv(name)
    monkeypatch.setenv("CHOOSEBY_DATABASE_URL", str(site.engine.url))
    monkeypatch.setenv("CHOOSEBY_DATA", str(tmp_path))
    monkeypatch.setenv("CHOOSEBY_NOW", "2027-03-08T07:00:00Z")
    mara = site.as_(MANAGER)
    for name in ("stock", "plan", "coverage", "notice", "questions", "use-first", "changes"):
        printed = CliRunner().invoke(main, [name, "--json"])
        assert mara.get(f"/api/reports/{name}").json() == json.loads(printed.stdout), name
    printed = CliRunner().invoke(main, ["trace", "m", "--json"])
    told = mara.get("/api/reports/trace", params={"name": "m"}).json()
    assert told == json.loads(printed.stdout)
    assert told["rows"]


@pytest.mark.parametrize(
    ("asked", "refusal"),
    [
        ("nothing", (404, "report_unknown")),
        ("stock?text=x", (422, "argument_unknown")),
        ("changes?since=x", (422, "argument_unreadable")),
        ("changes?since=-1", (422, "argument_unreadable")),
        ("changes?since=99999999999999999999", (422, "argument_unreadable")),
        ("trace", (422, "argument_missing")),
        ("trace?name=nothing", (404, "traced_nothing")),
        ("coverage?service=2027-03-13/dinner/family", (404, "service_not_ahead")),
    ],
)
def test_what_a_report_cannot_be_asked_is_refused(quiet_site, asked, refusal):
    assert code(quiet_site.as_(MANAGER).get(f"/api/reports/{asked}")) == refusal


def test_coverage_of_one_service(site):
    site.house.menu("2027-03-11/dinner/family", "pancakes")
    site.house.menu("2027-03-12/dinner/family", "rice-pudding")
    told = site.as_(CHEF).get("/api/reports/coverage?service=2027-03-12/dinner/Family").json()
    assert {row["service"] for row in told["rows"]} == {"2027-03-12/dinner/family"}


def test_SY6_houses_are_served_side_by_side_and_kept_apart(site):
    from pantry.records.database import writing
    from tests.hazel_court import found

    with writing(site.engine) as connection:
        found(connection)
    wilf = site.as_("Wilf Aske")
    assert wilf.get("/api/me").json()["house"]["name"] == "Hazel Court"
    (answer,) = wilf.post(
        "/api/commands", json=[site.command("set_level", {"item": "plain-flour", "level": "low"})]
    ).json()
    assert answer["position"] == 1
    assert {row.house for row in site.rows(JournalRow)} == {"hazel-court"}
    assert site.as_(PORTER).get("/api/me").json()["position"] == 0
    answer = site.nobody.post("/api/sign-in", json={"name": CHEF, "password": "x"})
    assert code(answer) == (422, "which_house")
    assert site.house.heads()[0] == 0
    assert ID != "hazel-court"
