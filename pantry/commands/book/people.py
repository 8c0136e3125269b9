"""The sheets `people`, `tables` and `constraints`: who works here, who eats, what they cannot."""

import json

from pantry.commands.book import cells
from pantry.commands.book.reading import Line, Names, Reading
from pantry.commands.rights import PERSON_UNKNOWN
from pantry.handbook.allergens import is_listed
from pantry.records.slugs import slug
from pantry.records.tables import AnswersForRow, ConstraintRow, DiningTableRow, PersonRow
from pantry.refusals import declare

DAYS_UPSIDE_DOWN = declare("days_upside_down", "A stretch of days ends before it begins.")

_ROLES = ("porter", "chef", "manager", "approver")


def read_people(reading: Reading) -> None:
    """Every row of `people`."""
    names: Names[str] = Names("people", PERSON_UNKNOWN, "person", {})
    for line in reading.lines("people"):
        row = PersonRow(
            house=reading.house.id,
            id=line.name("name", names),
            name=line.text("name"),
            role=line.read("role", cells.one_of(*_ROLES), "porter"),
            email=line.text("email") or None,
        )
        reading.rows.append(row)
        if table := line.optional("table", reading.tables):  # an empty cell leaves it as it was
            of = {"house": reading.house.id, "person": row.id}
            reading.rows.append(AnswersForRow(**of, dining_table=table))


def read_tables(reading: Reading) -> None:
    """Every row of `tables`."""
    for line in reading.lines("tables"):
        identity = line.name("table", reading.tables)
        reading.tables.things[identity] = line.text("table")
        reading.rows.append(
            DiningTableRow(
                house=reading.house.id,
                id=identity,
                name=line.text("table"),
                rank=line.read("rank", cells.whole(1), 1),
                usual_covers=line.read("usual_covers", cells.whole(), None),
            )
        )


def read_constraints(reading: Reading) -> None:
    """Every row of `constraints`; a person may have several, for other days or foods."""
    count: dict[str, int] = {}
    for line in reading.lines("constraints"):
        table = line.refer("table", reading.tables)
        person = f"{table}|{line.identity('person')}"
        count[person] = count.get(person, 0) + 1
        first = line.read("from", cells.day, None)
        last = line.read("to", cells.day, None)
        if first and last and last < first:
            refuse_backwards(line)
        reading.rows.append(
            ConstraintRow(
                house=reading.house.id,
                id=person if count[person] == 1 else f"{person}|{count[person]}",
                person=line.text("person"),
                dining_table=table,
                cannot_eat=json.dumps(sorted(_foods(line))),
                first=first,
                last=last,
            )
        )


def refuse_backwards(line: Line) -> None:
    """Refuse days that end before they begin."""
    line.fault(
        "to",
        DAYS_UPSIDE_DOWN,
        f"It ends on {line.text('to')} and begins on {line.text('from')}.",
        "Write the first day in from and the last in to.",
    )


def _foods(line: Line) -> list[str]:
    """What somebody cannot eat; a name with a comma in it (`Butter, unsalted`) stays whole."""
    text = line.text("cannot_eat")
    whole = is_listed(text) or slug(text) in line.reading.items.things
    return [text] if text and whole else cells.listed(text)
