"""Portions of a service's dishes: which dish is meant, what other portions make of its needs."""

from collections.abc import Iterable, Mapping
from dataclasses import replace
from fractions import Fraction

from pantry.commands.parts import ServedPart
from pantry.commands.swap_dish import DISH_NOT_ON_MENU
from pantry.records.books import Books
from pantry.records.read import menu
from pantry.records.rows import change, every
from pantry.records.slugs import slug
from pantry.records.tables import ServiceRow, ServingRow
from pantry.refusals import NotThere
from pantry.rules.menu import Service, Serving
from pantry.rules.recipes import direct_needs


def serving_of(books: Books, row: ServiceRow, dish: str, variant: str | None) -> ServingRow:
    """A dish on the menu, in its variant if there is one.

    Raises:
        NotThere: `dish_not_on_menu`.
    """
    servings = every(books.connection, ServingRow, house=books.id, service=row.id)
    named = (slug(dish), slug(variant or ""))
    for serving in servings:
        if (serving.dish, slug(serving.variant or "")) == named:
            return serving
    raise NotThere(
        DISH_NOT_ON_MENU,
        f"{dish} is not on the menu of {row.id}.",
        "Name one of its dishes, with its variant.",
        value=dish,
        field="body.dish",
    )


def note_served(books: Books, row: ServiceRow, dishes: Iterable[ServedPart]) -> None:
    """Write down of which dishes other portions were served than planned.

    Raises:
        NotThere: `dish_not_on_menu`.
    """
    for part in dishes:
        serving = serving_of(books, row, part.dish, part.variant)
        where = {"house": books.id, "service": row.id, "line": serving.line}
        change(books.connection, ServingRow, where, served=part.portions)


def wanted_otherwise(books: Books, row: ServiceRow) -> Mapping[str, tuple[int, int]]:
    """By item, what was wanted as planned and for the portions served, where that differs."""
    planned = menu.service(books.connection, books.id, row)
    rows = every(books.connection, ServingRow, house=books.id, service=row.id)
    served = replace(planned, servings=tuple(_as_served(each) for each in rows))
    before, after = _wanted(books, planned), _wanted(books, served)
    items = before.keys() | after.keys()
    found = {item: (before.get(item, 0), after.get(item, 0)) for item in items}
    return {item: (was, now) for item, (was, now) in found.items() if was != now}


def _as_served(row: ServingRow) -> Serving:
    portions = row.portions if row.served is None else row.served
    return Serving(row.course, row.dish, row.variant, portions, row.chosen)


def shares(
    books: Books, row: ServiceRow, serving: ServingRow, portions: int
) -> Mapping[str, Fraction]:
    """By item, the part of what was served that so many portions of one dish had."""
    service = menu.service(books.connection, books.id, row)
    cooked = _cooked(service, serving)
    mine = tuple(each for each in service.servings if _is(each, serving))
    of_dish = _wanted(books, replace(service, servings=mine))
    of_all = _wanted(books, service)
    part = min(Fraction(portions, cooked), Fraction(1)) if cooked else Fraction(0)
    return {
        item: Fraction(quantity, of_all[item]) * part
        for item, quantity in of_dish.items()
        if of_all.get(item)
    }


def _is(each: Serving, row: ServingRow) -> bool:
    return (each.course, each.dish, each.variant) == (row.course, row.dish, row.variant)


def _cooked(service: Service, serving: ServingRow) -> int:
    """How many portions of the dish there were, so far as anybody knows."""
    planned = service.covers if serving.portions is None else serving.portions
    return planned if serving.served is None else max(planned, serving.served)


def _wanted(books: Books, service: Service) -> dict[str, int]:
    """What a service's dishes want of each item, in thousandths."""
    tables = menu.tables(books.connection, books.id)
    needs = direct_needs(service, books.recipes, books.items, tables, books.zone)
    found: dict[str, int] = {}
    for need in needs:
        found[need.item] = found.get(need.item, 0) + need.quantity
    return found
