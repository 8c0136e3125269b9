"""The sheet `areas`: storage areas with their temperature limits."""

from pantry.commands.book import cells
from pantry.commands.book.reading import Reading
from pantry.records.tables import AreaRow
from pantry.refusals import declare
from pantry.rules.stock import AreaKind
from pantry.rules.temperature import read_temperature

LIMITS_UPSIDE_DOWN = declare("limits_upside_down", "An area's highest temperature is its lowest.")


def read_areas(reading: Reading) -> None:
    """Every row of `areas`, in the order in which the shelves are walked."""
    for order, line in enumerate(reading.lines("areas")):
        identity = line.name("area", reading.areas)
        kind = line.read("kind", cells.one_of(*AreaKind), AreaKind.AMBIENT.value)
        reading.areas.things[identity] = AreaKind(kind)
        low = line.read("min_c", read_temperature, None)
        high = line.read("max_c", read_temperature, None)
        if low is not None and high is not None and low > high:
            line.fault(
                "max_c",
                LIMITS_UPSIDE_DOWN,
                f"It is to be at least {line.text('min_c')} and at most {line.text('max_c')}.",
                "Write the lower limit in min_c and the upper one in max_c.",
            )
        reading.rows.append(
            AreaRow(
                house=reading.house.id,
                id=identity,
                name=line.text("area"),
                kind=kind,
                min_tenths=low,
                max_tenths=high,
                shelf_order=order,
            )
        )
