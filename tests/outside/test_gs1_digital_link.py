"""GS1 Digital Links, against the vectors of the GS1 syntax engine.

`syntax engine` is github.com/gs1/gs1-syntax-engine, commit 50657db, Apache License 2.0: its
function `test_dl_parseDLuri` in dl.c, which carries the examples of the GS1 Digital Link Standard,
URI Syntax. Left out are those for switches that are off by default.
"""

from datetime import date

import pytest

from pantry.refusals import Refusal
from pantry.rules.codes import read_code

TODAY = date(2026, 11, 25)

SSCC = "(00)006141411234567890"
GTIN = "(01)12312312312333"
STANDARD = "(01)09520123456788"

VALID = [
    ("http://a/00/006141411234567890", SSCC),
    ("HTTP://a/00/006141411234567890", SSCC),
    ("https://a/00/006141411234567890", SSCC),
    ("HTTPS://a/00/006141411234567890", SSCC),
    ("https://a/01/12312312312333", GTIN),
    ("https://xn--fsq.xn--0zwm56d/01/12312312312333", GTIN),
    ("https://a./01/12312312312333", GTIN),
    ("https://a:65535/01/12312312312333", GTIN),
    ("https://192.0.2.1/01/12312312312333", GTIN),
    ("https://3232235777/01/12312312312333", GTIN),
    ("https://0300.0250.01.01/01/12312312312333", GTIN),
    ("https://0xC0.0xA8.0x01.0x01/01/12312312312333", GTIN),
    ("https://[2001:db8::1]/01/12312312312333", GTIN),
    ("https://a/stem/00/006141411234567890", SSCC),
    ("https://a/more/stem/00/006141411234567890", SSCC),
    ("https://a/00/faux/00/006141411234567890", SSCC),
    (
        "https://a/01/12312312312333/22/TEST/10/ABC/21/XYZ",
        GTIN + "(22)TEST(10)ABC(21)XYZ",
    ),
    ("https://a/01/12312312312333/235/TEST", GTIN + "(235)TEST"),
    ("https://a/253/1231231231232", "(253)1231231231232"),
    (
        "https://a/253/1231231231232TEST5678901234567",
        "(253)1231231231232TEST5678901234567",
    ),
    ("https://a/8018/123456789012345675/8019/123", "(8018)123456789012345675(8019)123"),
    ("https://a/stem/00/006141411234567890?", SSCC),
    ("https://a/stem/00/006141411234567890?99=ABC", SSCC + "(99)ABC"),
    ("https://a/stem/401/12345678?99=ABC", "(401)12345678(99)ABC"),
    ("https://a/01/12312312312333?99=ABC&98=XYZ", GTIN + "(99)ABC(98)XYZ"),
    ("https://a/01/12312312312333?&&&99=ABC&&&&&&98=XYZ&&&", GTIN + "(99)ABC(98)XYZ"),
    ("https://a/01/12312312312333?99=ABC&unknown=666&98=XYZ", GTIN + "(99)ABC(98)XYZ"),
    ("https://a/01/12312312312333?unknown=666&99=ABC&98=XYZ", GTIN + "(99)ABC(98)XYZ"),
    ("https://a/01/12312312312333?99=ABC&singleton&98=XYZ", GTIN + "(99)ABC(98)XYZ"),
    ("https://a/01/12312312312333?singleton&99=ABC&98=XYZ", GTIN + "(99)ABC(98)XYZ"),
    (
        "https://a/01/12312312312333/22/ABC%2d123?99=ABC&98=XYZ%2f987",
        GTIN + "(22)ABC-123(99)ABC(98)XYZ/987",
    ),
    (
        "https://a/01/12312312312333/22/ABC+123?99=ABC&98=XYZ%2f987",
        GTIN + "(22)ABC+123(99)ABC(98)XYZ/987",
    ),
    (
        "https://a/01/12312312312333/22/test/10/abc/21/xyz#",
        GTIN + "(22)test(10)abc(21)xyz",
    ),
    (
        "https://a/01/12312312312333/22/test/10/abc/21/xyz#fragment",
        GTIN + "(22)test(10)abc(21)xyz",
    ),
    ("https://a/stem/00/006141411234567890?99=ABC#", SSCC + "(99)ABC"),
    ("https://a/stem/00/006141411234567890?99=ABC#fragment", SSCC + "(99)ABC"),
    ("https://id.gs1.org/01/09520123456788", STANDARD),
    ("https://id.gs1.org/01/09520123456788/22/2A", STANDARD + "(22)2A"),
    ("https://id.gs1.org/01/09520123456788/10/ABC123", STANDARD + "(10)ABC123"),
    ("https://id.gs1.org/01/09520123456788/21/12345", STANDARD + "(21)12345"),
    (
        "https://id.gs1.org/01/09520123456788/10/ABC1/21/12345?17=180426",
        STANDARD + "(10)ABC1(21)12345(17)180426",
    ),
    ("https://id.gs1.org/01/09520123456788?3103=000195", STANDARD + "(3103)000195"),
    (
        "https://example.com/01/09520123456788?3103=000195&3922=0299&17=201225",
        STANDARD + "(3103)000195(3922)0299(17)201225",
    ),
    (
        "https://id.gs1.org/01/09520123456788?17=201225&3103=000195&3922=0299",
        STANDARD + "(17)201225(3103)000195(3922)0299",
    ),
    ("https://id.gs1.org/00/952012345678912345", "(00)952012345678912345"),
    (
        "https://id.gs1.org/00/952012345678912345?02=09520123456788&37=25&10=ABC123",
        "(00)952012345678912345(02)09520123456788(37)25(10)ABC123",
    ),
    ("https://id.gs1.org/414/9520123456788", "(414)9520123456788"),
    ("https://id.gs1.org/414/9520123456788/254/32a%2Fb", "(414)9520123456788(254)32a/b"),
    (
        "https://example.com/8004/9520614141234567?01=9520123456788",
        "(8004)9520614141234567(01)09520123456788",
    ),
    (
        "https://id.gs1.org/01/09520123456788/235/XYZ?10=ABC123",
        STANDARD + "(235)XYZ(10)ABC123",
    ),
]

INVALID = [
    ("ftp://", "not_a_code"),
    ("http://", "link_unreadable"),
    ("http:///", "link_unreadable"),
    ("http://a", "link_unreadable"),
    ("http://a/", "link_without_product"),
    ("http://a/b", "link_without_product"),
    ("http://a/b/", "link_without_product"),
    ("HtTp://a/b/00/006141411234567890", "link_unreadable"),
    ("https://00/006141411234567890", "link_without_product"),
    ("https://[fe80::1%25lo]/01/12312312312333", "link_unreadable"),
    ("https://$a/006141411234567890", "link_unreadable"),
    ("https://a$/006141411234567890", "link_unreadable"),
    ("https://a/gtin/12312312312333", "link_without_product"),
    ("https://a/01/2112345678900", "value_does_not_fit"),
    ("https://a/01/416000336108", "value_does_not_fit"),
    ("https://a/01/02345673", "value_does_not_fit"),
    ("https://a/253/1231231231232TEST56789012345678", "value_does_not_fit"),
    ("https://a/stem/00/006141411234567890/", "link_without_product"),
    ("https://a/01/12312312312333?99=", "link_value_empty"),
    ("https://a/01/12312312312333?99=ABC&999=faux", "link_identifier_unknown"),
    (
        "https://a/01/12312312312333/22/ABC%2d123?99=ABC&98=XYZ+987",
        "value_does_not_fit",
    ),
    ("https://a/01/12312312312333/10/A%00B", "value_does_not_fit"),
    ("https://example.com/01/09520123456788?10=ABC123", "link_identifier_misplaced"),
    (
        "https://id.gs1.org/01/09520123456788/10/ABC123?99=XYZ789&01=09520123456788",
        "link_identifier_misplaced",
    ),
    (
        "https://id.gs1.org/01/09520123456788/10/ABC123?99=XYZ789&10=ABC123",
        "link_identifier_misplaced",
    ),
    (
        "https://id.gs1.org/01/09520123456788/10/ABC123?99=XYZ789&99=XYZ789",
        "link_identifier_misplaced",
    ),
    ("https://example.com/01/09520123456788/89/ABC123?99=XYZ", "link_without_product"),
    (
        "https://example.com/01/09520123456788?99=XYZ&89=ABC123",
        "link_identifier_unknown",
    ),
    # syntax dictionary, head of the file: qualifiers in their order, alternatives not mixed
    ("https://a/01/12312312312333/10/ABC/22/TEST", "link_out_of_order"),
    ("https://a/01/12312312312333/21/XYZ/10/ABC", "link_out_of_order"),
    ("https://a/01/12312312312333/10/ABC/10/ABC", "link_out_of_order"),
    ("https://a/01/12312312312333/22/TEST/10/ABC/235/XYZ", "link_out_of_order"),
    # syntax dictionary: no `?` at AI 21 and 8200, so they are no attributes
    ("https://a/00/006141411234567890?21=XYZ", "link_identifier_misplaced"),
    ("https://a/01/12312312312333?8200=XYZ", "link_identifier_misplaced"),
    # GS1 Digital Link Standard, URI Syntax: no empty element, from memory
    ("https://a/01/12312312312333/10/", "link_value_empty"),
]


@pytest.mark.parametrize(("link", "bracketed"), VALID)
def test_a_link_says_what_the_syntax_engine_reads(link, bracketed):
    elements = read_code(link, TODAY).elements
    assert "".join(f"({one.ai}){one.value}" for one in elements) == bracketed


@pytest.mark.parametrize(("link", "code"), INVALID)
def test_a_link_that_the_syntax_engine_refuses_is_refused(link, code):
    with pytest.raises(Refusal) as refused:
        read_code(link, TODAY)
    assert refused.value.code == code


def test_the_example_of_the_standard_with_weight_price_and_date():
    # GS1 Digital Link Standard, URI Syntax; syntax engine, dl.c
    answer = read_code(
        "https://example.com/01/09520123456788?3103=000195&3922=0299&17=201225", TODAY
    ).as_json()
    assert answer["gtin"] == "09520123456788"
    assert answer["quantity"] == {"value": "0.195", "unit": "kg"}
    assert answer["price"] == {"minor": 299, "currency": None}
    assert answer["date_mark"] == {"kind": "use_by", "date": "2020-12-25"}
