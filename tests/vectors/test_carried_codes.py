"""What carries a code: the file that the client runs says what the house says."""

import json

from tests.vectors.carried import FILE, carried


def test_what_carries_a_code_is_what_the_client_finds(tmp_path):
    assert json.loads(FILE.read_text(encoding="utf-8")) == carried(tmp_path)
