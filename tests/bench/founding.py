"""A scenario written into a database: the house that the door and the reports are measured on."""

from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

from scenario import HOUSE, NOW, ZONE, Scenario, tables
from sqlalchemy import Connection, Engine

from pantry.commands import menu_needs, replan
from pantry.records import accounts
from pantry.records.books import Books
from pantry.records.database import open_database, writing
from pantry.records.ledger import Movement, post
from pantry.records.promises import write_differences
from pantry.records.rows import add
from pantry.records.schema import bring_up_to_date
from pantry.records.tables import (
    AreaRow,
    BatchRow,
    DeliveryRuleRow,
    DeviceRow,
    DiningTableRow,
    HouseRow,
    IngredientRow,
    ItemRow,
    OrderLineRow,
    OrderRow,
    PackRow,
    PersonRow,
    RecipeRow,
    ServiceRow,
    ServingRow,
    SQLModel,
    SupplierRow,
)
from pantry.records.verify import disagreements
from pantry.rules.allocation import Source
from pantry.rules.house_time import local_date, write_span
from pantry.rules.menu import Recipe, Service
from pantry.rules.stock import DateKind, Item, State
from pantry.rules.supply import Pack, Supplier

CHEF = "chef"
DEVICES = tuple(f"phone-{number}" for number in range(4))
COLD_ROOM, FREEZER, LARDER = "cold-room", "freezer", "larder"
ORDERS, LINES_AN_ORDER = 15, 12


def found(folder: Path, scenario: Scenario) -> Path:
    """A database file with the house in it, its menus confirmed, needed and promised.

    Raises:
        AssertionError: the books of the house contradict themselves.
    """
    file = folder / f"house-of-{scenario.size.items}.db"
    engine = open_database(f"sqlite:///{file}")
    bring_up_to_date(engine)
    with writing(engine) as connection:
        _write(connection, scenario)
        assert not (found := disagreements(connection, HOUSE.id)), found[:5]
    close(engine)
    return file


def close(engine: Engine) -> None:
    """Let go of the file, all of it in one piece."""
    with engine.connect().execution_options(isolation_level="AUTOCOMMIT") as connection:
        connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)")
    engine.dispose()


def _write(connection: Connection, scenario: Scenario) -> None:
    add(connection, _house())
    add(connection, *_settings(), *_menus(scenario), *_supply(scenario))
    books = Books(connection, HOUSE.id, NOW)
    for batch in scenario.batches:
        add(connection, _batch(batch))
        place = accounts.area(FREEZER if batch.frozen else COLD_ROOM)
        post(books, Movement(batch.id, batch.quantity, accounts.OPENING_STOCK, place, batch.since))
    needs = menu_needs.with_last_order_by(books, scenario.needs, scenario.horizon)
    add(connection, *(menu_needs.as_row(books, need) for need in needs))
    books.touched |= scenario.items.keys()
    replan.replan(books)
    write_differences(books)
    books.close()


def _house() -> HouseRow:
    return HouseRow(
        id=HOUSE.id,
        name=HOUSE.name,
        zone=HOUSE.zone,
        currency=HOUSE.currency,
        unit_system=HOUSE.unit_system,
        notice=write_span(HOUSE.notice),
        warning=write_span(HOUSE.warning),
        last_call=write_span(HOUSE.last_call),
        receiving_margin=write_span(HOUSE.receiving_margin),
        policy=HOUSE.policy,
        allergen_list=HOUSE.allergen_list,
        people=HOUSE.people,
        epoch="bench",
    )


def _settings() -> Iterator[SQLModel]:
    for order, (area, kind) in enumerate(
        [(COLD_ROOM, "chilled"), (FREEZER, "frozen"), (LARDER, "ambient")]
    ):
        yield AreaRow(house=HOUSE.id, id=area, name=area, kind=kind, shelf_order=order)
    for role in (CHEF, "manager", "porter"):
        yield PersonRow(house=HOUSE.id, id=role, name=role, role=role)
    for device in DEVICES:
        yield DeviceRow(house=HOUSE.id, id=device, name=device, enrolled_at=NOW)
    for table in tables().values():
        yield DiningTableRow(house=HOUSE.id, id=table.id, name=table.name, rank=table.rank)


def _menus(scenario: Scenario) -> Iterator[SQLModel]:
    for item in scenario.items.values():
        yield _item(item)
    for recipe in scenario.recipes.values():
        yield _recipe(recipe)
        for number, line in enumerate(recipe.ingredients):
            yield IngredientRow(
                house=HOUSE.id,
                recipe=recipe.id,
                line=number,
                item=line.item,
                written=str(line.amount),
                amount=str(line.amount),
                scaling=line.scaling.value,
                trimming_yield=str(line.trimming_yield),
            )
    for service in scenario.services:
        yield from _service(service)


def _item(item: Item) -> ItemRow:
    return ItemRow(
        house=HOUSE.id,
        id=item.id,
        name=item.name,
        base_unit=item.base_unit.value,
        area=COLD_ROOM,
        whole=item.whole,
        density=None if item.density is None else str(item.density),
        piece_weight=None if item.piece_weight is None else str(item.piece_weight),
        opened_life_days=item.opened_life_days,
        floor=item.floor,
        order_up_to=item.order_up_to,
        daily_per_head=item.daily_per_head,
    )


def _recipe(recipe: Recipe) -> RecipeRow:
    return RecipeRow(
        house=HOUSE.id,
        id=recipe.id,
        name=recipe.name,
        kind=recipe.kind.value,
        yields=str(recipe.yields),
        dating=recipe.dating.value,
        makes=recipe.makes,
        lead=write_span(recipe.lead),
        life_days=recipe.life_days,
        full_recipes=recipe.full_recipes,
        approved=True,
        unit_system=HOUSE.unit_system,
    )


def _service(service: Service) -> Iterator[SQLModel]:
    yield ServiceRow(
        house=HOUSE.id,
        id=service.id,
        on=service.date,
        meal=service.meal,
        dining_table=service.table,
        at=service.at,
        covers=service.covers,
        state=service.state.value,
    )
    for number, serving in enumerate(service.servings):
        yield ServingRow(
            house=HOUSE.id,
            service=service.id,
            line=number,
            course=serving.course,
            dish=serving.dish,
            chosen=serving.chosen,
        )


def _supply(scenario: Scenario) -> Iterator[SQLModel]:
    for supplier in scenario.suppliers:
        yield from _supplier(supplier)
    for pack in scenario.packs:
        yield PackRow(
            house=HOUSE.id,
            id=pack.id,
            supplier=pack.supplier,
            item=pack.item,
            name=pack.name,
            quantity=pack.quantity,
            sealed_quantity=pack.sealed_quantity,
            price=pack.price,
            life_on_arrival_days=pack.life_on_arrival_days,
        )
    for order, lines in orders(scenario).items():
        yield OrderRow(
            house=HOUSE.id, id=order, supplier=lines[0].supplier, delivery_at=NOW + _IN_AN_HOUR
        )
        for pack in lines:
            yield OrderLineRow(
                house=HOUSE.id,
                purchase_order=order,
                pack=pack.id,
                item=pack.item,
                packs=1,
                quantity=pack.quantity,
            )


_IN_AN_HOUR = timedelta(hours=1)


def orders(scenario: Scenario) -> dict[str, list[Pack]]:
    """The packs, one each, that open orders of the first supplier bring today."""
    first = scenario.suppliers[0].id
    packs = [pack for pack in scenario.packs if pack.supplier == first]
    return {
        f"{first}/{local_date(NOW, ZONE)}/{number}": packs[start : start + LINES_AN_ORDER]
        for number, start in enumerate(
            range(0, min(len(packs), ORDERS * LINES_AN_ORDER), LINES_AN_ORDER)
        )
    }


def _supplier(supplier: Supplier) -> Iterator[SQLModel]:
    yield SupplierRow(
        house=HOUSE.id,
        id=supplier.id,
        name=supplier.name,
        minimum=supplier.minimum,
        charge=supplier.charge,
        may_fail=supplier.may_fail,
        send_minutes=int(supplier.send / timedelta(minutes=1)),
    )
    for rule in supplier.rules:
        yield DeliveryRuleRow(
            house=HOUSE.id,
            supplier=supplier.id,
            weekday=rule.weekday,
            at=rule.at.isoformat("minutes"),
            cutoff_days_before=rule.cutoff_days_before,
            cutoff_at=rule.cutoff_at.isoformat("minutes"),
        )


def _batch(batch: Source) -> BatchRow:
    end = batch.usable_until or batch.good_until
    kind = DateKind.USE_BY if batch.usable_until else DateKind.BEST_BEFORE
    return BatchRow(
        house=HOUSE.id,
        id=batch.id,
        item=batch.item,
        label=batch.id,
        state=(State.FROZEN if batch.frozen else State.SEALED).value,
        state_at=batch.since,
        date_kind=(kind if end else DateKind.NONE).value,
        mark_date=local_date(end, ZONE) if end else None,
        usable_until=batch.usable_until,
        good_until=batch.good_until,
        quantity=batch.quantity,
        sealed_quantity=batch.sealed_quantity,
        since=batch.since,
    )
