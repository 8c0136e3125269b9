"""Where a batch stands, and taking from there (LG1, LG3)."""

from dataclasses import replace

from pantry.commands import asked_for, clocks, doubts
from pantry.records import accounts, ledger
from pantry.records.books import Books
from pantry.records.ledger import Movement
from pantry.records.rows import every, one
from pantry.records.tables import AreaRow, BalanceRow, BatchRow, ItemRow

ANYWHERE = ""
"""The source of a movement when nobody said where the batch stood."""

_FIRST = {"area": 0, "hold": 1, "emergency": 2, "kitchen": 3}
"""What is taken from first where a batch stands in several places and nobody said which."""


def stood(area: str | None) -> str:
    """The source of a movement: the storage area a person named, or anywhere."""
    return accounts.area(area) if area else ANYWHERE


def draw(books: Books, batch: BatchRow, wanted: Movement) -> str:
    """Take what a movement asks for from where the batch stands; answer where most came from.

    Its source is an area that was named, or `ANYWHERE`: then the storage areas are taken from
    first, the fullest before the others, then what is on hold, then the emergency meal, then what
    was taken out already. What the books have nowhere is taken all the same, from the first of
    these: a fact is recorded whatever the books say.
    """
    parts = parts_of(books, batch, wanted)
    for part in parts:
        take(books, batch, part)
    return parts[0].source


def parts_of(books: Books, batch: BatchRow, wanted: Movement) -> list[Movement]:
    """The movements that `draw` would post, one for each place taken from; pieces in the first.

    Where nobody said how many pieces it was, what takes all that stands takes all its pieces (MS1).
    """
    parts = _parts(_places(books, batch, wanted), wanted.quantity)
    if wanted.pieces is None and batch.pieces is not None:
        return [
            replace(wanted, source=source, quantity=quantity, pieces=_all(books, batch, source))
            if quantity == ledger.balances(books, batch.id).get(source)
            else replace(wanted, source=source, quantity=quantity)
            for source, quantity in parts
        ]
    return [
        replace(wanted, source=source, quantity=quantity, pieces=None if number else wanted.pieces)
        for number, (source, quantity) in enumerate(parts)
    ]


def _all(books: Books, batch: BatchRow, account: str) -> int:
    """How many pieces of a batch stand on an account."""
    of_batch = {"house": books.id, "batch": batch.id, "account": account}
    return one(books.connection, BalanceRow, **of_batch).pieces


def take(books: Books, batch: BatchRow, movement: Movement) -> None:
    """Post a movement of a batch, and ask where it contradicts what the books or the rules say.

    Of what nobody counts there is nothing to move.
    """
    if not movement.quantity:
        return
    posted = ledger.post(books, movement)
    books.touched.add(batch.item)
    for account in (movement.source, movement.target):
        if accounts.is_service(account):
            books.taken.add((accounts.place(account), batch.item))
    if posted.left < 0 and accounts.kind(movement.source) in accounts.PHYSICAL:
        doubts.ask_about_overdraw(books, batch, movement.source, posted.left)
    if _is_new(movement):
        asked_for.came(books, batch.item, movement.at)
    for account in posted.beside:
        clocks.ask_about_movement(books, batch, account)
    if accounts.kind(movement.target) in {"kitchen", "served"}:
        doubts.ask_about_use(books, batch, movement)


def _is_new(movement: Movement) -> bool:
    """Whether something usable has come that was not there before."""
    is_there = accounts.kind(movement.target) == "area" and movement.reverses is None
    return is_there and movement.source in accounts.ORIGINS


def home(books: Books, batch: BatchRow) -> str:
    """The storage area a batch belongs in: one it stood in, else its item's, else the first."""
    for account in ledger.accounts_of(books, batch.id):
        if accounts.kind(account) == "area":
            return accounts.place(account)
    item = one(books.connection, ItemRow, house=books.id, id=batch.item)
    return item.area or every(books.connection, AreaRow, house=books.id)[0].id


def _places(books: Books, batch: BatchRow, wanted: Movement) -> list[tuple[str, int]]:
    """Where it can be taken from, in order, with what stands there; never empty."""
    named = accounts.place(wanted.source)
    stands = {
        account: quantity
        for account, quantity in ledger.standing(books, batch.id).items()
        if quantity > 0
        and account != wanted.target
        and (wanted.source == ANYWHERE or accounts.place(account) == named)
    }
    if not stands:
        return [(wanted.source or accounts.area(home(books, batch)), 0)]

    def order(account: str) -> tuple[int, bool, int, str]:
        first = _FIRST[accounts.kind(account)]
        return first, accounts.is_service(account), -stands[account], account

    return [(account, stands[account]) for account in sorted(stands, key=order)]


def _parts(places: list[tuple[str, int]], quantity: int) -> list[tuple[str, int]]:
    """So much of each place, the first taking also what the books have in none."""
    parts: dict[str, int] = {}
    rest = quantity
    for account, stands in places:
        part = min(rest, stands)
        if part or not parts:
            parts[account] = part
        rest -= part
    parts[places[0][0]] += rest
    return list(parts.items())
