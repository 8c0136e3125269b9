"""The first manager: whoever knows the secret of the server that nobody can sign in to yet.

The secret is set in the environment, or made when the server begins and printed once. It is used up
with the first password: from then on a manager lets people in.
"""

import hmac

from sqlalchemy import Connection

from pantry.access import passwords
from pantry.access.refused import NotKnown
from pantry.records.books import hold_every_house
from pantry.refusals import NotNow, declare

SECRET_WRONG = declare("secret_wrong", "The secret for the first sign-in is another one.")
FIRST_MANAGER_THERE = declare("first_manager_there", "Somebody can sign in here already.")


def refuse_unless_wanted(connection: Connection) -> None:
    """Refuse where somebody has a password already; whoever else asks waits for this one.

    Raises:
        NotNow: `first_manager_there`.
    """
    hold_every_house(connection)
    if passwords.anybody_has_one(connection):
        raise NotNow(
            FIRST_MANAGER_THERE,
            "Somebody can sign in here already, and the secret is used up.",
            "Sign in, or ask a manager for a way in.",
        )


def refuse_wrong_secret(given: str, secret: str) -> None:
    """Refuse any secret but the server's.

    Raises:
        NotKnown: `secret_wrong`.
    """
    if not secret or not hmac.compare_digest(given.encode(), secret.encode()):
        raise NotKnown(
            SECRET_WRONG,
            "That is not the secret of this server.",
            "It stands where the server was started, or in CHOOSEBY_FIRST_MANAGER.",
            field="secret",
        )
