"""`apply`: commands from a file, one a line, through the one door; an answer to each, in order."""

import sys
from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from functools import partial
from pathlib import Path
from typing import BinaryIO

import click
import msgspec

from pantry.commands import door
from pantry.commands.answers import Answer, problem
from pantry.records.database import reading
from pantry.records.writer import Writer
from pantry.refusals import UnreadableInput, declare
from pantry.terminal.endings import FILE_UNUSABLE, REFUSED
from pantry.terminal.houses import chosen, existing_database
from pantry.terminal.printing import json_option
from pantry.terminal.progress import progress
from pantry.terminal.settings import Settings, from_environment, present
from pantry.terminal.words import many

LINE_UNREADABLE = declare("line_unreadable", "A line of the file is no JSON.")

TOGETHER = 500
"""So many commands at most are given as one list, and are durable together."""

LONG = 50_000
"""From so many bytes on a file is worth a bar that shows how far it is."""

OPERATOR = "command line"
"""Who gives a command that names nobody; a house that has people in it refuses it."""

_BOM = b"\xef\xbb\xbf"


@click.command("apply")
@click.argument("file", type=click.Path(path_type=Path, allow_dash=True))
@json_option
def apply_command(file: Path, *, as_json: bool) -> None:  # noqa: ARG001 - the answers are JSON always
    """Give the commands of FILE (- for standard input), one JSON object a line.

    One line is answered for each, in order: {id, outcome, position, problem?}. The same id again
    gets the first answer and changes nothing. Exit 1 where one was not applied.
    """
    settings = from_environment()
    refused = 0
    with _commands(file) as lines, existing_database(settings) as engine, Writer(engine) as writer:
        with reading(engine) as connection:
            house = chosen(connection, settings).id
        for batch in _batches(lines):
            answers = give(writer, house, batch, settings)
            refused += sum(answer.outcome != "applied" for answer in answers)
            for answer in answers:
                click.echo(msgspec.json.encode(answer))
            if len(answers) < len(batch):
                left = many(len(batch) - len(answers), "command")
                click.echo(f"{left} of this list and all after it were not given.", err=True)
                break
    if refused:
        click.get_current_context().exit(REFUSED)


def give(
    writer: Writer, house: str, lines: Iterable[tuple[int, bytes]], settings: Settings
) -> list[Answer]:
    """The answers to a list of commands, once they are durable; a line that is no JSON has its own.

    Args:
        writer: the house's.
        house: its id.
        lines: each with its number in the file.
        settings: say what time it is.
    """
    answers: list[Answer] = []
    readable: list[object] = []

    def hand_in() -> bool:
        if not readable:
            return True
        given, now = list(readable), present(settings)
        readable.clear()
        work = partial(door.apply, house=house, commands=given, now=now)
        answered = writer.submit(house, work).result()
        answers.extend(answered)
        return len(answered) == len(given)

    for number, line in lines:
        try:
            readable.append(_named(msgspec.json.decode(line)))
        except (msgspec.DecodeError, UnicodeDecodeError) as error:
            if not hand_in():
                return answers
            answers.append(_unreadable(number, line, error))
    hand_in()
    return answers


def _named(command: object) -> object:
    """The command, given by the command line's operator where it names nobody."""
    if isinstance(command, dict) and "person" not in command:
        return command | {"person": OPERATOR}
    return command


def _unreadable(number: int, line: bytes, error: Exception) -> Answer:
    refusal = UnreadableInput(
        LINE_UNREADABLE,
        f"Line {number} is no JSON: {error}.",
        "Write one command a line, as a JSON object.",
        value=line.decode(errors="replace")[:200],
        field=f"line {number}",
    )
    return Answer(None, "refused", None, problem(refusal))


def _batches(lines: Iterable[tuple[int, bytes]]) -> Iterator[list[tuple[int, bytes]]]:
    batch: list[tuple[int, bytes]] = []
    for line in lines:
        batch.append(line)
        if len(batch) == TOGETHER:
            yield batch
            batch = []
    if batch:
        yield batch


@contextmanager
def _commands(file: Path) -> Iterator[Iterator[tuple[int, bytes]]]:
    """The lines of a file with their numbers, empty ones left out; a bar shows how far it is."""
    if str(file) == "-":
        yield _lines(sys.stdin.buffer, _nobody)
        return
    try:
        opened, size = file.open("rb"), file.stat().st_size
    except OSError as error:
        raise UnreadableInput(
            FILE_UNUSABLE,
            f"{file} cannot be read: {error.strerror}.",
            "Name a file of commands, one a line, or - for standard input.",
            value=str(file),
        ) from error
    seen = size > LONG and not sys.stdout.isatty()
    with opened, progress("commands", size, worth_it=seen) as told:
        yield _lines(opened, told)


def _nobody(_done: int) -> None:
    """Nobody is told how far it is."""


def _lines(stream: BinaryIO, told: Callable[[int], None]) -> Iterator[tuple[int, bytes]]:
    done = 0
    for number, line in enumerate(stream, start=1):
        done += len(line)
        told(done)
        text = line.removeprefix(_BOM) if number == 1 else line
        if text.strip():
            yield number, text
