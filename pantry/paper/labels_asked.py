"""Which labels are asked for, on what paper: of batches, of a delivery, of a day, or of numbers."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from pantry.paper.labels import Printed, labels_pdf
from pantry.records.read.labels import carrier
from pantry.records.rows import every, find
from pantry.records.tables import BatchRow, LabelRangeRow, ReceiptRow
from pantry.refusals import NotThere, UnreadableInput, declare
from pantry.reports.labels import Labels
from pantry.reports.view import View
from pantry.rules.house_time import local_date
from pantry.rules.label import LabelWords, words_of
from pantry.rules.label_codes import codes_of
from pantry.rules.label_numbers import numbered
from pantry.rules.label_paper import Paper, check_start, read_paper

LABELS_UNREADABLE = declare("labels_unreadable", "What labels are asked for cannot be read.")
NOTHING_TO_LABEL = declare("nothing_to_label", "There is nothing to print a label for.")

MOST = 1000
MOST_COPIES = 50

TAKES = ("paper", "start", "copies", "batch", "order", "day", "numbers")
"""What may be said of the labels; `batch` several times, and one of the last four at least."""


@dataclass(frozen=True, slots=True)
class LabelsAsked:
    """Labels that are asked for.

    Attributes:
        start: the first free label of a begun sheet, counted from 1.
        copies: how many of each batch's label; a number is printed once.
        batches: ids or labels.
        order: all that was received of it; day: all that came or was made on it, ISO 8601.
        numbers: the command that reserved the numbers to be printed.
    """

    paper: Paper
    start: int = 1
    copies: int = 1
    batches: tuple[str, ...] = ()
    order: str | None = None
    day: str | None = None
    numbers: str | None = None


def read_asked(written: Mapping[str, Sequence[str]]) -> LabelsAsked:
    """What is asked for, from texts by name.

    Raises:
        UnreadableInput: `labels_unreadable`, `paper_unreadable`, `paper_too_small`,
            `start_off_sheet`.
    """
    for name in written.keys() - set(TAKES):
        raise _unreadable(f"Nothing called {name} is said of labels.", name, name)
    last = {name: values[-1] for name, values in written.items() if values}
    paper = read_paper(last.get("paper", "a4/3x8/70x37"))
    start = _number(last, "start", paper.on_page)
    check_start(paper, start)
    asked = LabelsAsked(
        paper=paper,
        start=start,
        copies=_number(last, "copies", MOST_COPIES),
        batches=tuple(written.get("batch", ())),
        order=last.get("order"),
        day=last.get("day"),
        numbers=last.get("numbers"),
    )
    if not (asked.batches or asked.order or asked.day or asked.numbers):
        raise _unreadable("Nobody said of what the labels are to be.", "", "batch")
    return asked


def _number(written: Mapping[str, str], name: str, most: int) -> int:
    text = written.get(name, "1")
    if text.isascii() and text.isdigit() and len(text) < len(str(MOST)) + 1:
        number = int(text)
        if name == "start" or 1 <= number <= most:
            return number
    raise _unreadable(f"{text!r} is no whole number from 1 to {most}.", text, name)


def _unreadable(problem: str, value: str, field: str) -> UnreadableInput:
    todo = "Say batch, order, day or numbers, and the paper with start and copies."
    return UnreadableInput(LABELS_UNREADABLE, problem, todo, value=value, field=field)


def labels_of(view: View, asked: LabelsAsked, address: str) -> bytes:
    """The PDF; `address` is where the house is reached, empty where no phone can reach it.

    Raises:
        NotThere: `nothing_to_label`.
        UnreadableInput: `labels_unreadable`: more of them than are printed at once.
    """
    printed = [
        label for each in _of_batches(view, asked, address) for label in [each] * asked.copies
    ]
    printed += _of_numbers(view, asked, address)
    if not printed:
        raise NotThere(
            NOTHING_TO_LABEL,
            "Nothing of what was named stands in the house.",
            "Choose batches that stand on the shelf.",
            value=", ".join(asked.batches) or asked.order or asked.day or asked.numbers or "",
        )
    if len(printed) > MOST:
        raise _unreadable(
            f"{len(printed)} labels are more than {MOST}.", str(len(printed)), "batch"
        )
    return labels_pdf(printed, asked.paper, asked.start, f"Labels, {view.house.name}")


def _of_batches(view: View, asked: LabelsAsked, address: str) -> list[Printed]:
    known = Labels(view)
    return [
        Printed(
            words_of(known.labelled(row), view.zone),
            codes_of(row.label, known.product(row), address),
        )
        for row in _chosen(view, asked)
    ]


def _chosen(view: View, asked: LabelsAsked) -> list[BatchRow]:
    """The batches that stand in the house, in the order they were named, each once."""
    standing = {row.id: row for row in view.batches}
    named = [_named(view, name) for name in asked.batches]
    if asked.order:
        receipts = every(view.connection, ReceiptRow, house=view.id, purchase_order=asked.order)
        named += [row.batch for row in sorted(receipts, key=lambda row: (row.at, row.batch))]
    if asked.day:
        of_day = [
            row
            for row in view.batches
            if local_date(row.state_at, view.zone).isoformat() == asked.day
        ]
        named += [row.id for row in sorted(of_day, key=lambda row: (row.state_at, row.id))]
    return [standing[batch] for batch in dict.fromkeys(named) if batch in standing]


def _named(view: View, name: str) -> str:
    found = carrier(view.connection, view.id, name)
    return name if found is None else found.id


def _of_numbers(view: View, asked: LabelsAsked, address: str) -> list[Printed]:
    if asked.numbers is None:
        return []
    reserved = find(view.connection, LabelRangeRow, house=view.id, command=asked.numbers)
    if reserved is None:
        return []
    labels = [numbered(number) for number in range(reserved.first, reserved.last + 1)]
    return [
        Printed(_bare(label, view.house.name), codes_of(label, None, address)) for label in labels
    ]


def _bare(label: str, house: str) -> LabelWords:
    """A numbered label says whose it is and leaves room to write on."""
    return LabelWords("", label, "", (), "", "", (), house)
