"""Who at a table cannot eat a dish that is on its menu, and what they can eat instead (AL3).

Read the label; local codes and medical advice come first.
"""

from collections.abc import Iterable, Iterator, Sequence

from pantry.reports.agreed import agreed, is_asked
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.rules.allergens import Certainty
from pantry.rules.conflicts import Conflict, SafeDish, conflicts, safe_alternatives
from pantry.rules.menu import Recipe, Service, ServiceState, Serving
from pantry.rules.variants import with_variant


def against(view: View, service: Service, serving: Serving) -> Sequence[Conflict]:
    """Who at the table cannot eat the dish as it is served, the worst first."""
    served = with_variant(view.recipes[serving.dish], serving.variant)
    return conflicts(view.constraints, served, service.table, service.date, view.larder)


def instead(
    view: View, service: Service, serving: Serving, person: str, welcome: Iterable[Recipe]
) -> Sequence[SafeDish]:
    """What a person can eat instead: the dish in a variant, then others, the most welcome first."""
    return safe_alternatives(
        person,
        view.constraints,
        view.recipes[serving.dish],
        welcome,
        table=service.table,
        on=service.date,
        larder=view.larder,
    )


def of_course(view: View, service: Service, serving: Serving) -> list[Recipe]:
    """The dishes of the same course as they are proposed, the dish itself among them, each once."""
    course = (each.dish for each in service.servings if each.course == serving.course)
    return [view.recipes[dish] for dish in dict.fromkeys(course)]


def told(view: View, service: Service, serving: Serving) -> list[Row]:
    """Each person and what they cannot eat in a dish, `safe` their own dish or null.

    A dish of the same course is offered first, then any approved dish of the house. What is not
    known is not told here: it names nobody's dish as safe or unsafe. `agreed` is who agreed to it
    all the same, `asked` that nobody has settled it about that person at that meal yet.
    """
    worst: dict[tuple[str, str], Conflict] = {}
    for each in against(view, service, serving):
        if each.certainty is not Certainty.UNKNOWN:
            worst.setdefault((each.person, each.cannot_eat), each)
    return [
        {
            "person": each.person,
            "cannot_eat": each.cannot_eat,
            "certainty": each.certainty.value,
            "through": [view.larder.names.get(part, part) for part in each.chain[1:]],
            "safe": _safe(view, service, serving, each.person),
            "agreed": agreed(view, service.id, serving, each.person, each.cannot_eat),
            "asked": is_asked(view, service.id, each.person),
        }
        for each in worst.values()
    ]


def _safe(view: View, service: Service, serving: Serving, person: str) -> Row | None:
    """Their own dish; of a menu that is chosen, what stands on it comes before all else."""
    found = instead(view, service, serving, person, _welcome(view, service, serving))
    if not found:
        return None
    course = {
        SafeDish(each.dish, each.variant)
        for each in service.servings
        if each.course == serving.course
    }
    first = found[0]
    if service.state is not ServiceState.PROPOSED:
        first = next((each for each in found if each in course), first)
    return {
        "dish": first.dish,
        "name": view.recipes[first.dish].name,
        "variant": first.variant,
        "on_menu": first in course,
    }


def _welcome(view: View, service: Service, serving: Serving) -> Iterator[Recipe]:
    """The dishes of the same course, then all others."""
    course = {recipe.id: recipe for recipe in of_course(view, service, serving)}
    yield from course.values()
    yield from (recipe for dish, recipe in view.recipes.items() if dish not in course)
