"""Nobody at a table gets what they cannot eat, unless somebody takes it on by name (AL3)."""

import json
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from pantry.records.books import Books
from pantry.records.questions import ask
from pantry.records.read import menu
from pantry.records.read.larder import larder
from pantry.records.rows import every
from pantry.records.slugs import slug
from pantry.records.tables import QuestionRow, ServiceRow, ServingRow
from pantry.refusals import NotNow, declare
from pantry.rules.allergens import Certainty, Larder
from pantry.rules.conflicts import Conflict, conflicts, safe_alternatives
from pantry.rules.menu import Constraint, Recipe, ServiceState
from pantry.rules.services import lapsed
from pantry.rules.variants import with_variant

ALLERGEN_CONFLICT = declare("allergen_conflict", "Somebody at the table cannot eat the dish.")

BLOCKING = frozenset({Certainty.CONTAINS, Certainty.MAY_CONTAIN})
"""What is unknown is flagged wherever the dish is shown; it does not stop a choice, or no dish of a
house that has just begun could be chosen."""


@dataclass(frozen=True, slots=True)
class _Table:
    """A table on the day of a service, with what everything is made of."""

    service: ServiceRow
    recipes: Mapping[str, Recipe]
    larder: Larder

    def blocking(self, theirs: Sequence[Constraint], serving: ServingRow) -> Conflict | None:
        """The worst conflict of a person, by all they cannot eat, with a dish as it is served."""
        dish = with_variant(self.recipes[serving.dish], serving.variant)
        found = conflicts(theirs, dish, self.service.dining_table, self.service.on, self.larder)
        return next((each for each in found if each.certainty in BLOCKING), None)

    def agreed_to(self, theirs: Sequence[Constraint], serving: ServingRow) -> Iterator[Conflict]:
        """Everything a person cannot eat in a dish as it is served, each word once."""
        dish = with_variant(self.recipes[serving.dish], serving.variant)
        found = conflicts(theirs, dish, self.service.dining_table, self.service.on, self.larder)
        worst: dict[str, Conflict] = {}
        for each in found:
            worst.setdefault(each.cannot_eat, each)
        yield from (each for each in worst.values() if each.certainty in BLOCKING)

    def safe(self, theirs: Sequence[Constraint], dish: Recipe, welcome: Iterable[str]) -> str:
        """What a person can eat instead, in words: of the dishes that are welcome first."""
        first = [self.recipes[each] for each in welcome]
        found = safe_alternatives(
            theirs[0].person,
            theirs,
            dish,
            [*first, *(each for each in self.recipes.values() if each not in first)],
            table=self.service.dining_table,
            on=self.service.on,
            larder=self.larder,
        )
        if not found:
            return "No dish of the house is known to be safe: ask the chef."
        name = self.recipes[found[0].dish].name
        variant = f", {found[0].variant}" if found[0].variant else ""
        return f"Safe for them: {name}{variant}."


Menu = tuple[ServiceRow, Sequence[ServingRow]]
"""A service with the dishes that were chosen for it, or with all that are proposed."""

_TO_COME = (ServiceState.PROPOSED.value, ServiceState.CONFIRMED.value)


def menus_to_come(books: Books, **of: str) -> list[Menu]:
    """Every menu that is proposed or confirmed and not over yet.

    Args:
        books: the books.
        of: columns of the service that must be equal, as its table.
    """
    return [
        (service, every(books.connection, ServingRow, house=books.id, service=service.id))
        for service in every(books.connection, ServiceRow, house=books.id, **of)
        if service.state in _TO_COME and not lapsed(service.at, books.now)
    ]


def refuse_conflicts(
    books: Books, service: ServiceRow, servings: Sequence[ServingRow], overrides: Iterable[str]
) -> None:
    """Refuse a choice that somebody at the table cannot eat, offering that person's safe dish.

    A dish that is on the menu in a safe variant too, or has a safe other dish in its course, is no
    conflict: that is the person's own dish.

    Raises:
        NotNow: `allergen_conflict`, unless `overrides` names the person.
    """
    for _, refusal in conflicts_of(books, [(service, servings)], overrides):
        raise refusal


def ask_about_conflicts(
    books: Books,
    menus: Iterable[Menu],
    recorded: str,
    *,
    only: str | None = None,
    again: bool = True,
) -> None:
    """Ask the chef about every menu that somebody at its table cannot eat (AL3).

    Args:
        books: the books.
        menus: the menus that are looked at.
        recorded: what happened, in plain words.
        only: the one person who is looked at; None: everybody.
        again: whether what was asked in these very words, and answered by a person, is asked again.
    """
    for service, refusal in conflicts_of(books, menus, only=only):
        about = service.id if only is None else f"{service.id}|{slug(only)}"
        if not again and _is_known(books, service.id, str(refusal)):
            continue
        ask(
            books,
            "allergen",
            "chef",
            about,
            recorded=f"{service.id} is {service.state}, and {recorded}.",
            against=str(refusal),
            answers=("swap the dish", "cook them their own", "it is safe"),
        )


def _is_known(books: Books, service: str, against: str) -> bool:
    """Whether this is asked of a service already, or a person has answered it."""
    asked = every(books.connection, QuestionRow, house=books.id, kind="allergen")
    return any(
        row.about.partition("|")[0] == service
        and row.against == against
        and (row.settled_at is None or row.answer in json.loads(row.answers))
        for row in asked
    )


def conflicts_of(
    books: Books,
    menus: Iterable[Menu],
    overrides: Iterable[str] = (),
    *,
    only: str | None = None,
) -> Iterator[tuple[ServiceRow, NotNow]]:
    """Each service of which somebody cannot eat a dish, with the refusal that says who and what."""
    named = set(overrides)
    people = [
        each
        for each in menu.constraints(books.connection, books.id)
        if each.person not in named and only in (None, each.person)
    ]
    tables = {each.table for each in people}
    concerned = [each for each in menus if each[0].dining_table in tables]
    if not concerned:
        return
    recipes = books.recipes
    known = larder(books.connection, books.id, books.items, recipes.values())
    for service, servings in concerned:
        found = _first_conflict(_Table(service, recipes, known), people, servings)
        if found:
            proposed = every(books.connection, ServingRow, house=books.id, service=service.id)
            yield service, _refusal(_Table(service, recipes, known), *found, proposed)


def _first_conflict(
    table: _Table, people: Iterable[Constraint], servings: Sequence[ServingRow]
) -> tuple[Conflict, Sequence[Constraint], ServingRow] | None:
    """A dish of a course in which everything is against one thing or another a person says."""
    for theirs, serving in _passed_over(table, people, servings):
        if conflict := table.blocking(theirs, serving):
            return conflict, theirs, serving
    return None


def _passed_over(
    table: _Table, people: Iterable[Constraint], servings: Iterable[ServingRow]
) -> Iterator[tuple[Sequence[Constraint], ServingRow]]:
    """All that a person says, with each dish of every course in which they can eat nothing."""
    of_person: dict[str, list[Constraint]] = {}
    for each in people:
        of_person.setdefault(each.person, []).append(each)
    courses: dict[str, list[ServingRow]] = {}
    for serving in servings:
        courses.setdefault(serving.course, []).append(serving)
    for theirs in of_person.values():
        for course in courses.values():
            if all(table.blocking(theirs, each) for each in course):
                yield from ((theirs, each) for each in course)


def agreed_conflicts(
    books: Books, service: ServiceRow, servings: Sequence[ServingRow], named: Iterable[str]
) -> Iterator[tuple[ServingRow, Conflict]]:
    """What is served to those who are named though they cannot eat it, dish by dish."""
    people = [
        each
        for each in menu.constraints(books.connection, books.id)
        if each.person in set(named) and each.table == service.dining_table
    ]
    if not people:
        return
    known = larder(books.connection, books.id, books.items, books.recipes.values())
    table = _Table(service, books.recipes, known)
    for theirs, serving in _passed_over(table, people, servings):
        yield from ((serving, each) for each in table.agreed_to(theirs, serving))


def _refusal(
    table: _Table,
    conflict: Conflict,
    theirs: Sequence[Constraint],
    serving: ServingRow,
    proposed: Iterable[ServingRow],
) -> NotNow:
    dish = table.recipes[serving.dish]
    chain = " > ".join(table.larder.names.get(each, each) for each in conflict.chain[1:])
    certainty = conflict.certainty.replace("_", " ")
    welcome = [each.dish for each in proposed if each.course == serving.course]
    return NotNow(
        ALLERGEN_CONFLICT,
        f"{conflict.person} cannot eat {conflict.cannot_eat}: "
        f"{dish.name} {certainty} it ({chain}).",
        f"{table.safe(theirs, dish, welcome)} Or name {conflict.person}, knowingly. "
        "Read the label; local codes and medical advice come first.",
        value=conflict.cannot_eat,
        field="body.dishes",
    )
