"""The only place that reads the clock, makes ids, draws random numbers, and tunes the process.

Everything else takes an instant, an id or a secret as an argument, so that a test, a simulation or
a demo decides what time it is.
"""

import gc
import os
import secrets
import time
import uuid
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import UTC, datetime


def now() -> datetime:
    """The present instant in UTC, to the microsecond; `CHOOSEBY_NOW` fixes it outside production.

    Raises:
        ValueError: `CHOOSEBY_NOW` is set in production, or is no RFC 3339 instant with an offset.
    """
    fixed = os.environ.get("CHOOSEBY_NOW")
    if not fixed:
        return datetime.now(UTC)
    if os.environ.get("CHOOSEBY_ENV") == "production":
        raise ValueError("CHOOSEBY_NOW is refused while CHOOSEBY_ENV is production; unset it")
    instant = datetime.fromisoformat(fixed)
    if instant.tzinfo is None:
        raise ValueError(f"CHOOSEBY_NOW needs an offset, as in 2027-03-10T07:00:00Z: {fixed}")
    return instant.astimezone(UTC)


def new_id() -> str:
    """A new UUIDv7 (RFC 9562, section 5.7): sortable by the millisecond it was made in."""
    milliseconds = time.time_ns() // 1_000_000
    tail = int.from_bytes(secrets.token_bytes(10), "big")
    value = (milliseconds << 80) | tail
    value = (value & ~(0xF << 76)) | (0x7 << 76)
    value = (value & ~(0x3 << 62)) | (0x2 << 62)
    return str(uuid.UUID(int=value))


def new_secret() -> str:
    """A secret of 256 random bits, safe in a URL and a header."""
    return secrets.token_urlsafe(32)


_CODE_LETTERS = "ABCDEFGHJKMNPQRSTUVWXYZ23456789"
"""Without those that are read for one another: I and 1, L, O and 0."""


def new_code() -> str:
    """A code to be read out and typed once, of some 59 random bits: `K7QF-9M2X-4TWB`."""
    groups = ("".join(secrets.choice(_CODE_LETTERS) for _ in range(4)) for _ in range(3))
    return "-".join(groups)


def collect_seldom() -> None:
    """Have Python look for garbage in cycles less often.

    A plan makes some hundred thousand small things that live as long as it does and hold no cycles;
    looking through them again and again took a seventh of its time.
    """
    gc.set_threshold(50_000, 20, 50)


@contextmanager
def without_collecting() -> Iterator[None]:
    """Have Python look for no garbage in cycles meanwhile, in this process.

    For a second's work that keeps what it makes until it is done. Where two threads ask for it at
    once, it may end with the first of them; it always ends. What is there then is looked through
    with all that is old, and not at once: that alone took a twentieth of a plan.
    """
    was_collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if was_collecting:
            gc.freeze()
            gc.unfreeze()
            gc.enable()
