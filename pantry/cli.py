"""The command line: the same commands and reports as everywhere, from a terminal.

Every command stands in the part of `pantry/terminal` that it is about; here they have their names.
"""

import click

from pantry.terminal.endings import PlainGroup
from pantry.world import collect_seldom

PLACES = {
    "demo": "pantry.terminal.demo:demo",
    "serve": "pantry.terminal.serving:serve_command",
    "trust": "pantry.terminal.trusting:trust_command",
    "import": "pantry.terminal.importing:import_command",
    "apply": "pantry.terminal.applying:apply_command",
    "house": "pantry.terminal.reporting:house_command",
    "days": "pantry.terminal.reporting:days_command",
    "morning": "pantry.terminal.reporting:morning_command",
    "pull": "pantry.terminal.reporting:pull_command",
    "pick": "pantry.terminal.reporting:pick_command",
    "presence": "pantry.terminal.presence:presence_command",
    "preparations": "pantry.terminal.kitchen:preparations_command",
    "serving": "pantry.terminal.kitchen:serving_command",
    "served": "pantry.terminal.kitchen:served_command",
    "menus": "pantry.terminal.reporting:menus_command",
    "sheets": "pantry.terminal.sheets:sheets_command",
    "dishes": "pantry.terminal.reporting:dishes_command",
    "dishes-for": "pantry.terminal.weighing:dishes_for_command",
    "recipes": "pantry.terminal.recipes:recipes_command",
    "expected": "pantry.terminal.reporting:expected_command",
    "items": "pantry.terminal.reporting:items_command",
    "code": "pantry.terminal.reporting:code_command",
    "labels": "pantry.terminal.labels:labels_command",
    "stock": "pantry.terminal.reporting:stock_command",
    "wrong-places": "pantry.terminal.reporting:wrong_places_command",
    "use-first": "pantry.terminal.reporting:use_first_command",
    "plan": "pantry.terminal.reporting:plan_command",
    "reorder": "pantry.terminal.ordering:reorder_command",
    "orders": "pantry.terminal.ordering:orders_command",
    "prices": "pantry.terminal.ordering:prices_command",
    "invoices": "pantry.terminal.invoicing:invoices_command",
    "alerts": "pantry.terminal.ordering:alerts_command",
    "budget": "pantry.terminal.ordering:budget_command",
    "coverage": "pantry.terminal.reporting:coverage_command",
    "late-change": "pantry.terminal.weighing:late_change_command",
    "instead": "pantry.terminal.kitchen:instead_command",
    "notice": "pantry.terminal.reporting:notice_command",
    "temperatures": "pantry.terminal.reporting:temperatures_command",
    "cooling": "pantry.terminal.reporting:cooling_command",
    "checks": "pantry.terminal.reporting:checks_command",
    "trace": "pantry.terminal.reporting:trace_command",
    "questions": "pantry.terminal.reporting:questions_command",
    "suppliers": "pantry.terminal.reporting:suppliers_command",
    "credits": "pantry.terminal.reporting:credits_command",
    "devices": "pantry.terminal.reporting:devices_command",
    "changes": "pantry.terminal.reporting:changes_command",
    "waste": "pantry.terminal.wasted:waste_command",
    "verify": "pantry.terminal.keeping:verify_command",
    "backup": "pantry.terminal.keeping:backup_command",
    "restore": "pantry.terminal.keeping:restore_command",
    "go-on": "pantry.terminal.keeping:go_on_command",
    "measure": "pantry.terminal.asking:measure",
    "read-code": "pantry.terminal.scanning:read_code_command",
    "usable-until": "pantry.terminal.asking:usable_until",
}
"""Every command by name, and where it stands."""


@click.group(cls=PlainGroup, places=PLACES, context_settings={"max_content_width": 100})
@click.version_option(package_name="chooseby", prog_name="chooseby")
def main() -> None:
    r"""The stock room that knows the menu.

    Can we serve it, by when must it be chosen, what must be ordered by what hour, what must be
    used first, what did we lose and why.

    \b
    Where the books are and which house is meant, by the environment:
      CHOOSEBY_DATA          the data folder; ~/.local/share/chooseby by default
      CHOOSEBY_DATABASE_URL  the database; chooseby.db in the data folder by default
      CHOOSEBY_HOUSE         a house's name; needed only where there are several
      CHOOSEBY_HOST, _PORT   where to serve; 127.0.0.1 and 8710 by default
      CHOOSEBY_HTTPS_NAMES   names and addresses to serve over HTTPS; see `chooseby trust`
      CHOOSEBY_NOW           a fixed instant, for demos and tests

    Exit codes: 0 done, 1 refused, 2 wrong usage, 3 the books do not agree.
    """
    collect_seldom()
