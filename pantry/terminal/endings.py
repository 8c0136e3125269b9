"""How a command ends: its exit code, and errors in plain words, never a traceback."""

import importlib
import logging
from collections.abc import Mapping
from typing import Any, Never

import click

from pantry.refusals import Refusal, declare
from pantry.terminal.printing import print_json, show_every_letter, wants_json
from pantry.terminal.settings import from_environment

DONE = 0
REFUSED = 1
WRONG_USAGE = 2
BOOKS_DISAGREE = 3

LOG_FILE = "chooseby.log"

DATABASE_UNREACHABLE = declare(
    "database_unreachable", "The database cannot be reached, or is not what it should be."
)
FILE_UNUSABLE = declare("file_unusable", "A file or folder cannot be read or written.")
UNEXPECTED = declare("unexpected", "The program met something it was not made for.")


class PlainGroup(click.Group):
    """Commands by name, loaded when they are asked for; what they refuse is said in plain words.

    Loading a report takes a second, and a question about a cup of flour should not.
    """

    def __init__(self, *, places: Mapping[str, str], **more: Any) -> None:  # noqa: ANN401 - click's own
        super().__init__(**more)
        self.places = places

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """The names in the order in which they are best met."""
        return list(self.places)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002 - as above
        """The command of that name, from the module in which it stands."""
        place = self.places.get(cmd_name)
        if place is None:
            return None
        module, _, function = place.partition(":")
        found: click.Command = getattr(importlib.import_module(module), function)
        return found

    def invoke(self, ctx: click.Context) -> Any:  # noqa: ANN401 - click's own
        """Run the command; end as `0 done, 1 refused, 2 wrong usage, 3 the books do not agree`."""
        show_every_letter()
        try:
            return super().invoke(ctx)
        except Refusal as refusal:
            _end(ctx, refusal)
        except (click.ClickException, click.exceptions.Exit, click.Abort, BrokenPipeError):
            raise
        except Exception as error:  # noqa: BLE001 - whoever asked gets a sentence, the log the rest
            _end(ctx, in_plain_words(error))


def _end(ctx: click.Context, refusal: Refusal) -> Never:
    say(refusal)
    if wants_json(ctx):
        print_json({"problem": as_problem(refusal)})
    ctx.exit(REFUSED)


def say(refusal: Refusal) -> None:
    """What is wrong and what to do, on standard error, with the code that the guide explains."""
    click.echo(f"{refusal.problem}\n{refusal.todo} [{refusal.code}]".strip(), err=True)


def as_problem(refusal: Refusal) -> dict[str, str]:
    """A refusal as data, for who asked for JSON."""
    return {
        "code": refusal.code,
        "detail": refusal.problem,
        "todo": refusal.todo,
        "value": refusal.value,
        "field": refusal.field,
    }


def in_plain_words(error: Exception) -> Refusal:
    """What went wrong outside the rules, as a sentence; its traceback goes to the log."""
    logged = _log(error)
    if _is_of_the_database(error):
        return Refusal(
            DATABASE_UNREACHABLE,
            f"The database cannot be used: {_first_line(getattr(error, 'orig', error))}.",
            f"Check CHOOSEBY_DATABASE_URL and CHOOSEBY_DATA, and that the database is up.{logged}",
        )
    if isinstance(error, OSError):
        where = f"{error.filename}: " if error.filename else ""
        return Refusal(
            FILE_UNUSABLE,
            f"{where}{error.strerror or error}.",
            "Check the path, the rights to it, and the space on the disk.",
            value=str(error.filename or ""),
        )
    return Refusal(
        UNEXPECTED,
        f"Something went wrong that should not: {_first_line(error) or type(error).__name__}.",
        f"Nothing was half done. Please report it.{logged}",
    )


def _is_of_the_database(error: Exception) -> bool:
    """Whether the driver raised it; by name, since loading SQLAlchemy takes half a second."""
    names = {f"{kind.__module__}.{kind.__name__}" for kind in type(error).__mro__}
    return "sqlalchemy.exc.DBAPIError" in names


def _first_line(error: object) -> str:
    return str(error).strip().partition("\n")[0].rstrip(".")


def _log(error: Exception) -> str:
    """Write the traceback into the data folder; answer where it can be read."""
    data = from_environment().data
    try:
        data.mkdir(parents=True, exist_ok=True)
        kept = logging.FileHandler(data / LOG_FILE, encoding="utf-8")
    except OSError:
        return ""
    kept.setFormatter(logging.Formatter("%(asctime)s %(message)s"))
    record = logging.LogRecord(
        "pantry",
        logging.ERROR,
        __file__,
        0,
        "%s",
        (error,),
        (type(error), error, error.__traceback__),
    )
    kept.emit(record)
    kept.close()
    return f" The details are in {data / LOG_FILE}."
