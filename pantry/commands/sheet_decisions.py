"""What is decided of a menu that is shown to the household, and what they answer."""

from typing import Annotated

from msgspec import Meta

from pantry.commands.decision import Decision
from pantry.commands.parts import Number, Part, Which

Link = Annotated[str, Meta(pattern=r"^[0-9a-f]{64}$")]
"""The SHA-256, in hexadecimal, of what the link ends with: 128 random bits at the very least."""


class SendSheet(Decision, frozen=True, kw_only=True):
    """Proposed services are shown to the household, on paper or by a link.

    `link` left out: on paper only. `to` is the person who chooses; left out: the only approver.
    `until` is when the link ends; left out: with the last of its services.
    """

    services: Annotated[list[Which], Meta(min_length=1, max_length=120)]
    link: Link | None = None
    to: str | None = None
    until: str | None = None


class WithdrawSheet(Decision, frozen=True, kw_only=True):
    """A sheet is no longer shown: its link says so."""

    sheet: str


class AnsweredPart(Part, frozen=True):
    """What the household says of one course.

    One of these at most: a `dish` of the course (in its `variant`), `any` of them, or another dish
    `instead`; `not_these` are struck.
    """

    course: str
    dish: str | None = None
    variant: str | None = None
    any: bool = False
    instead: str | None = None
    not_these: Annotated[tuple[str, ...], Meta(max_length=40)] = ()


class AnswerMenu(Decision, frozen=True, kw_only=True):
    """What the household answers to a proposed service; the last answer stands.

    It confirms nothing: the chef does. `by` is who answered, in their own words.
    """

    service: Which
    sheet: str | None = None
    courses: Annotated[tuple[AnsweredPart, ...], Meta(max_length=40)] = ()
    covers: Number | None = None
    wish: Annotated[str, Meta(max_length=1_000)] = ""
    by: Annotated[str, Meta(max_length=80)] = ""


class SetAnswersFor(Decision, frozen=True, kw_only=True):
    """Somebody who chooses menus answers for one table; without a table, for all."""

    person: str
    table: str | None = None
