"""What the household's page sends, as the answers that the door takes: a plain form, no script."""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import count
from typing import Any

from pantry.reports.report import Row

_FIGURES = 4

Form = Mapping[str, Sequence[str]]
"""What was sent: the values of each field by its name."""


@dataclass(frozen=True, slots=True)
class AnsweredService:
    """What was said of one service, and on which version of its menu."""

    base: int
    body: dict[str, Any]

    @property
    def service(self) -> str:
        """The service's id."""
        return str(self.body["service"])

    @property
    def says_something(self) -> bool:
        """Whether anything was chosen, struck, wished or counted."""
        body = self.body
        return bool(body["courses"] or body.get("covers") is not None or body["wish"])

    @property
    def covers_unclear(self) -> bool:
        """Whether what stands for how many they are is no number."""
        return isinstance(self.body["covers"], str)

    def differs_from(self, answer: Row | None) -> bool:
        """Whether it says anything else than the answer that stands."""
        return answer is None or _essence(self.body) != _essence(as_body(answer))


def answered(form: Form, sheet: str) -> list[AnsweredService]:
    """What was said of each service of the page."""
    found: list[AnsweredService] = []
    for at in count():
        service = _one(form, f"service.{at}")
        if not service:
            return found
        body = {
            "service": service,
            "sheet": sheet,
            "courses": list(_courses(form, at)),
            "covers": _number(_one(form, f"covers.{at}")),
            "wish": _one(form, f"wish.{at}")[:1_000],
            "by": _one(form, "by")[:80],
        }
        version = _number(_one(form, f"version.{at}"))
        found.append(AnsweredService(version if isinstance(version, int) else 0, body))
    return found


def as_body(answer: Row) -> dict[str, Any]:
    """An answer that stands, as it would be sent again."""
    return {
        "courses": [
            {
                "course": course["course"],
                "dish": course["dish"] and course["dish"]["dish"],
                "variant": course["dish"] and course["dish"]["variant"],
                "any": course["any"],
                "instead": course["instead"] and course["instead"]["dish"],
                "not_these": [dish["dish"] for dish in course["not_these"]],
            }
            for course in answer["courses"]
        ],
        "covers": answer["covers"],
        "wish": answer["wish"],
    }


def _courses(form: Form, service: int) -> Iterator[dict[str, Any]]:
    for at in count():
        course = _one(form, f"course.{service}.{at}")
        if not course:
            return
        picked, instead = (_one(form, f"{what}.{service}.{at}") for what in ("pick", "instead"))
        struck = list(form.get(f"not.{service}.{at}", ()))
        # a dish once picked cannot be unpicked without a script: another one goes before it
        dish, _, variant = picked.removeprefix("dish:").partition("|")
        is_dish, is_any = picked.startswith("dish:") and not instead, picked == "any"
        if is_dish or is_any or instead or struck:
            yield {
                "course": course,
                "dish": dish if is_dish else None,
                "variant": (variant or None) if is_dish else None,
                "any": is_any and not instead,
                "instead": instead or None,
                "not_these": struck,
            }


def _essence(body: Mapping[str, Any]) -> object:
    """What an answer says, whatever the order in which it says it."""
    courses = {
        (
            each["course"],
            each["dish"],
            each["variant"],
            each["any"],
            each["instead"],
            frozenset(each["not_these"]),
        )
        for each in body["courses"]
    }
    return courses, body["covers"], body["wish"]


def _one(form: Form, name: str) -> str:
    values = form.get(name) or ("",)
    return values[-1].strip()


def _number(text: str) -> int | str | None:
    """The number of people; as it was typed where it is none."""
    if not text:
        return None
    is_number = text.isascii() and text.isdigit() and len(text) <= _FIGURES
    return int(text) if is_number else text[:40]
