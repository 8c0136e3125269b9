"""What people agreed to of a dish that somebody cannot eat, and what is still asked (AL3)."""

import json
from collections.abc import Iterator

from pantry.records.slugs import slug
from pantry.records.tables import OverrideRow, QuestionRow
from pantry.reports.report import Row, instant
from pantry.reports.view import View
from pantry.rules.menu import Serving

ALL_THE_SAME = "serve it all the same"
"""What naming a person when a menu is chosen comes to."""


def agreed(view: View, service: str, serving: Serving, person: str, word: str) -> Row | None:
    """Who agreed to what and when, of a person, a dish and what they cannot eat; null: nobody."""
    for row in _overrides(view, service, serving):
        if (row.person, row.cannot_eat) == (person, word):
            return _agreed(view, row)
    answered = _answered(view, service, person)
    told = f"{person} cannot eat {word}: {view.recipes[serving.dish].name} "
    last = next((each for each in reversed(answered) if each.against.startswith(told)), None)
    if last is None or is_asked(view, service, person):
        return None
    return {
        "by": view.people_names.get(last.settled_by or "", last.settled_by),
        "at": instant(last.settled_at),
        "answer": last.answer,
    }


def is_asked(view: View, service: str, person: str) -> bool:
    """Whether a question about a person at a service is open that nobody has settled yet."""
    return any(each.settled_at is None for each in _asked(view, service, person))


def only_agreed(view: View, service: str, serving: Serving) -> list[Row]:
    """What was agreed to of a dish, as it was then: of a meal that is over nothing else is told."""
    return [
        {
            "person": row.person,
            "cannot_eat": row.cannot_eat,
            "certainty": row.certainty,
            "through": [],
            "safe": None,
            "agreed": _agreed(view, row),
            "asked": False,
        }
        for row in _overrides(view, service, serving)
    ]


def _overrides(view: View, service: str, serving: Serving) -> Iterator[OverrideRow]:
    for row in view.agreed.overrides.get(service, ()):
        if (row.dish, row.variant) == (serving.dish, serving.variant):
            yield row


def _agreed(view: View, row: OverrideRow) -> Row:
    by = view.people_names.get(row.agreed_by, row.agreed_by)
    return {"by": by, "at": instant(row.agreed_at), "answer": ALL_THE_SAME}


def _asked(view: View, service: str, person: str) -> Iterator[QuestionRow]:
    """The questions that are about a person, who is named in what they are about or in the text."""
    for row in view.agreed.asked.get(service, ()):
        of_person = row.about.partition("|")[2] == slug(person)
        if of_person or row.against.startswith(f"{person} cannot eat "):
            yield row


def _answered(view: View, service: str, person: str) -> list[QuestionRow]:
    """Those that were answered by somebody, not by what happened otherwise."""
    return [row for row in _asked(view, service, person) if row.answer in json.loads(row.answers)]
