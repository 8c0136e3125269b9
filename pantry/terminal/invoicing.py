"""Invoices at the command line: in words, as JSON, as a sheet, a workbook, or on paper."""

from pathlib import Path

import click

from pantry.paper.invoices import invoices_pdf
from pantry.terminal import shown
from pantry.terminal.printing import json_option
from pantry.terminal.reporting import answer
from pantry.terminal.written_to import FILE, write_files


@click.command("invoices")
@click.option("--csv", type=FILE, help="Write the invoices to this file, as CSV.")
@click.option("--xlsx", type=FILE, help="Write the invoices to this file, as a workbook.")
@click.option("--pdf", type=FILE, help="Write the report to this file, on A4.")
@json_option
def invoices_command(
    csv: Path | None, xlsx: Path | None, pdf: Path | None, *, as_json: bool
) -> None:
    """What suppliers billed, what it should have come to, and what differs."""
    if csv is None and xlsx is None and pdf is None:
        answer("invoices", shown.invoices, as_json=as_json)
        return
    write_files("invoices", invoices_pdf, csv=csv, xlsx=xlsx, pdf=pdf)
