"""What every decision has: the version it was taken on (SY3)."""

from pantry.commands.parts import Part

Base = int | str | None
"""The version a decision was taken on, or the id of one's own earlier command."""


class Decision(Part, frozen=True):
    """What a person decided."""

    base: Base = None
