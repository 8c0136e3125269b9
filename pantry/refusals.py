"""Everything that can be refused, as one tree; codes here, words for people in the client.

    Refusal                      something was asked that cannot be done
    ├── UnreadableInput          text that cannot be read as what it should be
    │   └── FaultyBook           a house book with every fault in it, by file, row and column
    ├── MissingFact              a fact of an item or of the house is not known, and is not guessed
    ├── UnsafeFood               food safety forbids it
    ├── NotThere                 what was named does not exist
    ├── NotNow                   the state of things does not allow it
    ├── NotAllowed               the person or device has no right to it
    ├── Moved                    a decision was taken on a version that is no longer the present one
    └── BrokenEnvelope           a command that is no command, so that nothing of it is kept

Every refusal carries a stable `code`, the value it is about, the field where it stood, and what to
do next. A new code is added to `CODES` with one sentence; a test checks that the guide names it.
"""

from dataclasses import dataclass
from datetime import datetime
from typing import ClassVar


@dataclass(eq=False)
class Refusal(Exception):  # noqa: N818 - the trade refuses; it does not err
    """Something was asked that cannot be done.

    Attributes:
        code: stable, lower case with underscores, one of `CODES`.
        problem: what is wrong, in one plain sentence, with the value.
        todo: what the person can do next, in one plain sentence.
        value: the value that was refused, as text.
        field: where it stood: a field of a command (`body.quantity`) or a column of a sheet.
    """

    code: str
    problem: str
    todo: str
    value: str = ""
    field: str = ""

    status: ClassVar[int] = 422

    def __str__(self) -> str:
        """The problem and what to do, as the terminal shows it."""
        return f"{self.problem} {self.todo}".strip()

    def at(self, field: str) -> "Refusal":
        """The same refusal, said of this field, unless a deeper field is already named."""
        if self.field:
            return self
        return type(self)(self.code, self.problem, self.todo, self.value, field)


class UnreadableInput(Refusal):
    """Text that cannot be read as what it should be."""


@dataclass(frozen=True, slots=True)
class Fault:
    """One thing that is wrong in a house book, where it stands, and what to do about it.

    Attributes:
        file: the sheet, as a file of a folder or a sheet of a workbook is called.
        row: counted as a spreadsheet does; the heading is row 1.
        column: its heading; empty where the whole row or sheet is meant.
        value: what stands there.
        code, problem, todo: as a `Refusal` has them.
    """

    file: str
    row: int
    column: str
    value: str
    code: str
    problem: str
    todo: str


@dataclass(eq=False)
class FaultyBook(UnreadableInput):
    """A house book of which nothing was taken, with every fault that was found in it."""

    faults: tuple[Fault, ...] = ()


class MissingFact(Refusal):
    """A fact of an item or of the house is not known, and is not guessed (MS3)."""


class UnsafeFood(Refusal):
    """Food safety forbids it (SL2, SL3)."""


class NotThere(Refusal):
    """What was named does not exist in this house."""

    status = 404


class NotNow(Refusal):
    """The state of things does not allow it."""

    status = 409


class NotAllowed(Refusal):
    """The person or device has no right to it."""

    status = 403


@dataclass(frozen=True, slots=True)
class Stands:
    """What stands instead of what a decision was taken on, and the command that made it so.

    Attributes:
        version: of the thing, now.
        command, kind, person, at: which command it was, whose, and when it happened.
        body: as it came, canonical JSON; empty where a whole house book was taken in.
    """

    version: int
    command: str
    kind: str
    person: str
    at: datetime
    body: str


@dataclass(eq=False)
class Moved(Refusal):
    """A decision was taken on a version that is no longer the present one (SY3)."""

    stands: Stands | None = None

    status = 409


class BrokenEnvelope(Refusal):
    """A command that is no command, so that nothing of it is kept and its number stays free."""

    status = 400


CODES: dict[str, str] = {}
"""Every code in use, with the sentence the guide gives it; filled by `declare` below."""


def declare(code: str, sentence: str) -> str:
    """Register a code where the guide's test can find it, and give it back."""
    CODES[code] = sentence
    return code
