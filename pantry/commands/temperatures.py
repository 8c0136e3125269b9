"""Temperatures as they were taken, held against the house's food-safety policy."""

from pantry.commands.parts import Celsius
from pantry.records.books import Books
from pantry.records.read.lives import food_of
from pantry.records.tables import AreaRow, ItemRow
from pantry.refusals import Refusal
from pantry.rules.goods_in import received_as
from pantry.rules.safety import Judgement, receiving
from pantry.rules.stock import AreaKind, DateKind
from pantry.rules.temperature import read_temperature


def read_celsius(written: Celsius, field: str = "body.temperature_c") -> int:
    """A temperature in tenths of a degree Celsius, from text or a JSON number.

    Raises:
        UnreadableInput: `temperature_unreadable`.
    """
    try:
        return read_temperature(str(written))
    except Refusal as refusal:
        raise refusal.at(field) from refusal


def at_the_door(
    books: Books, item: ItemRow, area: AreaRow, kind: DateKind, temperature: int | None
) -> Judgement | None:
    """What to do with food of this temperature; None where none was taken, or nobody needs one."""
    rules = books.lives.policy
    named = food_of(rules, item.group)
    food = received_as(named, AreaKind(area.kind), kind, high_risk=item.high_risk)
    if temperature is None or food is None:
        return None
    return receiving(rules, food, temperature)
