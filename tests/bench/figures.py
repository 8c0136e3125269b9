"""The tables of the guide's page of figures, written between its markers."""

import re
from collections.abc import Iterable, Mapping, Sequence
from pathlib import Path
from typing import Any

from order_costs import Costs
from planning import Ladder
from rounds import Ratio, Timing

_WORDS = {
    "cpu": "processor",
    "memory_gib": "memory, GiB",
    "file_system": "file system",
    "fsync_of_4_kib_microseconds": "4 KiB to the disk, as it says, in microseconds",
    "load_before": "load of the machine before it began",
}


def write(page: Path, tables: Mapping[str, str]) -> None:
    """Put each table between the markers of its name.

    Raises:
        LookupError: the page has no such markers.
    """
    text = page.read_text(encoding="utf-8")
    for name, table in tables.items():
        between = re.compile(rf"(<!-- {name} -->\n).*?(<!-- end of {name} -->)", re.DOTALL)
        if not between.search(text):
            raise LookupError(f"{page} has no markers for {name}")
        text = between.sub(lambda found, new=table: f"{found[1]}\n{new}\n{found[2]}", text)
    page.write_text(text, encoding="utf-8")


def facts(values: Mapping[str, Any]) -> str:
    """A table of two columns."""
    rows = [(_WORDS.get(name, name), value) for name, value in values.items()]
    return _table(("", ""), rows)


def at_the_door(ratios: Iterable[Ratio]) -> str:
    """Commands a second on both sides."""
    heading = (
        "given",
        "commands in a list",
        "lists in a commit",
        "rows written by a command",
        "through the door, a second",
        "bare loop, a second",
        "times as long",
        "noise",
    )
    return _table(heading, [_command_row(ratio) for ratio in ratios])


def _command_row(ratio: Ratio) -> tuple[Any, ...]:
    return (
        ratio.name,
        ratio.facts["commands_in_a_list"],
        ratio.facts["lists_in_a_commit"],
        ratio.facts["rows_written_a_command"],
        _figure(1 / ratio.side("ours")),
        _figure(1 / ratio.side("twin")),
        _figure(ratio.times),
        _percent(ratio.noise),
    )


def planning(ladder: Ladder) -> str:
    """Both sides on the largest house, then every size."""
    ratios = [
        (
            ratio.ours,
            _figure(ratio.side("ours")),
            _figure(ratio.side("twin")),
            _figure(ratio.times),
            f"{ladder.exponent(ratio.name):.2f}",
            _percent(ratio.noise),
        )
        for ratio in ladder.ratios
    ]
    heading = ("largest house", "seconds", "twin, seconds", "times as long", "grows by", "noise")
    names = ("items", "batches", "services", "deliveries", "needs")
    steps = [
        (*(f"{step[name]:,}" for name in names), *(_figure(step[name]) for name in _MEASURED))
        for step in ladder.steps
    ]
    seconds = ("plan, seconds", "projection, seconds", "twin, seconds")
    return f"{_table(heading, ratios)}\n{_table((*names, *seconds), steps)}"


_MEASURED = ("plan", "project", "matched")


def alone(timings: Iterable[Timing], start: Ratio) -> str:
    """What has no twin, and the start of a process."""
    rows = [(t.name, _figure(t.middle), t.facts.get("rows", "")) for t in timings]
    rows.append((start.ours, _figure(start.side("ours")), ""))
    rows.append((start.twin, _figure(start.side("twin")), ""))
    return _table(("what", "seconds", "rows"), rows)


def late_change(ratio: Ratio) -> str:
    """How soon a late change shows its effect, and what projecting everything would take."""
    cells = (
        ratio.facts["services"],
        _figure(ratio.side("ours") * 1000),
        _figure(ratio.facts["worst_seconds"] * 1000),
        _figure(ratio.side("twin") * 1000),
        _percent(ratio.noise),
    )
    heading = ("services", "median, ms", "worst, ms", "everything projected, ms", "noise")
    return _table(heading, [cells])


def order_costs(found: Iterable[Costs]) -> str:
    """How far orders are from the bound, kind by kind."""
    rows = [
        (len(costs.houses), costs.kind, f"{costs.mean:.4f}", f"{costs.worst:.3f}", costs.above)
        for costs in found
    ]
    return _table(("houses", "where", "mean", "worst", "above 1.15"), rows)


def failures(found: Sequence[str]) -> str:
    """What went wrong in the run."""
    return "\n".join(f"- {each}" for each in found) + "\n" if found else "Nothing failed.\n"


def _table(heading: Sequence[object], rows: Iterable[Sequence[object]]) -> str:
    lines = [heading, ["---"] * len(heading), *rows]
    return "".join(f"| {' | '.join(str(cell) for cell in line)} |\n" for line in lines)


def _figure(value: float) -> str:
    """Three figures that count, and no more."""
    if value >= 1000:
        return f"{value:,.0f}"
    return f"{value:.3g}"


def _percent(value: float) -> str:
    return f"{value * 100:.1f} %"
