"""How the tests ask a report of Larkfield Lodge."""

from pantry.records.database import reading
from pantry.reports.view import view
from tests.commands.larkfield import ID
from tests.reports.in_shape import rows_in_shape


def told(lodge, question, *arguments):
    """What a report answers of Larkfield Lodge, at its own time."""
    with reading(lodge.engine) as connection:
        seen = view(connection, ID, lodge.now)
        return rows_in_shape(seen, question, question(seen, *arguments))
