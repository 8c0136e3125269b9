"""Set a number of the food-safety policy otherwise: stricter as the house likes, looser by name."""

from pantry.commands.decisions import SetPolicy
from pantry.commands.given import Given
from pantry.handbook.policies import policy
from pantry.records.books import Books
from pantry.records.rows import add, remove
from pantry.records.tables import PolicyOverrideRow
from pantry.refusals import Refusal
from pantry.rules.house_policy import Override, with_house_number


def set_policy(books: Books, given: Given[SetPolicy]) -> None:
    """Write the house's own number, with the person who takes it on and why (SL5).

    Raises:
        NotThere: `policy_number_unknown`.
        UnsafeFood: `looser_than_policy`, without a reason.
    """
    body = given.body
    override = Override(given.person, body.reason)
    try:
        with_house_number(policy(books.house.policy), body.name, body.value, override)
    except Refusal as refusal:
        raise refusal.at("body.value") from refusal
    remove(books.connection, PolicyOverrideRow, house=books.id, name=body.name)
    row = PolicyOverrideRow(
        house=books.id,
        name=body.name,
        value=body.value,
        person=given.person,
        reason=body.reason,
    )
    add(books.connection, row)
    books.note("policy", body.name)
    books.settings_changed()
