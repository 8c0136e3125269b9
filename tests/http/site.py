"""The real server over a real socket, in a thread of its own, and how the tests ask it.

httpx sends no Secure cookie over plain HTTP, so the tests write the Cookie header themselves.
"""

import json
import ssl
import threading
from datetime import UTC, datetime
from pathlib import Path

import httpx

from pantry.access import passwords, sessions
from pantry.http.edge import COOKIE
from pantry.http.proxies import Proxies
from pantry.http.served import Served
from pantry.http.server import Server, listening_on
from pantry.records.database import reading, writing
from pantry.records.rows import every, find
from pantry.records.tables import PersonRow
from pantry.records.writer import Writer
from pantry.terminal.settings import THIS_MACHINE
from tests.commands.house import House
from tests.commands.larkfield import APPROVER, CHEF, MANAGER, PORTER

TODAY = datetime(2026, 11, 25, 12, tzinfo=UTC)
"""The server's own clock; the house of the tests lives in March 2027."""

PEOPLE = {"porter": PORTER, "chef": CHEF, "manager": MANAGER, "approver": APPROVER}
SECRET = "the secret of this server"
PASSWORD = "four words in a row"

PLAIN = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
"""Over plain HTTP nobody is verified; else each client would read a list of authorities first."""

SERVICE = "2027-03-11/dinner/family"
ARGUMENTS = {
    "name": "m",
    "service": SERVICE,
    "text": "9501101530003",
    "date": SERVICE.partition("/")[0],
    "meal": "dinner",
    "table": "family",
    "time": "19:30",
    "first": SERVICE.partition("/")[0],
}
"""What a report can be asked that needs an argument; the prefix 950 is GS1's own, for examples."""


class Site:
    """A server of one database, its clocks, and its books."""

    def __init__(
        self,
        engine,
        *,
        secret=SECRET,
        only=None,
        client=Path("no client"),
        proxies=None,
        encrypted=None,
    ):
        self.engine = engine
        self.house = House(engine)
        self.clock = TODAY
        self.writer = Writer(engine)
        self.served = Served(
            engine=engine,
            writer=self.writer,
            now=lambda: self.house.now,
            clock=lambda: self.clock,
            secret=secret,
            only=only,
            client=client,
        )
        self._sockets = listening_on("127.0.0.1", 0)
        self.port = self._sockets[0].getsockname()[1]
        self.url = f"http://127.0.0.1:{self.port}"
        self.server = Server(self.served, proxies or Proxies(THIS_MACHINE), encrypted)
        self._thread = threading.Thread(target=self.server.run, args=(self._sockets,))
        self._thread.start()
        self._clients = []
        self.nobody = self._client()

    def stop(self):
        self.server.should_exit = True
        self._thread.join()

    def close(self):
        for client in self._clients:
            client.close()
        self.stop()
        self.writer.close()

    # Who asks

    def token(self, name):
        """A session of somebody, begun without a password."""
        with writing(self.engine) as connection:
            person = find(connection, PersonRow, name=name)
            return sessions.begin(connection, person, self.clock)

    def as_(self, name):
        """A script of somebody who is signed in."""
        return self._client(authorization=f"Bearer {self.token(name)}")

    def browser(self, name):
        """A browser of somebody who is signed in, on a page of ours."""
        cookie = f"{COOKIE}={self.token(name)}"
        return self._client(cookie=cookie, **{"sec-fetch-site": "same-origin"})

    def _client(self, **headers):
        client = httpx.Client(
            base_url=self.url, headers=headers, trust_env=False, timeout=30, verify=PLAIN
        )
        self._clients.append(client)
        return client

    def gives_password(self, name, password=PASSWORD):
        """Somebody has this password from now on."""
        with writing(self.engine) as connection:
            person = find(connection, PersonRow, name=name)
            known = passwords.hashed(password)
            passwords.keep(connection, person.house, person.id, known, self.clock)

    def signs_in(self, name, password=PASSWORD, **more):
        return self.nobody.post("/api/sign-in", json={"name": name, "password": password} | more)

    # Looking

    def rows(self, model, **equal):
        with reading(self.engine) as connection:
            return every(connection, model, **equal)

    def command(self, kind, body=None, **rest):
        """A command that names nobody."""
        envelope = self.house.command(kind, body, **rest)
        if "person" not in rest:
            del envelope["person"]
        return envelope


def cookie_in(response):
    """The token and the attributes of the cookie that an answer sets."""
    name_and_value, *attributes = response.headers["set-cookie"].split("; ")
    name, _, value = name_and_value.partition("=")
    assert name == COOKIE
    return value, {attribute.casefold() for attribute in attributes}


def events(response):
    """The events of a stream, as they come; comments as None."""
    name = ""
    for line in response.iter_lines():
        if line.startswith(":"):
            yield None
        elif line.startswith("event: "):
            name = line.removeprefix("event: ")
        elif line.startswith("data: "):
            yield name, json.loads(line.removeprefix("data: "))


def code(response):
    """The code of a refusal, which must be a problem."""
    assert response.headers["content-type"] == "application/problem+json", response.text
    said = response.json()
    assert said["status"] == response.status_code
    assert said["type"] == f"urn:chooseby:refusal:{said['code']}"
    assert said["detail"]
    assert said["todo"]
    return response.status_code, said["code"]
