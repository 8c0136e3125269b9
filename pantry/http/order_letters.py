"""An order that the house sends by e-mail itself; it is written down as sent once it has gone."""

import hashlib
from datetime import datetime
from functools import partial
from typing import Any

import anyio.to_thread
import msgspec
from litestar import post
from sqlalchemy import Connection

from pantry.access.sessions import Signed
from pantry.commands.answers import Answer
from pantry.commands.order_decisions import SendOrder
from pantry.commands.rights import commands_of
from pantry.http.bodies import read
from pantry.http.commands import give
from pantry.http.problems import UnreadableRequest
from pantry.http.served import Asking, served
from pantry.mail.letters import Attached, Letter
from pantry.paper.order import order_pdf
from pantry.records.rows import find, one
from pantry.records.tables import JournalRow, PersonRow
from pantry.refusals import NotNow, declare
from pantry.reports.order_text import day
from pantry.reports.orders import one_order
from pantry.reports.report import Row
from pantry.reports.view import view
from pantry.rules.house_time import read_instant
from pantry.rules.mail_addresses import address

NO_MAIL_SERVER = declare("no_mail_server", "The house has no mail server.")
NOT_SEND_ORDER = declare("not_send_order", "The command does not send an order by e-mail.")

_KIND = "send_order"


@post("/api/orders/letter", status_code=200)
async def send(request: Asking) -> Answer:
    """Hand an order to the mail server, then give the command that says so.

    The letter goes first, so that no order is written down as sent that was not taken. Where the
    program ends in between, whoever tries again sends the same letter by the same name, and a mail
    program shows it once. What the door would not take it answers itself, and nothing is sent.
    """
    of, who = served(request), request.user
    given = await read(request, dict[str, Any])
    body = _body(given)
    if of.mail is None:
        raise NotNow(
            NO_MAIL_SERVER,
            "The house has no mail server that could take the order.",
            "Send it another way and write that down, or set CHOOSEBY_SMTP_HOST.",
        )
    asked = partial(_letter, now=of.now(), who=who, given=given, body=body)
    letter = await of.read(asked)
    if letter is not None:
        await anyio.to_thread.run_sync(of.mail.hand_over, letter, of.clock())
    work = partial(give, of=of, who=who, given=[given])
    (answer,) = await of.write(who.house, work)
    of.news.ring()
    return answer


def _body(given: dict[str, Any]) -> SendOrder:
    """What the command says.

    Raises:
        UnreadableRequest: `not_send_order`.
    """
    try:
        body = msgspec.convert(given.get("body"), SendOrder)
    except msgspec.ValidationError as error:
        raise _not_send_order(str(error)) from error
    if given.get("kind") != _KIND or body.how != "email":
        raise _not_send_order(f"It is {given.get('kind')!r}, sent by {body.how}.")
    return body


def _not_send_order(said: str) -> UnreadableRequest:
    return UnreadableRequest(
        NOT_SEND_ORDER,
        f"That is no {_KIND} by e-mail: {said}",
        "Give a send_order whose `how` is `email`.",
        field="body",
    )


def _letter(
    connection: Connection, now: datetime, who: Signed, given: dict[str, Any], body: SendOrder
) -> Letter | None:
    """The letter of the order as it stands; None where the door will not take the command."""
    seen = view(connection, who.house, now)
    row = one_order(seen, body.order)
    if not _is_taken(connection, who, given, row):
        return None
    sender = one(connection, PersonRow, house=who.house, id=who.person)
    named = f"order|{who.house}|{seen.row.epoch}|{row['order']}|{row['version']}"
    delivery = read_instant(row["delivery"]).astimezone(seen.zone)
    paper = Attached("order.pdf", "application/pdf", order_pdf(seen, row))
    return Letter(
        hashlib.sha256(named.encode()).hexdigest()[:40],
        address(body.to_whom),
        f"Order of {seen.house.name} for {day(delivery)}",
        row["text"],
        (paper,),
        sender.email or "",
    )


def _is_taken(connection: Connection, who: Signed, given: dict[str, Any], row: Row) -> bool:
    """Whether the door would take it, as far as can be seen before: of whom, of what, once."""
    is_known = find(connection, JournalRow, house=who.house, id=str(given.get("id"))) is not None
    is_theirs = given.get("person") in (None, who.name, who.person)
    is_now = given.get("base") in (None, row["version"])
    may = _KIND in commands_of(who.role)
    is_open = row["state"] == "open" and not any(each["stands"] for each in row["sent"])
    return may and is_theirs and is_now and is_open and not is_known
