"""What may stand on one pack, against the vectors of the GS1 syntax engine.

`syntax engine` is github.com/gs1/gs1-syntax-engine, commit 50657db, Apache License 2.0: its
function `test_ai_validateAIassociations` in ai.c. It refuses what lacks a companion; here that is a
warning, except for AI 02 without 37, because the dictionary judges companions over all codes on a
pack.
"""

from datetime import date

import pytest

from pantry.refusals import Refusal
from pantry.rules.codes import read_code

TODAY = date(2026, 11, 25)


@pytest.mark.parametrize(
    ("text", "code"),
    [  # repeated, and attribute `ex`
        ("(400)ABC(400)AB", "identifier_repeated"),
        ("(400)ABC(99)DEF(400)XYZ", "identifier_repeated"),
        ("(01)12345678901231(02)12345678901231", "identifiers_contradict"),
        ("(01)12345678901231(99)ABC123(02)12345678901231", "identifiers_contradict"),
        ("(01)12345678901231(255)5412345000150", "identifiers_contradict"),
        ("(01)12345678901231(37)123", "identifiers_contradict"),
        ("(21)ABC123(235)XYZ", "identifiers_contradict"),
        ("(3940)1234(8111)9999", "identifiers_contradict"),
        ("(3940)1234(3941)9999", "identifiers_contradict"),
        ("(3955)123456(3929)123", "identifiers_contradict"),
        ("(02)12345678901231", "content_without_count"),
    ],
)
def test_identifiers_that_the_syntax_engine_keeps_apart_are_refused(text, code):
    with pytest.raises(Refusal) as refused:
        read_code(text, TODAY)
    assert refused.value.code == code


@pytest.mark.parametrize("text", ["(400)ABC(400)ABC", "(99)ABC(400)XYZ(400)XYZ"])
def test_the_same_said_twice_is_no_contradiction(text):
    assert read_code(text, TODAY).elements


@pytest.mark.parametrize(
    ("text", "lonely"),
    [  # attribute `req`
        ("(02)12345678901231(37)123", True),
        ("(02)12345678901231(37)123(00)123456789012345675", False),
        ("(91)XXX(02)12345678901231(92)YYY(37)123(93)ZZZ(00)123456789012345675", False),
        ("(21)ABC123", True),
        ("(21)ABC123(01)12345678901231", False),
        ("(21)ABC123(8006)123456789012310510", False),
        ("(01)12345678901231(250)ABC123", True),
        ("(01)12345678901231(21)XYZ999(250)ABC123", False),
        ("(01)12345678901231(3925)12599", True),
        ("(01)12345678901231(3925)12599(30)123", False),
        ("(01)12345678901231(3925)12599(3105)654321", False),
        ("(01)12345678901231(3925)12599(3575)654321", False),
        ("(01)12345678901231(3925)12599(3695)654321", False),
    ],
)
def test_a_missing_companion_is_a_warning(text, lonely):
    assert ("companion_missing" in read_code(text, TODAY).warnings) == lonely
