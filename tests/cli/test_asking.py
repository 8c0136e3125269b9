"""Questions that need no database: none is made, and each is answered in words and as JSON."""

import pytest


def test_MS2_measure_answers_a_quantity(empty):
    # a US cup is 236.5882365 ml (NIST Handbook 44, appendix C); 0.53 g per ml is given
    words = ("measure", "1 1/2 cups", "--system", "us", "--to", "g", "--density", "0.53")
    assert empty.json(*words) == {"value": "188.088", "unit": "g"}
    assert empty.words(*words) == "1 1/2 cups = 188.088 g\n"


def test_MS3_measure_with_a_piece_weight(empty):
    answer = empty.json("measure", "12", "--to", "g", "--piece-weight", "50")
    assert answer == {"value": "600", "unit": "g"}


def test_MS3_measure_refuses_by_name_what_it_does_not_know(empty):
    result = empty.run("measure", "1 cup", "--system", "us", "--to", "g", code=1)
    assert "density" in result.stderr
    assert "[density_missing]" in result.stderr
    assert result.stdout == ""


def test_a_refusal_is_data_for_who_asked_for_data(empty):
    problem = empty.json("measure", "1 cup", "--system", "us", "--to", "g", code=1)["problem"]
    assert set(problem) == {"code", "detail", "todo", "value", "field"}
    assert problem["code"] == "density_missing"


@pytest.mark.parametrize(
    "words",
    [
        ("measure",),
        ("measure", "1 kg", "--system", "roman"),
        ("measure", "1 cup", "--density", "heavy"),
        ("measure", "1 cup", "--density", "-1"),
        ("measure", "1 cup", "--piece-weight", "1e3"),
        ("read-code",),
        ("read-code", "4006381333931", "--today", "10 March"),
        ("usable-until",),
        ("usable-until", "--zone", "Europe/London", "--date", "2027-02-30"),
        ("usable-until", "--zone", "Europe/London", "--date", "20270320"),
        ("usable-until", "--zone", "Europe/London", "--opened-life-days", "three"),
        ("usable-until", "--zone", "Europe/London", "--thawed", "2027-03-10"),
        ("usable-until", "--zone", "Europe/London", "--date-kind", "sell_by"),
        ("brew", "tea"),
    ],
)
def test_wrong_usage_ends_with_2_and_a_sentence(empty, words):
    result = empty.run(*words, code=2)
    assert "Usage: " in result.stderr
    assert result.stdout == ""


KEYS = {
    "gtin",
    "lot",
    "date_mark",
    "quantity",
    "count",
    "serial",
    "variant",
    "sscc",
    "content_gtin",
    "harvested",
    "price",
    "symbology",
    "warnings",
}


def test_read_code_answers_every_key_and_null_for_what_is_not_there(empty):
    # GS1 General Specifications, 7.12: the days of AI 17 are read in the century nearest to today
    code = "]C1010952123454321317270331" + "10LOT42A<GS>3103001250"
    answer = empty.json("read-code", code, "--today", "2027-03-10")
    assert answer.keys() >= KEYS
    assert answer["gtin"] == "09521234543213"
    assert answer["lot"] == "LOT42A"
    assert answer["date_mark"] == {"kind": "use_by", "date": "2027-03-31"}
    assert answer["quantity"] == {"value": "1.250", "unit": "kg"}
    assert answer["symbology"] == "]C1"
    assert answer["warnings"] == []
    absent = KEYS - {"gtin", "lot", "date_mark", "quantity", "symbology", "warnings"}
    assert {answer[key] for key in absent} == {None}


def test_read_code_in_words_says_what_is_there(empty):
    said = empty.words("read-code", "0109521234543213" + "17270331", "--today", "2027-03-10")
    assert "gtin: 09521234543213\n" in said
    assert "date mark: use by 2027-03-31\n" in said
    assert "serial" not in said


def test_the_separator_may_be_the_character(empty):
    written = empty.json("read-code", "]C110LOT42A<GS>17270331")
    sent = empty.json("read-code", "]C110LOT42A\x1d17270331")
    assert sent == written
    assert sent["lot"] == "LOT42A"


def test_read_code_refuses_what_is_no_code(empty):
    assert "[not_a_code]" in empty.run("read-code", "two words", code=1).stderr


USABLE = ("usable-until", "--zone", "Europe/London")


def test_SL3_an_opened_life_ends_before_the_date_mark(empty):
    words = (*USABLE, "--date-kind", "use_by", "--date", "2027-03-20")
    opened = ("--opened", "2027-03-08", "--opened-life-days", "3")
    assert empty.json(*words, *opened) == {
        "usable_until": "2027-03-10T23:59:59Z",
        "good_until": None,
    }
    said = empty.words(*words, *opened)
    assert "usable until: Wed 10 Mar 23:59" in said
    assert "good until: no limit is known" in said
    assert "licensed practice come first" in said


def test_SL1_a_date_ends_in_the_house_s_zone(empty):
    words = ("--date-kind", "best_before", "--date", "2027-07-01")
    answer = empty.json("usable-until", "--zone", "America/New_York", *words)
    assert answer == {"usable_until": None, "good_until": "2027-07-02T03:59:59Z"}


def test_SL3_thawing_takes_an_instant_and_hours(empty):
    frozen = ("--date-kind", "use_by", "--date", "2027-03-20", "--frozen", "2027-03-18")
    thawed = ("--thawed", "2027-04-01T08:00:00+01:00", "--thawed-life-hours", "24")
    answer = empty.json(*USABLE, *frozen, *thawed)
    assert answer["usable_until"] == "2027-04-02T07:00:00Z"


def test_SL4_what_was_made_counts_its_day(empty):
    answer = empty.json(*USABLE, "--made", "2027-03-08", "--life-days", "4")
    assert answer["usable_until"] == "2027-03-11T23:59:59Z"


@pytest.mark.parametrize(
    ("words", "code"),
    [
        (("--opened", "2027-03-08"), "half_said"),
        (("--date-kind", "use_by"), "half_said"),
        (
            ("--date-kind", "use_by", "--date", "2027-03-05", "--frozen", "2027-03-06"),
            "frozen_too_late",
        ),
    ],
)
def test_what_cannot_be_answered_is_refused(empty, words, code):
    assert f"[{code}]" in empty.run(*USABLE, *words, code=1).stderr


def test_no_question_makes_a_folder(empty):
    empty.run("measure", "1 kg")
    empty.run("read-code", "4006381333931")
    empty.run(*USABLE)
    assert not empty.data.exists()
