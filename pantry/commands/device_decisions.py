"""What is decided of devices: which may hand in commands of their own."""

from pantry.commands.decision import Decision


class EnrolDevice(Decision, frozen=True, kw_only=True):
    """A device may hand in commands of its own outbox."""

    device: str
    name: str


class RevokeDevice(Decision, frozen=True, kw_only=True):
    """A device may hand in its outbox, and nothing else."""

    device: str
