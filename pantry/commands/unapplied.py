"""Facts that are kept as they came, without effect, and who is asked about them (SY3)."""

from collections.abc import Iterator

from pantry.commands.envelope import Envelope
from pantry.records.books import Books
from pantry.records.questions import ask
from pantry.records.rows import every
from pantry.records.tables import QuestionRow
from pantry.refusals import NotAllowed, NotThere, Refusal

_ANSWERS = ("record it again, corrected", "it did not happen")


def ask_about(books: Books, envelope: Envelope, refusal: Refusal) -> None:
    """Ask the manager about a fact of somebody without the right, and of what depends on it.

    What else cannot be applied is the chef's.
    """
    no_right = isinstance(refusal, NotAllowed) or _depends(books, refusal)
    ask(
        books,
        "no_right" if no_right else "cannot_apply",
        "manager" if no_right else "chef",
        envelope.id,
        recorded=f"{envelope.kind} by {envelope.person or 'nobody'}: {_in_words(envelope)}",
        against=str(refusal),
        answers=_ANSWERS,
    )


def _depends(books: Books, refusal: Refusal) -> bool:
    """Whether what it names is not there because the fact that brought it waits for the manager."""
    if not isinstance(refusal, NotThere) or not refusal.value:
        return False
    waiting = every(books.connection, QuestionRow, house=books.id, kind="no_right")
    return any(f" {refusal.value};" in f"{row.recorded};" for row in waiting)


def _in_words(envelope: Envelope) -> str:
    """Every field with its value, one after the other."""
    return "; ".join(f"{field} {value}" for field, value in _fields("", envelope.body))


def _fields(name: str, value: object) -> Iterator[tuple[str, object]]:
    if isinstance(value, dict):
        for key, part in value.items():
            yield from _fields(f"{name}.{key}" if name else str(key), part)
    elif isinstance(value, list):
        for number, part in enumerate(value):
            yield from _fields(f"{name}[{number}]", part)
    else:
        yield name, value
