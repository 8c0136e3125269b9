"""The phone's reader reads every kind of label: two sights of each; more is `make bench`."""

import json
import os
import subprocess
import sys
from pathlib import Path

HERE = Path(__file__).parent
ROOT = HERE.parents[2]


def test_every_kind_of_label_is_read_in_good_light_and_our_own_in_dim_light(tmp_path):
    environment = os.environ | {"PYTHONPATH": f"{ROOT}:{ROOT / 'tests' / 'bench'}"}
    call = [sys.executable, HERE / "run.py", "--quick", "--results", tmp_path]
    done = subprocess.run(call, env=environment, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stdout + done.stderr
    (file,) = tmp_path.glob("reader-*.json")
    found = json.loads(file.read_text(encoding="utf-8"))
    assert len(found["readings"]) == 18
    unread = [
        one["kind"]
        for one in found["readings"]
        if not (one["plain"] or one["cleared"] or one["sharpened"])
        and (one["is_own"] or not one["is_dim"])
    ]
    assert unread == []
