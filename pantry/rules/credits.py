"""What a supplier owes for an order line that did not come whole."""

from fractions import Fraction


def credit_due(cost: int, ordered: int, received: int) -> int:
    """What is to be credited of a line, in minor units: its cost less that of what came, half-even.

    Args:
        cost: of the whole line, in minor units.
        ordered: in thousandths of the base unit; nothing for what nobody counts.
        received: in the same; what nobody counts came whole or not at all.
    """
    if not ordered:
        return cost
    return cost - round(Fraction(cost * min(received, ordered), ordered))
