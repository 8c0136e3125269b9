"""Why food is lost, and whether it could have been kept from being lost.

*Avoidable*: at some point before it was lost it was food that could have been eaten. *Unavoidable*:
it never was (peel, bones, egg shells). The trade reports the two apart, because only the first can
be done something about; which reason belongs to which is common practice, no source. A reason in
other words is kept as it was written and classed as neither.

Where food that is lost should go, the best first: eaten by people, fed to animals, composted or
digested, thrown away; after the order of Directive 2008/98/EC, article 4 (prevention, preparing for
re-use, recycling, other recovery, disposal). Local codes and by-product rules come first: what has
passed through a kitchen is not fed to farmed animals, hens and pigs included, where Regulation (EC)
No 1069/2009, article 11, or a law like it holds.
"""

from collections.abc import Mapping

AVOIDABLE: Mapping[str, bool] = {
    "out of date": True,
    "spoiled": True,
    "spilled or damaged": True,
    "cooked too much": True,
    "spoiled in cooking": True,
    "came back from the table": True,
    "trimmings": False,
}
"""Whether each known reason is avoidable, in the order in which they are offered."""

OUT_OF_DATE = "out of date"
"""Why what died is lost."""


def is_avoidable(reason: str) -> bool | None:
    """Whether what was lost for this reason need not have been; None: the reason is not known."""
    return AVOIDABLE.get(" ".join(reason.casefold().split()))
