"""On what, with what and when it was measured."""

import os
import platform
import sqlite3
import subprocess
from datetime import UTC, datetime
from importlib.metadata import version
from pathlib import Path
from statistics import median
from time import perf_counter

_OURS = Path(__file__).resolve().parents[2]
_FSYNCS = 200


def machine(folder: Path) -> dict[str, str | int | float | None]:
    """The machine, and the file system that the databases of the bench stand on."""
    device, kind = _file_system(folder)
    return {
        "cpu": _cpu(),
        "cores": os.cpu_count(),
        "memory_gib": round(os.sysconf("SC_PAGE_SIZE") * os.sysconf("SC_PHYS_PAGES") / 2**30, 1),
        "system": platform.platform(),
        "file_system": f"{kind} on {device}",
        "fsync_of_4_kib_microseconds": round(_fsync(folder) * 1e6),
        "load_before": round(os.getloadavg()[0], 2),
    }


def versions() -> dict[str, str]:
    """What ran."""
    return {
        "python": platform.python_version(),
        "sqlite": sqlite3.sqlite_version,
        "sqlalchemy": version("sqlalchemy"),
        "sqlmodel": version("sqlmodel"),
        "scipy": version("scipy"),
        "chooseby": f"{version('chooseby')}{_commit()}",
    }


def today() -> str:
    """The present instant, RFC 3339 in UTC, whole seconds."""
    return datetime.now(UTC).replace(microsecond=0).isoformat().replace("+00:00", "Z")


def _cpu() -> str:
    try:
        lines = Path("/proc/cpuinfo").read_text(encoding="utf-8").splitlines()
    except OSError:
        return platform.processor() or platform.machine()
    names = (line.partition(":")[2].strip() for line in lines if line.startswith("model name"))
    return next(names, platform.machine())


def _file_system(folder: Path) -> tuple[str, str]:
    """Device and kind of the mount that the folder stands on."""
    try:
        lines = Path("/proc/mounts").read_text(encoding="utf-8").splitlines()
    except OSError:
        return "unknown", "unknown"
    mounts = [line.split()[:3] for line in lines]
    over = [(at, dev, kind) for dev, at, kind in mounts if folder.resolve().is_relative_to(at)]
    _, device, kind = max(over, key=lambda mount: len(mount[0]))
    return device, kind


def _fsync(folder: Path) -> float:
    """Seconds, in the middle, until 4 KiB more of a file are said to be on the disk."""
    file = folder / "fsync"
    seconds = []
    with file.open("wb", buffering=0) as out:
        for _ in range(_FSYNCS):
            begun = perf_counter()
            out.write(b"x" * 4096)
            os.fsync(out.fileno())
            seconds.append(perf_counter() - begun)
    file.unlink()
    return median(seconds)


def _commit() -> str:
    """The commit, and whether something else than it was measured; nothing where git is not."""
    try:
        commit = _git("rev-parse", "--short", "HEAD")
        changed = _git("status", "--porcelain", "--", "pantry", "tests/bench")
    except (OSError, subprocess.CalledProcessError):
        return ""
    return f" at {commit}{', with changes' if changed else ''}"


def _git(*arguments: str) -> str:
    done = subprocess.run(
        ["git", "-C", str(_OURS), *arguments], capture_output=True, text=True, check=True
    )
    return done.stdout.strip()
