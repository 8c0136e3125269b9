"""Whose constraints somebody who is signed in is told of."""

from sqlalchemy import Connection

from pantry.access.sessions import Signed
from pantry.commands.telling import Diners
from pantry.records.rows import every, find
from pantry.records.tables import AnswersForRow, ConstraintRow


def diners_of(connection: Connection, who: Signed) -> Diners | None:
    """Of who eats at the table they answer for; None: of everybody."""
    row = find(connection, AnswersForRow, house=who.house, person=who.person)
    if who.role != "approver" or row is None:
        return None
    rows = every(connection, ConstraintRow, house=who.house, dining_table=row.dining_table)
    return Diners(row.dining_table, frozenset(each.person for each in rows))
