"""The cases of codes.json, which the client runs too: scan, today, what it says or why not.

`expected` holds every key that is not null and not empty, `elements` apart; `refused` is the code.
"""

import json
from datetime import date
from pathlib import Path

import pytest

from pantry.refusals import Refusal
from pantry.rules.codes import read_code

CASES = json.loads(Path(__file__).with_name("codes.json").read_text(encoding="utf-8"))["cases"]


@pytest.mark.parametrize("case", CASES, ids=[case["name"] for case in CASES])
def test_a_scan_says_what_the_client_and_the_house_agree_on(case):
    today = date.fromisoformat(case["today"])
    if "refused" in case:
        with pytest.raises(Refusal) as refused:
            read_code(case["scan"], today)
        assert refused.value.code == case["refused"]
        return
    answer = read_code(case["scan"], today).as_json()
    del answer["elements"]
    said = {key: value for key, value in answer.items() if value not in (None, [])}
    assert said == case["expected"]


def test_every_case_has_its_own_name_and_says_one_thing():
    assert len({case["name"] for case in CASES}) == len(CASES)
    assert all(("expected" in case) != ("refused" in case) for case in CASES)
