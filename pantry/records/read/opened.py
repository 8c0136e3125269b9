"""A house at one instant, open for reading: what books and views have in common."""

from datetime import datetime
from typing import Protocol
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from pantry.rules.house_lives import HouseLives
from pantry.rules.house_time import Span


class Opened(Protocol):
    """A house as it stands at `now`, by whatever it is read."""

    @property
    def connection(self) -> Connection:
        """What it is read through."""

    @property
    def id(self) -> str:
        """The house's id."""

    @property
    def now(self) -> datetime:
        """The instant."""

    @property
    def zone(self) -> ZoneInfo:
        """The house's zone."""

    @property
    def lives(self) -> HouseLives:
        """The lives that the house's food-safety policy gives."""

    @property
    def receiving_margin(self) -> Span:
        """How long before it is wanted a delivery has to be in the house."""
