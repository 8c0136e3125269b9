"""What the house is, in a few lines."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import plain
from pantry.terminal.words import NEVER, Words, length, many

_HAS = (
    ("items", "item", "items"),
    ("batches", "batch", "batches"),
    ("recipes", "recipe", "recipes"),
    ("services", "service", "services"),
    ("people", "person who works with it", "people who work with it"),
)
_LIMITS = ("min_c", "max_c")


def house(terminal: Console, words: Words, rows: list[Row]) -> None:
    """What it has, who lives there, where things stand, who sells to it."""
    (row,) = rows
    has = "; ".join(many(row["has"][name], one, several) for name, one, several in _HAS)
    terminal.print(plain(f"{has}."))
    people = many(row["people"], "person", "people")
    tables = ", ".join(table["table"] for table in row["tables"]) or NEVER
    terminal.print(plain(f"{people} in the house. Tables by rank: {tables}."))
    areas = "; ".join(_area(words, area) for area in row["areas"]) or NEVER
    terminal.print(plain(f"Storage areas: {areas}."))
    suppliers = ", ".join(supplier["supplier"] for supplier in row["suppliers"]) or NEVER
    terminal.print(plain(f"Suppliers: {suppliers}."))
    terminal.print(
        plain(
            f"Menus are chosen {length(row['notice'])} ahead; money in {row['currency']}, "
            f"{row['unit_system']} units."
        )
    )


def _area(words: Words, area: Row) -> str:
    """`Cold room (chilled, 0 to 5 °C)`."""
    low, high = (area[end] and area[end].replace(".", words.decimal_mark) for end in _LIMITS)
    if low and high:
        return f"{area['area']} ({area['kind']}, {low} to {high} °C)"
    if low or high:
        limit = f"at most {high}" if high else f"at least {low}"
        return f"{area['area']} ({area['kind']}, {limit} °C)"
    return f"{area['area']} ({area['kind']})"
