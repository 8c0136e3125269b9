"""Write down the temperature of a storage area, and hold what stood in one that has failed."""

from pantry.commands import failed_places, naming
from pantry.commands.facts import TakeTemperature
from pantry.commands.given import Given
from pantry.commands.temperatures import read_celsius
from pantry.records.books import Books
from pantry.records.rows import add
from pantry.records.tables import TemperatureRow
from pantry.rules.cold_places import limits_of
from pantry.rules.stock import AreaKind


def take_temperature(books: Books, given: Given[TakeTemperature]) -> None:
    """A reading, as it stands to the limits of its place; where the place has failed, what follows.

    Raises:
        NotThere: `area_unknown`.
        UnreadableInput: `temperature_unreadable`.
    """
    body = given.body
    area = naming.area(books, body.area)
    tenths = read_celsius(body.temperature_c)
    kind = AreaKind(area.kind)
    limits = limits_of(books.lives.policy, kind, area.min_tenths, area.max_tenths)
    reading = TemperatureRow(
        house=books.id,
        command=given.id,
        area=area.id,
        tenths=tenths,
        warmth=limits.judge(tenths).value,
        done=body.done,
        note=(body.note or "").strip() or None,
        at=given.at,
        person=given.person,
    )
    add(books.connection, reading)
    books.note("area", area.id)
    failed_places.look(books, area, limits, reading)
