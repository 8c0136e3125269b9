"""The lives a house works with: its policy, with the numbers it set otherwise."""

from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from pantry.handbook.policies import Policy, policy
from pantry.records.rows import every
from pantry.records.slugs import slug
from pantry.records.tables import BatchRow, HouseRow, PolicyOverrideRow
from pantry.rules.house_lives import HouseLives
from pantry.rules.house_policy import Override, with_house_number
from pantry.rules.house_time import read_span
from pantry.rules.shelf_life import Life
from pantry.rules.stock import State


def house_policy(connection: Connection, house: HouseRow) -> Policy:
    """The food-safety policy of the house, its own numbers in place of those it set otherwise."""
    found = policy(house.policy)
    for row in every(connection, PolicyOverrideRow, house=house.id):
        found = with_house_number(found, row.name, row.value, Override(row.person, row.reason))
    return found


def food_of(rules: Policy, group: str) -> str | None:
    """The food by whose limits an item of a group is received; None where the policy has none."""
    name = slug(group).replace("-", "_")
    return name if name in rules.names("receiving") else None


def house_lives(connection: Connection, house: HouseRow) -> HouseLives:
    """The lives that policy gives, in the house's zone."""
    return HouseLives(house_policy(connection, house), ZoneInfo(house.zone))


def life_of(row: BatchRow) -> Life:
    """The two answers of a batch, with what is kept of them in the freezer."""
    return Life(
        usable_until=row.usable_until,
        good_until=row.good_until,
        frozen=row.state == State.FROZEN,
        left=None if row.left is None else read_span(row.left),
    )
