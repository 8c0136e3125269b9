"""When a dish is in season: a month and day to a month and day, every year."""

from datetime import date

from pantry.rules.menu import Recipe


def in_season(recipe: Recipe, day: date) -> bool:
    """Whether the recipe is in season on this date; one without a season always is.

    Both ends belong to it; a season whose end is before its beginning runs over the year's end.
    """
    if recipe.season is None:
        return True
    first, last = recipe.season
    today = (day.month, day.day)
    if first <= last:
        return first <= today <= last
    return today >= first or today <= last
