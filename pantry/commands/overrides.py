"""Somebody is served what they cannot eat, knowingly: who agreed, when, for whom, to what (AL3)."""

from collections.abc import Iterable, Sequence
from typing import Any

from pantry.commands.given import Given
from pantry.commands.safe_tables import agreed_conflicts
from pantry.records.books import Books
from pantry.records.questions import close
from pantry.records.read import menu
from pantry.records.rows import add
from pantry.records.slugs import slug
from pantry.records.tables import OverrideRow, ServiceRow, ServingRow


def write_overrides(
    books: Books,
    given: Given[Any],
    service: ServiceRow,
    servings: Sequence[ServingRow],
    named: Iterable[str],
) -> None:
    """Write down what was agreed to by name in a choice, which stands until it is chosen anew.

    Everybody at the table has just been looked at: what was asked about the meal is answered.
    """
    found = agreed_conflicts(books, service, servings, named)
    rows = [
        OverrideRow(
            house=books.id,
            service=service.id,
            line=line,
            person=conflict.person,
            dish=serving.dish,
            variant=serving.variant,
            cannot_eat=conflict.cannot_eat,
            certainty=conflict.certainty.value,
            agreed_by=given.person,
            agreed_at=given.at,
        )
        for line, (serving, conflict) in enumerate(found)
    ]
    add(books.connection, *rows)
    answer_questions(books, service, given.person, "it was chosen otherwise")


def answer_questions(books: Books, service: ServiceRow, person: str, answer: str) -> None:
    """Settle whatever is asked about who cannot eat at a service: it is not as it was."""
    at_table = menu.constraints(books.connection, books.id)
    people = {each.person for each in at_table if each.table == service.dining_table}
    for about in (service.id, *(f"{service.id}|{slug(each)}" for each in sorted(people))):
        close(books, "allergen", about, answer, person)
