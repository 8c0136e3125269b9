"""The reports as people read them on a terminal: from the same data that programs get as JSON."""

from pantry.terminal.shown.changes import changes
from pantry.terminal.shown.coverage import coverage, coverage_of_one
from pantry.terminal.shown.notice import notice
from pantry.terminal.shown.plan import plan
from pantry.terminal.shown.questions import questions
from pantry.terminal.shown.stock import stock
from pantry.terminal.shown.trace import trace
from pantry.terminal.shown.use_first import use_first

__all__ = [
    "changes",
    "coverage",
    "coverage_of_one",
    "notice",
    "plan",
    "questions",
    "stock",
    "trace",
    "use_first",
]
