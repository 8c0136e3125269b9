"""Set what the house means to spend on deliveries in a week."""

from pantry.commands import base
from pantry.commands.given import Given
from pantry.commands.order_decisions import SetBudget
from pantry.commands.prices import in_house_currency
from pantry.records.books import Books
from pantry.records.rows import add, find
from pantry.records.tables import BudgetRow

WEEK = "week"
"""The one budget there is: that of a week from Monday to Sunday, by when deliveries come."""


def set_budget(books: Books, given: Given[SetBudget]) -> None:
    """Write the week's budget, or that there is none.

    Raises:
        Moved: `base_moved`.
        UnreadableInput: `currency_foreign`.
    """
    row = find(books.connection, BudgetRow, house=books.id, id=WEEK)
    if row is None:
        row = BudgetRow(house=books.id, id=WEEK, version=0)
        add(books.connection, row)
    base.check(books, given, row, "The week's budget")
    amount = in_house_currency(books, given.body.amount, "body.amount")
    base.next_version(books, row, "budget", amount=amount)
