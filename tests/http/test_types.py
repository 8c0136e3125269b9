"""The client's types are written from what the server says, and are what is committed."""

import json
from importlib.util import module_from_spec, spec_from_file_location
from pathlib import Path

from pantry.http.openapi import written

WEB = Path(__file__).parents[2] / "web"


def build():
    """The script that the client is built with."""
    spec = spec_from_file_location("build", WEB / "build.py")
    module = module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def test_the_clients_types_are_what_the_code_says():
    """`make types` writes them. One test: both parts use the same folder of Node's packages."""
    script = build()
    committed = script.WRITTEN.read_text(encoding="utf-8")
    assert script.types(written()) == committed, "They differ: run `make types`."
    other = json.loads(written())
    del other["components"]["schemas"]["StockRow"]["properties"]["lot"]
    assert script.types(json.dumps(other).encode()) != committed


def test_the_lock_file_names_no_place_of_the_network():
    """The packages come from whatever registry one's own npm is set to."""
    for folder in (WEB, WEB / "types"):
        lock = json.loads((folder / "package-lock.json").read_text(encoding="utf-8"))
        assert not [name for name, of in lock["packages"].items() if "resolved" in of]
        assert all(of["integrity"] for name, of in lock["packages"].items() if name)
