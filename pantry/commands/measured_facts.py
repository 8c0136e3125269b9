"""What was measured or cleaned."""

from typing import Literal

from pantry.commands.fact import Fact
from pantry.commands.parts import Celsius


class CheckProbe(Fact, frozen=True):
    """A probe was held in ice and water, in boiling water, or in both."""

    probe: str
    ice_c: Celsius | None = None
    boiling_c: Celsius | None = None


class Clean(Fact, frozen=True):
    """Something was cleaned."""

    what: str
    area: str | None = None


class Cool(Fact, frozen=True):
    """The temperature of a batch that cools; the first one while it is still hot (SL5)."""

    batch: str
    temperature_c: Celsius


class TakeTemperature(Fact, frozen=True):
    """The temperature of a storage area, and what was done where it was not as it should be."""

    area: str
    temperature_c: Celsius
    done: Literal["door_closed", "look_again", "set_colder", "moved_food", "called"] | None = None
    note: str | None = None
