"""Rookhope Lodge in a data folder of its own, and how the tests call the command line."""

import json
import os
import shutil
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from pantry.cli import main
from tests.cli.lodge import NOW, write_book

VARIABLES = [name for name in os.environ if name.startswith("CHOOSEBY_")]


class Terminal:
    """Calls `chooseby`, in this process or in one of its own, on one data folder."""

    def __init__(self, data):
        self.data = data
        self.environment = {"CHOOSEBY_DATA": str(data), "CHOOSEBY_NOW": NOW}

    def run(self, *words, given=None, code=0, **environment):
        """The result of a call that must end with this exit code."""
        result = CliRunner().invoke(
            main, [str(word) for word in words], input=given, env=self.environment | environment
        )
        assert result.exit_code == code, result.output + repr(result.exception)
        assert "Traceback" not in result.output
        return result

    def json(self, *words, code=0, **environment):
        """The JSON that a call answers."""
        return json.loads(self.run(*words, "--json", code=code, **environment).stdout)

    def words(self, *words, code=0, **environment):
        """What a call says to people, on standard output."""
        return self.run(*words, code=code, **environment).stdout

    def process(self, *words, given=None, **environment):
        """A call in a process of its own, as people make it."""
        inherited = {name: value for name, value in os.environ.items() if name not in VARIABLES}
        return subprocess.run(
            [Path(sys.executable).with_name("chooseby"), *(str(word) for word in words)],
            input=given,
            env=inherited | self.environment | environment,
            capture_output=True,
            encoding="utf-8",
            check=False,
        )


@pytest.fixture(autouse=True)
def _no_settings_from_outside(monkeypatch):
    for name in VARIABLES:
        monkeypatch.delenv(name)


@pytest.fixture(scope="session")
def book(tmp_path_factory):
    """The folder of Rookhope Lodge's house book."""
    return write_book(tmp_path_factory.mktemp("book"))


@pytest.fixture(scope="session")
def founded(book, tmp_path_factory):
    """A data folder with Rookhope Lodge in it, copied for every test that changes something."""
    data = tmp_path_factory.mktemp("lodge")
    Terminal(data).run("import", book)
    return data


@pytest.fixture
def lodge(founded, tmp_path):
    """Rookhope Lodge, to do with as one likes."""
    shutil.copytree(founded, tmp_path / "lodge")
    return Terminal(tmp_path / "lodge")


@pytest.fixture(scope="session")
def asked(founded):
    """Rookhope Lodge, only to be asked."""
    return Terminal(founded)


@pytest.fixture
def empty(tmp_path):
    """A data folder that nobody has used yet."""
    return Terminal(tmp_path / "empty")
