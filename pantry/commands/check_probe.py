"""Write down what a probe showed in ice and water and in boiling water."""

from pantry.commands.facts import CheckProbe
from pantry.commands.given import Given
from pantry.commands.temperatures import read_celsius
from pantry.records.books import Books
from pantry.records.rows import add
from pantry.records.tables import ProbeCheckRow
from pantry.refusals import UnreadableInput, declare
from pantry.rules.probes import is_right

NOTHING_SHOWN = declare("nothing_shown", "A probe was checked, and nothing it showed is given.")


def check_probe(books: Books, given: Given[CheckProbe]) -> None:
    """A check, with whether the probe was right by the house's policy.

    Raises:
        UnreadableInput: `temperature_unreadable`, `nothing_shown`.
    """
    body = given.body
    ice = None if body.ice_c is None else read_celsius(body.ice_c, "body.ice_c")
    boiling = None if body.boiling_c is None else read_celsius(body.boiling_c, "body.boiling_c")
    if ice is None and boiling is None:
        raise UnreadableInput(
            NOTHING_SHOWN,
            f"Nothing is given that {body.probe} showed.",
            "Give what it showed in ice and water, in boiling water, or in both.",
            value=body.probe,
            field="body.ice_c",
        )
    check = ProbeCheckRow(
        house=books.id,
        command=given.id,
        probe=body.probe.strip(),
        ice_tenths=ice,
        boiling_tenths=boiling,
        is_right=is_right(books.lives.policy, ice, boiling),
        at=given.at,
        person=given.person,
    )
    add(books.connection, check)
    books.note("probe", check.probe)
