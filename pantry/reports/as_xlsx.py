"""Any report's rows as a workbook: numbers as numbers, money in its own unit, text as text.

What stands inside a row is spread over columns as in the CSV. Text is never taken for a formula.
"""

import io
from collections.abc import Iterable, Iterator, Mapping
from decimal import Decimal
from typing import Any

from pantry.handbook.currencies import CURRENCIES
from pantry.reports.report import Row

XLSX = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"

_WIDEST, _NARROWEST, _ROOM = 60, 8, 2
_LONGEST_NAME = 31
"""Letters in the name of a worksheet (ECMA-376: Excel takes no more)."""


def as_xlsx(name: str, rows: Iterable[Row]) -> bytes:
    """A workbook of one worksheet: a heading that stays in sight, and a line for each row."""
    from openpyxl import Workbook  # noqa: PLC0415 - large, and few ask for it
    from openpyxl.styles import Font  # noqa: PLC0415 - as above

    lines = [dict(_spread("", row)) for row in rows]
    columns = list(dict.fromkeys(column for line in lines for column in line))
    book = Workbook()
    sheet: Any = book.active
    sheet.title = name[:_LONGEST_NAME]
    for place, column in enumerate(columns, start=1):
        _write(sheet.cell(1, place), column)
        sheet.cell(1, place).font = Font(bold=True)
        wide = max([len(column), *(len(str(line.get(column, ""))) for line in lines)])
        letter = sheet.cell(1, place).column_letter
        sheet.column_dimensions[letter].width = min(_WIDEST, max(_NARROWEST, wide + _ROOM))
        for number, line in enumerate(lines, start=2):
            _write(sheet.cell(number, place), line.get(column))
    sheet.freeze_panes = "A2"
    written = io.BytesIO()
    book.save(written)
    return written.getvalue()


def _write(cell: Any, value: str | int | Decimal | None) -> None:  # noqa: ANN401 - openpyxl is not typed
    cell.value = value
    if isinstance(value, str):
        cell.data_type = "s"
    if isinstance(value, Decimal):
        places = -int(value.as_tuple().exponent)
        cell.number_format = f"0.{'0' * places}" if places > 0 else "0"


def _spread(name: str, value: object) -> Iterator[tuple[str, str | int | Decimal | None]]:
    match value:
        case {"minor": int(minor), "currency": str(currency)}:
            known = CURRENCIES.get(currency)
            yield name, Decimal(minor).scaleb(-(known.decimals if known else 2))
            yield f"{name} currency", currency
        case {"value": str(amount), "unit": unit}:
            yield name, Decimal(amount)
            yield f"{name} unit", str(unit)
        case Mapping():
            for key, part in value.items():
                yield from _spread(f"{name} {key}".strip(), part)
        case list():
            if not any(isinstance(part, Mapping | list) for part in value):
                yield name, "; ".join(str(part) for part in value)
        case bool():
            yield name, "yes" if value else "no"
        case None | int():
            yield name, value
        case _:
            yield name, str(value)
