"""Temperatures at the back door, held against the house's food-safety policy."""

from pantry.records.books import Books
from pantry.records.slugs import slug
from pantry.records.tables import AreaRow, ItemRow
from pantry.refusals import Refusal
from pantry.rules.safety import Verdict, receiving
from pantry.rules.stock import AreaKind
from pantry.rules.temperature import read_temperature


def read_celsius(written: str | float | None) -> int | None:
    """A temperature in tenths of a degree Celsius, from text or a JSON number.

    Raises:
        UnreadableInput: `temperature_unreadable`.
    """
    if written is None:
        return None
    try:
        return read_temperature(str(written))
    except Refusal as refusal:
        raise refusal.at("body.temperature_c") from refusal


def at_the_door(books: Books, item: ItemRow, area: AreaRow, temperature: int | None) -> list[str]:
    """Why food of this temperature must wait for a person; nothing where it may go in.

    The limit is that of the item's group where the policy has one, else of the place it goes to.
    """
    if temperature is None:
        return []
    rules = books.lives.policy
    group = slug(item.group).replace("-", "_")
    food = group if group in rules.names("receiving") else area.kind
    if food == AreaKind.AMBIENT:
        return []
    judged = receiving(rules, food, temperature)
    return [] if judged.verdict is Verdict.ACCEPT else [judged.reason]
