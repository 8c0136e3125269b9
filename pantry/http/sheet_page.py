"""The household's page of a sheet: HTML that every phone shows, a form that needs no script."""

import html
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from pantry.http.sheet_form import as_body
from pantry.reports.menu_answers import in_words
from pantry.reports.report import Row
from pantry.reports.sheet_shown import (
    CAUTION,
    CourseShown,
    DishShown,
    RecipeShown,
    ServiceShown,
    SheetShown,
)
from pantry.reports.sheet_words import (
    day_words,
    in_it_words,
    meal_words,
    moment_words,
    sentence,
    standing_words,
    title,
)
from pantry.rules.house_time import read_instant
from pantry.rules.menu import ServiceState

LOOK = "/menu-sheet/look.css"


@dataclass(frozen=True, slots=True)
class Page:
    """The page of one sheet.

    Attributes:
        at: its own address, to which the form is sent.
        typed: by service, what was sent and could not be taken: it is not to be typed again.
        notes: what is said at the top, the first line strong; `is_wrong` where it was not taken.
    """

    sheet: SheetShown
    at: str
    zone: ZoneInfo
    now: datetime
    typed: Mapping[str, Mapping[str, Any]]
    notes: tuple[str, ...] = ()
    is_wrong: bool = False

    def written(self) -> bytes:
        """The HTML."""
        sheet = self.sheet
        open_ones = [each for each in sheet.services if self.is_open(each)]
        body = [
            f"<h1>{_e(title(sheet))}</h1>",
            f"<p class='soft'>{_e(_from(sheet))}</p>",
            *self._notes(),
            f"<form method='post' action='{_e(self.at)}'>",
            *(line for each in self._days() for line in each),
            *(self._send() if open_ones else ()),
            "</form>",
            *self._recipes(),
            f"<p class='soft'>{_e(CAUTION)}</p>",
        ]
        return whole(title(sheet), body)

    def is_open(self, service: ServiceShown) -> bool:
        """Whether anything can still be said of a service on this page."""
        return (
            self.sheet.state == "shown"
            and service.state == ServiceState.PROPOSED
            and service.at > self.now
        )

    def _notes(self) -> Iterator[str]:
        if self.notes:
            first, *more = self.notes
            kind = "wrong" if self.is_wrong else "done"
            yield f"<div class='said {kind}' role='{'alert' if self.is_wrong else 'status'}'>"
            yield f"<strong>{_e(first)}</strong>"
            yield from (f"<p>{_e(line)}</p>" for line in more)
            yield "</div>"

    def _days(self) -> Iterator[Iterator[str]]:
        day = None
        number = 0
        for service in self.sheet.services:
            if service.day != day:
                day = service.day
                yield iter([f"<h2>{_e(day_words(day))}</h2>"])
            yield self._service(service, number)
            number += self.is_open(service)

    def _service(self, service: ServiceShown, number: int) -> Iterator[str]:
        meal = meal_words(service, self.zone)
        yield f"<section aria-label='{_e(day_words(service.day))}, {_e(meal)}'><h3>{_e(meal)}</h3>"
        if service.answer:
            yield from self._answer(service.answer, service.before)
        yield f"<p>{_e(standing_words(service, self.sheet, self.zone, self.now))}</p>"
        if self.is_open(service):
            yield from self._asked(service, number)
        else:
            yield from _told(service)
        yield "</section>"

    def _answer(self, answer: Row, before: Row | None) -> Iterator[str]:
        at = moment_words(read_instant(answer["at"]), self.zone)
        yield "<div class='said done'>"
        yield f"<strong>Received from {_e(answer['by'])}, {_e(at)}</strong><ul>"
        yield from (f"<li>{_e(line)}</li>" for line in in_words(answer))
        yield "</ul>"
        if before:
            was = moment_words(read_instant(before["at"]), self.zone)
            said = "; ".join(in_words(before))
            words = f"It takes the place of what {before['by']} said {was}: {said}."
            yield f"<p>{_e(words)}</p>"
        if answer["earlier"]:
            yield "<p>The kitchen has changed this menu since: please look at it again.</p>"
        yield "</div>"

    def _asked(self, service: ServiceShown, number: int) -> Iterator[str]:
        typed = self.typed.get(service.id)
        said = typed or (as_body(service.answer) if service.answer else {})
        by_course = {each["course"]: each for each in said.get("courses", ())}
        yield f"<input type='hidden' name='service.{number}' value='{_e(service.id)}'>"
        yield f"<input type='hidden' name='version.{number}' value='{service.version}'>"
        for at, course in enumerate(service.courses):
            yield from self._course(course, f"{number}.{at}", by_course.get(course.name, {}))
        covers = "" if said.get("covers") is None else str(said["covers"])
        yield f"<p class='field'><label for='covers.{number}'>How many are you?</label>"
        yield f"<input id='covers.{number}' name='covers.{number}' inputmode='numeric' "
        yield f"autocomplete='off' maxlength='4' placeholder='{service.covers}' "
        yield f"value='{_e(covers)}'></p>"
        yield f"<p class='field'><label for='wish.{number}'>A wish, in your own words</label>"
        yield f"<textarea id='wish.{number}' name='wish.{number}' rows='2' maxlength='1000'>"
        yield f"{_e(said.get('wish', ''))}</textarea></p>"

    def _course(self, course: CourseShown, key: str, said: Mapping[str, Any]) -> Iterator[str]:
        yield f"<fieldset><legend>{_e(sentence(course.name))}</legend>"
        yield f"<input type='hidden' name='course.{key}' value='{_e(course.name)}'>"
        for number, dish in enumerate(course.dishes):
            yield from self._dish(dish, key, number, said)
        if len(course.dishes) > 1:
            yield _radio(f"pick.{key}", "any", "Any of these", is_on=bool(said.get("any")))
        yield from self._otherwise(course, key, said)
        yield "</fieldset>"

    def _dish(
        self, dish: DishShown, key: str, number: int, said: Mapping[str, Any]
    ) -> Iterator[str]:
        picked = (said.get("dish"), said.get("variant")) == (dish.id, dish.variant)
        default = " <span class='soft'>(served if nobody answers)</span>" if number == 0 else ""
        value = f"dish:{dish.id}|{dish.variant or ''}"
        yield "<div class='dish'>"
        yield _radio(f"pick.{key}", value, dish.words, is_on=picked, after=default)
        for each in dish.not_for:
            yield f"<p class='unsuited'><strong>{_e(sentence(each))}</strong></p>"
        new = f" <a href='#recipe-{_e(dish.id)}'>New to you: its recipe</a>" if dish.is_new else ""
        yield f"<p class='soft'>{_e(in_it_words(dish))}{new}</p>"
        yield "</div>"

    def _otherwise(self, course: CourseShown, key: str, said: Mapping[str, Any]) -> Iterator[str]:
        """Another dish in its place, and what is not wanted: opened by who wants it."""
        here, chosen = {dish.id for dish in course.dishes}, said.get("instead")
        struck = said.get("not_these", ())
        of = f"<span class='unseen'> ({_e(course.name)})</span>"
        yield f"<details{' open' if chosen or struck else ''}>"
        yield f"<summary>Something else, or not this{of}</summary>"
        yield f"<p class='field'><label for='instead.{key}'>Something else in its place{of}</label>"
        yield f"<select id='instead.{key}' name='instead.{key}'>"
        yield "<option value=''>No, keep to the dishes above</option>"
        for dish, name in self.sheet.others:
            if dish not in here:
                on = " selected" if dish == chosen else ""
                yield f"<option value='{_e(dish)}'{on}>{_e(name)}</option>"
        yield "</select></p>"
        for dish, words in {dish.id: dish.words for dish in course.dishes}.items():
            on = " checked" if dish in struck else ""
            yield f"<label class='pick'><input type='checkbox' name='not.{key}' value='{_e(dish)}'"
            yield f"{on}><span>Not this: {_e(words)}</span></label>"
        yield "</details>"

    def _send(self) -> Iterator[str]:
        yield "<p class='field'><label for='by'>Your name</label>"
        yield "<input id='by' name='by' autocomplete='name' maxlength='80'></p>"
        yield "<p class='soft'>What you leave open stays as it is said at each meal.</p>"
        yield "<button type='submit'>Send my answer</button>"

    def _recipes(self) -> Iterator[str]:
        if self.sheet.recipes:
            yield "<h2>New to you: the recipes</h2>"
        for recipe in self.sheet.recipes:
            yield from _recipe(recipe, self.at)


def _from(sheet: SheetShown) -> str:
    to = f", for {sheet.to}" if sheet.to else ""
    return f"{sheet.house}{to}. From {sheet.sent_by}."


def _told(service: ServiceShown) -> Iterator[str]:
    """What is or was on the menu, where nothing is to be chosen any more."""
    is_chosen = service.state in (ServiceState.CONFIRMED, ServiceState.SERVED)
    yield "<ul>"
    for course in service.courses:
        dishes = [dish.words for dish in course.dishes if dish.chosen or not is_chosen]
        word = " and " if is_chosen else " or "
        if dishes:
            yield f"<li>{_e(sentence(course.name))}: {_e(word.join(dishes))}</li>"
    yield "</ul>"


def _recipe(recipe: RecipeShown, at: str) -> Iterator[str]:
    yield f"<section id='recipe-{_e(recipe.id)}' aria-labelledby='of-{_e(recipe.id)}'>"
    yield f"<h3 id='of-{_e(recipe.id)}'>{_e(recipe.name)}</h3>"
    if recipe.picture:
        yield f"<img src='{_e(at)}/pictures/{_e(recipe.picture)}' alt='{_e(recipe.name)}'>"
    yield f"<p class='soft'>For {_e(recipe.portions)} portions.</p><ul>"
    yield from (f"<li>{_e(amount)} {_e(item)}</li>" for item, amount in recipe.lines)
    yield "</ul>"
    yield from (f"<p>{_e(line)}</p>" for line in recipe.method.splitlines() if line.strip())
    yield "</section>"


def _radio(name: str, value: str, words: str, *, is_on: bool, after: str = "") -> str:
    on = " checked" if is_on else ""
    return (
        f"<label class='pick'><input type='radio' name='{name}' value='{_e(value)}'{on}>"
        f"<span>{_e(words)}{after}</span></label>"
    )


def whole(called: str, body: list[str]) -> bytes:
    """A whole page of the household's."""
    return (
        "<!doctype html>\n<html lang='en'><head><meta charset='utf-8'>"
        "<meta name='viewport' content='width=device-width, initial-scale=1'>"
        "<meta name='robots' content='noindex, nofollow'>"
        f"<title>{_e(called)}</title><link rel='stylesheet' href='{LOOK}'></head>"
        f"<body><main>\n{chr(10).join(body)}\n</main></body></html>\n"
    ).encode()


def _e(text: object) -> str:
    return html.escape(str(text), quote=True)
