"""Propose a service's menu, with alternatives by course."""

from collections.abc import Collection

from pantry.commands import base, menus, naming
from pantry.commands.covers_said import number_said
from pantry.commands.decisions import Propose
from pantry.commands.given import Given
from pantry.commands.parts import ProposedPart
from pantry.commands.safe_tables import ask_about_conflicts
from pantry.records.books import Books
from pantry.records.rows import add, every, find
from pantry.records.slugs import slug
from pantry.records.tables import ServiceRow, ServingRow
from pantry.refusals import NotNow, UnreadableInput
from pantry.rules.menu import ServiceState


def propose(books: Books, given: Given[Propose]) -> None:
    """Write a proposed service, new or over what was proposed before.

    Raises:
        NotNow: `service_state`: it has been chosen already.
        Moved: `base_moved`.
        UnreadableInput: `covers_missing`, `time_missing`, `nothing_chosen`.
        NotThere: an unknown table, dish or variant.
    """
    row = _proposed(books, given)
    before = every(books.connection, ServingRow, house=books.id, service=row.id)
    standing = {each.dish for each in before}
    servings = [
        _serving(books, row.id, line, (course, dish), standing)
        for line, (course, dish) in enumerate(
            (course.course, dish) for course in given.body.courses for dish in course.dishes
        )
    ]
    if not servings:
        raise UnreadableInput(
            menus.NOTHING_CHOSEN,
            f"No dish is proposed for {row.id}.",
            "Name at least one dish.",
            field="body.courses",
        )
    menus.set_servings(books, row.id, servings)
    ask_about_conflicts(books, [(row, servings)], "a course has nothing that is safe for everybody")


def _proposed(books: Books, given: Given[Propose]) -> ServiceRow:
    part = given.body.service
    identity = naming.service_id(part, books)
    known = find(books.connection, ServiceRow, house=books.id, id=identity)
    if known is None:
        return _new(books, given, identity)
    base.check(books, given, known, f"The service {identity}")
    if known.state not in (ServiceState.PROPOSED, ServiceState.TAKEN_OFF):
        raise NotNow(
            menus.SERVICE_STATE,
            f"The service {identity} is {known.state.replace('_', ' ')}.",
            "Swap a dish, change its covers, or take it off.",
            value=known.state,
            field="body.service",
        )
    covers = known.covers if part.covers is None else part.covers
    at = menus.at(books, part, known)
    return menus.moved_on(books, known, state=ServiceState.PROPOSED.value, covers=covers, at=at)


def _new(books: Books, given: Given[Propose], identity: str) -> ServiceRow:
    part = given.body.service
    table = naming.dining_table(books, part.table, "body.service.table")
    on, at = naming.day(part.date, "body.service.date"), menus.at(books, part, None)
    meal = slug(part.meal)
    covers = number_said(books, table.id, on, meal, at) if part.covers is None else part.covers
    if covers is None:
        raise UnreadableInput(
            menus.COVERS_MISSING,
            f"How many eat at {identity} is not known.",
            "Give its covers, or the table's usual covers.",
            field="body.service.covers",
        )
    row = ServiceRow(
        house=books.id,
        id=identity,
        on=on,
        meal=meal,
        dining_table=table.id,
        at=at,
        covers=covers,
        state=ServiceState.PROPOSED.value,
        last_command=given.id,
    )
    add(books.connection, row)
    books.note("service", identity)
    return row


def _serving(
    books: Books,
    service: str,
    line: int,
    named: tuple[str, ProposedPart | str],
    standing: Collection[str],
) -> ServingRow:
    course, dish = named
    part = ProposedPart(dish) if isinstance(dish, str) else dish
    name, variant = menus.dish(books, part.dish, part.variant, "body.courses", standing)
    return ServingRow(
        house=books.id,
        service=service,
        line=line,
        course=course,
        dish=name,
        variant=variant,
        portions=part.portions,
    )
