"""Which class of food an item is counted as: how close that is held is in the policy.

Salt, spices and herbs that nobody measures are in no class: they are plenty, low or out.
"""

MEAT_AND_FISH, DAIRY, HIGH_RISK, DRY = "meat_and_fish", "dairy", "high_risk", "dry"

_GROUPS = {
    MEAT_AND_FISH: (
        "fish, game, live shellfish, meat, meat preparation, mince, minced meat, offal, poultry, "
        "red meat, seafood, shellfish"
    ),
    DAIRY: "butter, cheese, cream, dairy, eggs, milk, yoghurt",
}
"""The groups of a house by class, as houses call them; common practice, no source."""

_CLASS_OF = {group: of for of, groups in _GROUPS.items() for group in groups.split(", ")}


def count_class(group: str, *, high_risk: bool) -> str:
    """The class of an item of this group; of a group nobody knows, by whether it is high-risk."""
    known = _CLASS_OF.get(" ".join(group.casefold().replace("_", " ").split()))
    return known or (HIGH_RISK if high_risk else DRY)
