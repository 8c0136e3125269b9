"""Passwords: argon2id (RFC 9106), checked in as long a time for a name that nobody has.

What is said here of NIST SP 800-63B, revision 3, is from memory.

Hashing takes about a tenth of a second and 64 MiB on purpose; whoever serves many people calls it
in a thread, and only so many at a time.
"""

import unicodedata
from datetime import datetime
from functools import cache

from argon2 import PasswordHasher
from argon2.exceptions import InvalidHashError, VerifyMismatchError
from sqlalchemy import Connection

from pantry.records.rows import add, find, remove
from pantry.records.tables import PasswordRow
from pantry.refusals import UnreadableInput, declare

PASSWORD_SHORT = declare("password_short", "The password is too short.")
PASSWORD_LONG = declare("password_long", "The password is too long.")
PASSWORD_GUESSABLE = declare("password_guessable", "The password is one that is tried first.")

SHORTEST = 10
"""Letters. NIST SP 800-63B, revision 3, section 5.1.1.2, asks for 8 at the least."""

LONGEST = 200
"""Letters; the same section asks that 64 be possible, and a limit keeps hashing short."""

_DIFFERENT = 4
_HASHER = PasswordHasher()


def refuse_weak(password: str, *names: str) -> None:
    """Refuse a password that is short, endless, a repetition, or the name of who or what it opens.

    No letters of certain kinds are asked for: NIST SP 800-63B, section 5.1.1.2.

    Raises:
        UnreadableInput: `password_short`, `password_long`, `password_guessable`.
    """
    if len(password) < SHORTEST:
        raise _weak(
            PASSWORD_SHORT,
            f"A password has {SHORTEST} letters or more, and this has {len(password)}.",
            "Four words that do not belong together are long, and easy to keep in mind.",
        )
    if len(password) > LONGEST:
        raise _weak(
            PASSWORD_LONG,
            f"A password has {LONGEST} letters at most, and this has {len(password)}.",
            "Choose a shorter one.",
        )
    plain = password.casefold()
    if len(set(plain)) < _DIFFERENT or plain in {name.casefold() for name in names}:
        raise _weak(
            PASSWORD_GUESSABLE,
            "That is one of the first that somebody would try.",
            "Choose one that is not a name and not the same letters again and again.",
        )


def _weak(code: str, problem: str, todo: str) -> UnreadableInput:
    return UnreadableInput(code, problem, todo, field="password")


def hashed(password: str) -> str:
    """What a password can be checked against."""
    return _HASHER.hash(_plain(password))


def agrees(known: str | None, password: str) -> bool:
    """Whether a password belongs to a hash; without one, no, after as long a time."""
    try:
        _HASHER.verify(known or _nobodys(), _plain(password[: LONGEST + 1]))
    except (VerifyMismatchError, InvalidHashError):
        return False
    return known is not None


def is_outdated(known: str) -> bool:
    """Whether the hash was made with other costs than are used now."""
    return _HASHER.check_needs_rehash(known)


@cache
def _nobodys() -> str:
    return _HASHER.hash("nobody has this password")


def _plain(password: str) -> bytes:
    """One spelling for letters that can be typed in several ways (NIST SP 800-63B, 5.1.1.2)."""
    return unicodedata.normalize("NFKC", password).encode("utf-8", "surrogatepass")


def kept(connection: Connection, house: str, person: str) -> str | None:
    """The hash of a person's password, if there is one."""
    row = find(connection, PasswordRow, house=house, person=person)
    return row.hash if row else None


def keep(connection: Connection, house: str, person: str, known: str, now: datetime) -> None:
    """Give a person a password, in the place of an earlier one."""
    remove(connection, PasswordRow, house=house, person=person)
    add(connection, PasswordRow(house=house, person=person, hash=known, set_at=now))


def anybody_has_one(connection: Connection) -> bool:
    """Whether anybody of any house can sign in yet."""
    return find(connection, PasswordRow) is not None
