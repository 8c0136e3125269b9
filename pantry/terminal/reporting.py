"""What can be asked of a house: each report for programs as JSON, for people in words."""

from collections.abc import Callable, Iterable, Iterator
from contextlib import contextmanager
from zoneinfo import ZoneInfo

import click
from rich.console import Console

from pantry.records.database import reading
from pantry.records.slugs import slug
from pantry.refusals import NotThere, declare
from pantry.reports import (
    changes,
    code,
    coverage,
    days,
    dishes,
    expected,
    house,
    items,
    menus,
    morning,
    notice,
    plan,
    questions,
    stock,
    trace,
    use_first,
)
from pantry.reports.report import Row, report
from pantry.reports.view import LOOK_AHEAD, View, view
from pantry.rules.menu import ServiceState
from pantry.terminal import shown
from pantry.terminal.houses import chosen, existing_database
from pantry.terminal.printing import console, json_option, plain, print_json
from pantry.terminal.settings import Settings, from_environment, present
from pantry.terminal.words import Words

SERVICE_NOT_AHEAD = declare(
    "service_not_ahead", "No proposed or confirmed service of the days ahead has that name."
)

AHEAD = (ServiceState.PROPOSED, ServiceState.CONFIRMED)

Asked = Callable[[View], Iterable[Row]]
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


def answer(asked: Asked, said: Said, *, as_json: bool, **beside: Callable[[View], object]) -> None:
    """Ask a report of the house that is meant, and print what it answers."""
    with looking(from_environment()) as seen:
        rows = list(asked(seen))
        if as_json:
            more = {name: of_house(seen) for name, of_house in beside.items()}
            print_json(report(seen, rows, **more))
            return
        terminal = console()
        words = words_of(seen, terminal)
    terminal.print(plain(f"{seen.house.name}, {words.moment(seen.now)}", "bold"))
    said(terminal, words, rows)


@click.command("house")
@json_option
def house_command(*, as_json: bool) -> None:
    """What the house is set to, its storage areas, tables and suppliers, what it has yet."""
    answer(house.house, shown.house, as_json=as_json)


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
    answer(lambda seen: days.days(seen, number), shown.days, as_json=as_json)


@click.command("morning")
@json_option
def morning_command(*, as_json: bool) -> None:
    """What today brings and asks, and what was left unfinished."""
    answer(morning.morning, shown.morning, as_json=as_json)


@click.command("expected")
@json_option
def expected_command(*, as_json: bool) -> None:
    """What is on order, delivery by delivery, where it goes and what it is for."""
    answer(expected.expected, shown.expected, as_json=as_json)


@click.command("items")
@json_option
def items_command(*, as_json: bool) -> None:
    """Everything that is stocked, with its packs and what it contains."""
    answer(items.items, shown.items, as_json=as_json)


@click.command("code")
@click.argument("text", metavar="CODE")
@json_option
def code_command(text: str, *, as_json: bool) -> None:
    """What a scanned CODE or label says, and which packs, items and batches carry it."""
    answer(lambda seen: code.code(seen, text), shown.code, as_json=as_json)


@click.command("menus")
@json_option
def menus_command(*, as_json: bool) -> None:
    """The menus from yesterday to four weeks ahead: what is chosen, by when, what is lacking."""
    answer(menus.menus, shown.menus, as_json=as_json)


@click.command("dishes")
@json_option
def dishes_command(*, as_json: bool) -> None:
    """Every dish with its recipe, what it contains and when it was last served."""
    answer(dishes.dishes, shown.dishes, as_json=as_json)


@click.command("stock")
@json_option
def stock_command(*, as_json: bool) -> None:
    """What stands in the house: on hand = available + promised + on hold + emergency meal."""
    answer(stock.stock, shown.stock, as_json=as_json)


@click.command("use-first")
@json_option
def use_first_command(*, as_json: bool) -> None:
    """What is promised to nobody and dies soon, and which dishes could use it."""
    answer(use_first.use_first, shown.use_first, as_json=as_json)


@click.command("plan")
@json_option
def plan_command(*, as_json: bool) -> None:
    """What must be ordered by what hour, of whom, because of which service."""
    answer(plan.plan, shown.plan, as_json=as_json)


@click.command("coverage")
@click.option("--service", metavar="DATE/MEAL/TABLE", help="One service only, item by item.")
@json_option
def coverage_command(service: str | None, *, as_json: bool) -> None:
    """Can we serve it, from what, and by when must it be chosen, dish by dish."""
    if service is None:
        answer(coverage.coverage, shown.coverage, as_json=as_json)
        return

    def of_service(seen: View) -> list[Row]:
        return coverage.coverage(seen, _service_ahead(seen, service))

    answer(of_service, shown.coverage_of_one, as_json=as_json)


def _service_ahead(seen: View, written: str) -> str:
    """The id of a service of the days ahead, its table by name or id.

    Raises:
        NotThere: `service_not_ahead`.
    """
    date, *rest = (part.strip() for part in written.split("/"))
    name = "/".join([date, *(slug(part) for part in rest)])
    ahead = [service.id for service in seen.services if service.state in AHEAD]
    if name in ahead:
        return name
    that_day = [service for service in ahead if service.startswith(f"{date}/")]
    raise NotThere(
        SERVICE_NOT_AHEAD,
        f"No service of the days ahead is {written!r}.",
        f"Name one of that day: {', '.join(that_day)}."
        if that_day
        else "Write DATE/MEAL/TABLE, such as 2027-03-13/dinner/family.",
        value=written,
    )


@click.command("notice")
@json_option
def notice_command(*, as_json: bool) -> None:
    """What can be bought once a menu is chosen, and what must be kept in."""
    answer(notice.notice, shown.notice, as_json=as_json, needed_by_menu=notice.needed_by_menu)


@click.command("trace")
@click.argument("name", metavar="LOT|LABEL")
@json_option
def trace_command(name: str, *, as_json: bool) -> None:
    """Where a lot or a batch came from and where it went, one step back and forward to the end."""
    answer(lambda seen: trace.trace(seen, name), shown.trace, as_json=as_json)


@click.command("questions")
@json_option
def questions_command(*, as_json: bool) -> None:
    """What the records contradict and a person must settle."""
    answer(questions.questions, shown.questions, as_json=as_json)


@click.command("changes")
@click.option("--since", type=click.IntRange(min=0), default=0, help="After this number.")
@json_option
def changes_command(since: int, *, as_json: bool) -> None:
    """What is different since a number of the house's one sequence."""
    answer(lambda seen: changes.changes(seen, since), shown.changes, as_json=as_json)
