"""Larkfield Lodge: who lives there, what it keeps, cooks and buys.

Nothing is in stock: every test receives what it needs.
"""

import shutil

from sqlalchemy import event

from pantry.records.database import open_database, writing
from pantry.records.rows import add
from pantry.records.schema import bring_up_to_date
from pantry.records.tables import (
    AreaRow,
    ConstraintRow,
    DeliveryRuleRow,
    DiningTableRow,
    HouseRow,
    IngredientRow,
    ItemRow,
    PackRow,
    PersonRow,
    RecipeRow,
    SupplierRow,
    VariantRow,
)

ID = "larkfield-lodge"
PORTER, CHEF, MANAGER, APPROVER = "Pia Holm", "Cato Brand", "Mara Quill", "Lady Larkfield"


def found_database(path):
    """Make a SQLite file with Larkfield Lodge in it, to be copied."""
    engine = open_database(f"sqlite:///{path}")
    bring_up_to_date(engine)
    with writing(engine) as connection:
        found_house(connection)
    engine.dispose()
    return path


def open_copy(founded, path):
    """A copy of such a file, opened; no test cuts the power, so it does not wait for the disk."""
    engine = open_database(f"sqlite:///{shutil.copy(founded, path)}")
    event.listen(engine, "connect", lambda raw, _: raw.execute("PRAGMA synchronous=OFF"))
    return engine


def found_house(connection):
    """Write Larkfield Lodge into an empty database."""
    house = HouseRow(
        id=ID,
        name="Larkfield Lodge",
        zone="Europe/London",
        currency="GBP",
        unit_system="metric",
        notice="PT72H",
        warning="PT24H",
        last_call="PT2H",
        receiving_margin="PT0S",
        policy="uk",
        allergen_list="eu",
        people=6,
        epoch="first",
    )
    add(connection, house)
    add(connection, *_places_and_people(), *_items(), *_recipes(), *_suppliers())


def _places_and_people():
    yield AreaRow(house=ID, id="pantry", name="Pantry", kind="ambient")
    yield AreaRow(house=ID, id="cold-room", name="Cold room", kind="chilled", max_tenths=50)
    yield AreaRow(house=ID, id="freezer", name="Freezer", kind="frozen", max_tenths=-150)
    for role, name in (
        ("porter", PORTER),
        ("chef", CHEF),
        ("manager", MANAGER),
        ("approver", APPROVER),
    ):
        yield PersonRow(house=ID, id=name.split(maxsplit=1)[0].lower(), name=name, role=role)
    yield DiningTableRow(house=ID, id="family", name="Family", rank=1, usual_covers=4)
    yield DiningTableRow(house=ID, id="staff", name="Staff", rank=2, usual_covers=6)
    yield ConstraintRow(
        house=ID,
        id="family|ottilie",
        person="Ottilie",
        dining_table="family",
        cannot_eat='["nuts"]',
    )


def _item(id_, unit="g", area="cold-room", **more):
    return ItemRow(
        house=ID, id=id_, name=id_.replace("-", " ").capitalize(), base_unit=unit, area=area, **more
    )


def _items():
    yield _item(
        "whole-milk",
        "ml",
        group="milk",
        opened_life_days=3,
        high_risk=True,
        contains='["milk"]',
        free_of='["nuts"]',
    )
    yield _item("butter", contains='["milk"]', free_of='["nuts"]')
    yield _item("plain-flour", area="pantry", contains='["gluten"]', free_of='["nuts"]')
    yield _item("eggs", "each", area="pantry", whole=True, contains='["eggs"]', free_of='["nuts"]')
    yield _item("salt", area="pantry", measured=False, free_of='["nuts"]')
    yield _item("walnuts", area="pantry", contains='["nuts"]')
    yield _item("salad-leaves", free_of='["nuts"]')
    yield _item(
        "salmon",
        group="fish",
        thawed_life_hours=24,
        frozen_life_days=90,
        high_risk=True,
        contains='["fish"]',
        free_of='["nuts"]',
    )
    yield _item("chicken-bones", group="poultry", high_risk=True, free_of='["nuts"]')
    yield _item("chicken-stock", "ml", free_of='["nuts"]')
    yield _item("pancake-batter", "ml")
    yield _item("rhubarb", free_of='["nuts"]')


def _recipe(id_, kind="dish", **more):
    more.setdefault("yields", "1")
    more.setdefault("dating", "cooked")
    more.setdefault("approved", True)
    name = id_.replace("-", " ").capitalize()
    return RecipeRow(house=ID, id=id_, name=name, kind=kind, unit_system="metric", **more)


def _lines(recipe, **amounts):
    for line, (item, amount) in enumerate(amounts.items()):
        yield IngredientRow(
            house=ID,
            recipe=recipe,
            line=line,
            item=item.replace("_", "-"),
            written=amount,
            amount=amount,
            scaling="per_portion",
        )


def _recipes():
    yield _recipe("pancakes")
    yield from _lines("pancakes", whole_milk="125", plain_flour="60", eggs="1", salt="1")
    yield _recipe("rice-pudding")
    yield from _lines("rice-pudding", whole_milk="250", butter="10")
    yield _recipe("walnut-salad")
    yield from _lines("walnut-salad", salad_leaves="40", walnuts="20")
    yield VariantRow(
        house=ID,
        recipe="walnut-salad",
        variant="without nuts",
        line=0,
        change="leave_out",
        item="walnuts",
    )
    yield _recipe("green-salad")
    yield from _lines("green-salad", salad_leaves="50")
    yield _recipe("baked-salmon")
    yield from _lines("baked-salmon", salmon="150", butter="10")
    yield _recipe("broth")
    yield from _lines("broth", chicken_stock="250")
    yield _recipe("new-dish", approved=False)
    yield from _lines("new-dish", butter="20")
    yield _recipe("chicken-stock", "preparation", yields="2000", makes="chicken-stock", life_days=3)
    yield from _lines("chicken-stock", chicken_bones="1000", salt="5")
    yield _recipe(
        "pancake-batter",
        "preparation",
        yields="1000",
        dating="assembled",
        makes="pancake-batter",
        life_days=2,
    )
    yield from _lines("pancake-batter", whole_milk="500", plain_flour="250", eggs="4")


def _pack(supplier, item, name, quantity, price, **more):
    more.setdefault("sealed_quantity", quantity)
    return PackRow(
        house=ID,
        id=f"{supplier}/{item}/{name.replace(' ', '-')}",
        supplier=supplier,
        item=item,
        name=name,
        quantity=quantity,
        price=price,
        **more,
    )


def _suppliers():
    yield SupplierRow(house=ID, id="hill-dairy", name="Hill Dairy")
    yield SupplierRow(house=ID, id="bruns-butcher", name="Brun's Butcher")
    for weekday in range(5):
        yield DeliveryRuleRow(
            house=ID,
            supplier="hill-dairy",
            weekday=weekday,
            at="06:45",
            cutoff_days_before=1,
            cutoff_at="17:00",
        )
    for weekday in (1, 4):
        yield DeliveryRuleRow(
            house=ID,
            supplier="bruns-butcher",
            weekday=weekday,
            at="09:00",
            cutoff_days_before=1,
            cutoff_at="12:00",
        )
    yield _pack("hill-dairy", "whole-milk", "2 l bottle", 2_000_000, 215, life_on_arrival_days=7)
    yield _pack(
        "hill-dairy",
        "whole-milk",
        "crate of 6 x 2 l",
        12_000_000,
        1200,
        sealed_quantity=2_000_000,
        life_on_arrival_days=7,
    )
    yield _pack("hill-dairy", "butter", "250 g block", 250_000, 230)
    yield _pack("bruns-butcher", "chicken-bones", "1 kg bag", 1_000_000, 150)
