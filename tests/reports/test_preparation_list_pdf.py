"""The preparation list as it is printed: its text read back from the PDF by PDFium."""

from copy import deepcopy

import pypdfium2

from pantry.paper.preparation_list import preparation_list
from pantry.records.database import reading
from pantry.reports.preparations import preparations
from pantry.reports.view import view
from tests.commands.house import use_by
from tests.commands.larkfield import CHEF, ID

DINNER = "2027-03-10/dinner/family"


def texts(lodge, change=lambda rows: rows):
    with reading(lodge.engine) as connection:
        seen = view(connection, ID, lodge.now)
        pdf = preparation_list(seen, change(preparations(seen)))
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(pdf)]


def test_it_says_how_much_of_what_for_whom_and_where_it_stands(lodge):
    lodge.receive("c", "chicken-bones", "300 g", use_by(12), label="BBBB2")
    lodge.menu(DINNER, "broth")
    (page,) = texts(lodge)
    assert "Wednesday 10 March" in page
    assert "1 l Chicken stock" in page
    assert "For Broth, Wed 10 Mar dinner, family" in page
    assert "500 g Chicken bones: BBBB2, Cold room, 200 g SHORT" in page
    assert "Local codes" in page


def test_nothing_runs_over_an_edge_however_much_there_is(lodge):
    lodge.receive("c", "chicken-bones", "2 kg", use_by(12))
    lodge.menu(DINNER, "broth")

    def much(rows):
        many = [deepcopy(rows[0]) | {"preparation": f"Stock {n} " + "long " * n} for n in range(40)]
        many[3]["lines"] *= 100
        return many

    pages = texts(lodge, much)
    assert len(pages) > 5
    assert all(f"Stock {n}" in "".join(pages) for n in range(40))


def test_AL3_it_says_who_cannot_eat_what_it_is_made_for(lodge):
    lodge.receive("c", "chicken-bones", "2 kg", use_by(12))
    lodge.propose(DINNER, "broth")
    lodge.do("add_guest", {"person": "Bo", "table": "family", "cannot_eat": ["Chicken bones"]})
    body = {"service": DINNER, "dishes": [{"dish": "broth"}], "overrides": ["Bo"]}
    lodge.do("confirm", body)
    text = " ".join(texts(lodge)[0].split())
    said = "For Bo: not Broth, it contains Chicken bones (Chicken stock, in it Chicken bones)"
    assert f"{said}; {CHEF} agreed, Mon 8 Mar 07:00: serve it all the same" in text


def test_an_empty_list_says_so(lodge):
    (page,) = texts(lodge)
    assert "Nothing is to be made in these days." in page
