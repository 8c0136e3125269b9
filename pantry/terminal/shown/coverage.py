"""Can we serve it: every dish of the services ahead, or one service item by item."""

from itertools import groupby

from rich.console import Console

from pantry.reports.report import Row
from pantry.terminal.printing import add, first_of, listed, plain, table
from pantry.terminal.words import NEVER, Words, many

_SENTENCES = 4
_CERTAINTIES = {"contains": "contains", "may_contain": "may contain"}


def coverage(terminal: Console, words: Words, rows: list[Row]) -> None:
    """A line for each dish: covered, or what it lacks and until when that can be mended."""
    if not rows:
        terminal.print("No menu is proposed or confirmed for the days ahead.")
        return
    lines = table("Service", "Dish", "Choose by", "In the house and in date")
    for service, of_service in groupby(rows, key=lambda row: row["service"]):
        name = words.service(service)
        for dish in _by_dish(list(of_service)):
            proposed = dish[0]["state"] == "proposed"
            choose_by = words.moment(dish[0]["choose_by"]) if proposed else "chosen"
            add(lines, name, named(dish[0]), choose_by, first_of(says(words, dish), _SENTENCES))
            name = ""
        lines.add_section()
    terminal.print(lines)
    terminal.print("Item by item: chooseby coverage --service DATE/MEAL/TABLE")


def coverage_of_one(terminal: Console, words: Words, rows: list[Row]) -> None:
    """One service, item by item: what is needed, from where it comes, what is short."""
    if not rows:
        terminal.print("Its menu needs nothing that is measured.")
        return
    terminal.print(plain(f"{words.service(rows[0]['service'])}: {rows[0]['state']}"))
    for dish in _by_dish(rows):
        terminal.print(plain(f"\n{dish[0]['course']}: {named(dish[0])}", "bold"))
        for sentence in says(words, dish):
            terminal.print(plain(sentence))
        lines = table("Item", "Needed>", "Wanted by", "From", "Short>")
        for row in dish:
            add(
                lines,
                row["item"] + (f" (for {row['for']})" if row["for"] else ""),
                words.amount(row["need"]),
                words.moment(row["wanted_by"]),
                "; ".join(_from(words, part) for part in row["from"]) or NEVER,
                words.amount(row["short"]) if _lacks(row) else NEVER,
            )
        terminal.print(lines)


def named(row: Row) -> str:
    """The dish, with its variant."""
    return f"{row['dish']}, {row['variant']}" if row["variant"] else str(row["dish"])


def says(words: Words, dish: list[Row]) -> list[str]:
    """What is to be said of a dish: that it is covered, or what is wrong with it."""
    short = [_lacking(words, row) for row in dish if _lacks(row)]
    flags = dict.fromkeys(flag for row in dish for flag in row["flags"])
    said = [sentence for flag in flags if (sentence := _flag(dish, flag))]
    shared = {flag.partition(":")[2] for flag in flags if flag.startswith("shared_with:")}
    if shared:
        said.append(f"{many(len(shared), 'other proposed menu')} would take the same")
    return [*(short or ["covered"]), *said]


def _by_dish(rows: list[Row]) -> list[list[Row]]:
    found: dict[tuple[str, str, str | None], list[Row]] = {}
    for row in rows:
        found.setdefault((row["course"], row["dish"], row["variant"]), []).append(row)
    return list(found.values())


def _lacks(row: Row) -> bool:
    return bool(row["short"]["value"] != "0")


def _lacking(words: Words, row: Row) -> str:
    until = row["mend_until"]
    mend = f"order by {words.moment(until)}" if until else "no delivery can make it"
    return f"short of {words.amount(row['short'])} {row['item']}: {mend}"


def _flag(dish: list[Row], flag: str) -> str | None:
    """A flag in words; None for what is said otherwise: what thaws, and what others would take."""
    kind, _, rest = flag.partition(":")
    if kind in _CERTAINTIES:
        cannot_eat, _, person = rest.partition(":")
        return f"{_CERTAINTIES[kind]} {cannot_eat}, which {person} cannot eat"
    of_items = list(dict.fromkeys(row["item"] for row in dish if flag in row["flags"]))
    return {
        "choose_early": "must be chosen before the notice period",
        "cannot_be_had": "cannot be had any more, whenever it is chosen",
        "recipe_not_approved": "its recipe is not approved",
        "allergens_unknown": "something in it has allergens that nobody knows",
        "past_its_best": f"taste first, past its best: {listed(of_items)}",
        "shared_with": None,
        "thaw": None,
    }.get(kind, flag.replace("_", " "))


def _from(words: Words, part: Row) -> str:
    """`1.2 l of B-0004`, `2 l of the delivery Sat 13 Mar 06:45`, `4 l to be made`."""
    amount = words.amount(part["quantity"])
    thaw = (
        f", out of the freezer by {words.moment(part['thaw_from'])}" if "thaw_from" in part else ""
    )
    if "batch" in part:
        return f"{amount} of {part['label']}{thaw}"
    if "making" in part:
        return f"{amount} to be made"
    kind = "garden" if "harvest" in part else "delivery"
    return f"{amount} of the {kind} {words.moment(part['ready'])}{thaw}"
