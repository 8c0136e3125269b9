"""What a late change would do, and what each dish would come to, asked at a terminal."""

import click

from pantry.terminal import shown
from pantry.terminal.printing import json_option
from pantry.terminal.reporting import answer

_PARTS = 3
"""Of what a service is called: its date, meal and table."""


@click.command("late-change")
@click.argument("service", metavar="DATE/MEAL/TABLE")
@click.option("--covers", type=click.IntRange(min=1, max=1000), help="So many eat.")
@click.option("--date", metavar="YYYY-MM-DD", help="It is on another day.")
@click.option("--meal", metavar="MEAL", help="It is another meal.")
@click.option("--table", metavar="TABLE", help="It is at another table.")
@click.option("--time", metavar="HH:MM", help="It is at another hour.")
@click.option("--off", is_flag=True, help="Nobody eats.")
@json_option
def late_change_command(service: str, *, off: bool, as_json: bool, **to: str | int | None) -> None:
    """What becomes short or spare if a chosen meal changes; nothing is changed by asking."""
    given = {name: value for name, value in to.items() if value is not None}
    if off:
        given["off"] = "yes"
    answer("late-change", shown.late_change, as_json=as_json, service=service, **given)


@click.command("dishes-for")
@click.argument("service", metavar="DATE/MEAL/TABLE")
@click.option("--time", metavar="HH:MM", required=True, help="When it is served.")
@click.option(
    "--covers",
    type=click.IntRange(min=1, max=1000),
    help="So many eat; else those who are said to.",
)
@json_option
def dishes_for_command(service: str, *, time: str, covers: int | None, as_json: bool) -> None:
    """What each dish would come to at a meal, before it is proposed."""
    written = [part.strip() for part in service.split("/")]
    if len(written) != _PARTS:
        raise click.BadParameter("Write DATE/MEAL/TABLE, such as 2027-03-13/dinner/family.")
    meal: dict[str, str | int] = dict(zip(("date", "meal", "table"), written, strict=True))
    if covers is not None:
        meal["covers"] = covers
    answer("dishes-for", shown.dishes_for, as_json=as_json, time=time, **meal)
