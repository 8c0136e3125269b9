"""What the decisions on a service share: its row, its version, its dishes, its people's safety."""

from collections.abc import Collection, Iterable
from datetime import datetime, time
from typing import Any

from pantry.commands import base, naming
from pantry.commands.given import Given
from pantry.commands.parts import ChosenPart, ServicePart, Which
from pantry.records.books import Books
from pantry.records.rows import add, every, find, remove
from pantry.records.slugs import slug
from pantry.records.tables import (
    AnswersForRow,
    OverrideRow,
    RecipeRow,
    ServiceRow,
    ServingRow,
    VariantRow,
)
from pantry.refusals import NotAllowed, NotNow, NotThere, UnreadableInput, declare
from pantry.rules.house_time import instant_of
from pantry.rules.menu import ServiceState

SERVICE_STATE = declare("service_state", "The service's state does not allow it.")
TABLE_OF_ANOTHER = declare("table_of_another", "The person answers for another table.")
COVERS_MISSING = declare("covers_missing", "How many eat is not known.")
TIME_MISSING = declare("time_missing", "The time of the service is not known.")
TIME_UNREADABLE = declare("time_unreadable", "The time is not 24-hour local time.")
DISH_NOT_A_DISH = declare("dish_not_a_dish", "The recipe is a preparation, not a dish.")
VARIANT_UNKNOWN_HERE = declare("variant_not_there", "The dish has no variant of that name.")
RECIPE_PUT_AWAY = declare("recipe_put_away", "The recipe has been put away.")
NOTHING_CHOSEN = declare("nothing_chosen", "A service needs at least one dish.")


def decided(books: Books, given: Given[Any], which: Which, *states: ServiceState) -> ServiceRow:
    """The service a decision is about, if its version and state are what the decision needs.

    Raises:
        NotThere: `service_unknown`.
        NotAllowed: `table_of_another`.
        Moved: `base_moved`.
        NotNow: `service_state`.
    """
    row = naming.service(books, which)
    _refuse_other_table(books, given, row)
    base.check(books, given, row, f"The service {row.id}")
    if row.state not in states:
        raise NotNow(
            SERVICE_STATE,
            f"The service {row.id} is {row.state.replace('_', ' ')}.",
            "This can be done while it is " + " or ".join(states) + ".",
            value=row.state,
            field="body.service",
        )
    return row


def _refuse_other_table(books: Books, given: Given[Any], service: ServiceRow) -> None:
    """Who answers for one table is told of who eats there only, and so decides there only (AL3)."""
    if given.role != "approver" or given.again:
        return
    person = next((row.id for row in books.people if given.person in (row.id, row.name)), "")
    own = find(books.connection, AnswersForRow, house=books.id, person=person)
    if own is None or own.dining_table == service.dining_table:
        return
    raise NotAllowed(
        TABLE_OF_ANOTHER,
        f"{given.person} answers for another table than that of {service.id}.",
        "Ask whoever answers for that table, or the chef.",
        value=service.dining_table,
        field="body.service",
    )


def moved_on(books: Books, row: ServiceRow, **to: object) -> ServiceRow:
    """Write a service's new state of things as its next version, and answer the row as it is."""
    return base.next_version(books, row, "service", **to)


def at(books: Books, part: ServicePart, known: ServiceRow | None) -> datetime:
    """When the service is: its time given, or as it was proposed before.

    Raises:
        UnreadableInput: `time_missing`, `time_unreadable`.
    """
    if part.time is None:
        if known is not None:
            return known.at
        raise UnreadableInput(
            TIME_MISSING,
            f"The service {part.meal} on {part.date} has no time.",
            "Give it as 24-hour local time, such as 19:30.",
            field="body.service.time",
        )
    try:
        clock = time.fromisoformat(part.time)
    except ValueError as error:
        raise UnreadableInput(
            TIME_UNREADABLE,
            f"{part.time!r} is no time.",
            "Write it as 24-hour local time, such as 19:30.",
            value=part.time,
            field="body.service.time",
        ) from error
    return instant_of(naming.day(part.date, "body.service.date"), clock, books.zone)


def dish(
    books: Books, name: str, variant: str | None, field: str, standing: Collection[str] = ()
) -> tuple[str, str | None]:
    """The id of a dish, and the variant by the name the dish has for it.

    Args:
        books: the books.
        name: of the dish.
        variant: its name, if one.
        field: where it was named.
        standing: the dishes of the menu, which keeps what has been put away since.

    Raises:
        NotThere: `recipe_unknown`, `variant_not_there`.
        NotNow: `recipe_put_away`.
        UnreadableInput: `dish_not_a_dish`.
    """
    row = naming.recipe(books, name, field)
    if row.kind != "dish":
        raise UnreadableInput(
            DISH_NOT_A_DISH,
            f"{row.name} is a preparation.",
            "Put a dish on the menu that uses it.",
            value=name,
            field=field,
        )
    if row.put_away_by is not None and row.id not in standing:
        raise NotNow(
            RECIPE_PUT_AWAY,
            f"{row.name} has been put away.",
            "Take the recipe out again first, or choose another dish.",
            value=name,
            field=field,
        )
    return row.id, variant and _variant(books, row, variant, field)


def _variant(books: Books, recipe: RecipeRow, name: str, field: str) -> str:
    changes = every(books.connection, VariantRow, house=books.id, recipe=recipe.id)
    known = {slug(row.variant): row.variant for row in changes}
    if slug(name) not in known:
        raise NotThere(
            VARIANT_UNKNOWN_HERE,
            f"{recipe.name} has no variant {name!r}.",
            "Name one of its variants, or leave it out: " + (", ".join(known.values()) or "none"),
            value=name,
            field=field,
        )
    return known[slug(name)]


def set_servings(books: Books, service: str, servings: Iterable[ServingRow]) -> None:
    """Replace the dishes of a service; what was agreed to of those before is not of these."""
    remove(books.connection, OverrideRow, house=books.id, service=service)
    remove(books.connection, ServingRow, house=books.id, service=service)
    add(books.connection, *servings)


def chosen(books: Books, service: ServiceRow, dishes: Iterable[ChosenPart]) -> list[ServingRow]:
    """The servings of a choice; a dish keeps the course it was proposed in.

    Raises:
        UnreadableInput: `nothing_chosen`.
    """
    proposed = every(books.connection, ServingRow, house=books.id, service=service.id)
    course_of = {row.dish: row.course for row in proposed}
    rows = []
    for line, part in enumerate(dishes):
        field = f"body.dishes[{line}]"
        name, variant = dish(books, part.dish, part.variant, field, course_of)
        rows.append(
            ServingRow(
                house=books.id,
                service=service.id,
                line=line,
                course=part.course or course_of.get(name, "main"),
                dish=name,
                variant=variant,
                portions=part.portions,
                chosen=True,
            )
        )
    if not rows:
        raise UnreadableInput(
            NOTHING_CHOSEN,
            f"No dish was chosen for {service.id}.",
            "Name at least one dish, or take the service off.",
            field="body.dishes",
        )
    return rows
