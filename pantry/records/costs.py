"""What a quantity of a batch cost: whole minor units, the last use taking the remainder (MS1)."""

from pantry.records import ledger
from pantry.records.books import Books
from pantry.records.tables import BatchRow


def share_of_cost(books: Books, batch: BatchRow, quantity: int) -> int:
    """The part of a batch's cost that the next so many thousandths carry away."""
    stands = sum(ledger.standing(books, batch.id).values())
    return cost_between(batch, batch.quantity - stands, quantity)


def cost_between(batch: BatchRow, gone: int, quantity: int) -> int:
    """The cost of `quantity` once `gone` has left: shares of whole units that sum to the whole."""
    if batch.quantity <= 0:
        return 0
    upto = min(max(gone + quantity, 0), batch.quantity)
    since = min(max(gone, 0), batch.quantity)
    return batch.cost * upto // batch.quantity - batch.cost * since // batch.quantity
