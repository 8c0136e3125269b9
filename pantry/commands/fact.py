"""What every fact is: never refused for what the books say (SY3)."""

from pantry.commands.parts import Part


class Fact(Part, frozen=True):
    """What physically happened."""
