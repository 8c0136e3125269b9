"""Settle a question with one of its answers."""

import json

from pantry.commands import asked_for, base
from pantry.commands.decisions import Settle
from pantry.commands.given import Given
from pantry.records.books import Books
from pantry.records.rows import find
from pantry.records.tables import QuestionRow
from pantry.refusals import NotAllowed, NotNow, NotThere, UnreadableInput, declare

QUESTION_UNKNOWN = declare("question_unknown", "There is no such question.")
QUESTION_SETTLED = declare("question_settled", "The question has been settled already.")
ANSWER_UNKNOWN = declare("answer_unknown", "The question has no such answer.")
QUESTION_OF_ANOTHER = declare("question_of_another", "The question belongs to another role.")


def settle(books: Books, given: Given[Settle]) -> None:
    """Write who answered what; what follows from it is recorded by its own command.

    Raises:
        NotThere: `question_unknown`.
        NotNow: `question_settled`.
        NotAllowed: `question_of_another`.
        Moved: `base_moved`.
        UnreadableInput: `answer_unknown`.
    """
    body = given.body
    row = find(books.connection, QuestionRow, house=books.id, id=body.question)
    if row is None:
        raise NotThere(
            QUESTION_UNKNOWN,
            f"There is no question {body.question!r}.",
            "Read the open questions again.",
            value=body.question,
            field="body.question",
        )
    base.check(books, given, row, f"The question {row.id}")
    _refuse_other_hands(row, given.role)
    answers = json.loads(row.answers)
    if body.answer not in answers:
        raise UnreadableInput(
            ANSWER_UNKNOWN,
            f"{body.answer!r} is none of its answers.",
            "Answer one of: " + "; ".join(answers) + ".",
            value=body.answer,
            field="body.answer",
        )
    settled = {"settled_at": books.now, "settled_by": given.person, "answer": body.answer}
    base.next_version(books, row, "question", **settled)
    if row.kind == asked_for.KIND:
        asked = asked_for.open_of(books, row.about)
        asked_for.see_to(books, asked, given.person, body.answer)


def _refuse_other_hands(row: QuestionRow, role: str) -> None:
    """A question is settled once, by the role that owns it or by a manager."""
    if row.settled_at is not None:
        raise NotNow(
            QUESTION_SETTLED,
            f"{row.settled_by} settled it: {row.answer}.",
            "Nothing is left to do.",
            value=row.id,
            field="body.question",
        )
    if role not in (row.owner, "manager"):
        raise NotAllowed(
            QUESTION_OF_ANOTHER,
            f"A {row.owner} settles this question.",
            f"Ask the {row.owner}.",
            value=role,
            field="person",
        )
