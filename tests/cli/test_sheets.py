"""`chooseby sheets`: what was shown to the household, and on paper."""

import pypdfium2

from tests.cli.commands import command, lines

TEA = {"date": "2027-03-14", "meal": "tea", "table": "family", "time": "16:00", "covers": 4}


def test_a_sheet_that_was_sent_is_told_and_written_to_a_file(lodge, tmp_path):
    dish = lodge.json("dishes")["rows"][0]["dish"]
    courses = [{"course": "cake", "dishes": [dish]}]
    proposed = command("propose", {"service": TEA, "courses": courses})
    sent = command("send_sheet", {"services": ["2027-03-14/tea/family"]})
    lodge.run("apply", "-", given=lines(proposed, sent))
    (row,) = lodge.json("sheets")["rows"]
    assert (row["sheet"], row["state"], row["has_link"]) == (sent["id"], "shown", False)
    assert "on paper" in lodge.words("sheets")
    file = tmp_path / "menus.pdf"
    lodge.run("sheets", "--pdf", file)
    (page,) = pypdfium2.PdfDocument(file)
    assert "Tea at 16:00" in page.get_textpage().get_text_range()


def test_a_sheet_that_was_not_sent_is_refused(asked, tmp_path):
    file = tmp_path / "none.pdf"
    result = asked.run("sheets", "--pdf", file, "--sheet", "none", code=1)
    assert "sheet" in result.stderr
    assert not file.exists()


def test_a_sheet_is_sent_with_a_link_and_withdrawn_in_somebodys_name(lodge):
    dish = lodge.json("dishes")["rows"][0]["dish"]
    courses = [{"course": "cake", "dishes": [dish]}]
    proposed = command("propose", {"service": TEA, "courses": courses})
    lodge.run("apply", "-", given=lines(proposed))
    tea, by = "2027-03-14/tea/family", ("--person", proposed["person"])
    sent = lodge.run("sheets", "--send", tea, "--link", *by).stdout
    assert "/menu-sheet/" in sent
    (row,) = lodge.json("sheets")["rows"]
    assert (row["state"], row["has_link"]) == ("shown", True)
    lodge.run("sheets", "--withdraw", row["sheet"], *by)
    (row,) = lodge.json("sheets")["rows"]
    assert row["state"] == "withdrawn"
    refused = lodge.run("sheets", "--withdraw", row["sheet"], *by, code=1)
    assert "The sheet was withdrawn." in refused.stderr
    nobody = lodge.run("sheets", "--send", tea, "--person", "Nobody", code=1)
    assert nobody.stderr
