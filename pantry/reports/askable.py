"""How a report is asked: what it takes, and the shape of what it answers."""

from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from pantry.reports.report import Row, report
from pantry.reports.view import View


@dataclass(frozen=True, slots=True)
class Asked:
    """One report.

    Attributes:
        rows: of a view and the arguments that were given, by name.
        answers: the shape of all that is answered, rows and what stands around them.
        takes: the arguments it may be given; a range: a whole number in it; None: text.
        needs: those of them without which it cannot be asked.
        beside: what is answered beside the rows.
        follows: the same, where it follows from the rows.
    """

    rows: Callable[..., Iterable[Row]]
    answers: Any
    takes: Mapping[str, range | None] = field(default_factory=dict)
    needs: frozenset[str] = frozenset()
    beside: Mapping[str, Callable[[View], object]] = field(default_factory=dict)
    follows: Mapping[str, Callable[[Iterable[Row]], object]] = field(default_factory=dict)

    def whole(self, view: View, rows: Iterable[Row]) -> dict[str, Any]:
        """These rows with all that is answered beside them."""
        told = list(rows)
        beside = {called: of_house(view) for called, of_house in self.beside.items()}
        beside |= {called: of_rows(told) for called, of_rows in self.follows.items()}
        return report(view, told, **beside)
