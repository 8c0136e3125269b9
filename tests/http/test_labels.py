"""Labels over HTTP: for who handles food, as a PDF that is read back."""

import pypdfium2
import pytest
import zxingcpp

from pantry.records.tables import LabelRangeRow
from pantry.rules.label_numbers import numbered
from tests.commands.house import use_by
from tests.commands.larkfield import APPROVER, CHEF, MANAGER, PORTER
from tests.http.site import code

AT = "/api/labels.pdf"


def decoded(answer):
    assert answer.status_code == 200, answer.text
    assert answer.headers["content-type"] == "application/pdf"
    found = []
    for page in pypdfium2.PdfDocument(answer.content):
        image = page.render(scale=203 / 72).to_pil().convert("L")
        found += [each.text for each in zxingcpp.read_barcodes(image)]
    return sorted(found)


def stocked(site):
    site.house.receive("m", "whole-milk", "4 l", use_by(20), label="MMMM1")
    decant = {"batch": "m", "quantity": "1 l", "child": "jar", "label": "JJJJ2"}
    site.house.do("decant", decant)


@pytest.mark.parametrize("who", [PORTER, CHEF, MANAGER])
def test_who_handles_food_prints_labels(site, who):
    stocked(site)
    answer = site.as_(who).get(AT, params={"batch": ["jar", "MMMM1"], "paper": "62x29"})
    # this machine's own address is of no use to a phone, so that the square has the label alone
    assert decoded(answer) == ["JJJJ2", "JJJJ2", "MMMM1", "MMMM1"]


def test_the_household_prints_none(site):
    stocked(site)
    answer = site.as_(APPROVER).get(AT, params={"batch": "jar"})
    assert code(answer) == (403, "report_lacking")
    assert site.nobody.get(AT, params={"batch": "jar"}).status_code == 401


def test_the_address_of_the_house_stands_in_the_square(site):
    stocked(site)
    site.served.address = "https://larkfield.home.arpa"
    answer = site.as_(CHEF).get(AT, params={"batch": "jar"})
    assert decoded(answer) == ["JJJJ2", "https://larkfield.home.arpa/shelf/JJJJ2"]


def test_all_of_a_day_and_copies_of_each(site):
    stocked(site)
    day = {"day": "2027-03-08", "copies": "2", "start": "24"}
    assert decoded(site.as_(CHEF).get(AT, params=day)) == sorted(["JJJJ2", "MMMM1"] * 4)
    assert code(site.as_(CHEF).get(AT, params={"day": "2027-03-09"})) == (404, "nothing_to_label")


def test_all_that_was_received_of_an_order(site):
    lines = [{"item": "whole-milk", "pack": "2 l bottle", "packs": 2}]
    order = {"supplier": "hill-dairy", "delivery": "2027-03-09", "lines": lines}
    site.house.do("place_order", order)
    site.house.receive("m", "whole-milk", "4 l", order="hill-dairy/2027-03-09", label="MMMM1")
    answer = site.as_(CHEF).get(AT, params={"order": "hill-dairy/2027-03-09"})
    assert decoded(answer) == ["MMMM1", "MMMM1"]


def test_reserved_numbers_are_printed_once_each(site):
    reserved = site.house.do("reserve_labels", {"count": 3}, person=PORTER)
    answer = site.as_(PORTER).get(AT, params={"numbers": reserved, "copies": "2"})
    assert decoded(answer) == sorted([numbered(1001), numbered(1002), numbered(1003)] * 2)
    assert len(site.rows(LabelRangeRow)) == 1


@pytest.mark.parametrize(
    ("asked", "refused"),
    [
        ({}, "labels_unreadable"),
        ({"batch": "m", "colour": "red"}, "labels_unreadable"),
        ({"batch": "m", "copies": "51"}, "labels_unreadable"),
        ({"batch": "m", "start": "first"}, "labels_unreadable"),
        ({"batch": "m", "start": "25"}, "start_off_sheet"),
        ({"batch": "m", "paper": "napkin"}, "paper_unreadable"),
        ({"batch": "m", "paper": "10x10"}, "paper_too_small"),
    ],
)
def test_what_cannot_be_printed_is_refused_with_what_to_do(site, asked, refused):
    answer = site.as_(CHEF).get(AT, params=asked)
    assert code(answer) == (422, refused)
    assert answer.json()["todo"]


def test_what_stands_in_the_house_no_more_has_no_label(site):
    answer = site.as_(CHEF).get(AT, params={"batch": "?"})
    assert code(answer) == (404, "nothing_to_label")
