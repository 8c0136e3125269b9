"""Questions that need no database: what an amount comes to, until when something keeps."""

from datetime import date, datetime
from fractions import Fraction

import click

from pantry.rules import usable_until as rule
from pantry.rules.house_time import write_instant, zone
from pantry.rules.measure import UnitSystem, convert
from pantry.rules.stock import DateKind
from pantry.terminal import given
from pantry.terminal.printing import json_option, plain, print_json
from pantry.terminal.settings import from_environment, present
from pantry.terminal.words import Words

_NOT_SAID = "no limit is known"


@click.command()
@click.argument("amount")
@click.option(
    "--system",
    type=click.Choice([system.value for system in UnitSystem]),
    default="metric",
    show_default=True,
    help="Whose cups, pints and spoons.",
)
@click.option("--to", metavar="UNIT", help="The unit to answer in; g, ml or each by default.")
@click.option("--density", type=given.number, help="Grams in one millilitre, such as 0.53.")
@click.option("--piece-weight", type=given.number, help="Grams in one piece, such as 50.")
@json_option
def measure(
    amount: str,
    system: str,
    to: str | None,
    density: Fraction | None,
    piece_weight: Fraction | None,
    *,
    as_json: bool,
) -> None:
    """What an AMOUNT as people write it comes to, such as "1 1/2 cups" or "2 lb 4 oz"."""
    found = convert(
        amount, system=UnitSystem(system), to=to, density=density, piece_weight=piece_weight
    )
    if as_json:
        print_json(found)
    else:
        click.echo(plain(f"{amount} = {found['value']} {found['unit']}").plain)


@click.command("usable-until")
@click.option("--zone", "zone_name", required=True, help="The house's, such as Europe/London.")
@click.option("--date-kind", type=click.Choice(["use_by", "best_before"]))
@click.option("--date", "mark", type=given.day, help="The date mark.")
@click.option("--opened", type=given.day, help="The day of opening, day 1 of that life.")
@click.option("--opened-life-days", type=int)
@click.option("--frozen", type=given.day, help="The day it was frozen.")
@click.option("--thawed", type=given.instant, help="When thawing began, with offset.")
@click.option("--thawed-life-hours", type=int)
@click.option("--made", type=given.day, help="The day of making, day 1 of that life.")
@click.option("--life-days", type=int)
@json_option
def usable_until(
    zone_name: str,
    date_kind: str | None,
    mark: date | None,
    opened: date | None,
    opened_life_days: int | None,
    frozen: date | None,
    thawed: datetime | None,
    thawed_life_hours: int | None,
    made: date | None,
    life_days: int | None,
    *,
    as_json: bool,
) -> None:
    """Until when something may be used, by what is known of it.

    Local codes, the maker's label and licensed practice come first.
    """
    life = rule.answer(
        zone_name,
        date_kind=DateKind(date_kind) if date_kind else None,
        date=mark,
        opened=opened,
        opened_life_days=opened_life_days,
        frozen=frozen,
        thawed=thawed,
        thawed_life_hours=thawed_life_hours,
        made=made,
        life_days=life_days,
    )
    if as_json:
        print_json({"usable_until": _utc(life.usable_until), "good_until": _utc(life.good_until)})
        return
    words = Words(zone(zone_name), present(from_environment()))
    for name, end in (("usable until", life.usable_until), ("good until", life.good_until)):
        click.echo(f"{name}: {words.moment(end) if end else _NOT_SAID}")
    click.echo("Local codes, the maker's label and licensed practice come first.")


def _utc(instant: datetime | None) -> str | None:
    return None if instant is None else write_instant(instant)
