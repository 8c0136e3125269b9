"""Builds of the client for tests: the one that was built, and another one made of it."""

import hashlib
import json
import shutil
from pathlib import Path

from pantry.http.client import BUILT


def copied(folder: Path) -> Path:
    """The client as it was built, where a test may change it."""
    return Path(shutil.copytree(BUILT, folder))


def name_of(client: Path) -> str:
    """The name of a build."""
    return _list(client)["name"]


def rename(client: Path, name: str) -> None:
    """Make another build of a client, as a new version on the server is: its first page differs."""
    build = _list(client)
    page = client / "index.html"
    text = page.read_text(encoding="utf-8").replace(build["name"], name)
    page.write_text(text, encoding="utf-8")
    build["files"]["/index.html"] = hashlib.sha256(text.encode()).hexdigest()
    build["name"] = name
    worker = client / "sw.js"
    _, _, code = worker.read_text(encoding="utf-8").partition("\n")
    worker.write_text(f"self.BUILD={json.dumps(build)};\n{code}", encoding="utf-8")


def listed(client: Path) -> dict[str, str]:
    """What the worker of a client says its files are, path by path."""
    return _list(client)["files"]


def _list(client: Path) -> dict:
    first, _, _ = (client / "sw.js").read_text(encoding="utf-8").partition("\n")
    return json.loads(first.removeprefix("self.BUILD=").removesuffix(";"))
