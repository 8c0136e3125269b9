"""How a dish's need of an item comes from its recipe, so that a person can work it out (PL7)."""

from collections.abc import Sequence
from fractions import Fraction

from pantry.reports.report import Row, amount
from pantry.reports.view import View
from pantry.rules.fefo import Need
from pantry.rules.menu import Ingredient, Scaling, Service, ServiceState, Serving
from pantry.rules.variants import with_variant


def derivation(view: View, service: Service, serving: Serving, need: Need) -> Row | None:
    """The recipe's lines a need is the sum of; None for a need of something that is made for it.

    The need is `portions / yields x amount / trimming_yield` summed over the lines; of a line that
    does not scale it is `amount / trimming_yield`. The numbers are exact: `6`, `3/4`. Where the
    item is taken `whole`, the sum over the service is rounded up to whole pieces, and its largest
    need takes what that adds (RQ1).
    """
    if need.via:
        return None
    recipe = with_variant(view.recipes[serving.dish], serving.variant)
    lines = [line for line in recipe.ingredients if line.item == need.item]
    return {
        "portions": str(_portions(service, serving)),
        "yields": str(recipe.yields),
        "lines": _lines(view, lines),
        "whole": view.items[need.item].whole,
    }


def _lines(view: View, lines: Sequence[Ingredient]) -> list[Row]:
    return [
        {
            "amount": amount(round(line.amount * 1000), view.items[line.item]),
            "trimming_yield": str(line.trimming_yield),
            "scales": line.scaling is Scaling.PER_PORTION,
        }
        for line in lines
    ]


def _portions(service: Service, serving: Serving) -> Fraction:
    """Portions of this dish and variant: in one course chosen ones are cooked together."""
    is_chosen = service.state is ServiceState.CONFIRMED
    together = [each for each in service.servings if _is_cooked_with(each, serving)]
    same = together if is_chosen else [serving]
    counted = (
        (service.covers if each.portions is None else each.portions) * each.portion_factor
        for each in same
    )
    return sum(counted, Fraction(0))


def _is_cooked_with(one: Serving, other: Serving) -> bool:
    return (one.course, one.dish, one.variant) == (other.course, other.dish, other.variant)
