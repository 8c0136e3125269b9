"""How far a count may be from the books before a person is asked; what is counted closely (LG3).

Quantities are thousandths of the item's base unit, money is minor units.
"""

from collections.abc import Mapping

from pantry.handbook.count_classes import count_class
from pantry.handbook.policies import Policy


def tolerance(policy: Policy, group: str, *, high_risk: bool) -> int:
    """How many percent of what the books have a count may be off, by the class of the item.

    Args:
        policy: the house's, with its own numbers.
        group: the item's group, as the house calls it.
        high_risk: the policy calls the food high-risk.
    """
    return policy.number(f"counting.{count_class(group, high_risk=high_risk)}.tolerance").amount


def within_tolerance(stood: int, found: int, percent: int) -> bool:
    """Whether a difference is small enough that the books just follow the shelf.

    Args:
        stood: what the books had.
        found: what was counted.
        percent: how much of what the books had it may be off.
    """
    return abs(found - stood) * 100 <= stood * percent


def of_high_value(policy: Policy, worth: Mapping[str, int]) -> frozenset[str]:
    """The few items that make up most of the value of all, the dearest first.

    Args:
        policy: the house's; it says how much *most* is, and how many *few* are.
        worth: what stands of each item, in money.
    """
    left = sum(worth.values()) * policy.number("counting.high_value.share").amount
    few = -(-len(worth) * policy.number("counting.high_value.most").amount // 100)
    found = set()
    for item in sorted(worth, key=lambda each: (-worth[each], each))[:few]:
        if left <= 0 or worth[item] <= 0:
            break
        found.add(item)
        left -= worth[item] * 100
    return frozenset(found)
