"""The household's page by a link: nobody signs in, nothing else of the house can be read."""

import hashlib
import re
from html import unescape

import pytest

from pantry.records.tables import MenuAnswerRow, PictureRow, RecipeRow, SheetLinkRow
from tests.commands.house import at
from tests.commands.larkfield import APPROVER, CHEF, PORTER
from tests.commands.test_sheets import writes

DINNER = "2027-03-12/dinner/family"
LUNCH = "2027-03-12/lunch/staff"
SECRET = "8Jm3vTn0Yw2kQx5sLr7pAa9cEe1gIi4uOo6zBb8dFfh"
HERE = f"/menu-sheet/{SECRET}"
PICKS = {"pick.0.0": "dish:pancakes|"}


def send(site, *services, secret=SECRET, **more):
    link = hashlib.sha256(secret.encode()).hexdigest()
    return site.house.do("send_sheet", {"services": list(services), "link": link} | more)


@pytest.fixture
def sheet(site):
    """The family's dinner, with two dishes to choose from; the sheet's id."""
    site.house.propose(DINNER, "rice-pudding", "pancakes")
    return send(site, DINNER)


def page(answer):
    """What a page says, without its marks."""
    assert answer.headers["content-type"].startswith("text/html")
    return unescape(re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", answer.text)))


def fields(answer):
    """What the form of a page would send as it stands."""
    hidden = re.findall(r"type='hidden' name='([^']+)' value='([^']*)'", answer.text)
    return {name: unescape(value) for name, value in hidden}


def answers(site, *, path=HERE, client=None, **said):
    """Answer the page as it is read now."""
    client = client or site.nobody
    return client.post(path, data=fields(client.get(path)) | said, follow_redirects=False)


def test_whoever_has_the_link_reads_that_sheet_and_nothing_of_stock(site, sheet):
    site.house.receive("m", "whole-milk", "2 l")
    answer = site.nobody.get(HERE)
    assert answer.status_code == 200
    assert answer.headers["cache-control"] == "no-store"
    assert answer.headers["x-robots-tag"] == "noindex, nofollow"
    assert "noindex" in answer.text
    assert "<script" not in answer.text
    said = page(answer)
    assert "Friday 12 March" in said
    assert "Dinner at 19:30, Family, for 4" in said
    assert "Please choose by Tuesday 9 March, 19:30" in said
    assert "the first dish of each course is served" in said
    assert "Contains milk" in said
    for word in ("stock", "short", "order", "cost", "2 l", "supplier", sheet):
        assert word not in said


def test_the_page_says_when_it_was_first_read(site, sheet):
    assert site.rows(SheetLinkRow)[0].read_at is None
    site.nobody.get(HERE)
    first = site.rows(SheetLinkRow)[0].read_at
    site.house.now = at(9, 8)
    site.nobody.get(HERE)
    assert site.rows(SheetLinkRow)[0].read_at == first == at(8)
    rows = site.as_(CHEF).get("/api/reports/sheets").json()["rows"]
    assert [(row["sheet"], row["read_at"]) for row in rows] == [(sheet, "2027-03-08T07:00:00Z")]


@pytest.mark.usefixtures("sheet")
def test_an_answer_needs_no_signing_in_and_says_that_it_is_received(site):
    answer = answers(site, **PICKS, by="Ottilie", **{"covers.0": "6", "wish.0": "No candles"})
    assert (answer.status_code, answer.headers["location"]) == (303, f"{HERE}?received")
    (row,) = site.rows(MenuAnswerRow)
    assert (row.service, row.said_by, row.covers, row.wish) == (DINNER, "Ottilie", 6, "No candles")
    assert row.person == "lady"
    said = page(site.nobody.get(answer.headers["location"]))
    assert "Your answer is received" in said
    assert "Received from Ottilie, Monday 8 March, 07:00" in said
    assert "main: Pancakes" in said
    assert "It can still be changed until Tuesday 9 March, 19:30" in said


@pytest.mark.usefixtures("sheet")
def test_an_old_browser_that_says_nothing_of_where_it_is_may_answer_too(site):
    told = fields(site.nobody.get(HERE)) | PICKS
    for headers in ({"origin": "null"}, {"sec-fetch-site": "same-origin"}):
        answer = site.nobody.post(HERE, data=told, headers=headers, follow_redirects=False)
        assert answer.status_code in (303, 422), answer.text
    assert len(site.rows(MenuAnswerRow)) == 1


@pytest.mark.usefixtures("sheet")
def test_the_last_of_two_stands_and_both_are_told_what_stands(site):
    answers(site, by="Ottilie", **PICKS)
    site.house.now = at(8, 9)
    answers(site, by="Bertram", **{"pick.0.0": "any"})
    said = page(site.nobody.get(HERE))
    assert "Received from Bertram, Monday 8 March, 09:00 main: any of them" in said
    assert "takes the place of what Ottilie said Monday 8 March, 07:00: main: Pancakes" in said


@pytest.mark.usefixtures("sheet")
def test_what_stands_already_is_not_written_twice(site):
    answers(site, **PICKS)
    again = answers(site, **PICKS)
    assert again.status_code == 422
    assert "nothing was sent" in page(again)
    assert len(site.rows(MenuAnswerRow)) == 1


@pytest.mark.usefixtures("sheet")
def test_nothing_chosen_is_no_answer(site):
    assert answers(site).status_code == 422
    assert site.rows(MenuAnswerRow) == []


@pytest.mark.usefixtures("sheet")
def test_another_approved_dish_can_be_asked_for_and_what_is_proposed_struck(site):
    told = {"pick.0.0": "dish:pancakes|", "instead.0.0": "broth", "not.0.0": "pancakes"}
    assert answers(site, **told).status_code == 303
    said = page(site.nobody.get(HERE))
    assert "main: Broth instead, not Pancakes" in said
    assert re.search(r"value='broth' selected", site.nobody.get(HERE).text)


@pytest.mark.usefixtures("sheet")
def test_what_cannot_be_meant_is_shown_again_as_it_was_typed(site):
    answer = answers(site, **PICKS, **{"not.0.0": "pancakes", "wish.0": "<b>soon</b>"})
    assert answer.status_code == 409
    assert "Two things are said of the main" in page(answer)
    assert "&lt;b&gt;soon&lt;/b&gt;</textarea>" in answer.text
    assert site.rows(MenuAnswerRow) == []


@pytest.mark.usefixtures("sheet")
def test_a_number_of_people_that_is_none_is_told_plainly(site):
    answer = answers(site, **{"covers.0": "many"})
    assert answer.status_code == 422
    assert "Write how many you are in figures" in page(answer)


@pytest.mark.usefixtures("sheet")
def test_a_menu_that_was_changed_while_one_chose_is_looked_at_again(site):
    told = fields(site.nobody.get(HERE)) | PICKS
    site.house.propose(DINNER, "broth", "pancakes")
    answer = site.nobody.post(HERE, data=told, follow_redirects=False)
    assert answer.status_code == 409
    assert "The kitchen changed this menu while you were choosing" in page(answer)
    assert "Broth" in page(answer)
    assert site.rows(MenuAnswerRow) == []


@pytest.mark.usefixtures("sheet")
def test_what_is_settled_says_so_and_whom_to_tell(site):
    told = fields(site.nobody.get(HERE)) | PICKS
    site.house.do("confirm", {"service": DINNER, "dishes": [{"dish": "pancakes"}]})
    answer = site.nobody.post(HERE, data=told, follow_redirects=False)
    assert answer.status_code == 409
    assert f"Tell {CHEF}" in page(answer)
    said = page(site.nobody.get(HERE))
    assert f"This is settled. Whoever wishes it otherwise tells {CHEF}" in said
    assert "Main: Pancakes" in said
    assert "Rice pudding" not in said


def test_a_wrong_link_leads_nowhere_and_guesses_are_slowed_down(site):
    for _ in range(20):
        answer = site.nobody.get("/menu-sheet/not-the-link")
        assert answer.status_code == 404
    assert "leads to no menus" in page(answer)
    assert site.nobody.get("/menu-sheet/not-the-link").status_code == 404
    slowed = site.nobody.get("/menu-sheet/not-the-link")
    assert (slowed.status_code, int(slowed.headers["retry-after"]) > 0) == (429, True)


@pytest.mark.usefixtures("sheet")
def test_the_right_link_is_read_however_many_wrong_ones_came_from_there(site):
    for _ in range(25):
        site.nobody.get("/menu-sheet/not-the-link")
    assert site.nobody.get(HERE).status_code == 200


@pytest.mark.usefixtures("sheet")
def test_answers_by_the_thousand_are_slowed_down(site):
    said = [answers(site, **{"covers.0": str(3 + number % 2)}).status_code for number in range(64)]
    assert said[:60] == [303] * 60
    assert 429 in said[60:]


def test_a_link_that_was_withdrawn_or_is_over_says_so(site, sheet):
    told = fields(site.nobody.get(HERE)) | PICKS
    site.house.now = at(12, 19, 31)
    assert site.nobody.get(HERE).status_code == 410
    assert "no longer to be chosen from" in page(site.nobody.get(HERE))
    site.house.now = at(9)
    site.house.do("withdraw_sheet", {"sheet": sheet})
    for answer in (site.nobody.get(HERE), site.nobody.post(HERE, data=told)):
        assert answer.status_code == 410
        assert "have been withdrawn" in page(answer)
    assert site.rows(MenuAnswerRow) == []


def test_nothing_in_the_books_opens_the_link(site, sheet):
    (row,) = site.rows(SheetLinkRow)
    assert SECRET not in str(row)
    for name in (row.id, sheet):
        assert site.nobody.get(f"/menu-sheet/{name}").status_code == 404


@pytest.mark.usefixtures("sheet")
def test_the_link_opens_nothing_else(site):
    for path in ("/api/reports/menus", "/api/me", "/api/reports/sheets"):
        headers = {"authorization": f"Bearer {SECRET}"}
        assert site.nobody.get(path, headers=headers).status_code == 401


def test_a_persons_constraint_is_told_to_their_own_table_only(site):
    site.house.propose(DINNER, "walnut-salad", "green-salad")
    site.house.propose(LUNCH, "broth", time="12:15")
    send(site, DINNER)
    assert "Not for Ottilie" in page(site.nobody.get(HERE))
    send(site, DINNER, LUNCH, secret="another secret of two tables together")
    both = page(site.nobody.get("/menu-sheet/another secret of two tables together"))
    assert "Ottilie" not in both
    assert "Contains nuts" in both


def test_a_new_dish_has_its_recipe_and_its_picture(site):
    picture = "018f2d3c-0000-7000-8000-000000000001"
    writes(site.house, "new-dish", method="Melt it.\nServe it.", picture=picture)
    site.house.propose(DINNER, "new-dish", "pancakes")
    send(site, DINNER)
    answer = site.nobody.get(HERE)
    said = page(answer)
    assert "New to you: its recipe" in said
    assert "20 Butter" in said
    assert "Melt it. Serve it." in said
    assert f"{HERE}/pictures/{picture}" in answer.text
    assert site.nobody.get(f"{HERE}/pictures/{picture}").status_code == 404  # not arrived yet
    content = b"\xff\xd8\xff\xe0 a picture"
    kept = site.as_(CHEF).post(
        f"/api/pictures/{picture}", content=content, headers={"content-type": "image/jpeg"}
    )
    assert kept.status_code == 204, kept.text
    assert site.nobody.get(f"{HERE}/pictures/{picture}").content == content
    other = "018f2d3c-0000-7000-8000-000000000002"
    site.as_(CHEF).post(f"/api/pictures/{other}", content=content)
    assert len(site.rows(PictureRow)) == 2
    assert site.nobody.get(f"{HERE}/pictures/{other}").status_code == 404
    answers(site, **{"pick.0.0": "dish:new-dish|"})
    assert site.rows(RecipeRow, id="new-dish")[0].approved


def test_who_chooses_menus_has_the_same_signed_in(site, sheet):
    mine = f"/my-sheet/{sheet}"
    assert site.nobody.get(mine).status_code == 401
    assert site.as_(PORTER).get(mine).status_code == 403
    lady = site.browser(APPROVER)
    assert "Dinner at 19:30" in page(lady.get(mine))
    assert answers(site, path=mine, client=lady, **PICKS).status_code == 303
    assert f"Received from {APPROVER}" in page(lady.get(mine))
    from_elsewhere = lady.post(mine, data=PICKS, headers={"sec-fetch-site": "cross-site"})
    assert from_elsewhere.status_code == 403
    assert lady.get("/my-sheet/none").status_code == 404


def test_the_sheet_on_paper_is_for_who_is_told_of_sheets(site, sheet):
    path = f"/api/sheets/{sheet}/sheet.pdf"
    assert site.nobody.get(path).status_code == 401
    assert site.as_(PORTER).get(path).status_code == 403
    answer = site.as_(CHEF).get(path)
    assert answer.headers["content-type"] == "application/pdf"
    assert answer.content.startswith(b"%PDF")


@pytest.mark.usefixtures("sheet")
def test_the_style_sheet_is_there_without_a_link(site):
    assert site.nobody.get("/menu-sheet/look.css").headers["content-type"].startswith("text/css")
