"""Who works in the house, and who of them can come in."""

from collections import Counter

from pantry.records.rows import every
from pantry.records.tables import AnswersForRow, PasswordRow, PersonRow, SessionRow
from pantry.reports.report import Row
from pantry.reports.view import View


def people(view: View) -> list[Row]:
    """A row for each person, by name: role, table, has a password, open sessions."""
    known = {row.person for row in every(view.connection, PasswordRow, house=view.id)}
    sessions = Counter(row.person for row in every(view.connection, SessionRow, house=view.id))
    rows = every(view.connection, PersonRow, house=view.id)
    answer = every(view.connection, AnswersForRow, house=view.id)
    tables = {row.person: view.tables[row.dining_table].name for row in answer}
    return [
        {
            "id": row.id,
            "name": row.name,
            "role": row.role,
            "email": row.email,
            "active": row.active,
            "answers_for": tables.get(row.id),
            "has_password": row.id in known,
            "sessions": sessions[row.id],
        }
        for row in sorted(rows, key=lambda row: row.name)
    ]
