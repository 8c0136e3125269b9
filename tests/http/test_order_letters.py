"""An order that the house sends by e-mail itself: gone first, then written down, and once."""

from email import message_from_bytes, policy

import pytest

from pantry.mail.mail_server import NotSent
from pantry.records.database import writing
from pantry.records.rows import change
from pantry.records.tables import OrderSentRow, PersonRow
from tests.commands.larkfield import ID, MANAGER
from tests.http.site import PEOPLE
from tests.mail.smtp_server import mail_server

ORDER = "hill-dairy/2027-03-09"
DAIRY = "orders@hill-dairy.example"


class Failing:
    """A mail server that takes nothing."""

    def hand_over(self, _letter, _sent_at):
        raise NotSent("mail_not_taken", "the mailbox is full", "later", again=True)


@pytest.fixture
def placed(site):
    lines = [{"item": "Whole milk", "pack": "2 l bottle", "packs": 2}]
    more = {"free": [{"words": "goat curd", "amount": "3 tubs"}]}
    body = {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": lines}
    site.house.do("place_order", body | more)
    with writing(site.engine) as connection:
        key = {"house": ID, "name": MANAGER}
        change(connection, PersonRow, key, email="mara@larkfield.example")
    return site


def letter(site, **more):
    body = {"order": ORDER, "how": "email", "to_whom": DAIRY}
    return site.command("send_order", body, base=1) | more


def sends(site, command, name=MANAGER):
    return site.as_(name).post("/api/orders/letter", json=command)


def test_an_order_goes_with_its_pdf_and_is_written_down_as_sent(placed, tmp_path):
    with mail_server(tmp_path) as (box, server):
        placed.served.mail = server
        answer = sends(placed, letter(placed)).json()
    assert answer["outcome"] == "applied"
    (envelope,) = box.letters
    assert envelope.rcpt_tos == [DAIRY]
    read = message_from_bytes(envelope.original_content, policy=policy.default)
    assert read["Subject"] == "Order of Larkfield Lodge for Tuesday 9 March 2027, 06:45"
    assert read["Reply-To"] == "mara@larkfield.example"
    text = read.get_body(("plain",)).get_content()
    assert "2 x 2 l bottle: Whole milk" in text
    assert "3 tubs: goat curd" in text
    (paper,) = read.iter_attachments()
    assert paper.get_content().startswith(b"%PDF-")
    (sent,) = placed.rows(OrderSentRow)
    assert (sent.how, sent.to_whom, sent.person) == ("email", DAIRY, "mara")


def test_the_same_command_again_and_another_of_the_same_order_send_nothing(placed, tmp_path):
    command = letter(placed)
    with mail_server(tmp_path) as (box, server):
        placed.served.mail = server
        first = sends(placed, command).json()
        assert sends(placed, command).json() == first
        again = sends(placed, letter(placed) | {"base": 2}).json()
        stale = sends(placed, letter(placed)).json()
    assert len(box.letters) == 1
    assert again["problem"]["code"] == "sent_already"
    assert stale["outcome"] == "conflict"


def test_what_no_server_takes_is_not_written_down(placed):
    placed.served.mail = Failing()
    answer = sends(placed, letter(placed))
    assert (answer.status_code, answer.json()["code"]) == (503, "mail_not_taken")
    assert placed.rows(OrderSentRow) == []


@pytest.mark.parametrize(
    ("more", "code"),
    [
        ({"kind": "place_order"}, "not_send_order"),
        ({"body": {"order": ORDER, "how": "telephone", "to_whom": "Ines"}}, "not_send_order"),
        ({"body": {"order": "?", "how": "email", "to_whom": DAIRY}}, "order_not_there"),
        ({"body": {"order": ORDER, "how": "email", "to_whom": "the dairy"}}, "address_unreadable"),
    ],
)
def test_what_is_no_order_by_mail_sends_nothing(placed, more, code):
    placed.served.mail = Failing()
    answer = sends(placed, letter(placed) | more)
    assert answer.json()["code"] == code
    assert placed.rows(OrderSentRow) == []


def test_without_a_mail_server_it_says_so_and_who_may_not_order_sends_nothing(placed, tmp_path):
    assert sends(placed, letter(placed)).json()["code"] == "no_mail_server"
    assert placed.as_(MANAGER).get("/api/me").json()["house"]["sends_mail"] is False
    with mail_server(tmp_path) as (box, server):
        placed.served.mail = server
        answer = sends(placed, letter(placed), PEOPLE["porter"]).json()
    assert answer["problem"]["code"] == "role_lacking"
    assert box.letters == []
