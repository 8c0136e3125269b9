"""A report written to files: as a sheet, a workbook, or on paper."""

from collections.abc import Callable
from pathlib import Path

import click

from pantry.reports.as_csv import as_csv
from pantry.reports.as_xlsx import as_xlsx
from pantry.reports.asked import ask
from pantry.reports.report import Row
from pantry.reports.view import View
from pantry.terminal.reporting import looking
from pantry.terminal.settings import from_environment

FILE = click.Path(path_type=Path)


def write_files(
    report: str,
    drawn: Callable[[View, list[Row]], bytes],
    *,
    csv: Path | None,
    xlsx: Path | None,
    pdf: Path | None,
) -> None:
    """Ask a report of the house that is meant once, and write it to the files that are named.

    Args:
        report: its name.
        drawn: its rows on A4, as a PDF.
        csv: a file for its rows as CSV.
        xlsx: a file for its rows as a workbook.
        pdf: a file for it on A4.
    """
    with looking(from_environment()) as seen:
        rows = ask(seen, report)["rows"]
        if csv:
            csv.write_text(as_csv(rows), encoding="utf-8", newline="")
        if xlsx:
            xlsx.write_bytes(as_xlsx(report, rows))
        if pdf:
            pdf.write_bytes(drawn(seen, rows))
    for path in filter(None, (csv, xlsx, pdf)):
        click.echo(f"Written to {path}.")
