"""How the tests ask a report of Larkfield Lodge."""

from pantry.records.database import reading
from pantry.reports.view import view
from tests.commands.larkfield import ID


def told(lodge, question, *arguments):
    """What a report answers of Larkfield Lodge, at its own time."""
    with reading(lodge.engine) as connection:
        return question(view(connection, ID, lodge.now), *arguments)
