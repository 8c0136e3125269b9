"""MS1 to MS3: the cases of quantities that every implementation of the rules runs."""

import json
from fractions import Fraction
from pathlib import Path
from typing import Any

import pytest

from pantry.refusals import Refusal
from pantry.rules.measure import Amount, UnitSystem, convert, read_packs, show
from pantry.rules.stock import BaseUnit

VECTORS = json.loads(
    (Path(__file__).parents[1] / "vectors" / "quantities.json").read_text(encoding="utf-8")
)


@pytest.mark.parametrize("case", VECTORS["convert"], ids=lambda case: case["text"])
def test_MS2_what_people_write_comes_to_what_the_vectors_say(case: dict[str, Any]) -> None:
    facts = {fact: Fraction(case[fact]) for fact in ("density", "piece_weight") if fact in case}
    try:
        answer = convert(
            case["text"],
            system=UnitSystem(case["system"]),
            to=case.get("to"),
            decimal_mark=case.get("decimal_mark"),
            **facts,
        )
    except Refusal as refused:
        assert refused.code == case.get("refused")  # noqa: PT017 - a case names one of the two
    else:
        assert answer == case.get("answer")


@pytest.mark.parametrize("case", VECTORS["packs"], ids=lambda case: case["text"])
def test_MS2_packs_come_to_what_the_vectors_say(case: dict[str, Any]) -> None:
    packed = read_packs(case["text"], UnitSystem(case["system"]))
    for amount, expected in ((packed.total, case["total"]), (packed.inner, case["inner"])):
        assert amount == Amount(Fraction(expected["value"]), expected["unit"])


@pytest.mark.parametrize("case", VECTORS["show"], ids=lambda case: case["text"])
def test_MS1_quantities_are_shown_as_the_vectors_say(case: dict[str, Any]) -> None:
    assert show(case["thousandths"], BaseUnit(case["unit"])) == case["text"]
