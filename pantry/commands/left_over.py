"""What came back unserved from the pot becomes a batch that keeps its first cooking (SL4)."""

import json
from collections.abc import Iterator
from datetime import datetime
from fractions import Fraction
from typing import Any

from pantry.commands import naming
from pantry.commands.given import Given
from pantry.commands.made_and_served import LeftOver
from pantry.commands.making import ToMake, Used, made_of
from pantry.commands.portions import serving_of, shares
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.read import stock
from pantry.records.read.larder import larder
from pantry.records.rows import add, among, change, every, find, one
from pantry.records.slugs import slug
from pantry.records.tables import (
    BalanceRow,
    BatchRow,
    ItemRow,
    LeftOverRow,
    RecipeRow,
    ServiceRow,
    ServingRow,
)
from pantry.refusals import UnreadableInput, declare
from pantry.rules.allergens import of_recipe
from pantry.rules.house_time import before, read_instant
from pantry.rules.stock import BaseUnit, Declared
from pantry.rules.variants import with_variant

COOKED_AFTER = declare("cooked_after", "Nothing is left over before it was cooked.")

_PORTION = 1000
"""One portion, in thousandths: left-overs are counted in portions."""


def left_over(books: Books, given: Given[LeftOver]) -> None:
    """So many portions of a dish are a batch now, of an item of its own, made of what was served.

    Of each batch that was served the dish's share goes into it. Its life is the policy's for
    left-overs and counts from the first cooking; nothing in it that was cooked before, or of a dish
    that is only assembled, is outlived. What came back from a table is waste.

    Raises:
        NotThere: an unknown service or area, `dish_not_on_menu`.
        UnreadableInput: `instant_unreadable`, `cooked_after`.
        NotNow: `batch_taken`, `label_taken`.
    """
    body = given.body
    row = naming.service(books, body.service)
    serving = serving_of(books, row, body.dish, body.variant)
    recipe = one(books.connection, RecipeRow, house=books.id, id=serving.dish)
    first = _first_cooked(books, given, row, recipe)
    item = _item(books, recipe, serving, naming.area(books, body.area).id)
    what = ToMake(
        recipe=recipe,
        item=item,
        quantity=body.portions * _PORTION,
        at=given.at,
        child=body.child,
        area=naming.area(books, body.area).id,
        label=body.label,
        first=first,
        source=accounts.served(row.id),
    )
    made_of(books, what, _parts(books, row, serving, body.portions))
    add(
        books.connection,
        LeftOverRow(
            house=books.id,
            batch=body.child,
            service=row.id,
            dish=serving.dish,
            variant=serving.variant,
            portions=body.portions,
            cooked_at=first,
        ),
    )
    books.note("service", row.id)


def _first_cooked(
    books: Books, given: Given[LeftOver], row: ServiceRow, recipe: RecipeRow
) -> datetime:
    """When it was first cooked: as somebody says, or as early as its recipe has it begun."""
    if given.body.cooked_at is None:
        return min(given.at, before(row.at, books.recipes[recipe.id].lead, books.zone))
    first = read_instant(given.body.cooked_at)
    if first > given.at:
        raise UnreadableInput(
            COOKED_AFTER,
            f"It would have been cooked at {given.body.cooked_at}, after it was left over.",
            "Say when it was cooked first.",
            value=given.body.cooked_at,
            field="body.cooked_at",
        )
    return first


def _item(books: Books, recipe: RecipeRow, serving: ServingRow, area: str) -> str:
    """The item that the left-overs of a dish and variant are batches of, with its allergens."""
    name = recipe.name + (f", {serving.variant}" if serving.variant else "") + ", left over"
    known = find(books.connection, ItemRow, house=books.id, id=slug(name))
    of_house = larder(books.connection, books.id, books.items, books.recipes.values())
    declared = of_recipe(with_variant(books.recipes[recipe.id], serving.variant), of_house)
    if known is not None:
        if stock.batch_rows(books.connection, books.id, [known.id]):
            declared = _both(declared, stock.item(known).declared)
        where = {"house": books.id, "id": known.id}
        change(books.connection, ItemRow, where, **_allergens(declared))
    else:
        frozen = books.lives.policy.life("frozen", "left_over")
        add(
            books.connection,
            ItemRow(
                house=books.id,
                id=slug(name),
                name=name,
                base_unit=BaseUnit.EACH.value,
                group="left-overs",
                area=area,
                high_risk=True,
                frozen_life_days=frozen.days,
                **_allergens(declared),
            ),
        )
    books.settings_changed()
    books.note("item", slug(name))
    return slug(name)


def _both(one_: Declared, other: Declared) -> Declared:
    """What two batches of an item have between them: while one stands, it is as the worst."""
    return Declared(
        contains=one_.contains | other.contains,
        may_contain=one_.may_contain | other.may_contain,
        free_of=one_.free_of & other.free_of,
    )


def _allergens(declared: Declared) -> dict[str, Any]:
    return {
        name: json.dumps(sorted(getattr(declared, name)))
        for name in ("contains", "may_contain", "free_of")
    }


def _parts(books: Books, row: ServiceRow, serving: ServingRow, portions: int) -> Iterator[Used]:
    """Of each batch that was served there, what these portions of the dish had of it."""
    share = shares(books, row, serving, portions)
    account = accounts.served(row.id)
    held = every(books.connection, BalanceRow, house=books.id, account=account)
    served = {each.batch: each.quantity for each in held if each.quantity > 0}
    for batch in among(books.connection, BatchRow, books.id, "id", sorted(served)):
        quantity = int(served[batch.id] * share.get(batch.item, Fraction(0)))
        if quantity:
            yield Used(batch, quantity, "assumed")
