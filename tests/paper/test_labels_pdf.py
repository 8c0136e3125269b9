"""Labels as they are printed: read back by an independent decoder, and by our own reader.

The PDF is drawn by PDFium at the resolutions of common label printers, 203 and 300 dots to the
inch, and decoded by zxing-cpp.
"""

from datetime import date

import pypdfium2
import pytest
import zxingcpp

from pantry.paper.fitting import LEADING, SMALLEST, Line, fitted
from pantry.paper.fonts import BOLD, PLAIN, legible, width
from pantry.paper.labels import Printed, labels_pdf
from pantry.rules.codes import read_code
from pantry.rules.label import LabelWords
from pantry.rules.label_codes import Product, codes_of
from pantry.rules.label_numbers import numbered
from pantry.rules.label_paper import ROLLS, SHEETS, read_paper
from pantry.rules.stock import DateKind, DateMark

ADDRESS = "https://larkfield.home.arpa:8710"
MILK = Product("09521234543213", DateMark(DateKind.USE_BY, date(2027, 3, 20)), "L42/A")
TODAY = date(2027, 3, 8)
ALL_ALLERGENS = (
    "Contains: celery, crustaceans, eggs, fish, gluten, lupin, milk",
    "May contain: molluscs, mustard, nuts, peanuts, sesame, soybeans",
    "Not known: sulphur dioxide and sulphites",
)


def words(item="Rhubarb jam", label="KQ7PM", **more):
    known = {
        "warning": "",
        "dates": ("Usable until Wed 10 Mar 2027", "On the pack: use by Sat 20 Mar 2027"),
        "done": "Opened Mon 8 Mar 2027",
        "area": "Cold room",
        "allergens": ("Contains: milk",),
        "house": "Larkfield Lodge",
    }
    return LabelWords(item=item, label=label, **known | more)


def printed(label="KQ7PM", product=None, address=ADDRESS, **more):
    return Printed(words(label=label, **more), codes_of(label, product, address))


def pages(pdf, dots):
    document = pypdfium2.PdfDocument(pdf)
    return [page.render(scale=dots / 72).to_pil().convert("L") for page in document]


def decoded(pdf, dots=203):
    return {
        (found.symbology_identifier + found.bytes.decode("utf-8"))
        for page in pages(pdf, dots)
        for found in zxingcpp.read_barcodes(page)
    }


@pytest.mark.parametrize("dots", [203, 300])
@pytest.mark.parametrize("measures", [*SHEETS, *ROLLS])
def test_every_label_of_every_paper_is_read_back(measures, dots):
    labels = ["KQ7PM", "B-0241", numbered(1001), "ZMP4WX2"]
    pdf = labels_pdf([printed(label) for label in labels], read_paper(measures), 1, "Labels")
    read = [read_code(text, TODAY) for text in decoded(pdf, dots)]
    assert sorted(scan.label for scan in read) == sorted([*labels, *labels])


@pytest.mark.parametrize("address", [ADDRESS, "http://192.0.2.17:8710", ""])
def test_the_square_is_a_link_into_the_house_or_the_label_alone(address):
    pdf = labels_pdf([printed(address=address)], read_paper("62x29"), 1, "Labels")
    square = f"{address}/shelf/KQ7PM" if address else "KQ7PM"
    assert {text[3:] for text in decoded(pdf)} == {"KQ7PM", square}


def test_a_sealed_pack_carries_its_own_number_date_and_lot():
    pdf = labels_pdf([printed(product=MILK)], read_paper("a4/2x7/99.1x38.1"), 1, "Labels")
    texts = decoded(pdf)
    assert {text[:3] for text in texts} == {"]C1", "]Q1"}
    for text in texts:
        scan = read_code(text, TODAY)
        assert (scan.gtin, scan.lot) == ("09521234543213", "L42/A")
        assert scan.date_mark == MILK.mark


def test_where_its_number_has_no_room_the_bars_carry_the_label():
    pdf = labels_pdf([printed(product=MILK)], read_paper("62x29"), 1, "Labels")
    scans = [read_code(text, TODAY) for text in decoded(pdf)]
    assert {scan.label for scan in scans} == {"KQ7PM", None}
    assert {scan.lot for scan in scans} == {"L42/A", None}


def test_a_begun_sheet_is_used_up_and_goes_on_with_a_fresh_one():
    paper = read_paper("a4/3x8/70x37")
    many = [printed(numbered(number)) for number in range(1001, 1028)]
    (first, second) = pages(labels_pdf(many, paper, 24, "Labels"), 60)[:2]
    assert len(pages(labels_pdf(many, paper, 24, "Labels"), 20)) == 3
    assert first.crop((0, 0, first.width, first.height * 7 // 8)).getextrema() == (255, 255)
    assert first.getextrema()[0] < 100
    assert second.getextrema()[0] < 100


@pytest.mark.parametrize("measures", [*SHEETS, *ROLLS])
def test_nothing_runs_over_the_edge_however_long_it_is(measures):
    paper = read_paper(measures)
    long = printed(
        "WWWW-WWWWW-WWWWW-WWW",
        item="Unterbeamtengesellschaftshauptversammlung " * 4,
        warning="On hold: the chef decides",
        allergens=ALL_ALLERGENS,
        area="Chest freezer in the cellar, on the left",
    )
    (page, *_) = pages(labels_pdf([long], paper, 1, "Labels"), 203)
    left, top = (float(edge) for edge in paper.place(0))
    wide, high = (float(edge) for edge in paper.label)
    dots = 203 / 25.4
    ink = page.point(lambda shade: 255 if shade < 200 else 0).getbbox()
    inside = ((left + 1) * dots, (top + 1) * dots)
    assert ink[0] >= inside[0] - 1
    assert ink[1] >= inside[1] - 1
    assert ink[2] <= (left + wide - 1) * dots + 1
    assert ink[3] <= (top + high - 1) * dots + 1


@pytest.mark.parametrize("wide", [82, 120, 200])
@pytest.mark.parametrize("high", [45, 60, 120])
def test_a_date_is_never_cut_and_lines_stay_in_their_box(wide, high):
    lines = [
        Line("A very long name of a jam with three kinds of oranges in it", BOLD, 11),
        Line("ON HOLD: THE CHEF DECIDES", BOLD, 9),
        Line("Usable until Wed 10 Mar 2027, 14:30", BOLD, 9),
        Line("Vacuum packed Wed 10 Mar 2027, frozen", PLAIN, 7),
        Line(ALL_ALLERGENS[0], PLAIN, 7, instead="Allergens: scan the code"),
        *(Line(each, PLAIN, 7, instead="") for each in ALL_ALLERGENS[1:]),
        Line("Cold room", PLAIN, 7, weight=2),
    ]
    placed = fitted(lines, wide, high)
    assert sum(each.size * LEADING for each in placed) <= high
    assert all(width(each.text, each.font, each.size) <= wide + 0.01 for each in placed)
    assert all(each.size >= SMALLEST for each in placed)
    said = " ".join(each.text for each in placed)
    assert "Usable until Wed 10 Mar 2027, 14:30" in said
    assert all(each in said for each in ALL_ALLERGENS) or "Allergens: scan the code" in said


@pytest.mark.parametrize("text", ["Þorskur, Łosoś, Şölen, Čežňa, Nước mắm", "Αυγά", "Сметана"])
def test_the_letters_of_europe_are_in_the_font(text):
    assert legible(text) == text


def test_what_the_font_does_not_have_is_a_question_mark_and_not_nothing():
    assert legible("味噌\tpaste") == "?? paste"


def test_the_same_labels_are_the_same_bytes():
    paper = read_paper("62x29")
    assert labels_pdf([printed()], paper, 1, "L") == labels_pdf([printed()], paper, 1, "L")
