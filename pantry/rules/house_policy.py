"""What the house sets otherwise in its policy: stricter as it likes, looser by name (SL5)."""

from dataclasses import dataclass, replace
from types import MappingProxyType

from pantry.handbook.policies import Known, Number, Policy, Stricter, Unit
from pantry.refusals import UnsafeFood, declare
from pantry.rules.temperature import write_temperature

LOOSER_THAN_POLICY = declare(
    "looser_than_policy", "A number looser than the policy's needs a person and a reason."
)


@dataclass(frozen=True, slots=True)
class Override:
    """Who lets the house be looser than its policy, and why; both are shown with the number."""

    person: str
    reason: str


def is_looser(number: Number, amount: int) -> bool:
    """Whether this amount is less safe than the number of the policy."""
    if number.stricter is Stricter.HIGHER:
        return amount < number.amount
    return number.stricter is Stricter.LOWER and amount > number.amount


def with_house_number(
    policy: Policy, key: str, amount: int, override: Override | None = None
) -> Policy:
    """The policy with one number as the house sets it, in the number's own unit.

    Raises:
        NotThere: `policy_number_unknown`.
        UnsafeFood: `looser_than_policy`, where no override names the person and the reason.
    """
    number = policy.number(key)
    named = override is not None and override.person.strip() and override.reason.strip()
    if is_looser(number, amount) and not named:
        raise UnsafeFood(
            LOOSER_THAN_POLICY,
            f"{_written(number, amount)} is looser than {number.written} ({number.source}).",
            "Keep the policy's number, or have a person take it on by name, with the reason.",
            value=str(amount),
        )
    ours = replace(
        number,
        amount=amount,
        written=_written(number, amount),
        source=f"this house, in place of {number.written} ({number.source})",
        edition=f"{override.person}: {override.reason}" if override else "set by the house",
        known=Known.HOUSE,
    )
    return replace(policy, numbers=MappingProxyType({**policy.numbers, key: ours}))


def _written(number: Number, amount: int) -> str:
    if number.unit is Unit.TEMPERATURE:
        return write_temperature(amount)
    return f"{amount} {number.unit}"
