"""Sends the letters that wait, one after the other, each by whoever has taken it up."""

import logging
from functools import partial

import anyio.to_thread

from pantry.http.served import Served
from pantry.mail.letters import Letter
from pantry.mail.mail_server import MailServer, NotSent
from pantry.mail.trying_again import next_try
from pantry.records import letters
from pantry.records.tables import LetterRow
from pantry.refusals import UnreadableInput

_log = logging.getLogger(__name__)


async def send_waiting(of: Served, server: MailServer, house: str) -> None:
    """Send every letter of a house that is due."""
    while await of.read(partial(letters.waiting, house=house, now=of.clock())):
        row = await of.write(house, partial(letters.take_up, house=house, now=of.clock()))
        if row is None:  # another process was faster
            return
        await _send(of, server, row)


async def _send(of: Served, server: MailServer, row: LetterRow) -> None:
    letter = Letter(row.id, row.address, row.subject, row.text)
    again = False
    try:
        await anyio.to_thread.run_sync(server.hand_over, letter, of.clock())
    except NotSent as error:
        again, said = error.again, error.problem
    except UnreadableInput as error:
        said = error.problem
    else:
        await of.write(row.house, partial(letters.note_sent, row=row, now=of.clock()))
        return
    at = next_try(row.written_at, row.tries, of.clock(), again=again)
    _log.warning("a letter to %s was not sent: %s", row.person, said)
    noting = partial(letters.note_not_sent, row=row, next_try_at=at, said=said)
    await of.write(row.house, noting)
