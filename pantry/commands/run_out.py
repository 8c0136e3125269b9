"""What the back door tells the chef and the order desk: what has run out, what else is wanted."""

from pantry.commands import asked_for, base, naming
from pantry.commands.decisions import TickOff
from pantry.commands.facts import AskFor, RunOut
from pantry.commands.given import Given
from pantry.commands.levels import set_level_of
from pantry.records.books import Books
from pantry.records.questions import ask
from pantry.records.rows import add, find
from pantry.records.tables import AskedForRow, ItemRow
from pantry.refusals import NotThere, declare

ASKED_FOR_UNKNOWN = declare("asked_for_unknown", "Nobody asked for that, or it was taken back.")


def run_out(books: Books, given: Given[RunOut]) -> None:
    """Nothing of an item was found: the chef is asked at once, and the order desk is told.

    What the books say of it stays as it is, since only a count changes that; of what nobody counts
    it is out. The question goes by itself once some of it comes.

    Raises:
        NotThere: `item_unknown`.
    """
    item = naming.item(books, given.body.item)
    row = _asked(books, given, (given.body.note or "").strip() or None)
    row.item, row.level_before = item.id, None if item.measured else item.level
    add(books.connection, row)
    if not item.measured:
        set_level_of(books, item.id, "out", given.at)
    _ask_the_chef(books, item)


def ask_for(books: Books, given: Given[AskFor]) -> None:
    """Write down what somebody wants of the order desk that is not stocked."""
    add(books.connection, _asked(books, given, given.body.words.strip()))


def tick_off(books: Books, given: Given[TickOff]) -> None:
    """Somebody has seen to what was asked for; of an item to all that was asked of it.

    Raises:
        NotThere: `asked_for_unknown`.
        Moved: `base_moved`.
    """
    row = find(books.connection, AskedForRow, house=books.id, id=given.body.asked)
    if row is None:
        raise NotThere(
            ASKED_FOR_UNKNOWN,
            f"Nobody asked for {given.body.asked!r}, or it was taken back.",
            "Look at what is asked for now.",
            value=given.body.asked,
            field="body.asked",
        )
    base.check(books, given, row, "What was asked for")
    if row.closed_at is None:
        of_it = asked_for.open_of(books, row.item) if row.item else [row]
        asked_for.see_to(books, of_it, given.person, "the order desk has seen to it")


def _asked(books: Books, given: Given[AskFor] | Given[RunOut], words: str | None) -> AskedForRow:
    books.note("asked_for", given.id)
    return AskedForRow(
        house=books.id,
        id=given.id,
        words=words,
        person=given.person,
        at=given.at,
        last_command=given.id,
    )


def _ask_the_chef(books: Books, item: ItemRow) -> None:
    ask(
        books,
        asked_for.KIND,
        "chef",
        item.id,
        recorded=f"The back door says: we are out of {item.name}.",
        against="It is not answered yet, and none of it has come since.",
        answers=("it is bought or ordered", "we do without it", "some is there after all"),
    )
