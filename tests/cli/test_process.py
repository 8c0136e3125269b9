"""The program as people start it: exit codes, standard error, colour, pipes, no traceback ever."""

import json
import os
import pty
import re
import subprocess
import sys
from pathlib import Path

from tests.cli.commands import lines, receive

PROGRAM = Path(sys.executable).with_name("chooseby")


def test_exit_0_and_nothing_on_standard_error(asked):
    done = asked.process("stock", "--json")
    assert (done.returncode, done.stderr) == (0, "")
    assert json.loads(done.stdout)["house"] == "Rookhope Lodge"


def test_exit_1_with_plain_words_on_standard_error_only(asked):
    done = asked.process("trace", "C99")
    assert (done.returncode, done.stdout) == (1, "")
    assert done.stderr.startswith("No batch has the lot, label or id 'C99'.\n")


def test_exit_1_where_a_command_was_not_applied(lodge):
    done = lodge.process("apply", "-", given=lines(receive(), "{", receive("N-2")))
    assert done.returncode == 1
    outcomes = [json.loads(line)["outcome"] for line in done.stdout.splitlines()]
    assert outcomes == ["applied", "refused", "applied"]


def test_exit_2_on_wrong_usage(asked):
    done = asked.process("stock", "--jason")
    assert (done.returncode, done.stdout) == (2, "")
    assert "No such option" in done.stderr


def test_a_fixed_now_is_refused_in_production(asked):
    done = asked.process("stock", CHOOSEBY_ENV="production")
    assert (done.returncode, done.stdout) == (1, "")
    assert "[now_refused]" in done.stderr


def test_help_names_every_command_and_setting(empty):
    said = empty.process("--help").stdout
    for name in (
        "demo",
        "serve",
        "import",
        "apply",
        "stock",
        "use-first",
        "plan",
        "coverage",
        "notice",
        "trace",
        "questions",
        "changes",
        "verify",
        "backup",
        "restore",
        "measure",
        "read-code",
        "usable-until",
    ):
        assert re.search(rf"^  {name} +[A-Z]", said, flags=re.MULTILINE), name
    for name in ("DATA", "DATABASE_URL", "HOUSE", "HOST, _PORT", "NOW"):
        assert f"CHOOSEBY_{name}" in said


def test_what_nobody_expected_is_a_sentence_and_its_traceback_only_in_the_log(lodge):
    (lodge.data / "chooseby.db").write_bytes(b"not a database" * 100)
    done = lodge.process("stock")
    assert (done.returncode, done.stdout) == (1, "")
    assert "Traceback" not in done.stderr
    log = lodge.data / "chooseby.log"
    assert str(log) in done.stderr
    assert "Traceback" in log.read_text(encoding="utf-8")


def test_a_pipe_that_closes_early_is_no_fault(asked):
    program = subprocess.Popen(
        [PROGRAM, "changes", "--json"],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        env=os.environ | asked.environment,
    )
    program.stdout.close()
    assert program.stderr.read() == b""
    program.stderr.close()
    program.wait()


def test_a_terminal_that_knows_few_letters_is_no_fault(lodge):
    lodge.run("apply", "-", given=lines(receive("Crème №1")))
    plain = lodge.process("stock", PYTHONIOENCODING="ascii")
    assert (plain.returncode, plain.stderr) == (0, "")
    assert "Cr?me ?1" in plain.stdout
    assert "=== use by Fri 12 Mar" in plain.stdout
    answer = json.loads(lodge.process("stock", "--json", PYTHONIOENCODING="ascii").stdout)
    assert "Crème №1" in {row["label"] for row in answer["rows"]}


def test_words_that_are_no_text_are_no_fault(asked):
    for more in ([], ["--json"]):
        done = asked.process("trace", "\udcff\udcfe", *more)
        assert done.returncode == 1
        assert "Traceback" not in done.stderr


def seen_on_a_terminal(asked, **environment):
    """What `stock` writes on a terminal of its own."""
    leader, follower = pty.openpty()
    program = subprocess.Popen(
        [PROGRAM, "stock"],
        stdout=follower,
        stderr=follower,
        env=os.environ | asked.environment | {"TERM": "xterm-256color"} | environment,
    )
    os.close(follower)
    seen = b""
    try:
        while part := os.read(leader, 65536):
            seen += part
    except OSError:  # Linux says so when the other end is closed
        pass
    os.close(leader)
    assert program.wait() == 0
    return seen.decode()


COLOUR = re.compile(r"\x1b\[[0-9;]*(3[0-7]|4[0-7]|38|48|9[0-7]|10[0-7])[0-9;]*m")


def test_without_colour_no_colour_is_written(asked):
    assert not COLOUR.search(seen_on_a_terminal(asked, NO_COLOR="1"))


def test_nothing_is_said_by_colour_or_weight_alone(asked):
    on_a_terminal = re.sub(r"\x1b\[[0-9;]*m", "", seen_on_a_terminal(asked, COLUMNS="100"))
    words = asked.process("stock").stdout
    assert on_a_terminal.replace("\r\n", "\n") == words
