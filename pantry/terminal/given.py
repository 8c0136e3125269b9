"""What options are given as: dates, instants and exact numbers; anything else is wrong usage."""

import re
from datetime import date, datetime
from fractions import Fraction

import click

from pantry.refusals import Refusal
from pantry.rules.house_time import read_instant

_DATE = re.compile(r"[0-9]{4}-[0-9]{2}-[0-9]{2}")
_NUMBER = re.compile(r"[0-9]{1,15}(\.[0-9]{1,15})?")


def day(text: str) -> date:
    """An ISO 8601 date, or `BadParameter`."""
    try:
        if _DATE.fullmatch(text):
            return date.fromisoformat(text)
    except ValueError:
        pass
    raise click.BadParameter(f"{text!r} is no date; write it as 2027-03-20.")


def instant(text: str) -> datetime:
    """An RFC 3339 instant with its offset, or `BadParameter`."""
    try:
        return read_instant(text)
    except Refusal as refusal:
        raise click.BadParameter(str(refusal)) from refusal


def number(text: str) -> Fraction:
    """Decimal text, exactly, or `BadParameter`."""
    if not _NUMBER.fullmatch(text):
        raise click.BadParameter(f"{text!r} is no number; write it with a point, such as 0.53.")
    return Fraction(text)
