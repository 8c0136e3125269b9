"""A letter as it is written: to whom, about what, with what beside it (RFC 5322, RFC 2045)."""

from dataclasses import dataclass
from datetime import datetime
from email.message import EmailMessage
from email.policy import SMTP
from email.utils import format_datetime

from pantry.rules.mail_addresses import address

DOMAIN = "chooseby.invalid"
"""Ends what letters are known by where the house has no domain of its own (RFC 2606)."""


@dataclass(frozen=True, slots=True)
class Attached:
    """A file that goes with a letter, under a name; `media` as `application/pdf`."""

    name: str
    media: str
    content: bytes


@dataclass(frozen=True, slots=True)
class Letter:
    """One letter to one reader.

    Attributes:
        id: what it is known by: the same letter that is handed over twice has the same one, so
            that a mail program shows it once. Letters, figures, `-` and `.`.
        to: an address, `name@domain`.
        subject: one line.
        text: plain text.
        attached: files beside it.
        reply_to: the address that answers go to; empty: to whom sends it.
    """

    id: str
    to: str
    subject: str
    text: str
    attached: tuple[Attached, ...] = ()
    reply_to: str = ""


def message(letter: Letter, sender: str, sent_at: datetime) -> EmailMessage:
    """The letter as it goes over the wire.

    Raises:
        UnreadableInput: `address_unreadable`.
    """
    made = EmailMessage(policy=SMTP)
    made["Message-ID"] = f"<{letter.id}@{DOMAIN}>"
    made["Date"] = format_datetime(sent_at)
    made["From"] = address(sender)
    made["To"] = address(letter.to)
    made["Subject"] = " ".join(letter.subject.split())
    if letter.reply_to:
        made["Reply-To"] = address(letter.reply_to)
    # no out-of-office answers to a letter that a program wrote (RFC 3834)
    made["Auto-Submitted"] = "auto-generated"
    made.set_content(letter.text)
    for file in letter.attached:
        main, _, sub = file.media.partition("/")
        made.add_attachment(file.content, maintype=main, subtype=sub, filename=file.name)
    return made
