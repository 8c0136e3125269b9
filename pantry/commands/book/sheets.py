"""The sheets of a house book and their columns, as data."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from pantry.refusals import Fault

Cells = Mapping[str, str]
"""One row: the text of its cells by column; a row without any is empty."""


@dataclass(frozen=True, slots=True)
class Columns:
    """The columns of one sheet, and those of them that every row must fill."""

    every: tuple[str, ...]
    required: frozenset[str]


@dataclass(frozen=True, slots=True)
class Sheet:
    """One sheet as it came.

    Attributes:
        file: what a person sees it as: `items.csv` in a folder, `items` in a workbook.
        heading: its columns.
        rows: by their number in the spreadsheet, the heading being row 1; empty ones left out.
    """

    file: str
    heading: tuple[str, ...]
    rows: tuple[tuple[int, Cells], ...]


@dataclass(frozen=True, slots=True)
class HouseBook:
    """The sheets by name, and what is wrong with the files they came in."""

    sheets: Mapping[str, Sheet]
    faults: tuple[Fault, ...] = ()


def _columns(written: str) -> Columns:
    """`name email?`: two columns, of which the second may be left empty or out."""
    words = written.split()
    return Columns(
        every=tuple(word.removesuffix("?") for word in words),
        required=frozenset(word for word in words if not word.endswith("?")),
    )


SHEETS: Mapping[str, Columns] = MappingProxyType(
    {
        name: _columns(written)
        for name, written in {
            "house": "name time_zone currency unit_system notice warning? last_call? "
            "receiving_margin? policy allergen_list people? decimal_mark?",
            "areas": "area kind min_c? max_c?",
            "items": "item base_unit group? area? counted? density_g_per_ml? piece_weight_g? "
            "opened_life_days? thawed_life_hours? frozen_life_days? high_risk? whole? contains? "
            "may_contain? gtin? floor? order_up_to? daily_per_head?",
            "suppliers": "supplier email? minimum? charge? may_fail? send_minutes? time_zone? "
            "country? subdivision? on_holiday? holiday_orders? fails_percent? order_given? "
            "order_words? substitution? fallback_shop?",
            "deliveries": "supplier weekday time cutoff_days_before cutoff_time",
            "closures": "supplier date what instead? to? reason?",
            "packs": "supplier item pack quantity price gtin? life_on_arrival_days?",
            "batches": "label item quantity area date_kind date? lot? state? state_date? cost? "
            "supplier? pieces?",
            "recipes": "recipe kind yield dates life_days? lead? full_recipes? area? approved? "
            "season_from? season_to? unit_system? method?",
            "ingredients": "recipe ingredient amount as? trimming_yield? scaling?",
            "variants": "recipe variant change ingredient with? amount?",
            "substitutes": "item substitute ratio when?",
            "tables": "table rank usual_covers?",
            "constraints": "person table cannot_eat from? to?",
            "services": "date meal time table covers state",
            "choices": "date meal table course dish variant? portions? chosen?",
            "orders": "supplier delivery_date item pack packs",
            "harvest": "item from to quantity",
            "people": "name role email? table?",
            "stays": "who table heads? from from_at? to? to_at? said_by? said_at?",
            "away": "who table heads? from to? meal? said_by? said_at?",
            "rota": "table weekday? date? meal? heads",
        }.items()
    }
)
"""Every sheet, in the order in which a book is read."""


def as_body(book: HouseBook) -> dict[str, list[dict[str, str]]]:
    """The sheets as a command carries them: row 2 first, an empty row as no cells at all."""
    body: dict[str, list[dict[str, str]]] = {}
    for name, sheet in book.sheets.items():
        by_number = dict(sheet.rows)
        last = max(by_number, default=1)
        body[name] = [dict(by_number.get(number, {})) for number in range(2, last + 1)]
    return body


def from_body(body: Mapping[str, list[dict[str, str]]]) -> HouseBook:
    """The book that a command carries; a sheet's heading is every column that a row of it has."""
    sheets = {}
    for name, rows in body.items():
        heading = dict.fromkeys(column for row in rows for column in row)
        numbered = tuple((number, row) for number, row in enumerate(rows, start=2) if row)
        sheets[name] = Sheet(name, tuple(heading) or _every(name), numbered)
    return HouseBook(sheets)


def _every(name: str) -> tuple[str, ...]:
    """Without a row, nothing says that a column is missing."""
    return SHEETS[name].every if name in SHEETS else ()
