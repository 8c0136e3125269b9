"""The worksheets of an XLSX workbook, every cell as the text a person sees in it.

What reads one is slow to come, and every start of the server and most commands go without it.
"""

from collections.abc import Iterator, Sequence
from datetime import date, datetime, time, timedelta
from decimal import Decimal
from pathlib import Path
from typing import Any
from zipfile import BadZipFile, ZipFile

from pantry.refusals import Fault, declare
from pantry.rules.house_time import Span, write_span

CELL_NOT_COMPUTED = declare(
    "cell_not_computed", "A formula of the workbook has no result, or an error for one."
)

Worksheet = tuple[str, list[list[str]], tuple[Fault, ...]]
"""A worksheet's name, its rows of text, and the cells that show no value."""

_SHOWN_DIGITS = 15
"""A spreadsheet keeps and shows so many digits of a number (ECMA-376 stores IEEE 754 doubles)."""


class UnreadableWorkbookError(Exception):
    """The file is no workbook that can be read."""


def worksheets(path: Path) -> list[Worksheet]:
    """Every worksheet of the workbook, in its order.

    Raises:
        UnreadableWorkbookError: it is none.
    """
    from openpyxl import load_workbook  # noqa: PLC0415 - see above
    from openpyxl.utils.exceptions import InvalidFileException  # noqa: PLC0415 - as above

    try:
        book = load_workbook(path, read_only=True, data_only=True)
        formulas = load_workbook(path, read_only=True) if _has_formulas(path) else None
        found = [
            _worksheet(sheet, formulas[sheet.title] if formulas else None)
            for sheet in book.worksheets
        ]
        for each in (book, formulas):
            if each:
                each.close()
    except (BadZipFile, InvalidFileException, KeyError, ValueError, OSError) as error:
        raise UnreadableWorkbookError(f"it is no XLSX workbook ({error})") from error
    return found


def _has_formulas(path: Path) -> bool:
    with ZipFile(path) as parts:
        sheets = (name for name in parts.namelist() if name.startswith("xl/worksheets/"))
        return any(b"<f>" in (xml := parts.read(name)) or b"<f " in xml for name in sheets)


def _worksheet(sheet: Any, formulas: Any) -> Worksheet:  # noqa: ANN401 - openpyxl is not typed
    name = sheet.title.strip().casefold()
    rows: list[list[str]] = []
    faults: list[Fault] = []
    for each in filter(None, (sheet, formulas)):
        each.reset_dimensions()  # some programs write a size that is not the sheet's
    written = formulas.iter_rows() if formulas else None
    for number, cells in enumerate(sheet.iter_rows(), start=1):
        rows.append([text_of(cell.value) for cell in cells])
        formula = next(written, ()) if written else ()
        faults.extend(_uncertain(name, number, rows[0], cells, formula))
    return name, rows, tuple(faults)


def _uncertain(
    name: str,
    number: int,
    heading: Sequence[str],
    cells: Any,  # noqa: ANN401 - openpyxl is not typed
    written: Any,  # noqa: ANN401 - as above
) -> Iterator[Fault]:
    """The cells that are an error, or a formula nobody has computed."""
    for place, cell in enumerate(cells):
        formula = place < len(written) and written[place].data_type == "f"
        if cell.data_type == "e" or (formula and cell.value is None):
            column = heading[place] if place < len(heading) else ""
            shown = "" if cell.value is None else str(cell.value)
            yield Fault(
                name,
                number,
                column,
                shown,
                CELL_NOT_COMPUTED,
                f"The formula of {column or 'the cell'} in row {number} has no result.",
                "Open the workbook in a spreadsheet program, mend the formula and save it, or "
                "write the value itself.",
            )


def text_of(value: object) -> str:
    """What a person sees in a cell: ISO dates, 24-hour times, plain decimal numbers, yes and no."""
    match value:
        case None:
            text = ""
        case bool():
            text = "yes" if value else "no"
        case float():
            text = f"{Decimal(f'{value:.{_SHOWN_DIGITS}g}').normalize():f}"
        case datetime():
            text = _instant(value)
        case date():
            text = value.isoformat()
        case time():
            text = value.isoformat("seconds").removesuffix(":00")
        case timedelta():
            text = write_span(Span(exact=value))
        case _:
            text = str(value).strip()
    return text


def _instant(value: datetime) -> str:
    whole = value.replace(microsecond=0) + timedelta(seconds=round(value.microsecond / 1_000_000))
    if whole.time() == time():
        return whole.date().isoformat()
    return whole.isoformat()
