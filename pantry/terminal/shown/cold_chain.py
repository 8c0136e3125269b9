"""How warm the cold places are, what cools, probes and cleaning."""

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, plain, table
from pantry.terminal.words import NEVER, Words, many

_WARMTH = {"within": "as it should be", "too_warm": "too warm", "too_cold": "too cold"}
_DONE = {
    "door_closed": "door closed",
    "look_again": "to be looked at again soon",
    "set_colder": "set otherwise",
    "moved_food": "food moved away",
    "called": "help called",
}


def temperatures(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each cold place, and below what was not right and which rounds are missing."""
    if not rows:
        terminal.print("This house has no chilled or frozen place.")
        return
    lines = table("Place", "Limits|", "Last>", "", "Taken", "Rounds missing>")
    for row in rows:
        last = row["last"]
        state = _WARMTH[last["warmth"]] if last else "not read yet"
        add(
            lines,
            row["area"],
            _limits(row),
            _degrees(last["temperature_c"]) if last else NEVER,
            f"{state}; it has failed" if row["failed"] else state,
            f"{words.moment(last['at'])}, {last['person']}" if last else NEVER,
            str(len(_missing(words, row))),
        )
    terminal.print(lines)
    for row in rows:
        _not_right(terminal, words, row)
    terminal.print(plain(rows[0]["caution"]))


def _not_right(terminal: Console, words: Words, row: Row) -> None:
    breaches = [each for each in row["readings"] if each["warmth"] != "within"]
    missing = _missing(words, row)
    if not breaches and not missing:
        return
    terminal.print(plain(f"\n{row['area']}", "bold"))
    for each in breaches:
        shown = f"{_degrees(each['temperature_c'])}, {_WARMTH[each['warmth']]}"
        done = _DONE.get(each["done"], "nothing said of what was done")
        terminal.print(plain(f"  {words.moment(each['at'])} {shown}, {each['person']}: {done}"))
    for which in missing:
        terminal.print(plain(f"  {which}: nobody read it"))


def _missing(words: Words, row: Row) -> list[str]:
    """The rounds that are over and in which nobody read the place."""
    return [
        f"{words.day(each['day'])}, round {each['number']} of {each['of']}"
        for each in row["rounds"]
        if not each["taken"] and words.is_past(each["end"])
    ]


def _limits(row: Row) -> str:
    if row["min_c"] is None:
        return f"{_degrees(row['max_c'])} or colder"
    return f"{_degrees(row['min_c'])} to {_degrees(row['max_c'])}"


def cooling(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each batch that cools: what must be reached by when, or how it ended."""
    if not rows:
        terminal.print("Nothing cools.")
        return
    lines = table("Batch", "How it stands", "Last>", "Taken")
    for row in rows:
        last = row["readings"][-1] if row["readings"] else None
        add(
            lines,
            f"{row['item']} {row['label']}",
            _stands(words, row),
            _degrees(last["temperature_c"]) if last else NEVER,
            f"{words.moment(last['at'])}, {last['person']}" if last else NEVER,
        )
    terminal.print(lines)
    terminal.print(plain(rows[0]["caution"]))


def _stands(words: Words, row: Row) -> str:
    if row["outcome"] == "unread":
        return "nobody has taken its temperature: take it now"
    if row["outcome"] == "passed":
        return "it cooled in time"
    if row["outcome"] == "failed":
        return f"it did not cool in time: do not use it. {row['reason']}"
    if row["by"] is None:
        return f"still hot: the clock begins at {_degrees(row['from_c'])}"
    return f"must be at {_degrees(row['to_c'])} by {words.moment(row['by'])}"


def checks(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each check of a probe and each cleaning, the latest first."""
    if not rows:
        terminal.print("No probe was checked and nothing was cleaned.")
        return
    lines = table("When|", "What", "How it was", "By")
    for row in rows:
        add(lines, words.moment(row["at"]), _what(row), _how(row), row["person"])
    terminal.print(lines)
    terminal.print(f"{many(len(rows), 'check')}.")


def _what(row: Row) -> str:
    return f"{row['what']}, {row['area']}" if row["area"] else str(row["what"])


def _how(row: Row) -> str:
    if row["kind"] == "cleaning":
        return "cleaned"
    shown = [
        f"{_degrees(row[key])} in {where}"
        for key, where in (("ice_c", "ice and water"), ("boiling_c", "boiling water"))
        if row[key] is not None
    ]
    right = {True: ["right"], False: ["wrong: do not use it"], None: []}[row["is_right"]]
    return ", ".join(shown + right)


def _degrees(written: str) -> str:
    return f"{written.replace('-', '−')} °C"
