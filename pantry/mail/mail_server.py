"""Handing a letter to the house's mail server, over SMTP (RFC 5321, RFC 3207, RFC 4954).

    server = MailServer.of(environment)       # None: the house sends no mail
    server.hand_over(letter, sent_at)         # in a thread: it waits for the network

`hand_over` returns once the server has taken the letter, and raises `NotSent` where it has not.
`NotSent.again` says whether the same letter may go later: the network, a full mailbox, a server
that is busy; a wrong password or an address that nobody has does not mend itself. A letter that was
taken may still not have been heard to be: whoever tries again sends the same `Letter.id`, and a
reader may see it twice. Whoever must not forget a letter keeps it first, and notes when it went.

The password is read from the environment alone, and is in no database, log or refusal.
"""

import smtplib
import ssl
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass, field
from datetime import datetime
from typing import Self

from pantry.mail.letters import Letter, message
from pantry.refusals import NotNow, UnreadableInput, declare
from pantry.rules.mail_addresses import address

MAIL_NOT_TAKEN = declare("mail_not_taken", "The mail server did not take the letter.")
MAIL_SETTINGS = declare("mail_settings", "A setting of CHOOSEBY_SMTP_* cannot be used.")

PATIENCE = 20.0
"""Seconds without a word after which a mail server is given up for now."""

PORTS = {"starttls": 587, "tls": 465, "none": 25}
"""By how the connection is encrypted: RFC 6409 and RFC 8314 for letters that are handed in."""

_HERE = ("localhost", "127.0.0.1", "::1")
_GOES_AGAIN = range(400, 500)


@dataclass(eq=False)
class NotSent(NotNow):
    """The letter was not taken; `again`: the same one may be tried later."""

    again: bool = True

    status = 503


@dataclass(frozen=True, slots=True)
class MailServer:
    """Where the house hands in its letters.

    Attributes:
        encryption: `starttls` (begun in the open, and nothing is said before it is encrypted),
            `tls` (from the first byte), or `none`, on this machine only.
        sender: whose letters they are.
        trust: whose certificates are believed; None: those of the system.
    """

    host: str
    port: int
    sender: str
    encryption: str = "starttls"
    user: str = ""
    password: str = field(default="", repr=False)
    trust: ssl.SSLContext | None = field(default=None, repr=False, compare=False)

    @classmethod
    def of(cls, environment: Mapping[str, str]) -> Self | None:
        """As the environment says it; None where it names no server.

        Raises:
            UnreadableInput: `mail_settings`.
        """
        host = environment.get("CHOOSEBY_SMTP_HOST", "").strip()
        if not host:
            return None
        encryption = environment.get("CHOOSEBY_SMTP_ENCRYPTION") or "starttls"
        if encryption not in PORTS:
            raise _setting("ENCRYPTION", encryption, "Set it to starttls or tls.")
        if encryption == "none" and host not in _HERE:
            raise _setting("ENCRYPTION", encryption, "Only this machine may do without.")
        port = environment.get("CHOOSEBY_SMTP_PORT") or str(PORTS[encryption])
        if not (port.isascii() and port.isdigit() and 0 < int(port[:6]) < 2**16):
            raise _setting("PORT", port, "Set it to a number up to 65535, or unset it.")
        user = environment.get("CHOOSEBY_SMTP_USER", "")
        try:
            sender = address(environment.get("CHOOSEBY_SMTP_SENDER") or user)
        except UnreadableInput as error:
            raise _setting("SENDER", error.value, "Set it to the house's own address.") from error
        password = environment.get("CHOOSEBY_SMTP_PASSWORD", "")
        return cls(host, int(port), sender, encryption, user, password)

    def hand_over(self, letter: Letter, sent_at: datetime) -> None:
        """Hand a letter in, and wait until it is taken.

        Raises:
            NotSent: `mail_not_taken`.
            UnreadableInput: `address_unreadable`.
        """
        made = message(letter, self.sender, sent_at)
        with self._saying_why(letter), self._connected() as server:
            server.send_message(made)

    @contextmanager
    def _connected(self) -> Iterator[smtplib.SMTP]:
        """A connection on which the house is known, where it has a name."""
        trust = self.trust or ssl.create_default_context()
        if self.encryption == "tls":
            server: smtplib.SMTP = smtplib.SMTP_SSL(
                self.host, self.port, timeout=PATIENCE, context=trust
            )
        else:
            server = smtplib.SMTP(self.host, self.port, timeout=PATIENCE)
        with server:
            if self.encryption == "starttls":
                server.starttls(context=trust)
            if self.user:
                server.login(self.user, self.password)
            yield server

    @contextmanager
    def _saying_why(self, letter: Letter) -> Iterator[None]:
        try:
            yield
        except smtplib.SMTPRecipientsRefused as error:
            code, said = next(iter(error.recipients.values()))
            raise self._not_sent(letter, said, again=_may_go_again(code)) from error
        except smtplib.SMTPNotSupportedError as error:
            raise self._not_sent(letter, str(error), again=False) from error
        except smtplib.SMTPResponseException as error:
            again = _may_go_again(error.smtp_code)
            raise self._not_sent(letter, error.smtp_error, again=again) from error
        except ssl.SSLCertVerificationError as error:
            raise self._not_sent(letter, error.verify_message, again=False) from error
        except (smtplib.SMTPException, OSError) as error:
            raise self._not_sent(letter, str(error), again=True) from error

    def _not_sent(self, letter: Letter, said: bytes | str, *, again: bool) -> NotSent:
        words = said.decode("utf-8", "replace") if isinstance(said, bytes) else said
        words = " ".join(words.split())[:200] or "no word"
        return NotSent(
            MAIL_NOT_TAKEN,
            f"{self.host} did not take the letter to {letter.to}: {words}.",
            "It is tried again." if again else "Look at CHOOSEBY_SMTP_* and at the address.",
            value=letter.to,
            again=again,
        )


def _may_go_again(code: int) -> bool:
    """A server says 4yz for now and 5yz for good (RFC 5321, section 4.2.1); -1 is no answer."""
    return code in _GOES_AGAIN or code < 0


def _setting(name: str, value: str, todo: str) -> UnreadableInput:
    variable = f"CHOOSEBY_SMTP_{name}"
    return UnreadableInput(
        MAIL_SETTINGS, f"{variable} is {value!r}, and cannot be used.", todo, value=value
    )
