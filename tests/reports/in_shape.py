"""Reading what a report answers as the shape promised of it, with not a key more or less."""

import msgspec

from pantry.reports.asked import ASKED
from pantry.reports.coverage import coverage
from pantry.reports.served import served
from pantry.reports.waste import waste
from pantry.reports.waste_without_batch import waste_without_batch

_NAMES = {one.rows: name for name, one in ASKED.items()} | {
    coverage: "coverage",
    served: "served",
    waste: "waste",
    waste_without_batch: "waste-without-batch",
}


def in_shape(name, told):
    """What a report answers, read strictly; raises ValidationError where it is something else."""
    return msgspec.json.decode(msgspec.json.encode(told), type=ASKED[name].answers)


def rows_in_shape(seen, question, rows):
    """The rows a function answers, as they are, once they were read; other answers as they are."""
    if name := _NAMES.get(question):
        in_shape(name, ASKED[name].whole(seen, rows))
    return rows
