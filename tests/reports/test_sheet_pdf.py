"""The household's sheet on A4: its text read back from the PDF by PDFium."""

import io

import pypdfium2
from PIL import Image

from pantry.paper.sheet import sheet_pdf
from pantry.records.database import reading
from pantry.records.rows import one
from pantry.records.tables import SheetRow
from pantry.reports.sheet_shown import sheet_shown
from pantry.reports.view import view
from tests.commands.larkfield import ID
from tests.commands.test_sheets import writes

DINNER = "2027-03-12/dinner/family"
LUNCH = "2027-03-12/lunch/staff"
PICTURE = "018f2d3c-0000-7000-8000-000000000001"


def printed(lodge, *services, picture=None):
    """The PDF of a sheet of these services."""
    sheet = lodge.do("send_sheet", {"services": list(services)})
    with reading(lodge.engine) as connection:
        seen = view(connection, ID, lodge.now)
        shown = sheet_shown(seen, one(connection, SheetRow, house=ID, id=sheet))
        return sheet_pdf(shown, seen.zone, seen.now, lambda _: picture)


def texts(pdf):
    return [page.get_textpage().get_text_range() for page in pypdfium2.PdfDocument(pdf)]


def test_it_says_by_day_meal_and_table_what_is_proposed_and_by_when_to_choose(lodge):
    lodge.receive("m", "whole-milk", "2 l")
    lodge.propose(DINNER, "rice-pudding", "pancakes")
    (page,) = texts(printed(lodge, DINNER))
    assert "Menus of Friday 12 March" in page
    assert "Larkfield Lodge, for Lady Larkfield. From Cato Brand." in page
    assert "Dinner at 19:30, Family, for 4" in page
    assert "Please choose by Tuesday 9 March, 19:30" in page
    assert "Rice pudding" in page
    assert "Contains milk" in page
    assert "traces can never be ruled" in page
    assert "1 of 1" in page
    assert not [word for word in ("stock", "cost", "short", "supplier", "2 l") if word in page]


def test_it_is_on_a4(lodge):
    lodge.propose(DINNER, "pancakes")
    (page,) = pypdfium2.PdfDocument(printed(lodge, DINNER))
    # ISO 216: 210 x 297 mm
    assert [round(side / 72 * 25.4) for side in page.get_size()] == [210, 297]


def test_the_recipe_of_what_is_new_follows_on_a_page_of_its_own_with_its_picture(lodge):
    writes(lodge, "new-dish", method="Melt it slowly.\nServe it.", picture=PICTURE)
    lodge.propose(DINNER, "new-dish", "pancakes")
    drawn = io.BytesIO()
    Image.new("RGB", (320, 240), "olive").save(drawn, "JPEG")
    pdf = printed(lodge, DINNER, picture=drawn.getvalue())
    menus, recipe = texts(pdf)
    assert "New dish (new: its recipe follows)" in menus
    assert "Melt it" not in menus
    assert "New to you: the recipes" in recipe
    assert "Melt it slowly." in recipe
    assert "Butter" in recipe
    assert "Pancakes" not in recipe
    images = [each for each in pypdfium2.PdfDocument(pdf)[1].get_objects() if each.type == 3]
    assert len(images) == 1


def test_a_picture_that_has_not_arrived_holds_nothing_up(lodge):
    writes(lodge, "new-dish", method="Melt it slowly.", picture=PICTURE)
    lodge.propose(DINNER, "new-dish")
    assert len(texts(printed(lodge, DINNER))) == 2


def test_a_persons_constraint_is_printed_for_their_own_table_only(lodge):
    lodge.propose(DINNER, "walnut-salad", "green-salad")
    lodge.propose(LUNCH, "broth", time="12:15")
    assert "not for Ottilie" in texts(printed(lodge, DINNER))[0]
    assert "Ottilie" not in "".join(texts(printed(lodge, DINNER, LUNCH)))


def test_a_block_of_days_runs_over_no_edge(lodge):
    services = [
        f"2027-03-{day}/{meal}/family" for day in range(12, 22) for meal in ("lunch", "tea")
    ]
    for service in services:
        lodge.propose(service, "walnut-salad", "pancakes", "rice-pudding", "baked-salmon")
    pages = texts(printed(lodge, *services))
    assert len(pages) > 4
    assert f"1 of {len(pages)}" in pages[0]
    for day in range(12, 22):
        assert f"{day} March" in "".join(pages)
