"""What was measured, cleaned, or lost of no batch: beside the ledger until taken back (LG4)."""

from sqlmodel import SQLModel

from pantry.commands import failed_places
from pantry.records.books import Books
from pantry.records.questions import close
from pantry.records.rows import every, find, remove
from pantry.records.tables import (
    CleaningRow,
    CoolingReadingRow,
    HeldWarmRow,
    JournalRow,
    ProbeCheckRow,
    TemperatureRow,
    WasteWithoutBatchRow,
)

KEPT_IN: dict[str, type[SQLModel]] = {
    "check_probe": ProbeCheckRow,
    "clean": CleaningRow,
    "cool": CoolingReadingRow,
    "take_temperature": TemperatureRow,
    "waste_without_batch": WasteWithoutBatchRow,
}
"""By kind of command, the table in which what it says is kept."""


def still_stands(books: Books, row: JournalRow) -> bool:
    """Whether what a command measured has not been taken back."""
    return find(books.connection, KEPT_IN[row.kind], house=books.id, command=row.id) is not None


def take_back(books: Books, row: JournalRow, person: str) -> None:
    """Remove what a command measured, with the questions it opened; `person` takes it back."""
    if row.kind not in KEPT_IN:
        return
    for cooled in every(books.connection, CoolingReadingRow, house=books.id, command=row.id):
        if cooled.failed:
            close(books, "on_hold", cooled.batch, "it was taken back", person)
    held = every(books.connection, HeldWarmRow, house=books.id, command=row.id)
    for model in (HeldWarmRow, KEPT_IN[row.kind]):
        remove(books.connection, model, house=books.id, command=row.id)
    for area in sorted({each.area for each in held}):
        if not failed_places.undecided(books, area):
            close(books, failed_places.PLACE_FAILED, area, "it was taken back", person)
    books.note("measured", row.id)
