"""One house at one instant, read once for a report: everything its rules look at.

Nothing here writes. What time alone has changed since the last command (a service that lapsed, a
batch that died) is seen as it is now.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import datetime, timedelta
from functools import cached_property
from zoneinfo import ZoneInfo

from sqlalchemy import Connection

from pantry.handbook.policies import Policy
from pantry.records.read import agreed as read_agreed
from pantry.records.read import house as read_house
from pantry.records.read import menu, stock, supply
from pantry.records.read.agreed import Agreed
from pantry.records.read.labels import numbered_labels
from pantry.records.read.larder import larder
from pantry.records.read.lives import house_lives
from pantry.records.read.stock import Standing
from pantry.records.rows import every, one
from pantry.records.tables import (
    BatchRow,
    HouseRow,
    NeedRow,
    OrderRow,
    PackRow,
    PersonRow,
    PromisedRow,
    ServiceRow,
    SupplierRow,
    SupplierTermsRow,
)
from pantry.rules.allergens import Larder
from pantry.rules.fefo import Need, Pick, Source
from pantry.rules.house_lives import HouseLives
from pantry.rules.house_time import Span, local_date, write_instant
from pantry.rules.kitchen import Kitchen
from pantry.rules.market import Market
from pantry.rules.menu import Constraint, DiningTable, Recipe, Service, ServiceState, Substitute
from pantry.rules.services import lapsed
from pantry.rules.stock import Item
from pantry.rules.supply import House, Pack, Supplier

LOOK_AHEAD = timedelta(days=28)
LOOK_BACK = timedelta(days=2)


@dataclass(frozen=True)
class View:
    """A house as it stands at `now`; its parts are read when first asked for."""

    connection: Connection
    row: HouseRow
    now: datetime

    @property
    def id(self) -> str:
        """The house's id."""
        return self.row.id

    @cached_property
    def house(self) -> House:
        """The settings."""
        return read_house.settings(self.row)

    @cached_property
    def zone(self) -> ZoneInfo:
        """The house's zone."""
        return ZoneInfo(self.row.zone)

    @property
    def receiving_margin(self) -> Span:
        """How long before it is wanted a delivery has to be in the house."""
        return self.house.receiving_margin

    @cached_property
    def lives(self) -> HouseLives:
        """The lives that the house's food-safety policy gives."""
        return house_lives(self.connection, self.row)

    @property
    def policy(self) -> Policy:
        """The food-safety policy, with what the house set otherwise."""
        return self.lives.policy

    @cached_property
    def items(self) -> Mapping[str, Item]:
        """Every item by id."""
        return stock.items(self.connection, self.id)

    @cached_property
    def batches(self) -> Sequence[BatchRow]:
        """The batches of which something stands in the house."""
        return stock.batch_rows(self.connection, self.id)

    @cached_property
    def every_batch(self) -> Mapping[str, BatchRow]:
        """Every batch there ever was, by id: only what is traced looks so far back."""
        return {row.id: row for row in every(self.connection, BatchRow, house=self.id)}

    @cached_property
    def standing(self) -> Mapping[str, Standing]:
        """What stands of each batch."""
        return stock.standing(self.connection, self.id)

    @cached_property
    def areas(self) -> Mapping[str, str]:
        """The name of each storage area."""
        return read_house.area_names(self.connection, self.id)

    @cached_property
    def recipes(self) -> Mapping[str, Recipe]:
        """Every recipe by id."""
        return menu.recipes(self.connection, self.id)

    @cached_property
    def preparations(self) -> Mapping[str, Recipe]:
        """Every preparation by the item it makes."""
        return {recipe.makes: recipe for recipe in self.recipes.values() if recipe.makes}

    @cached_property
    def tables(self) -> Mapping[str, DiningTable]:
        """Every table by id."""
        return menu.tables(self.connection, self.id)

    @cached_property
    def constraints(self) -> Sequence[Constraint]:
        """What everybody cannot eat."""
        return menu.constraints(self.connection, self.id)

    @cached_property
    def substitutes(self) -> Sequence[Substitute]:
        """What may stand in for what."""
        return menu.substitutes(self.connection, self.id)

    @cached_property
    def suppliers(self) -> Mapping[str, Supplier]:
        """Every supplier by id."""
        return supply.suppliers(self.connection, self.id)

    @cached_property
    def packs(self) -> Sequence[Pack]:
        """Every pack."""
        return supply.packs(self.connection, self.id)

    @cached_property
    def larder(self) -> Larder:
        """What everything is made of, for allergens."""
        return larder(self.connection, self.id, self.items, self.recipes.values())

    @cached_property
    def services(self) -> Sequence[Service]:
        """The services of the days ahead, and those just past, in the order of their time."""
        first, last = self.now - LOOK_BACK, self.now + LOOK_AHEAD
        return menu.services(self.connection, self.id, first, last)

    @cached_property
    def held(self) -> Sequence[PromisedRow]:
        """What every need holds, of services that have not lapsed."""
        rows = every(self.connection, PromisedRow, house=self.id)
        return [row for row in rows if row.service not in self.lapsed]

    @cached_property
    def lapsed(self) -> frozenset[str]:
        """Confirmed services whose time has passed unserved."""
        confirmed = every(
            self.connection, ServiceRow, house=self.id, state=ServiceState.CONFIRMED.value
        )
        return frozenset(row.id for row in confirmed if lapsed(row.at, self.now))

    @cached_property
    def needs(self) -> Sequence[Need]:
        """What the dishes of confirmed services still want, preparations included."""
        rows = every(self.connection, NeedRow, house=self.id, via="")
        return [menu.need(row) for row in rows if row.service not in self.lapsed]

    @cached_property
    def taken_out(self) -> Mapping[str, int]:
        """What was taken out for each need already."""
        rows = every(self.connection, NeedRow, house=self.id)
        return {row.id: row.settled for row in rows if row.settled}

    @cached_property
    def promised(self) -> Mapping[str, int]:
        """What is promised of each batch."""
        found: dict[str, int] = {}
        for row in self.held:
            found[row.batch] = found.get(row.batch, 0) + row.quantity
        return found

    @cached_property
    def covered(self) -> Mapping[str, int]:
        """What each need holds."""
        found: dict[str, int] = {}
        for row in self.held:
            found[row.need] = found.get(row.need, 0) + row.quantity
        return found

    @cached_property
    def sources(self) -> Mapping[str, Sequence[Source]]:
        """Batches, open orders and harvests to come, by item."""
        found: dict[str, list[Source]] = stock.sources(self.batches, self.standing)
        today = local_date(self.now, self.zone)
        coming = supply.on_order(self.connection, self.id, self.zone, self.now)
        grown = supply.harvests(self.connection, self.id, self.zone, today)
        for source in (*coming, *grown):
            found.setdefault(source.item, []).append(source)
        return found

    @cached_property
    def fixed(self) -> Mapping[str, Sequence[Pick]]:
        """The picks that stay, as they are held (AL2); of what stands there no more, none does."""
        item_of = {row.id: row.item for row in self.batches}
        found: dict[str, list[Pick]] = {}
        for row in self.held:
            if row.batch in item_of:
                pick = Pick(row.need, row.batch, row.quantity)
                found.setdefault(item_of[row.batch], []).append(pick)
        return found

    @cached_property
    def kitchen(self) -> Kitchen:
        """What a projection starts from."""
        lives = self.lives
        return Kitchen(
            items=self.items,
            preparations=self.preparations,
            sources=self.sources,
            fixed=self.fixed,
            handling=lives.handling_of(self.sources),
            zone=self.zone,
            made_until=lives.made_until,
        )

    @cached_property
    def market(self) -> Market:
        """What can be bought until the end of what is looked at."""
        return Market(
            self.suppliers.values(),
            self.packs,
            margin=self.house.receiving_margin,
            zone=self.zone,
            now=self.now,
            last=self.now + LOOK_AHEAD,
        )

    @cached_property
    def terms(self) -> Mapping[str, SupplierTermsRow]:
        """What was agreed with suppliers, by the ids of those with whom anything was."""
        rows = every(self.connection, SupplierTermsRow, house=self.id)
        return {row.supplier: row for row in rows}

    @cached_property
    def placed(self) -> frozenset[str]:
        """Deliveries for which an order is placed already, as their ids."""
        orders = every(self.connection, OrderRow, house=self.id, state="open")
        return frozenset(f"{row.supplier}/{write_instant(row.delivery_at)}" for row in orders)

    def last_order_by(self, need: Need) -> datetime | None:
        """The last possible order-by for a need; None: nobody sells it in time."""
        return self.market.last_order_by(need.item, need.wanted_by, need.until)

    @cached_property
    def agreed(self) -> Agreed:
        """What was agreed to, and asked, of dishes that somebody cannot eat."""
        return read_agreed.agreed(self.connection, self.id)

    @cached_property
    def people_names(self) -> Mapping[str, str]:
        """The name of everybody who works or chooses here."""
        return {row.id: row.name for row in every(self.connection, PersonRow, house=self.id)}

    @cached_property
    def numbered_labels(self) -> Mapping[str, list[str]]:
        """The numbered labels put on each batch beside its own, by its id."""
        return numbered_labels(self.connection, self.id)

    def item_name(self, item: str) -> str:
        """An item's name."""
        return self.items[item].name if item in self.items else item

    @cached_property
    def supplier_names(self) -> Mapping[str, str]:
        """Every supplier's name."""
        return {row.id: row.name for row in every(self.connection, SupplierRow, house=self.id)}

    @cached_property
    def pack_names(self) -> Mapping[str, str]:
        """Every pack's name."""
        return {row.id: row.name for row in every(self.connection, PackRow, house=self.id)}


def view(connection: Connection, house: str, now: datetime) -> View:
    """A house at an instant."""
    return View(connection, one(connection, HouseRow, id=house), now)
