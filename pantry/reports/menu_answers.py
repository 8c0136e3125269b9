"""What the household answered to a menu, and by when it is to answer."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from datetime import datetime
from functools import cached_property
from typing import Any

import msgspec

from pantry.records.read.sheets import standing_answers
from pantry.records.rows import every
from pantry.records.tables import (
    MenuAnswerRow,
    ServiceRow,
    SheetLinkRow,
    SheetRow,
    SheetServiceRow,
)
from pantry.reports.ahead import Ahead
from pantry.reports.report import Row, instant
from pantry.reports.view import View
from pantry.rules.house_time import before
from pantry.rules.menu import Service, ServiceState


def choose_by(ahead: Ahead, service: Service) -> datetime | None:
    """The earliest instant at which a dish of a proposed service can be chosen no more."""
    if service.state is not ServiceState.PROPOSED:
        return None
    found = (ahead.dish(service, serving).choose_by for serving in service.servings)
    return min((at for at in found if at is not None), default=None)


def answer_by(ahead: Ahead, service: Service) -> datetime | None:
    """When silence ends: choose-by or the house's notice, whichever is first.

    From then on the first dish of each course holds, unless something else is said in time for the
    chef; None: nothing is to be chosen any more.
    """
    if service.state is not ServiceState.PROPOSED:
        return None
    view = ahead.view
    notice = before(service.at, view.house.notice, view.zone)
    lacking = choose_by(ahead, service)
    return notice if lacking is None else min(notice, lacking)


@dataclass(frozen=True)
class MenuAnswers:
    """The answers that stand and the sheets that are shown, in one house."""

    view: View

    def standing(self, service: str) -> Row | None:
        """The answer that stands for a service, whatever became of its menu since."""
        answer = self._standing.get(service)
        return None if answer is None else self.one(answer, answer.version)

    def told(self, row: ServiceRow) -> Row | None:
        """The answer that stands for a service; None: nobody has answered."""
        answer = self._standing.get(row.id)
        return None if answer is None else self.one(answer, row.version)

    def one(self, answer: MenuAnswerRow, version: int) -> Row:
        """An answer; `earlier` where the menu was changed since, `version` being what stands."""
        return {
            "id": answer.id,
            "at": instant(answer.at),
            "by": answer.said_by or self.names.get(answer.person, answer.person),
            "earlier": answer.version != version,
            "covers": answer.covers,
            "wish": answer.wish,
            "courses": [self._course(each) for each in msgspec.json.decode(answer.courses)],
        }

    def shown(self, service: str) -> Row | None:
        """The last sheet on which a service is shown; None: it was not, or no more."""
        row = self._shown.get(service)
        if row is None:
            return None
        return {
            "sheet": row.id,
            "sent_at": instant(row.sent_at),
            "read_at": instant(self.read_at(row.id)),
            "until": instant(row.expires_at),
        }

    def read_at(self, sheet: str) -> datetime | None:
        """When the link of a sheet was first followed."""
        link = self.links.get(sheet)
        return link.read_at if link else None

    @cached_property
    def names(self) -> Mapping[str, str]:
        """Everybody's name by id."""
        return self.view.people_names

    @cached_property
    def links(self) -> Mapping[str, SheetLinkRow]:
        """The link of every sheet that has one."""
        rows = every(self.view.connection, SheetLinkRow, **self._here)
        return {row.sheet: row for row in rows}

    @cached_property
    def sheets(self) -> Mapping[str, SheetRow]:
        """Every sheet by its id, the oldest first."""
        rows = every(self.view.connection, SheetRow, **self._here)
        return {row.id: row for row in sorted(rows, key=lambda row: (row.sent_at, row.id))}

    @cached_property
    def services_of(self) -> Mapping[str, list[str]]:
        """The services of every sheet."""
        found: dict[str, list[str]] = {}
        for row in every(self.view.connection, SheetServiceRow, **self._here):
            found.setdefault(row.sheet, []).append(row.service)
        return found

    @cached_property
    def _here(self) -> dict[str, Any]:
        return {"house": self.view.id}

    @cached_property
    def _standing(self) -> Mapping[str, MenuAnswerRow]:
        return standing_answers(self.view.connection, self.view.id)

    @cached_property
    def _shown(self) -> Mapping[str, SheetRow]:
        shown = (
            row
            for row in self.sheets.values()
            if row.withdrawn_at is None and row.expires_at >= self.view.now
        )
        return {service: row for row in shown for service in self.services_of.get(row.id, ())}

    def _course(self, said: Mapping[str, Any]) -> Row:
        return {
            "course": said["course"],
            "dish": self._dish(said["dish"], said["variant"]),
            "any": said["any"],
            "instead": self._dish(said["instead"], None),
            "not_these": [self._named(dish) for dish in said["not_these"]],
        }

    def _dish(self, dish: str | None, variant: str | None) -> Row | None:
        return None if dish is None else self._named(dish, variant)

    def _named(self, dish: str, variant: str | None = None) -> Row:
        return {"dish": dish, "name": self._name(dish), "variant": variant}

    def _name(self, dish: str) -> str:
        known = self.view.recipes.get(dish)
        return known.name if known else dish


def in_words(answer: Row) -> list[str]:
    """An answer as lines that a person reads."""
    lines = [f"{course['course']}: {', '.join(_said(course))}" for course in answer["courses"]]
    if answer["covers"] is not None:
        lines.append(f"for {answer['covers']}")
    if answer["wish"]:
        lines.append(f"“{answer['wish']}”")
    return lines


def _said(course: Row) -> Iterable[str]:
    if course["dish"]:
        variant = course["dish"]["variant"]
        yield course["dish"]["name"] + (f", {variant}" if variant else "")
    if course["any"]:
        yield "any of them"
    if course["instead"]:
        yield f"{course['instead']['name']} instead"
    for dish in course["not_these"]:
        yield f"not {dish['name']}"
