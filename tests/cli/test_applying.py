"""`apply`: one JSON line an answer, in order, whatever the lines are."""

import json

import pytest

from tests.cli.commands import command, lines, receive


def answers(result):
    return [json.loads(line) for line in result.stdout.splitlines()]


def apply(terminal, text, code=0):
    return answers(terminal.run("apply", "-", given=text, code=code))


def test_SY2_each_line_gets_its_answer_in_order(lodge, tmp_path):
    given = [receive(f"N-{n:04}") for n in range(3)]
    file = tmp_path / "commands.jsonl"
    file.write_text(lines(*given), encoding="utf-8")
    assert answers(lodge.run("apply", file)) == [
        {"id": each["id"], "outcome": "applied", "position": 2 + n} for n, each in enumerate(given)
    ]
    labels = {row["label"] for row in lodge.json("stock")["rows"]}
    assert {"N-0000", "N-0001", "N-0002"} <= labels


def test_SY2_a_retry_gets_the_first_answer_and_changes_nothing(lodge):
    text = lines(receive())
    first = apply(lodge, text)
    stock = lodge.json("stock")
    assert apply(lodge, text) == first
    assert lodge.json("stock") == stock


def test_json_or_not_the_answers_are_json_lines(lodge):
    result = lodge.run("apply", "-", "--json", given=lines(receive(), receive("N-0002")))
    assert [answer["outcome"] for answer in answers(result)] == ["applied", "applied"]
    assert result.stderr == ""


def test_a_line_that_is_no_json_is_refused_in_its_place_and_not_kept(lodge):
    before, after = receive("N-0001"), receive("N-0002")
    said = apply(lodge, lines(before, "{not json", after), code=1)
    assert [answer["outcome"] for answer in said] == ["applied", "refused", "applied"]
    refused = said[1]
    assert (refused["id"], refused["position"]) == (None, None)
    assert refused["problem"]["code"] == "line_unreadable"
    assert refused["problem"]["field"] == "line 2"
    assert [said[0]["position"], said[2]["position"]] == [2, 3]


PROBLEM = {"type", "title", "status", "detail", "code", "todo"}


@pytest.mark.parametrize(
    ("line", "code"),
    [
        ("[]", "envelope_broken"),
        ('"receive"', "envelope_broken"),
        ('{"id": "not-a-uuid", "kind": "waste", "at": "2027-03-10T07:00:00Z"}', "envelope_broken"),
        ("{}", "envelope_broken"),
    ],
)
def test_SY3_a_broken_envelope_is_refused_and_not_kept(lodge, line, code):
    (answer,) = apply(lodge, lines(line), code=1)
    assert (answer["outcome"], answer["position"]) == ("refused", None)
    assert answer["problem"]["code"] == code
    assert answer["problem"].keys() >= PROBLEM
    assert lodge.json("stock")["position"] == 1


def test_SY3_a_fact_that_cannot_be_applied_is_kept_and_ends_with_1(lodge):
    body = {"batch": "no-such", "quantity": "1 l", "reason": "spilt", "destination": "bin"}
    (answer,) = apply(lodge, lines(command("waste", body)), code=1)
    assert (answer["outcome"], answer["position"]) == ("kept", 2)
    questions = lodge.json("questions")["rows"]
    assert answer["id"] in {row["about"] for row in questions}


def test_SY3_a_decision_on_what_has_moved_is_a_conflict_and_ends_with_1(lodge):
    body = {"service": "2027-03-13/dinner/family", "covers": 6}
    (answer,) = apply(lodge, lines(command("change_covers", body, base=999)), code=1)
    assert answer["outcome"] == "conflict"


def test_a_command_that_names_nobody_is_refused_where_people_are_known(lodge):
    body = {"service": "2027-03-13/dinner/family", "covers": 6}
    (answer,) = apply(lodge, lines(command("change_covers", body, person=None)), code=1)
    assert answer["outcome"] == "refused"
    assert answer["problem"]["code"] == "person_unknown"
    assert "command line" in answer["problem"]["detail"]


def test_a_house_without_people_takes_it_from_the_command_line(empty, book, tmp_path):
    alone = tmp_path / "alone"
    alone.mkdir()
    for sheet in book.iterdir():
        if sheet.name != "people.csv":
            (alone / sheet.name).write_bytes(sheet.read_bytes())
    empty.run("import", alone)
    text = lines(receive(person=None))
    first = apply(empty, text)
    assert first[0]["outcome"] == "applied"
    assert apply(empty, text) == first


def test_empty_lines_and_a_byte_order_mark_are_no_commands(lodge, tmp_path):
    file = tmp_path / "commands.jsonl"
    file.write_bytes(b"\xef\xbb\xbf" + lines(receive(), "", "   ", receive("N-2")).encode())
    assert [answer["position"] for answer in answers(lodge.run("apply", file))] == [2, 3]


def test_what_is_no_utf_8_is_refused(lodge, tmp_path):
    file = tmp_path / "commands.jsonl"
    file.write_bytes(lines(receive("Caf\u00e9")).replace("\\u00e9", "é").encode("latin-1"))
    (answer,) = answers(lodge.run("apply", file, code=1))
    assert answer["problem"]["code"] == "line_unreadable"


def test_an_empty_file_is_done(lodge):
    assert apply(lodge, "") == []


def test_more_than_one_list_of_commands_is_answered_whole(lodge, monkeypatch):
    monkeypatch.setattr("pantry.terminal.applying.TOGETHER", 3)
    given = [receive(f"N-{n:04}") for n in range(8)]
    said = apply(lodge, lines(*given))
    assert [answer["id"] for answer in said] == [each["id"] for each in given]
    assert [answer["position"] for answer in said] == list(range(2, 10))


def test_SY2_it_stops_at_a_gap_in_a_device_s_numbers_and_says_so(lodge):
    body = {"device": "phone-1", "name": "The porter's phone"}
    enrol = command("enrol_device", body, person="Mara Tees")
    first = receive("N-1", device="phone-1", n=1)
    gap = receive("N-3", device="phone-1", n=3)
    after = receive("N-4", device="phone-1", n=4)
    result = lodge.run("apply", "-", given=lines(enrol, first, gap, after), code=1)
    assert [answer["outcome"] for answer in answers(result)] == ["applied", "applied", "refused"]
    assert "1 command of this list and all after it were not given" in result.stderr


def test_a_file_that_is_not_there_is_said_so(lodge, tmp_path):
    result = lodge.run("apply", tmp_path / "none.jsonl", code=1)
    assert "cannot be read" in result.stderr
    assert "[file_unusable]" in result.stderr


def test_without_a_house_nothing_can_be_given(empty):
    assert "[no_house]" in empty.run("apply", "-", given=lines(receive()), code=1).stderr
