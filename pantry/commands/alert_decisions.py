"""What is decided of alerts: who sees to one, who is told by letter, and when."""

from typing import Annotated

from msgspec import Meta

from pantry.commands.decision import Decision


class SeeToAlert(Decision, frozen=True, kw_only=True):
    """Whoever gives it sees to an alert, so that nobody else need; it stays open until it is done.

    `alert` is named as the report `alerts` names it.
    """

    alert: str


class SetOwnLetters(Decision, frozen=True, kw_only=True):
    """Whether whoever gives it is told alerts by letter; everybody with an address is at first."""

    wanted: bool


class SetDigest(Decision, frozen=True, kw_only=True):
    """The day's letter goes out at this wall time of the house, `HH:MM`; null: none does."""

    at: Annotated[str, Meta(max_length=5)] | None
