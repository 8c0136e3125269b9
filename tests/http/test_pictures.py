"""Pictures are kept once under their own id, for those who handle food, and with the books."""

import io

import pytest
from PIL import Image

from pantry.records.backup import back_up, restore
from pantry.records.database import open_database, reading
from pantry.records.rows import every
from pantry.records.schema import bring_up_to_date
from pantry.records.tables import PictureRow
from tests.commands.larkfield import APPROVER, CHEF, MANAGER, PORTER
from tests.http.site import TODAY, code

ID = "0196f000-0000-7000-8000-00000000000a"
OTHER = "0196f000-0000-7000-8000-00000000000b"
AT = f"/api/pictures/{ID}"


def drawn(kind="JPEG", colour="red"):
    """A picture as another program writes it (Pillow)."""
    file = io.BytesIO()
    Image.new("RGB", (8, 6), colour).save(file, kind)
    return file.getvalue()


@pytest.mark.parametrize("kind", ["JPEG", "PNG", "WEBP"])
@pytest.mark.parametrize("who", [PORTER, CHEF, MANAGER])
def test_a_picture_is_kept_and_shown_to_who_handles_food(site, kind, who):
    content = drawn(kind)
    assert site.as_(who).post(AT, content=content).status_code == 204
    shown = site.as_(CHEF).get(AT)
    assert (shown.content, shown.headers["content-type"]) == (content, f"image/{kind.lower()}")
    assert shown.headers["x-content-type-options"] == "nosniff"
    (row,) = site.rows(PictureRow)
    assert (row.id, row.device, row.at) == (ID, None, site.house.now)


def test_the_same_id_is_fine_with_the_same_picture_and_refused_with_another(site):
    theo = site.as_(PORTER)
    assert theo.post(AT, content=drawn()).status_code == 204
    assert theo.post(AT, content=drawn()).status_code == 204
    assert code(theo.post(AT, content=drawn(colour="blue"))) == (409, "picture_taken")
    assert theo.get(AT).content == drawn()


@pytest.mark.parametrize("content", [b"", b"GIF89a", b"<svg/>", b"RIFF....WAVE", b"\xff\xd8"])
def test_what_is_no_picture_is_refused_by_its_bytes_whatever_it_says_it_is(site, content):
    told = site.as_(PORTER).post(AT, content=content, headers={"content-type": "image/jpeg"})
    assert code(told) == (422, "picture_unreadable")
    assert site.rows(PictureRow) == []


def test_a_megabyte_is_taken_and_no_byte_more(site):
    theo = site.as_(PORTER)
    start = drawn()
    assert theo.post(AT, content=start.ljust(1_000_000, b"\0")).status_code == 204
    more = theo.post(f"/api/pictures/{OTHER}", content=start.ljust(1_000_001, b"\0"))
    assert code(more) == (413, "too_large")


def test_who_approves_menus_and_who_is_nobody_have_nothing_to_do_with_them(site):
    site.as_(PORTER).post(AT, content=drawn())
    assert code(site.as_(APPROVER).get(AT)) == (403, "no_pictures")
    assert code(site.as_(APPROVER).post(AT, content=drawn())) == (403, "no_pictures")
    assert code(site.nobody.get(AT)) == (401, "not_signed_in")


def test_one_that_has_not_arrived_says_so_and_an_id_is_a_uuid(site):
    theo = site.as_(PORTER)
    assert code(theo.get(AT)) == (404, "picture_missing")
    for wrong in ("1", ID.upper(), ID.replace("-", "")):
        assert code(theo.get(f"/api/pictures/{wrong}")) == (400, "request_unreadable")


def milk(site, **more):
    """Milk that came without an order, so that the chef is asked."""
    body = {
        "batch": "m",
        "item": "whole-milk",
        "quantity": {"value": "2", "unit": "l"},
        "area": "cold-room",
        "verdict": "hold",
        "reason": "one is open",
        "date_mark": {"kind": "use_by", "date": "2027-03-12"},
    }
    return site.command("receive", body | more)


def test_a_question_names_the_pictures_of_the_line_before_they_arrive(site):
    theo = site.as_(PORTER)
    (answer,) = theo.post("/api/commands", json=[milk(site, photos=[ID, OTHER])]).json()
    assert answer["outcome"] == "applied", answer
    rows = site.as_(CHEF).get("/api/reports/questions").json()["rows"]
    assert [row["photos"] for row in rows if row["kind"] == "on_hold"] == [[ID, OTHER]]


def test_what_is_thrown_away_takes_pictures_too(site):
    theo = site.as_(PORTER)
    waste = {"batch": "m", "quantity": "1 l", "reason": "sour", "destination": "compost"}
    thrown = site.command("waste", waste | {"photos": [ID]})
    answers = theo.post("/api/commands", json=[milk(site), thrown]).json()
    assert [answer["outcome"] for answer in answers] == ["applied"] * 2, answers


def test_a_backup_has_them_and_a_restored_house_shows_them(site, tmp_path):
    site.as_(PORTER).post(AT, content=drawn())
    back_up(site.engine, tmp_path / "backup.db")
    elsewhere = open_database(f"sqlite:///{tmp_path / 'elsewhere.db'}")
    try:
        bring_up_to_date(elsewhere)
        restore(elsewhere, tmp_path / "backup.db", lambda: "another epoch", TODAY)
        with reading(elsewhere) as connection:
            (row,) = every(connection, PictureRow)
        assert (row.id, row.content) == (ID, drawn())
    finally:
        elsewhere.dispose()
