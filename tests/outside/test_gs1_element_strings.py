"""Element strings, against worked scans and the vectors of the GS1 syntax engine.

`syntax engine` is github.com/gs1/gs1-syntax-engine, commit 50657db, Apache License 2.0: its
functions `test_ai_processAIdata`, `test_ai_parseAIdata` and `test_ai_linters` in ai.c. It writes
FNC1 as `^`; here stands `<GS>`.
"""

from datetime import date

import pytest

from pantry.refusals import Refusal
from pantry.rules.codes import read_code

TODAY = date(2026, 11, 25)


def said(text):
    """What the scan says, without what it does not say and without the raw elements."""
    answer = read_code(text, TODAY).as_json()
    return {key: one for key, one in answer.items() if one not in (None, []) and key != "elements"}


def use_by(day):
    return {"kind": "use_by", "date": day}


P = {"gtin": "09521234543213"}


@pytest.mark.parametrize(
    ("text", "expected"),
    [
        (  # computed; the same by biip 5.2.0
            "]C101095212345432131727033110LOT42A",
            P | {"date_mark": use_by("2027-03-31"), "lot": "LOT42A", "symbology": "]C1"},
        ),
        (  # computed; the same by biip 5.2.0
            "]d2010952123454321310LOT42A<GS>17270331",
            P | {"date_mark": use_by("2027-03-31"), "lot": "LOT42A", "symbology": "]d2"},
        ),
        (  # computed; the same by biip 5.2.0
            "]C1019952123454321631030012501527022839221995<GS>10B7",
            {
                "gtin": "99521234543216",
                "quantity": {"value": "1.250", "unit": "kg"},
                "date_mark": {"kind": "best_before", "date": "2027-02-28"},
                "best_before": "2027-02-28",
                "price": {"minor": 1995, "currency": None},
                "price_decimals": 2,
                "lot": "B7",
                "symbology": "]C1",
            },
        ),
        (  # computed; the same by biip 5.2.0
            "]C10037610425002123456902950123456789033712",
            {
                "sscc": "376104250021234569",
                "content_gtin": "95012345678903",
                "count": 12,
                "symbology": "]C1",
            },
        ),
        (  # computed; the same by biip 5.2.0
            "]d2010952123454321370032704011430<GS>10A1",
            P
            | {
                "date_mark": use_by("2027-04-01"),
                "time": "14:30",
                "lot": "A1",
                "symbology": "]d2",
            },
        ),
        (  # computed; the same by biip 5.2.0
            "]d2010952123454321320013012<GS>10X",
            P | {"variant": "01", "count": 12, "lot": "X", "symbology": "]d2"},
        ),
        (  # computed: the separator after the lot is missing
            "]d2010952123454321310LOT42A17270331",
            P
            | {
                "lot": "LOT42A17270331",
                "symbology": "]d2",
                "warnings": ["lot_may_hide_a_date"],
            },
        ),
        # GS1 General Specifications, figure 5.1.2-2: ]E0 carries the number alone
        ("]E06291041500213", {"gtin": "06291041500213", "symbology": "]E0"}),
        (  # bwipp wiki: (01)09521234543213(17)100101(10)123ABC(21)1234567890
            "]C101095212345432131710010110123ABC<GS>211234567890",
            P
            | {
                "date_mark": use_by("2010-01-01"),
                "lot": "123ABC",
                "serial": "1234567890",
                "symbology": "]C1",
            },
        ),
        (  # the same as printed below a barcode
            "(01)09521234543213(17)100101(10)123ABC(21)1234567890",
            P
            | {
                "date_mark": use_by("2010-01-01"),
                "lot": "123ABC",
                "serial": "1234567890",
            },
        ),
        (  # bwipp wiki, DataBar Expanded: (01)95012345678903(3103)000123
            "]e001950123456789033103000123",
            {
                "gtin": "95012345678903",
                "quantity": {"value": "0.123", "unit": "kg"},
                "symbology": "]e0",
            },
        ),
    ],
)
def test_a_worked_scan_says_exactly_this(text, expected):
    assert said(text) == expected


@pytest.mark.parametrize(
    ("text", "code"),
    [
        ("]d2010952123454321317270229", "no_such_date"),  # computed: 2027 is no leap year
        ("]d2010952123454321017270331", "wrong_check_digit"),  # syntax dictionary, `csum`
    ],
)
def test_a_worked_scan_is_refused(text, code):
    with pytest.raises(Refusal) as refused:
        read_code(text, TODAY)
    assert refused.value.code == code


@pytest.mark.parametrize(
    ("element", "value", "unit"),
    [  # computed: the fourth digit of the identifier counts the decimals
        ("3103001250", "1.250", "kg"),
        ("3102001250", "12.50", "kg"),
        ("3100000012", "12", "kg"),
        ("3105001250", "0.01250", "kg"),
        ("3202000275", "2.75", "lb"),
        ("3153000750", "0.750", "l"),
    ],
)
def test_a_net_measure_is_exact(element, value, unit):
    assert said("]d20109521234543213" + element)["quantity"] == {"value": value, "unit": unit}


@pytest.mark.parametrize(
    ("element", "minor", "currency", "decimals"),
    [  # computed; GS1 General Specifications, 3.6 for the decimals, ISO 4217 for the currencies
        ("39221995", 1995, None, 2),
        ("392020", 20, None, 0),
        ("39329781234", 1234, "EUR", 2),
        ("393082620", 2000, "GBP", 2),
        ("3930392150", 150, "JPY", 0),
        ("39338262125", 212, "GBP", 2),  # 2.125 is as near to 2.12 as to 2.13: the even one
        ("39338262135", 214, "GBP", 2),
    ],
)
def test_a_price_has_the_decimals_it_says(element, minor, currency, decimals):
    read = said("]d201095212345432133103001000" + element)
    assert read["price"] == {"minor": minor, "currency": currency}
    assert read["price_decimals"] == decimals


SYNTAX_ENGINE_VALID = [
    "991234",
    "0112345678901231",
    "0112345678901231<GS>",
    "0112345678901231991234",
    "0112345678901231<GS>991234",
    "2421",
    "24212",
    "242123",
    "2421234",
    "24212345",
    "242123456",
    "242123456<GS>10ABC123",
    "242123456<GS>",
    "81111234",
    "81111234<GS>10ABC123",
    "800112341234512398",
    "800112341234512398<GS>0112345678901231",
    "7007211225211231",
    "7007211225",
    "800302112345678900ABC",
    "800302112345678900",
    "800302112345678900<GS>10ABC123",
    "800302112345678900ABCDEFGHIJKLMNOP",
    "7230121234567890123456789012345678",
    "7230123",
]

SYNTAX_ENGINE_INVALID = [
    "891234",
    "99~ABC",
    "99ABC~",
    "01A2345678901231",
    "011234567890123A",
    "0112345678901234",
    "011234567890123",
    "01123456789012312",
    "011234567890123<GS>",
    "01123456789012345<GS>",
    "01123456789012345<GS>991234",
    "2421234567",
    "8111123",
    "811112345",
    "80011234123451239",
    "8001123412345123981",
    "80011234123451239<GS>0112345678901231",
    "8001123412345123981<GS>01123456789012312",
    "70072112252",
    "700721122521",
    "7007211225211",
    "70072112252112",
    "700721122521123",
    "70072112252212311",
    "800302112345678901ABC",
    "800302112345678900ABCDEFGHIJKLMNOPQ",
    "72301212345678901234567890123456789",
    "723012",
]


@pytest.mark.parametrize("text", SYNTAX_ENGINE_VALID)
@pytest.mark.parametrize("front", ["]C1", "]e0", "]d2", "]Q3", "]J1", "<GS>"])
def test_what_the_syntax_engine_reads_is_read(front, text):
    assert read_code(front + text, TODAY).elements


@pytest.mark.parametrize("text", SYNTAX_ENGINE_INVALID)
def test_what_the_syntax_engine_refuses_is_refused(text):
    with pytest.raises(Refusal):
        read_code("]d2" + text, TODAY)


@pytest.mark.parametrize(
    ("bracketed", "plain"),
    [  # syntax engine, ai.c, test_ai_parseAIdata
        ("(01)12345678901231", "0112345678901231"),
        ("(10)12345", "1012345"),
        ("(01)12345678901231(10)12345", "01123456789012311012345"),
        ("(3100)123456(10)12345", "31001234561012345"),
        ("(10)12345(11)991225", "1012345<GS>11991225"),
        (r"(10)12345\(11)991225", "1012345(11)991225"),
        (r"(10)12345\(", "1012345("),
    ],
)
def test_a_bracketed_text_says_the_same_as_the_plain_one(bracketed, plain):
    assert read_code(bracketed, TODAY).elements == read_code("]d2" + plain, TODAY).elements


@pytest.mark.parametrize(
    "text",
    [  # syntax engine, ai.c, test_ai_parseAIdata
        *("(10)(11)98765", "(10)12345(11)", "(1A)12345", "1(12345", "()12345", "(1)12345"),
        *("(12345)12345", "(15", "(1", "(", "(01)123456789012312(10)12345", "(10)12345^"),
        "(17)9(90)217",
    ],
)
def test_a_bracketed_text_that_the_syntax_engine_refuses_is_refused(text):
    with pytest.raises(Refusal):
        read_code(text, TODAY)


@pytest.mark.parametrize(
    "text",
    [  # syntax engine, ai.c, test_ai_linters, for the checks that are applied here
        *("(00)A23456789012345675", "(00)123456789012345670", "(10) ", "(8010)123456_"),
        *("(8030)ABC:123", "(8003)112345678901281234567890123456", "(3910)9870"),
        *("(8008)20122515300", "(4326)201300", "(4326)201200", "(4324)2012252400"),
        *("(4324)2012252360", "(8008)201225230060", "(4330)000000X"),
        *("(01)95012345678902(3103)000123", "(01)95012345678903(11)131313"),
    ],
)
def test_data_that_the_syntax_engine_refuses_is_refused(text):
    with pytest.raises(Refusal):
        read_code(text, TODAY)
