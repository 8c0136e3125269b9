"""A count of one storage area, as it is being written down (LG3)."""

from dataclasses import dataclass

from pantry.commands.facts import Count
from pantry.commands.given import Given
from pantry.records import accounts, ledger
from pantry.records.books import Books
from pantry.records.questions import close
from pantry.records.rows import every
from pantry.records.tables import AreaRow, BalanceRow, BatchRow
from pantry.rules.moments import Moment

ANSWERED_BY_A_COUNT = ("which_was_first", "count_again")
"""What is asked about a batch on a shelf, and has its answer once it is counted there."""


@dataclass(frozen=True, slots=True)
class Counting:
    """Who counted which area when, and the books it is held against."""

    books: Books
    given: Given[Count]
    area: AreaRow

    @property
    def moment(self) -> Moment:
        """When it was counted."""
        return self.books.moment(self.given.at)

    @property
    def accounts(self) -> tuple[str, ...]:
        """Everything that stands in the area: on hold and the emergency meal are counted too."""
        place = self.area.id
        return accounts.area(place), accounts.hold(place), accounts.emergency(place)

    def standing(self, batch: str) -> dict[str, int]:
        """What stood there of a batch when it was counted, by account."""
        held = ledger.balances_at(self.books, batch, self.moment)
        return {account: held[account] for account in self.accounts if held.get(account)}

    def stood(self, batch: str) -> int:
        """What stood there of a batch in all when it was counted."""
        return sum(self.standing(batch).values())

    def pieces_stood(self, batch: str) -> int:
        """How many pieces stood there of a batch when it was counted, in thousandths (MS1)."""
        held = ledger.pieces_at(self.books, batch, self.moment)
        return sum(held.get(account, 0) for account in self.accounts)

    def is_overtaken(self, batch: str) -> bool:
        """Whether it was counted there again since: then the later count stands (SY8)."""
        counted = (ledger.last_counted(row) for row in self._balances(batch) if row.counted_at)
        return any(self.moment.is_before(each) for each in counted)

    def mark(self, batch: BatchRow) -> None:
        """Write that it was counted; what asked about its shelf has its answer."""
        shelf = accounts.area(self.area.id)
        stood_on = {row.account for row in self._balances(batch.id)}
        for account in sorted(stood_on | {shelf}):
            ledger.counted(self.books, batch.id, account, self.moment)
            self._close("overdrawn", f"{batch.id}|{account}")
        for kind in ANSWERED_BY_A_COUNT:
            self._close(kind, self.about(batch))

    def about(self, batch: BatchRow) -> str:
        """What a question about the batch on this shelf is about."""
        return f"{accounts.area(self.area.id)}|{batch.id}"

    def _close(self, kind: str, about: str) -> None:
        close(self.books, kind, about, "it was counted", self.given.person)

    def _balances(self, batch: str) -> list[BalanceRow]:
        rows = every(self.books.connection, BalanceRow, house=self.books.id, batch=batch)
        return [row for row in rows if row.account in self.accounts]
