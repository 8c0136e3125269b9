"""Facts of the kitchen: what was made, what was served, what came back unserved."""

from typing import Annotated

from msgspec import Meta

from pantry.commands.parts import (
    ByProductPart,
    CountedPart,
    Fact,
    ServedPart,
    UsedPart,
    Which,
    Written,
)


class LeftOver(Fact, frozen=True):
    """So many portions of a dish came back unserved from the pot; they become a batch (SL4).

    `cooked_at` is when it was cooked first, RFC 3339; without it, as early as its recipe may have
    had it begun.
    """

    service: Which
    dish: str
    portions: Annotated[int, Meta(ge=1, le=100_000)]
    child: str
    area: str
    variant: str | None = None
    cooked_at: str | None = None
    label: str | None = None


class Make(Fact, frozen=True):
    """A preparation was made; without `used`, as the recipe says and first expired first out."""

    recipe: str
    quantity: Written
    child: str
    area: str
    used: list[UsedPart] | None = None
    label: str | None = None
    by_products: Annotated[tuple[ByProductPart, ...], Meta(max_length=20)] = ()


class Serve(Fact, frozen=True):
    """A service was served: as planned, but for the exceptions.

    `dishes` are those of which other portions were served than planned; `exceptions` say how much
    of a batch or an item was really used, and go before them.
    """

    service: Which
    exceptions: tuple[CountedPart, ...] = ()
    dishes: Annotated[tuple[ServedPart, ...], Meta(max_length=60)] = ()
