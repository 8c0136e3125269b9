"""SL1-SL4: the cases of `dates.json`, which the client in the browser runs too."""

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest

from pantry.refusals import Refusal
from pantry.rules.date_marks import read_date_mark
from pantry.rules.house_time import read_instant, write_instant, zone
from pantry.rules.shelf_life import flagged_at, of_mark, usable_at
from pantry.rules.stock import DateKind, DateMark
from pantry.rules.usable_until import answer

CASES = json.loads((Path(__file__).parent / "dates.json").read_text("utf-8"))

READ = {
    "date_kind": DateKind,
    "date": date.fromisoformat,
    "opened": date.fromisoformat,
    "frozen": date.fromisoformat,
    "made": date.fromisoformat,
    "thawed": read_instant,
}


def asked(case: dict[str, Any]) -> dict[str, Any]:
    known = {key: value for key, value in case["ask"].items() if key != "zone"}
    return {key: READ.get(key, int)(value) for key, value in known.items()}


def mark_of(case: dict[str, Any]) -> DateMark:
    day = case["date"]
    return DateMark(DateKind(case["kind"]), day and date.fromisoformat(day))


@pytest.mark.parametrize("case", CASES["answers"], ids=lambda case: case["name"])
def test_SL3_until_when_it_may_be_used(case):
    if "refused" in case:
        with pytest.raises(Refusal) as refused:
            answer(case["ask"]["zone"], **asked(case))
        assert refused.value.code == case["refused"]
        return
    life = answer(case["ask"]["zone"], **asked(case))
    for name in ("usable_until", "good_until"):
        instant = getattr(life, name)
        assert (instant and write_instant(instant)) == case[name]


@pytest.mark.parametrize("case", CASES["marks"], ids=lambda case: f"{case['kind']} {case['text']}")
def test_SL1_what_a_date_mark_means(case):
    kind, read_on = DateKind(case["kind"]), date.fromisoformat(case["read_on"])
    if "refused" in case:
        with pytest.raises(Refusal) as refused:
            read_date_mark(case["text"], kind, read_on=read_on)
        assert refused.value.code == case["refused"]
        return
    assert read_date_mark(case["text"], kind, read_on=read_on) == mark_of(case)


@pytest.mark.parametrize("case", CASES["states"], ids=lambda case: f"{case['kind']} {case['at']}")
def test_SL2_usable_flagged_or_blocked(case):
    life, at = of_mark(mark_of(case), zone(case["zone"])), read_instant(case["at"])
    state = "flagged" if flagged_at(life, at) else "usable" if usable_at(life, at) else "blocked"
    assert state == case["state"]
