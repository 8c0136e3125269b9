"""`verify`, `backup`, `restore`."""

import sqlite3

import pytest

from tests.cli.commands import command, lines, receive


def test_SY11_books_that_agree_end_with_0(asked):
    answer = asked.json("verify")
    assert (answer["schema"], answer["agree"], answer["rows"]) == (1, True, [])
    assert asked.words("verify") == (
        "The books of Rookhope Lodge agree, up to position 1 of the journal.\n"
    )


def tamper(terminal, statement):
    """Change the books behind the program's back; what guards them is taken away first."""
    connection = sqlite3.connect(terminal.data / "chooseby.db")
    with connection:
        guards = connection.execute("SELECT name FROM sqlite_master WHERE type = 'trigger'")
        for (guard,) in guards.fetchall():
            connection.execute(f"DROP TRIGGER {guard}")
        connection.execute(statement)
    connection.close()


def test_SY11_books_that_do_not_agree_end_with_3(lodge):
    tamper(lodge, "UPDATE balance SET quantity = quantity + 1 WHERE quantity = 2000000")
    result = lodge.run("verify", code=3)
    assert "2000001" in result.stderr
    assert "restore the last backup" in result.stderr
    answer = lodge.json("verify", code=3)
    assert answer["agree"] is False
    assert any("2000001" in row["disagreement"] for row in answer["rows"])


def test_SY11_a_journal_that_was_altered_is_found(lodge):
    tamper(lodge, "UPDATE journal SET answer = '{}' WHERE position = 1")
    assert "altered" in lodge.run("verify", code=3).stderr


def test_units_that_are_wrong_are_found(asked, monkeypatch):
    monkeypatch.setattr("pantry.terminal.keeping.check_units", lambda: ("a cup is a bucket",))
    assert "a cup is a bucket" in asked.run("verify", code=3).stderr


def test_SY7_a_backup_goes_back_into_an_empty_database(lodge, empty, tmp_path):
    lodge.run("apply", "-", given=lines(receive()))
    file = tmp_path / "friday.backup"
    answer = lodge.json("backup", file)
    assert answer == {"schema": 1, "file": str(file), "positions": {"rookhope-lodge": 2}}
    assert empty.json("restore", file)["positions"] == {"rookhope-lodge": 2}
    assert empty.json("stock") == lodge.json("stock")
    empty.run("verify")


@pytest.fixture
def restored(lodge, empty, tmp_path):
    """Rookhope Lodge after a restore, which waits for two phones."""
    enrolled = [
        command("enrol_device", {"device": name, "name": f"{name} phone"}, person="Mara Tees")
        for name in ("cellar", "stove")
    ]
    lodge.run("apply", "-", given=lines(*enrolled))
    lodge.run("backup", tmp_path / "friday.backup")
    return empty


def test_SY7_a_restore_names_the_devices_it_waits_for(restored, tmp_path):
    said = restored.words("restore", tmp_path / "friday.backup")
    assert "takes nothing new until then: cellar phone, stove phone." in said
    refused = restored.run("apply", "-", given=lines(receive()), code=1).stdout
    assert "house_gathering" in refused


def test_SY7_go_on_waits_no_longer_for_one_or_for_any(restored, tmp_path):
    answer = restored.json("restore", tmp_path / "friday.backup")
    assert answer["awaited"] == {"rookhope-lodge": ["cellar phone", "stove phone"]}
    answer = restored.json("go-on", "stove phone")
    assert answer == {"schema": 1, "without": ["stove phone"], "awaited": ["cellar phone"]}
    assert "[not_awaited]" in restored.run("go-on", "nobody's", code=1).stderr
    assert restored.words("go-on") == ("It goes on without cellar phone.\nIt waits for nobody.\n")
    assert "[nothing_awaited]" in restored.run("go-on", code=1).stderr
    restored.run("apply", "-", given=lines(receive()))


def test_in_words_both_say_how_far(lodge, empty, tmp_path):
    file = tmp_path / "friday.backup"
    assert "up to position 1" in lodge.words("backup", file)
    assert "is restored from" in empty.words("restore", file)


def test_a_backup_never_takes_the_place_of_a_file(lodge, tmp_path):
    file = tmp_path / "notes.txt"
    file.write_text("mine", encoding="utf-8")
    assert "[file_in_the_way]" in lodge.run("backup", file, code=1).stderr
    assert file.read_text(encoding="utf-8") == "mine"


def test_a_restore_never_takes_the_place_of_a_house(lodge, tmp_path):
    file = tmp_path / "friday.backup"
    lodge.run("backup", file)
    assert "[database_in_use]" in lodge.run("restore", file, code=1).stderr


def test_what_is_no_backup_is_refused(empty, tmp_path):
    assert "[backup_missing]" in empty.run("restore", tmp_path / "none", code=1).stderr
    file = tmp_path / "letter.txt"
    file.write_text("Dear Ann,\n" * 500, encoding="utf-8")
    result = empty.run("restore", file, code=1)
    assert "Traceback" not in result.stderr
    assert "no_house" in empty.run("stock", code=1).stderr


def test_a_folder_without_a_house_has_nothing_to_back_up(empty, tmp_path):
    assert "[no_house]" in empty.run("backup", tmp_path / "file", code=1).stderr
    assert "[no_house]" in empty.run("verify", code=1).stderr
