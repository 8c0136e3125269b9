"""What can be asked of a house: each report for programs as JSON, for people in words."""

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from typing import Any
from zoneinfo import ZoneInfo

import click
from rich.console import Console

from pantry.records.database import reading
from pantry.reports.asked import ask
from pantry.reports.report import Row
from pantry.reports.view import LOOK_AHEAD, View, view
from pantry.terminal import shown
from pantry.terminal.houses import chosen, existing_database
from pantry.terminal.printing import console, json_option, plain, print_json
from pantry.terminal.settings import Settings, from_environment, present
from pantry.terminal.words import Words

Said = Callable[[Console, Words, list[Row]], None]


@contextmanager
def looking(settings: Settings) -> Iterator[View]:
    """The house that is meant, as it stands now."""
    with existing_database(settings) as engine, reading(engine) as connection:
        yield view(connection, chosen(connection, settings).id, present(settings))


def words_of(seen: View, terminal: Console) -> Words:
    """The words in which a house is spoken of on this terminal."""
    return Words(
        ZoneInfo(seen.row.zone),
        seen.now,
        seen.row.decimal_mark,
        unicode=not terminal.options.ascii_only,
    )


def answer(report: str, said: Said, *, as_json: bool, **given: Any) -> None:  # noqa: ANN401 - each its own
    """Ask a report of the house that is meant, and print what it answers."""
    with looking(from_environment()) as seen:
        told = ask(seen, report, **given)
        if as_json:
            print_json(told)
            return
        terminal = console()
        words = words_of(seen, terminal)
    terminal.print(plain(f"{seen.house.name}, {words.moment(seen.now)}", "bold"))
    said(terminal, words, told["rows"])


@click.command("house")
@json_option
def house_command(*, as_json: bool) -> None:
    """What the house is set to, its storage areas, tables and suppliers, what it has yet."""
    answer("house", shown.house, as_json=as_json)


@click.command("days")
@click.option(
    "--days",
    "number",
    type=click.IntRange(min=1, max=LOOK_AHEAD.days),
    default=7,
    show_default=True,
    help="How many, today being the first.",
)
@json_option
def days_command(number: int, *, as_json: bool) -> None:
    """The days ahead as one line: meals, deliveries, deadlines, what to do and what dies."""
    answer("days", shown.days, as_json=as_json, days=number)


@click.command("morning")
@json_option
def morning_command(*, as_json: bool) -> None:
    """What today brings and asks, and what was left unfinished."""
    answer("morning", shown.morning, as_json=as_json)


@click.command("pull")
@json_option
def pull_command(*, as_json: bool) -> None:
    """What is taken out of the freezers today to thaw, by when, and for what."""
    answer("pull", shown.pull, as_json=as_json)


@click.command("pick")
@json_option
def pick_command(*, as_json: bool) -> None:
    """What is brought to the kitchen for the meals of today and tomorrow, batch by batch."""
    answer("pick", shown.pick, as_json=as_json)


@click.command("expected")
@json_option
def expected_command(*, as_json: bool) -> None:
    """What is on order, delivery by delivery, where it goes and what it is for."""
    answer("expected", shown.expected, as_json=as_json)


@click.command("items")
@json_option
def items_command(*, as_json: bool) -> None:
    """Everything that is stocked, with its packs and what it contains."""
    answer("items", shown.items, as_json=as_json)


@click.command("code")
@click.argument("text", metavar="CODE")
@json_option
def code_command(text: str, *, as_json: bool) -> None:
    """What a scanned CODE or label says, and which packs, items and batches carry it."""
    answer("code", shown.code, as_json=as_json, text=text)


@click.command("menus")
@json_option
def menus_command(*, as_json: bool) -> None:
    """The menus from yesterday to four weeks ahead: what is chosen, by when, what is lacking."""
    answer("menus", shown.menus, as_json=as_json)


@click.command("dishes")
@json_option
def dishes_command(*, as_json: bool) -> None:
    """Every dish with its recipe, what it contains and when it was last served."""
    answer("dishes", shown.dishes, as_json=as_json)


@click.command("stock")
@json_option
def stock_command(*, as_json: bool) -> None:
    """What stands in the house: on hand = available + promised + on hold + emergency meal."""
    answer("stock", shown.stock, as_json=as_json)


@click.command("wrong-places")
@json_option
def wrong_places_command(*, as_json: bool) -> None:
    """What stands where such food is not kept, and where it is moved to."""
    answer("wrong-places", shown.wrong_places, as_json=as_json)


@click.command("use-first")
@json_option
def use_first_command(*, as_json: bool) -> None:
    """What is promised to nobody and dies soon, and which dishes could use it."""
    answer("use-first", shown.use_first, as_json=as_json)


@click.command("plan")
@json_option
def plan_command(*, as_json: bool) -> None:
    """What must be ordered by what hour, of whom, because of which service."""
    answer("plan", shown.plan, as_json=as_json)


@click.command("coverage")
@click.option("--service", metavar="DATE/MEAL/TABLE", help="One service only, item by item.")
@json_option
def coverage_command(service: str | None, *, as_json: bool) -> None:
    """Can we serve it, from what, and by when must it be chosen, dish by dish."""
    if service is None:
        answer("coverage", shown.coverage, as_json=as_json)
    else:
        answer("coverage", shown.coverage_of_one, as_json=as_json, service=service)


@click.command("notice")
@click.option("--longer", is_flag=True, help="What another length of notice would change.")
@json_option
def notice_command(*, longer: bool, as_json: bool) -> None:
    """What can be bought once a menu is chosen, and what must be kept in."""
    if longer:
        answer("longer-notice", shown.longer_notice, as_json=as_json)
    else:
        answer("notice", shown.notice, as_json=as_json)


_DAYS_BACK = click.IntRange(min=1, max=366)


@click.command("temperatures")
@click.option("--days", "number", type=_DAYS_BACK, default=2, show_default=True, help="How many.")
@json_option
def temperatures_command(number: int, *, as_json: bool) -> None:
    """How warm the cold places are, what was not right lately, and the rounds nobody made."""
    answer("temperatures", shown.temperatures, as_json=as_json, days=number)


@click.command("cooling")
@json_option
def cooling_command(*, as_json: bool) -> None:
    """What cools now, how cold it must be by when, and what did not cool in time."""
    answer("cooling", shown.cooling, as_json=as_json)


@click.command("checks")
@click.option("--days", "number", type=_DAYS_BACK, default=90, show_default=True, help="How many.")
@json_option
def checks_command(number: int, *, as_json: bool) -> None:
    """Which probes were checked and what was cleaned, the latest first."""
    answer("checks", shown.checks, as_json=as_json, days=number)


@click.command("trace")
@click.argument("name", metavar="LOT|LABEL")
@json_option
def trace_command(name: str, *, as_json: bool) -> None:
    """Where a lot or a batch came from and where it went, one step back and forward to the end."""
    answer("trace", shown.trace, as_json=as_json, name=name)


@click.command("questions")
@json_option
def questions_command(*, as_json: bool) -> None:
    """What the records contradict and a person must settle."""
    answer("questions", shown.questions, as_json=as_json)


@click.command("credits")
@json_option
def credits_command(*, as_json: bool) -> None:
    """What suppliers owe for goods that were short, refused or another thing."""
    answer("credits", shown.owed, as_json=as_json)


@click.command("suppliers")
@click.option(
    "--record", is_flag=True, help="How they kept to what was ordered, twelve weeks back."
)
@click.option("--standing", is_flag=True, help="What they bring of themselves.")
@json_option
def suppliers_command(*, record: bool, standing: bool, as_json: bool) -> None:
    """Who sells to the house, and what comes of them in the next four weeks, with what moves it."""
    if standing:
        answer("standing-orders", shown.standing_orders, as_json=as_json)
    elif record:
        answer("supplier-record", shown.supplier_record, as_json=as_json)
    else:
        answer("suppliers", shown.suppliers, as_json=as_json)


@click.command("devices")
@json_option
def devices_command(*, as_json: bool) -> None:
    """The phones of the house, and what each has not handed in yet."""
    answer("devices", shown.devices, as_json=as_json)


@click.command("changes")
@click.option("--since", type=click.IntRange(min=0), default=0, help="After this number.")
@json_option
def changes_command(since: int, *, as_json: bool) -> None:
    """What is different since a number of the house's one sequence."""
    answer("changes", shown.changes, as_json=as_json, since=since)
