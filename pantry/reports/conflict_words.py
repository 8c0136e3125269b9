"""Who cannot eat a dish, in one sentence wherever paper or a terminal says it (AL3)."""

from collections.abc import Callable

from pantry.reports.report import Row

SOMEBODY = "somebody at the table"
NOTHING_SAFE = "no dish of the house is known to be safe for them: ask the chef"


def conflict_said(
    conflict: Row, dish: str, moment: Callable[[str], str], *, where: str = ""
) -> str:
    """What is said of a conflict: not for whom, why, what is safe for them, what was agreed.

    `For Ottilie: not Walnut salad, it contains nuts (Walnuts); safe: Green salad.`

    Args:
        conflict: as a report tells it.
        dish: what the dish is called, with its variant.
        moment: how an instant is written.
        where: of a dish that is on no menu, at which table and from when.
    """
    how = conflict["certainty"].replace("_", " ")
    through = f" ({', in it '.join(conflict['through'])})" if conflict["through"] else ""
    said = f"not {dish}, it {how} {conflict['cannot_eat']}{through}"
    at_table = f" ({where})" if where else ""
    parts = [f"For {conflict['person'] or SOMEBODY}{at_table}: {said}"]
    agreed = conflict["agreed"]
    if agreed:
        parts.append(f"{agreed['by']} agreed, {moment(agreed['at'])}: {agreed['answer']}")
    if conflict["safe"] or not agreed:
        parts.append(_safe(conflict, on_menu=not where))
    asked = " Not settled: a question about it is open." if conflict["asked"] else ""
    return f"{'; '.join(parts)}.{asked}"


def _safe(conflict: Row, *, on_menu: bool) -> str:
    safe = conflict["safe"]
    if safe is None:
        return NOTHING_SAFE
    beside = "" if safe["on_menu"] or not on_menu else ", which is not on this menu"
    return f"safe: {called(safe)}{beside}"


def called(dish: Row) -> str:
    """A dish with its variant."""
    return f"{dish['name']}, {dish['variant']}" if dish["variant"] else str(dish["name"])


def table_said(conflict: Row, day: Callable[[str], str]) -> str:
    """At which table somebody sits who cannot eat a dish, and from which day."""
    return (
        f"{conflict['table']}, from {day(conflict['first'])}"
        if conflict["first"]
        else str(conflict["table"])
    )
