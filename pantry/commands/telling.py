"""What of a report a role is told, as data: no costs at the table, no names at the back door."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import Any

_PORTER = frozenset({"porter"})

HIDDEN: dict[str, dict[str, frozenset[str]]] = {
    "count-differences": {"value": _PORTER},
    "recipes": {"cost": frozenset({"approver"})},
    "stock": {"value": _PORTER},
}
"""By report, the columns that a role is not told: no costs and no prices at the back door, nor at
the table."""

OWN_ONLY: dict[str, tuple[str, frozenset[str]]] = {
    "morning": ("owner", _PORTER),
    "questions": ("owner", _PORTER),
}
"""By report, the column that names a role, and who is told only the rows of their own; a row that
names none is everybody's."""

UNTOLD: dict[str, tuple[tuple[str, str, frozenset[str]], ...]] = {
    "changes": (
        ("what", "away", _PORTER),
        ("what", "constraint", _PORTER),
        ("what", "stay", _PORTER),
        ("key", "allergen|", _PORTER | {"approver"}),
    ),
}
"""By report, a column, how its value begins, and the roles that are not told such a row: the key of
a constraint, and of a question about what somebody cannot eat, names a person (SY10)."""


NAMELESS: dict[str, frozenset[str]] = {"preparations": _PORTER}
"""By report, the roles that are told what somebody at a table cannot eat, but not whose that is."""


@dataclass(frozen=True, slots=True)
class Diners:
    """The table that somebody answers for, and those of it of whom it is known what they eat."""

    table: str
    people: frozenset[str]


def as_told(
    role: str, report: str, rows: Iterable[Mapping[str, Any]], diners: Diners | None = None
) -> list[dict[str, Any]]:
    """The rows of a report as a role is told them, without what it is not to see.

    Args:
        role: the role.
        report: its name.
        rows: its rows.
        diners: of whose constraints they are told; None: of everybody's.
    """
    hidden = {column for column, roles in HIDDEN.get(report, {}).items() if role in roles}
    told = [
        {name: value for name, value in row.items() if name not in hidden}
        for row in rows
        if _is_told(role, report, row)
    ]
    if diners is not None:
        told = [_of_table(row, diners) for row in told if not _is_of_another(row, diners)]
    return [_nameless(row) for row in told] if role in NAMELESS.get(report, ()) else told


def _of_table(told: Any, diners: Diners) -> Any:  # noqa: ANN401 - as above
    """The same without what others than these cannot eat, however deep it stands."""
    if isinstance(told, Mapping):
        return {name: _of_table(value, diners) for name, value in told.items()}
    if isinstance(told, list):
        return [_of_table(each, diners) for each in told if not _names_another(each, diners)]
    return told


def _names_another(told: Any, diners: Diners) -> bool:  # noqa: ANN401 - as above
    """Whether a part says what somebody else cannot eat; a flag says it as `contains:nuts:NAME`."""
    if isinstance(told, Mapping):
        return "cannot_eat" in told and told["person"] not in diners.people
    is_flag = isinstance(told, str) and told.startswith(("contains:", "may_contain:"))
    return is_flag and told.split(":", 2)[2] not in diners.people


def _is_of_another(row: Mapping[str, Any], diners: Diners) -> bool:
    """Whether a change is of a constraint of another table: its key begins with the table."""
    return row.get("what") == "constraint" and not row["key"].startswith(f"{diners.table}|")


def _nameless(told: Any) -> Any:  # noqa: ANN401 - data as deep as the report made it
    """The same without the names of those who cannot eat something, however deep they stand."""
    if isinstance(told, Mapping):
        inner = {name: _nameless(value) for name, value in told.items()}
        return inner | {"person": None} if "cannot_eat" in inner else inner
    return [_nameless(each) for each in told] if isinstance(told, list) else told


def _is_told(role: str, report: str, row: Mapping[str, Any]) -> bool:
    if report in OWN_ONLY:
        column, only_own = OWN_ONLY[report]
        if role in only_own and row.get(column) not in (None, role):
            return False
    return not any(
        role in untold and row[column].startswith(begins)
        for column, begins, untold in UNTOLD.get(report, ())
    )
