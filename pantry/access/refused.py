"""What can be refused to somebody who is not known yet."""

from dataclasses import dataclass

from pantry.refusals import NotAllowed, Refusal, declare

SIGN_IN_FAILED = declare("sign_in_failed", "Name and password do not go together.")
NOT_SIGNED_IN = declare("not_signed_in", "Nobody is signed in, or the session has ended.")
TOO_MANY_TRIES = declare("too_many_tries", "It was tried too often; wait before the next try.")


class NotKnown(Refusal):
    """Who asks has not shown who it is."""

    status = 401


@dataclass(eq=False)
class TooManyTries(NotAllowed):
    """Guesses are slowed down; nobody is locked out for good.

    Attributes:
        wait: seconds until the next try is looked at.
    """

    wait: int = 1

    status = 429


def sign_in_failed(name: str) -> NotKnown:
    """The same words whether the name, the house or the password is wrong."""
    return NotKnown(
        SIGN_IN_FAILED,
        "That name and that password do not go together.",
        "Try again, or ask a manager for a way in.",
        value=name,
    )


def not_signed_in() -> NotKnown:
    """Nobody is signed in on this connection."""
    return NotKnown(NOT_SIGNED_IN, "Nobody is signed in.", "Sign in and send it again.")
