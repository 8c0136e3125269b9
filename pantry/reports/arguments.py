"""The arguments of a report, as they stand in an address, read for it."""

from collections.abc import Mapping
from typing import Any

from pantry.refusals import UnreadableInput, declare

ARGUMENT_UNKNOWN = declare("argument_unknown", "The report takes no argument of that name.")
ARGUMENT_MISSING = declare("argument_missing", "The report lacks an argument that it needs.")
ARGUMENT_UNREADABLE = declare("argument_unreadable", "An argument of the report cannot be read.")

_LONGEST = 16


def read_arguments(
    name: str, takes: Mapping[str, range | None], needs: frozenset[str], written: Mapping[str, str]
) -> dict[str, Any]:
    """The arguments by name: a whole number where a range is taken, else text.

    Raises:
        UnreadableInput: `argument_unknown`, `argument_missing`, `argument_unreadable`.
    """
    for argument in written:
        if argument not in takes:
            raise UnreadableInput(
                ARGUMENT_UNKNOWN,
                f"The report {name} takes no argument {argument!r}.",
                f"It takes: {', '.join(takes) or 'none'}.",
                value=argument,
            )
    for argument in needs - written.keys():
        raise UnreadableInput(
            ARGUMENT_MISSING,
            f"The report {name} needs the argument {argument!r}.",
            f"Ask for {name}?{argument}=...",
            field=argument,
        )
    return {argument: _read(argument, text, takes[argument]) for argument, text in written.items()}


def _read(argument: str, text: str, among: range | None) -> str | int:
    if among is None:
        return text
    if text.isascii() and text.isdigit() and len(text) <= _LONGEST and int(text) in among:
        return int(text)
    raise UnreadableInput(
        ARGUMENT_UNREADABLE,
        f"{text!r} is no whole number from {among.start} to {among.stop - 1}.",
        f"Give {argument} as digits alone.",
        value=text,
        field=argument,
    )
