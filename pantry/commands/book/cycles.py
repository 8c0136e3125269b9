"""Preparations that are made from themselves, through whatever others: refused by name (RQ1)."""

from collections.abc import Iterable, Mapping

from pantry.commands.book.reading import Reading
from pantry.commands.book.recipes import Part
from pantry.rules.recipes import RECIPE_CYCLE


def refuse_cycles(
    reading: Reading, book: Iterable[Part], lines: Mapping[str, Iterable[str]]
) -> None:
    """Refuse the first row of each circle of preparations.

    Args:
        reading: the book.
        book: the rows of its ingredients.
        lines: the items of every recipe, of the book and of the house.
    """
    makers = {each.id: each for each in reading.recipes.things.values() if each.makes}
    made_of = {
        each.makes: set(lines.get(each.id, ()))
        for each in makers.values()
        if each.makes is not None
    }
    for part in book:
        maker = makers.get(part.recipe)
        if maker is None or maker.makes is None:
            continue
        chain = _chain(part.item, maker.makes, made_of)
        if chain:
            made_of[maker.makes].discard(part.item)
            names = [reading.items.things[item].name for item in (maker.makes, *chain)]
            part.line.fault(
                "ingredient",
                RECIPE_CYCLE,
                f"A preparation is made from itself: {' → '.join(names)}.",
                "Take one of these out of the recipe of the one before it.",
            )


def _chain(item: str, goal: str, made_of: Mapping[str, Iterable[str]]) -> list[str]:
    """How an item is made of the goal, both included, the shortest way; empty where it is not."""
    reached_from = {item: ""}
    waiting = [item]
    for at in waiting:
        if at == goal:
            chain = [at]
            while reached_from[chain[-1]]:
                chain.append(reached_from[chain[-1]])
            return chain[::-1]
        for part in sorted(made_of.get(at, ())):
            if part not in reached_from:
                reached_from[part] = at
                waiting.append(part)
    return []
