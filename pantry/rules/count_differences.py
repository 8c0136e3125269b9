"""How far a count may be from the books before a person is asked (LG3)."""

TOLERANCE_PERCENT = 5
HIGH_RISK_TOLERANCE_PERCENT = 3
"""Meat and fish are counted more closely than dry goods; common practice, no source."""


def within_tolerance(stood: int, found: int, *, high_risk: bool) -> bool:
    """Whether a difference is small enough that the books just follow the shelf.

    Args:
        stood: what the books had, in thousandths of the item's base unit.
        found: what was counted, likewise.
        high_risk: the policy calls the food high-risk.
    """
    percent = HIGH_RISK_TOLERANCE_PERCENT if high_risk else TOLERANCE_PERCENT
    return abs(found - stood) * 100 <= stood * percent
