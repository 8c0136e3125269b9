"""The order desk at the command line: alerts, orders, prices, and the week's budget."""

import click

from pantry.terminal import shown
from pantry.terminal.printing import json_option
from pantry.terminal.reporting import answer


@click.command("alerts")
@json_option
def alerts_command(*, as_json: bool) -> None:
    """What presses: what to order by when, what was missed, and who sees to it."""
    answer("alerts", shown.alerts, as_json=as_json)


@click.command("orders")
@json_option
def orders_command(*, as_json: bool) -> None:
    """The orders as they stand: what is on them, how they were sent, what the supplier said."""
    answer("orders", shown.orders, as_json=as_json)


@click.command("prices")
@json_option
def prices_command(*, as_json: bool) -> None:
    """What suppliers sell, in what packs, at what price, and what has become dearer."""
    answer("prices", shown.prices, as_json=as_json)


@click.command("budget")
@json_option
def budget_command(*, as_json: bool) -> None:
    """What the deliveries of each week cost, against what the house means to spend."""
    answer("budget", shown.budget, as_json=as_json)
