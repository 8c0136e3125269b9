"""From the rows of a file or worksheet to a sheet: heading, cells, row numbers."""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence

from pantry.commands.book.sheets import Sheet
from pantry.refusals import Fault, declare

COLUMN_TWICE = declare("column_twice", "Two columns of a sheet have the same heading.")
CELL_WITHOUT_COLUMN = declare("cell_without_column", "A cell stands under no heading.")
HEADING_MISSING = declare("heading_missing", "A sheet has no heading row.")


def as_sheet(file: str, rows: Iterable[Sequence[str]]) -> tuple[Sheet, tuple[Fault, ...]]:
    """The sheet that these rows are, the first being its heading, and what is wrong with them.

    A heading is read whatever its case and spacing (`Base unit` is `base_unit`). Empty rows keep
    their number and are left out.

    Args:
        file: what a person sees the sheet as.
        rows: the text of each cell, row by row.
    """
    lines = iter(rows)
    heading = [_plain(cell) for cell in next(lines, ())]
    while heading and not heading[-1]:
        heading.pop()
    if not heading:
        return Sheet(file, (), ()), (_no_heading(file),)
    faults = list(_twice(file, heading))
    numbered = []
    for number, line in enumerate(lines, start=2):
        cells = [cell.strip() for cell in line]
        faults.extend(_homeless(file, number, heading, cells))
        if any(cells):
            named = dict(zip(heading, cells, strict=False))
            numbered.append(
                (number, {column: named.get(column, "") for column in heading if column})
            )
    named_columns = tuple(column for column in heading if column)
    return Sheet(file, named_columns, tuple(numbered)), tuple(faults)


def _plain(cell: str) -> str:
    return "_".join(cell.casefold().replace("_", " ").split())


def _no_heading(file: str) -> Fault:
    return Fault(
        file,
        1,
        "",
        "",
        HEADING_MISSING,
        f"{file} has no heading row.",
        "Write the names of its columns in row 1.",
    )


def _twice(file: str, heading: Iterable[str]) -> Iterator[Fault]:
    for column, count in Counter(heading).items():
        if column and count > 1:
            yield Fault(
                file,
                1,
                column,
                column,
                COLUMN_TWICE,
                f"{file} has {count} columns called {column!r}.",
                "Keep one of them.",
            )


def _homeless(
    file: str, number: int, heading: Sequence[str], cells: Sequence[str]
) -> Iterator[Fault]:
    for place, cell in enumerate(cells):
        if cell and (place >= len(heading) or not heading[place]):
            yield Fault(
                file,
                number,
                "",
                cell,
                CELL_WITHOUT_COLUMN,
                f"{cell!r} stands in cell {place + 1} of the row, where there is no heading.",
                "Give the column its heading, or empty the cell; text with a comma in it stands "
                "between quotation marks.",
            )
