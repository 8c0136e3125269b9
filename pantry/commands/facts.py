"""Facts: what physically happened, and is never refused for what the books say (SY3)."""

from typing import Annotated, Literal

from msgspec import Meta

from pantry.commands.made_and_served import LeftOver, Make, Serve
from pantry.commands.parts import (
    BoughtPart,
    Celsius,
    CountedPart,
    DateMarkPart,
    Fact,
    InsteadPart,
    MoneyPart,
    Number,
    Photos,
    Which,
    Written,
)


class AskFor(Fact, frozen=True):
    """Somebody asked the order desk for something that is not stocked, in words."""

    words: Annotated[str, Meta(min_length=1, max_length=200)]


class BindLabel(Fact, frozen=True):
    """A label that was printed with a number was put on a batch."""

    batch: str
    label: str


class CheckProbe(Fact, frozen=True):
    """A probe was held in ice and water, in boiling water, or in both."""

    probe: str
    ice_c: Celsius | None = None
    boiling_c: Celsius | None = None


class Clean(Fact, frozen=True):
    """Something was cleaned."""

    what: str
    area: str | None = None


class CloseDelivery(Fact, frozen=True):
    """The driver of an order's delivery has left; what did not come is awaited no more."""

    order: str
    driver: str | None = None


class Cool(Fact, frozen=True):
    """The temperature of a batch that cools; the first one while it is still hot (SL5)."""

    batch: str
    temperature_c: Celsius


class Count(Fact, frozen=True):
    """A storage area was counted."""

    area: str
    lines: list[CountedPart]
    reason: str | None = None


class Decant(Fact, frozen=True):
    """Part of a batch was put into another container."""

    batch: str
    quantity: Written
    child: str
    area: str | None = None
    label: str | None = None


class Freeze(Fact, frozen=True):
    """Part of a batch was frozen."""

    batch: str
    quantity: Written
    child: str
    area: str | None = None
    label: str | None = None


class Harvest(Fact, frozen=True):
    """The garden gave something, weighed."""

    batch: str
    item: str
    quantity: Written
    area: str
    label: str | None = None


class Move(Fact, frozen=True):
    """Part of a batch was put into another storage area."""

    batch: str
    quantity: Written
    area: str
    from_area: str | None = None


class Open(Fact, frozen=True):
    """Part of a batch was opened."""

    batch: str
    quantity: Written
    child: str
    area: str | None = None
    label: str | None = None


class PrintLabels(Fact, frozen=True):
    """Labels were printed for these batches."""

    batches: Annotated[list[str], Meta(min_length=1, max_length=500)]


class Receive(Fact, frozen=True):
    """A line of a delivery was taken in, put on hold, or refused at the door."""

    batch: str
    item: str
    quantity: Written
    area: str
    verdict: Literal["accept", "hold", "refuse"]
    date_mark: DateMarkPart | None = None
    lot: str | None = None
    supplier: str | None = None
    order: str | None = None
    pack: str | None = None
    packs: Number | None = None
    cost: MoneyPart | None = None
    temperature_c: Celsius | None = None
    reason: str | None = None
    label: str | None = None
    instead: InsteadPart | None = None
    photos: Photos | None = None


class RunOut(Fact, frozen=True):
    """Whoever looked found nothing left of an item, whatever the books say."""

    item: str
    note: Annotated[str, Meta(max_length=200)] | None = None


class SendOut(Fact, frozen=True):
    """Part of a batch left for another house."""

    batch: str
    quantity: Written
    house: str


class SetLevel(Fact, frozen=True):
    """Somebody looked at an item that nobody counts: plenty, low or out."""

    item: str
    level: Literal["plenty", "low", "out"]


class ShopRun(Fact, frozen=True):
    """Somebody went to a shop: what was paid in all, and what was bought that matters (LG6).

    `others` is what was bought of which the house has no item, in words.
    """

    shop: Annotated[str, Meta(min_length=1, max_length=100)]
    total: MoneyPart | None = None
    lines: Annotated[tuple[BoughtPart, ...], Meta(max_length=60)] = ()
    others: Annotated[tuple[str, ...], Meta(max_length=60)] = ()
    photos: Photos | None = None


class TakeOut(Fact, frozen=True):
    """Part of a batch was taken out for a service or a preparation."""

    batch: str
    quantity: Written
    service: Which | None = None
    preparation: str | None = None
    area: str | None = None


class TakeTemperature(Fact, frozen=True):
    """The temperature of a storage area, and what was done where it was not as it should be."""

    area: str
    temperature_c: Celsius
    done: Literal["door_closed", "look_again", "set_colder", "moved_food", "called"] | None = None
    note: str | None = None


class Thaw(Fact, frozen=True):
    """Part of a frozen batch was taken out of the freezer."""

    batch: str
    quantity: Written
    child: str
    area: str | None = None
    label: str | None = None


class Use(Fact, frozen=True):
    """Part of a batch was used outside any menu: a tray, a late supper (LG6).

    Of an item without its batch: from what dies first.
    """

    quantity: Written
    batch: str | None = None
    item: str | None = None
    reason: str | None = None


class VacuumPack(Fact, frozen=True):
    """Part of a batch was vacuum packed."""

    batch: str
    quantity: Written
    child: str
    area: str | None = None
    label: str | None = None


class Waste(Fact, frozen=True):
    """Part of a batch was lost, with a reason and a destination."""

    batch: str
    quantity: Written
    reason: str
    destination: str
    area: str | None = None
    photos: Photos | None = None


class WasteWithoutBatch(Fact, frozen=True):
    """Food was lost that no batch is known of, such as what came back from the table.

    What it was is said once: an item, a dish, or in words. The quantity of a dish or of words is
    in grams, millilitres or pieces (of a dish: plates). It moves no stock.
    """

    quantity: Written
    reason: str
    destination: str
    item: str | None = None
    dish: str | None = None
    words: Annotated[str, Meta(max_length=200)] | None = None
    photos: Photos | None = None


FACTS: dict[str, type[Fact]] = {
    "ask_for": AskFor,
    "bind_label": BindLabel,
    "check_probe": CheckProbe,
    "clean": Clean,
    "close_delivery": CloseDelivery,
    "cool": Cool,
    "count": Count,
    "decant": Decant,
    "freeze": Freeze,
    "harvest": Harvest,
    "left_over": LeftOver,
    "make": Make,
    "move": Move,
    "open": Open,
    "print_labels": PrintLabels,
    "receive": Receive,
    "run_out": RunOut,
    "send_out": SendOut,
    "serve": Serve,
    "set_level": SetLevel,
    "shop_run": ShopRun,
    "take_out": TakeOut,
    "take_temperature": TakeTemperature,
    "thaw": Thaw,
    "use": Use,
    "vacuum_pack": VacuumPack,
    "waste": Waste,
    "waste_without_batch": WasteWithoutBatch,
}
