"""A question that needs no database: what a scanned code says."""

from collections.abc import Iterator, Mapping
from datetime import date
from typing import Any

import click

from pantry.rules.codes import read_code
from pantry.terminal import given
from pantry.terminal.printing import json_option, plain, print_json
from pantry.terminal.settings import from_environment, present


@click.command("read-code")
@click.argument("code")
@click.option("--today", type=given.day, help="The date that decides centuries.")
@json_option
def read_code_command(code: str, today: date | None, *, as_json: bool) -> None:
    """What a scanned CODE says; write the separator GS as <GS> or as the character."""
    scan = read_code(code, today or present(from_environment()).date())
    answer = scan.as_json()
    if as_json:
        print_json(answer)
        return
    for line in said_of(answer):
        click.echo(plain(line).plain)


def said_of(answer: Mapping[str, object]) -> Iterator[str]:
    """What the answer holds, a line for each thing; what a code does not say is left out."""
    for name, value in answer.items():
        if value not in (None, []):
            yield f"{name.replace('_', ' ')}: {_said(value)}"


def _said(value: Any) -> str:  # noqa: ANN401 - whatever the answer holds
    if isinstance(value, Mapping):
        return " ".join(f"{_said(part)}" for part in value.values() if part is not None)
    if isinstance(value, list):
        return "; ".join(_said(part) for part in value)
    return str(value).replace("_", " ")
