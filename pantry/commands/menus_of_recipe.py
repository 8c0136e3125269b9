"""The menus on which a recipe stands: who is cooked for by it, and whether that has begun."""

from collections.abc import Collection
from datetime import timedelta

from sqlalchemy import text

from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.rows import among, every
from pantry.records.slugs import slug
from pantry.records.tables import ServiceRow, ServingRow
from pantry.refusals import NotNow, declare
from pantry.rules.menu import ServiceState
from pantry.rules.services import lapsed

VARIANT_ON_MENU = declare("variant_on_menu", "A variant that stands on a menu cannot be left out.")

_STILL_LOOKED_AT = timedelta(days=3)

_BEGUN = text(
    "SELECT 1 FROM balance WHERE house = :house AND account = :account AND quantity <> 0 LIMIT 1"
)


def confirmed_ahead(books: Books) -> list[ServiceRow]:
    """The confirmed services that are still to come, or only just over."""
    state = ServiceState.CONFIRMED.value
    rows = every(books.connection, ServiceRow, house=books.id, state=state)
    return [row for row in rows if not lapsed(row.at, books.now)]


def is_begun(books: Books, service: str) -> bool:
    """Whether something stands taken out for a service."""
    of = {"house": books.id, "account": accounts.kitchen(service)}
    return books.connection.execute(_BEGUN, of).first() is not None


def refuse_lost_variants(books: Books, recipe: str, variants: Collection[str]) -> None:
    """Refuse to leave out a variant in which a menu has the dish, or nobody could cook it.

    Args:
        books: the books.
        recipe: its id.
        variants: the slugs of the names of those it has from now on.

    Raises:
        NotNow: `variant_on_menu`.
    """
    rows = every(books.connection, ServingRow, house=books.id, dish=recipe)
    lost = [row for row in rows if row.variant and slug(row.variant) not in variants]
    services = among(
        books.connection, ServiceRow, books.id, "id", sorted({row.service for row in lost})
    )
    stands = {
        row.id: row
        for row in services
        if row.state != ServiceState.TAKEN_OFF.value and row.at > books.now - _STILL_LOOKED_AT
    }
    for serving in lost:
        if serving.service in stands:
            raise NotNow(
                VARIANT_ON_MENU,
                f"{serving.service} has {recipe} {serving.variant}.",
                "Keep the variant, or choose another dish for that service first.",
                value=serving.variant or "",
                field="body.variants",
            )
