"""`chooseby serve` as people start it: where it is, how one gets in, and how it stops."""

import json
import os
import re
import signal
import socket
import subprocess
import sys
import threading
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import httpx
import pytest

from pantry import world
from tests.cli.conftest import VARIABLES

PATIENCE = 60
PASSWORD = "four words in a row"


class Program:
    """The server in a process of its own, and what it says."""

    def __init__(self, data, **environment):
        inherited = {name: value for name, value in os.environ.items() if name not in VARIABLES}
        self.process = subprocess.Popen(
            [Path(sys.executable).with_name("chooseby"), "serve"],
            env=inherited | {"CHOOSEBY_DATA": str(data), "CHOOSEBY_PORT": "0"} | environment,
            stdout=subprocess.PIPE,
            stderr=subprocess.STDOUT,
            encoding="utf-8",
        )
        first = self.process.stdout.readline()
        self.url = re.fullmatch(r"Chooseby is at (http://127\.0\.0\.1:\d+)\n", first)[1]
        self.client = httpx.Client(base_url=self.url, trust_env=False, timeout=PATIENCE)

    def stop(self, how=signal.SIGTERM):
        """Tell it to stop, and answer its exit code and what it has said since it began."""
        self.process.send_signal(how)
        said, _ = self.process.communicate(timeout=PATIENCE)
        return self.process.returncode, said

    def close(self):
        self.client.close()
        if self.process.poll() is None:
            self.process.kill()
            self.process.communicate()


@pytest.fixture
def start():
    """Ways to start the server."""
    started = []

    def begin(data, **environment):
        started.append(Program(data, **environment))
        return started[-1]

    yield begin
    for each in started:
        each.close()


def first_manager(program, secret, **more):
    body = {"secret": secret, "name": "Isla Munro", "password": PASSWORD} | more
    return program.client.post("/api/first-manager", json=body)


@pytest.mark.parametrize("how", [signal.SIGINT, signal.SIGTERM])
def test_it_says_where_it_is_and_the_secret_once_and_stops_quietly(start, tmp_path, how):
    program = start(tmp_path)
    assert program.client.get("/api/health").status_code == 200
    said = [program.process.stdout.readline() for _ in range(2)]
    assert said[0].startswith("Nobody can sign in yet.")
    house = {"name": "Corrie House", "time_zone": "Europe/London"}
    house |= {"currency": "GBP", "unit_system": "metric"}
    answer = first_manager(program, said[1].strip(), house=house)
    assert answer.json()["house"]["name"] == "Corrie House"
    assert program.stop(how) == (0, "Stopped; everything that was answered is on the disk.\n")
    again = start(tmp_path)
    assert again.client.get("/api/front").json()["needs"] == "sign_in"
    assert again.stop() == (0, "Stopped; everything that was answered is on the disk.\n")


def test_a_secret_of_ones_own_is_not_printed(start, tmp_path):
    program = start(tmp_path, CHOOSEBY_FIRST_MANAGER="said by the caller")
    assert first_manager(program, "another").status_code == 401
    assert first_manager(program, "said by the caller").json()["code"] == "house_to_found"
    assert program.stop() == (0, "Stopped; everything that was answered is on the disk.\n")


def test_an_address_that_is_taken_or_none_is_said_in_plain_words(lodge):
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        said = lodge.run("serve", code=1, CHOOSEBY_PORT=str(port)).output
    assert f"127.0.0.1 port {port} cannot be listened on" in said
    assert "[address_unusable]" in said
    said = lodge.run("serve", code=1, CHOOSEBY_HOST="no.such.host.").output
    assert "[address_unusable]" in said
    for wrong in ("x", "65536", "-1", "8e3"):
        said = lodge.run("serve", code=1, CHOOSEBY_PORT=wrong).output
        assert "[port_unreadable]" in said


def test_a_demo_houses_clock_is_the_servers_for_it(start, tmp_path):
    """And not for its sessions: they end by the clock of the machine."""
    data = tmp_path / "demo"
    environment = {"CHOOSEBY_DATA": str(data)}
    inherited = {name: value for name, value in os.environ.items() if name not in VARIABLES}
    chooseby = Path(sys.executable).with_name("chooseby")
    told = subprocess.run(
        [chooseby, "demo", "--json"],
        env=inherited | environment,
        check=True,
        capture_output=True,
        encoding="utf-8",
    )
    program = start(data)
    morning = json.loads(told.stdout)["as_of"][:13]
    assert program.client.get("/api/front").json()["now"].startswith(morning)


def test_SY2_what_was_answered_before_it_was_stopped_is_on_the_books(start, lodge):
    """Eight people write while it is told to stop: no answer is lost, and no command half done."""
    secret = "said by the caller"
    program = start(lodge.data, CHOOSEBY_FIRST_MANAGER=secret, CHOOSEBY_NOW="2027-03-08T07:00:00Z")
    first_manager(program, secret)
    signed = {"name": "Isla Munro", "password": PASSWORD, "keep": "token"}
    token = program.client.post("/api/sign-in", json=signed).json()["token"]
    enough = threading.Semaphore(0)

    def write(_number):
        answered = []
        headers = {"authorization": f"Bearer {token}"}
        with httpx.Client(base_url=program.url, headers=headers, timeout=PATIENCE) as client:
            while True:
                given = [
                    {
                        "id": world.new_id(),
                        "kind": "set_level",
                        "at": "2027-03-08T07:00:00Z",
                        "body": {"item": "Salt", "level": "low"},
                    }
                    for _ in range(3)
                ]
                try:
                    answers = client.post("/api/commands", json=given)
                except httpx.TransportError:
                    return answered
                answered += answers.json()
                enough.release()

    with ThreadPoolExecutor(8) as pool:
        writing = [pool.submit(write, number) for number in range(8)]
        for _ in range(40):
            enough.acquire(timeout=PATIENCE)
        code, said = program.stop()
        answered = [answer for each in writing for answer in each.result()]
    assert code == 0
    assert said.endswith("Stopped; everything that was answered is on the disk.\n")
    assert len(answered) >= 120
    assert "Traceback" not in said
    lines = "".join(
        json.dumps(
            {
                "id": answer["id"],
                "kind": "set_level",
                "at": "2027-03-08T07:00:00Z",
                "body": {"item": "Salt", "level": "low"},
                "person": "isla-munro",
            }
        )
        + "\n"
        for answer in answered
    )
    again = lodge.process("apply", "-", given=lines)
    assert [json.loads(line) for line in again.stdout.splitlines()] == answered
    assert lodge.process("verify").returncode == 0
