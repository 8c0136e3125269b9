"""Printing: JSON for programs, tables for people, both safe whatever was written in a name."""

import json
import sys
from collections.abc import Callable, Sequence
from io import TextIOWrapper
from typing import Any, TextIO, TypeVar

import click
from rich import box
from rich.console import Console
from rich.table import Table
from rich.text import Text

WIDEST = 100
_Command = TypeVar("_Command", bound=Callable[..., Any])
_AS_JSON = "pantry.as_json"
_CONTROL = dict.fromkeys((*range(10), *range(11, 32), *range(127, 160)), " ")


def json_option(command: _Command) -> _Command:
    """The option `--json`, on every command that answers."""
    return click.option(
        "--json", "as_json", is_flag=True, help="Answer as JSON.", callback=_remember
    )(command)


def _remember(context: click.Context, _option: click.Parameter, value: bool) -> bool:  # noqa: FBT001 - click's signature
    context.meta[_AS_JSON] = value
    return value


def wants_json(context: click.Context) -> bool:
    """Whether the command that ran under this context was asked for JSON."""
    return bool(context.meta.get(_AS_JSON))


def show_every_letter() -> None:
    """See to it that a letter which the terminal does not know is no fault."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="backslashreplace" if _is_unicode(stream) else "replace")


def _is_unicode(stream: TextIO) -> bool:
    return (stream.encoding or "").lower().startswith("utf")


def print_json(answer: object) -> None:
    """An answer for programs; letters beyond ASCII are escaped where they could not be shown."""
    click.echo(json.dumps(answer, ensure_ascii=not _is_unicode(sys.stdout), indent=2))


def console(*, error: bool = False) -> Console:
    """The terminal, at most a hundred columns wide; off a terminal just so, without colour."""
    found = Console(stderr=error, highlight=False, emoji=False, markup=False)
    if not found.is_terminal or found.width > WIDEST:
        found.width = WIDEST
    return found


def plain(text: str, style: str = "") -> Text:
    """Somebody's words as they are: nothing in them is taken for markup or for the terminal."""
    return Text(text.translate(_CONTROL), style=style)


def table(*columns: str, title: str = "") -> Table:
    """An empty table; a column named `x>` stands to the right, and it and `x|` never fold."""
    made = Table(
        box=box.SIMPLE_HEAD,
        title=plain(title) if title else None,
        title_justify="left",
        title_style="bold",
        pad_edge=False,
        show_edge=False,
        collapse_padding=True,
    )
    for column in columns:
        made.add_column(
            column.rstrip(">|"),
            justify="right" if column.endswith(">") else "left",
            no_wrap=column.endswith((">", "|")),
            overflow="fold",
        )
    return made


def add(to: Table, *cells: str | Text) -> None:
    """Add a row of somebody's words."""
    to.add_row(*(cell if isinstance(cell, Text) else plain(cell) for cell in cells))


def first_of(parts: Sequence[str], most: int) -> str:
    """The first parts, one a line, and how many more there are."""
    left = len(parts) - most
    return "\n".join([*parts[:most], *([f"and {left} more"] if left > 0 else [])])


def listed(parts: Sequence[str], last: str = "and") -> str:
    """`a`, `a and b`, `a, b and c`."""
    if len(parts) < 2:
        return "".join(parts)
    return f"{', '.join(parts[:-1])} {last} {parts[-1]}"
