"""The phone's bench runs; how long anything takes is not looked at here."""

import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[3]


def test_the_phones_bench_runs():
    call = [sys.executable, "-m", "tests.bench.phone.run", "--quick"]
    done = subprocess.run(call, cwd=ROOT, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    assert "cold start without the house" in done.stdout
    assert "from the tap to *accepted*, without the house" in done.stdout
    assert "from the video's start to the accept screen" in done.stdout
