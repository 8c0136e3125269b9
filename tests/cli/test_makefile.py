"""`make`: its targets explain themselves, and a Python that is too old is said so plainly."""

import os
import shutil
import subprocess
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
MAKE = shutil.which("make")
pytestmark = pytest.mark.skipif(MAKE is None, reason="needs make")


def make(*words, folder=ROOT, **environment):
    return subprocess.run(
        [MAKE, *words],
        cwd=folder,
        env=os.environ | environment,
        capture_output=True,
        encoding="utf-8",
        check=False,
    )


def test_every_target_says_what_it_does():
    said = make("help").stdout
    for target in ("help", "demo", "test", "lint", "bench", "soak", "guide", "clean"):
        assert f"make {target}" in said
    assert make().stdout == said


def test_a_python_that_is_too_old_is_said_so(tmp_path):
    shutil.copy(ROOT / "Makefile", tmp_path)
    for name in ("pyproject.toml", "uv.lock"):
        (tmp_path / name).touch()
    for name in ("python3", "python3.11", "python3.12", "python3.13", "python3.14"):
        old = tmp_path / "bin" / name
        old.parent.mkdir(exist_ok=True)
        old.write_text('#!/bin/sh\n[ "$1" = --version ] && echo Python 3.9.2 && exit\nexit 1\n')
        old.chmod(0o755)
    result = make("test", folder=tmp_path, PATH=f"{tmp_path}/bin:{os.environ['PATH']}")
    assert result.returncode != 0
    assert "needs Python 3.11 or newer, and found: Python 3.9.2" in result.stderr
    assert not (tmp_path / ".tools").exists()
