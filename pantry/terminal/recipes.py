"""The recipes of the house, asked on the command line."""

from pathlib import Path
from typing import Any

import click

from pantry.paper.recipe import recipe_sheet
from pantry.reports.asked import ask
from pantry.reports.recipes import MOST_COVERS
from pantry.terminal import shown
from pantry.terminal.printing import json_option
from pantry.terminal.reporting import answer, looking
from pantry.terminal.settings import from_environment


@click.command("recipes")
@click.argument("recipe", required=False)
@click.option(
    "--covers",
    type=click.IntRange(min=1, max=MOST_COVERS),
    help="For how many; left out, for what the recipe yields.",
)
@click.option("--pdf", type=click.Path(path_type=Path), help="Write them to this file, on A4.")
@json_option
def recipes_command(
    recipe: str | None, covers: int | None, pdf: Path | None, *, as_json: bool
) -> None:
    """What the kitchen cooks by: every recipe, or one with its ingredients for so many covers."""
    given: dict[str, Any] = {"recipe": recipe, "covers": covers}
    given = {name: value for name, value in given.items() if value is not None}
    if pdf is None:
        said = shown.recipe if recipe else shown.recipes
        answer("recipes", said, as_json=as_json, **given)
        return
    with looking(from_environment()) as seen:
        pdf.write_bytes(recipe_sheet(seen, ask(seen, "recipes", **given)["rows"]))
    click.echo(f"Written to {pdf}.")
