"""Count a storage area: the books follow the shelf; a person is asked where that is too far."""

from pantry.commands import naming
from pantry.commands.facts import Count
from pantry.commands.given import Given
from pantry.commands.parts import CountedPart
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.ledger import Movement, balance_at, post
from pantry.records.questions import ask
from pantry.records.rows import every
from pantry.records.tables import AreaRow, BatchRow, ItemRow, PromisedRow, ServiceRow
from pantry.refusals import UnreadableInput, declare
from pantry.rules.count_differences import within_tolerance
from pantry.rules.house_time import local_date
from pantry.rules.measure import show
from pantry.rules.stock import BaseUnit

COUNTED_NOTHING = declare("counted_nothing", "A counted line names neither batch nor item.")


def count(books: Books, given: Given[Count]) -> None:
    """Post each difference between what was counted and what stood there when it was counted.

    What went in or out after the count, though written down before it, is not counted against it
    (SY8). Where less was found than is promised for today, the question 'already taken out?' comes
    before the difference (LG3).

    Raises:
        NotThere: an unknown area, batch or item.
        UnreadableInput: a quantity cannot be read, `counted_nothing`.
    """
    area = naming.area(books, given.body.area)
    for number, line in enumerate(given.body.lines):
        field = f"body.lines[{number}]"
        if line.batch is not None:
            batch = naming.batch(books, line.batch, f"{field}.batch")
            item = naming.item(books, batch.item)
            counted = naming.quantity(books, line.quantity, item, f"{field}.quantity", least=0)
            _compare(books, given, area, item, {batch.id: counted}, [batch])
        else:
            _count_item(books, given, area, line, field)


def _count_item(
    books: Books, given: Given[Count], area: AreaRow, line: CountedPart, field: str
) -> None:
    """An item counted whatever the batch: what is missing has gone from what dies first."""
    if line.item is None:
        raise UnreadableInput(
            COUNTED_NOTHING,
            "A counted line names neither a batch nor an item.",
            "Name the batch or the item.",
            field=field,
        )
    item = naming.item(books, line.item, f"{field}.item")
    counted = naming.quantity(books, line.quantity, item, f"{field}.quantity", least=0)
    batches = every(books.connection, BatchRow, house=books.id, item=item.id)
    account = accounts.area(area.id)
    stood = {row.id: balance_at(books, row.id, account, given.at) for row in batches}
    there = [row for row in batches if stood[row.id] > 0]
    there.sort(key=lambda row: (row.usable_until is None, row.usable_until, row.since, row.id))
    missing = max(0, sum(stood[row.id] for row in there) - counted)
    surplus = max(0, counted - sum(stood[row.id] for row in there))
    found: dict[str, int] = {}
    for row in there:
        gone = min(missing, stood[row.id])
        found[row.id] = stood[row.id] - gone
        missing -= gone
    if surplus and there:
        found[there[-1].id] += surplus
    _compare(books, given, area, item, found, there)


def _compare(
    books: Books,
    given: Given[Count],
    area: AreaRow,
    item: ItemRow,
    found: dict[str, int],
    batches: list[BatchRow],
) -> None:
    account = accounts.area(area.id)
    for batch in batches:
        stood = balance_at(books, batch.id, account, given.at)
        difference = found[batch.id] - stood
        if difference < 0 and _may_be_taken_out(books, given, batch, -difference):
            _ask_taken_out(books, given, area, item, batch, -difference)
        elif difference:
            _post(books, given, account, batch, difference)
            if not within_tolerance(stood, found[batch.id], high_risk=item.high_risk):
                _ask_why(books, area, item, batch, stood, found[batch.id])


def _may_be_taken_out(books: Books, given: Given[Count], batch: BatchRow, missing: int) -> bool:
    """Whether so much is promised of the batch to services of the day it was counted on."""
    today = local_date(given.at, books.zone)
    promised = 0
    for row in every(books.connection, PromisedRow, house=books.id, batch=batch.id):
        service = every(books.connection, ServiceRow, house=books.id, id=row.service)
        if service and service[0].on == today:
            promised += row.quantity
    return promised >= missing


def _post(books: Books, given: Given[Count], account: str, batch: BatchRow, amount: int) -> None:
    source, target = (accounts.COUNT_DIFFERENCE, account)
    if amount < 0:
        source, target = target, source
    movement = Movement(
        batch.id, abs(amount), source, target, given.at, reason=given.body.reason or "counted"
    )
    post(books, movement)
    books.touched.add(batch.item)


def _ask_taken_out(
    books: Books,
    given: Given[Count],
    area: AreaRow,
    item: ItemRow,
    batch: BatchRow,
    missing: int,
) -> None:
    lacking = show(missing, BaseUnit(item.base_unit))
    ask(
        books,
        "taken_out",
        "chef",
        f"{given.id}|{batch.id}",
        recorded=f"{item.name}, batch {batch.label}: {lacking} less was counted in {area.name} "
        "than the books have there.",
        against="As much is promised for today, and may have been taken out already.",
        answers=("it was taken out", "it is missing", "count again"),
    )


def _ask_why(
    books: Books, area: AreaRow, item: ItemRow, batch: BatchRow, stood: int, found: int
) -> None:
    unit = BaseUnit(item.base_unit)
    ask(
        books,
        "count_difference",
        "chef",
        f"{books.command}|{batch.id}",
        recorded=f"{item.name}, batch {batch.label}: {show(found, unit)} was counted in "
        f"{area.name}.",
        against=f"The books had {show(stood, unit)} there.",
        answers=("use was not recorded", "the count was wrong", "it is not explained"),
    )
