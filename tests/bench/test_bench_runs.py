"""The bench runs, its twin writes the very rows that the door does, and its page has every table.

How long anything takes is not looked at: that is for `make bench`, on a quiet machine.
"""

import json
import shutil
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).parent
PAGE = HERE.parents[1] / "pantry" / "guide" / "figures.md"


def test_the_bench_runs_and_its_twin_writes_the_same_rows(tmp_path: Path) -> None:
    page = tmp_path / "figures.md"
    shutil.copyfile(PAGE, page)
    done = subprocess.run(
        [sys.executable, HERE / "run.py", "--quick", "--results", tmp_path, "--page", page],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout + done.stderr
    (results,) = tmp_path.glob("*.json")
    found = json.loads(results.read_text(encoding="utf-8"))
    assert [each for each in found["failures"] if "differ by" not in each] == []
    assert {ratio["name"] for ratio in found["ratios"]} == {
        "a late change",
        "a morning's facts",
        "menus chosen",
        "plan",
        "project",
        "start-up",
    }
    assert all(ratio["ours"]["seconds_each"] > 0 for ratio in found["ratios"])
    assert all(ratio["twin"]["seconds_each"] > 0 for ratio in found["ratios"])
    assert set(found["machine"]) >= {"cpu", "cores", "memory_gib", "file_system", "seed"}
    names = {"python", "sqlite", "sqlalchemy", "sqlmodel", "scipy", "chooseby"}
    assert set(found["versions"]) == names
    assert [len(of_kind["houses"]) for of_kind in found["order_costs"]] == [4, 4]
    assert all(of_kind["worst"] >= 1 - 1e-6 for of_kind in found["order_costs"])
    assert found["versions"]["sqlite"] in page.read_text(encoding="utf-8")
