"""Whether a probe thermometer still shows what it should: in ice and water, in boiling water (SL5).

Temperatures are tenths of a degree Celsius. Water boils cooler in a house that lies high up; it
sets its own boiling point in place of the policy's.
"""

from pantry.handbook.policies import Policy


def is_right(policy: Policy, ice: int | None, boiling: int | None) -> bool:
    """Whether what a probe showed is near enough to what it should show.

    Raises:
        NotThere: `policy_number_unknown`.
    """
    shown = {"ice": ice, "boiling": boiling}
    return all(
        abs(temperature - policy.number(f"probe.{water}.at").amount)
        <= policy.number(f"probe.{water}.within").amount
        for water, temperature in shown.items()
        if temperature is not None
    )
