"""Reorder points and review levels against an independent library, stockpyl 1.0.2 (PL6).

Snyder and Shen, Fundamentals of Supply Chain Theory, 2nd edition, equations 4.30 and 5.21, as that
library has them: the best base-stock level under linear costs is the review level at the service
level stockout / (stockout + holding).
"""

import json
import os
import shutil
import subprocess
from math import exp
from pathlib import Path
from statistics import NormalDist

import pytest

from pantry.rules.demand import reorder_point, review_level

HERE = Path(__file__).parent
PYTHON = "3.11"
"""What stockpyl 1.0.2 and its pinned companions are known to run on."""

EXAMPLES = [
    {"holding": 0.18, "stockout": 0.70, "rate": 50, "deviation": 8, "whole_lead": 4, "lead": 5},
    {
        "holding": 0.225,
        "stockout": 7.5,
        "rate": 1300,
        "deviation": 150,
        "whole_lead": 0,
        "lead": 1 / 12,
    },
]


def drawn_cases(count):
    """Random costs, demands and lead times over several orders of magnitude, the same each run."""
    draws = iter(NormalDist().samples(6 * count, seed=20270313))
    for _ in range(count):
        yield {
            "holding": exp(next(draws)),
            "stockout": exp(1 + next(draws)),
            "rate": exp(4 + 2 * next(draws)),
            "deviation": exp(2 + 2 * next(draws)),
            "whole_lead": round(exp(1 + next(draws))),
            "lead": exp(next(draws)),
        }


def uv():
    """The program that makes the library's own environment; without it the check has failed."""
    local = HERE.parents[1] / ".tools" / "bin" / "uv"
    found = os.environ.get("UV") or shutil.which("uv") or (str(local) if local.exists() else None)
    if found is None:
        pytest.fail("uv is needed to run stockpyl; install it, put it on PATH or name it in UV")
    return found


@pytest.fixture(scope="module")
def answered():
    """Every case with what stockpyl answers to it."""
    cases = [*EXAMPLES, *drawn_cases(500)]
    command = [uv(), "run", "--quiet", "--no-project", "--isolated", "--python", PYTHON]
    run = subprocess.run(
        [*command, "--with", "stockpyl==1.0.2", "python", HERE / "stockpyl_runner.py"],
        input=json.dumps(cases),
        capture_output=True,
        text=True,
        check=False,
        timeout=600,
        cwd=HERE,
    )
    assert run.returncode == 0, run.stderr
    return list(zip(cases, json.loads(run.stdout), strict=True))


def service_level(case):
    return case["stockout"] / (case["stockout"] + case["holding"])


def test_PL6_stockpyl_gives_the_numbers_of_its_own_documentation(answered):
    """Examples 4.3 (lead time 4) and 5.5 of Snyder and Shen, as stockpyl's documentation has them.

    Without this the comparison below could be of two things that are equally wrong.
    """
    assert answered[0][1]["order_up_to"] == pytest.approx(264.76689437415484, rel=1e-12)
    assert answered[1][1]["reorder_point"] == pytest.approx(190.3369965715624, rel=1e-12)


def test_PL6_the_review_level_is_stockpyls_base_stock_level(answered):
    for case, answer in answered:
        level = review_level(
            case["rate"], case["deviation"], 1, case["whole_lead"], service_level(case)
        )
        assert level == pytest.approx(answer["order_up_to"], rel=1e-9, abs=1e-9), case


def test_PL6_the_reorder_point_is_stockpyls(answered):
    for case, answer in answered:
        point = reorder_point(case["rate"], case["deviation"], case["lead"], service_level(case))
        assert point == pytest.approx(answer["reorder_point"], rel=1e-9, abs=1e-9), case
