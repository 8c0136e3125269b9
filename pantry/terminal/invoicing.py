"""Invoices at the command line: in words, as JSON, as a sheet, a workbook, or on paper."""

from pathlib import Path

import click

from pantry.paper.invoices import invoices_pdf
from pantry.reports.as_csv import as_csv
from pantry.reports.as_xlsx import as_xlsx
from pantry.reports.asked import ask
from pantry.terminal import shown
from pantry.terminal.printing import json_option
from pantry.terminal.reporting import answer, looking
from pantry.terminal.settings import from_environment

_FILE = click.Path(path_type=Path)


@click.command("invoices")
@click.option("--csv", type=_FILE, help="Write the invoices to this file, as CSV.")
@click.option("--xlsx", type=_FILE, help="Write the invoices to this file, as a workbook.")
@click.option("--pdf", type=_FILE, help="Write the report to this file, on A4.")
@json_option
def invoices_command(
    csv: Path | None, xlsx: Path | None, pdf: Path | None, *, as_json: bool
) -> None:
    """What suppliers billed, what it should have come to, and what differs."""
    if csv is None and xlsx is None and pdf is None:
        answer("invoices", shown.invoices, as_json=as_json)
        return
    with looking(from_environment()) as seen:
        rows = ask(seen, "invoices")["rows"]
        if csv:
            csv.write_text(as_csv(rows), encoding="utf-8", newline="")
        if xlsx:
            xlsx.write_bytes(as_xlsx("invoices", rows))
        if pdf:
            pdf.write_bytes(invoices_pdf(seen, rows))
    for path in filter(None, (csv, xlsx, pdf)):
        click.echo(f"Written to {path}.")
