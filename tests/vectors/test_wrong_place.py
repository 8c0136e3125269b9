"""What stands in the wrong place: the cases of `wrong_place.json`, which the client runs too."""

import json
from pathlib import Path

import pytest

from pantry.rules.stock import AreaKind, State
from pantry.rules.wrong_place import wrong_place

CASES = json.loads((Path(__file__).parent / "wrong_place.json").read_text("utf-8"))


@pytest.mark.parametrize("case", CASES, ids=lambda case: case["name"])
def test_what_is_wrong_with_a_place(case):
    home = case["home"] and AreaKind(case["home"])
    known = {name: case[name] for name in ("was_thawed", "high_risk")}
    found = wrong_place(AreaKind(case["place"]), State(case["state"]), home=home, **known)
    assert found == case["wrong"]
