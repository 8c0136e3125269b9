"""Thornwick, the house that is simulated: small, and of our own invention.

Milk stands where it was put until it is used or opened; flour is moved about; barley is there in
plenty, for a soup that is served; salt is not counted. A custard asks for milk and is confirmed,
changed and taken off, so that promises follow the milk. Services lie beyond every history's end.
"""

from datetime import UTC, datetime

from sqlalchemy import Connection

from pantry.records.rows import add
from pantry.records.tables import (
    AreaRow,
    DiningTableRow,
    HouseRow,
    IngredientRow,
    ItemRow,
    PersonRow,
    RecipeRow,
)

ID = "thornwick"
BEGINS = datetime(2027, 3, 8, 7, tzinfo=UTC)
CHEF, PORTER, MANAGER, STRANGER = "Nele Orme", "Ivo Tarn", "Ruth Calder", "Nobody Known"
PHONES = ("phone-1", "phone-2", "phone-3")
LATE_PHONE = "phone-4"
SOUPS = ("2027-03-27/dinner/family", "2027-03-28/dinner/family")
CUSTARDS = ("2027-03-25/dinner/family", "2027-03-26/dinner/family")
DISH_OF = dict.fromkeys(SOUPS, "barley-soup") | dict.fromkeys(CUSTARDS, "custard")
MILK_AREAS = ("cold-room", "dairy")
FLOUR_AREAS = ("pantry", "loft")


def found_house(connection: Connection) -> None:
    """Write Thornwick, with nothing in stock, into an empty database."""
    house = HouseRow(
        id=ID,
        name="Thornwick",
        zone="Europe/London",
        currency="GBP",
        unit_system="metric",
        notice="PT72H",
        warning="PT24H",
        last_call="PT2H",
        receiving_margin="PT0S",
        policy="uk",
        allergen_list="uk",
        people=4,
        epoch="0000",
    )
    add(connection, house, DiningTableRow(house=ID, id="family", name="Family", rank=1))
    for area, kind in (
        ("cold-room", "chilled"),
        ("dairy", "chilled"),
        ("pantry", "ambient"),
        ("loft", "ambient"),
    ):
        add(connection, AreaRow(house=ID, id=area, name=area.title(), kind=kind))
    for name, role in ((CHEF, "chef"), (PORTER, "porter"), (MANAGER, "manager")):
        add(connection, PersonRow(house=ID, id=name.split()[0].lower(), name=name, role=role))
    add(
        connection,
        _item("whole-milk", "ml", "cold-room", opened_life_days=90),
        _item("plain-flour", "g", "pantry"),
        _item("barley", "g", "pantry"),
        _item("salt", "g", "pantry", measured=False),
    )
    _add_recipe(connection, "barley-soup", "dish", "barley", "50")
    _add_recipe(connection, "custard", "dish", "whole-milk", "200")
    _add_recipe(connection, "bread", "preparation", "plain-flour", "500", makes="bread")


def _item(identity: str, unit: str, area: str, **more: object) -> ItemRow:
    name = identity.replace("-", " ").capitalize()
    return ItemRow(house=ID, id=identity, name=name, base_unit=unit, area=area, **more)


def _add_recipe(
    connection: Connection, identity: str, kind: str, item: str, amount: str, **more: object
) -> None:
    recipe = RecipeRow(
        house=ID,
        id=identity,
        name=identity.replace("-", " ").capitalize(),
        kind=kind,
        yields="1",
        dating="cooked",
        approved=True,
        unit_system="metric",
        **more,
    )
    line = IngredientRow(
        house=ID,
        recipe=identity,
        line=0,
        item=item,
        written=amount,
        amount=amount,
        scaling="per_portion",
    )
    add(connection, recipe, line)


def founding() -> list[dict]:
    """The first commands of every history: phones are enrolled, barley and some milk come in."""
    bodies = [("enrol_device", {"device": name, "name": name}) for name in PHONES]
    for batch, item, quantity, area in (
        ("barley-1", "barley", "500 kg", "pantry"),
        ("milk-1", "whole-milk", "6 l", "cold-room"),
        ("flour-1", "plain-flour", "8 kg", "pantry"),
    ):
        body = {"batch": batch, "item": item, "quantity": quantity, "area": area}
        bodies.append(("receive", body | {"verdict": "accept", "date_mark": {"kind": "none"}}))
    return [
        {
            "id": f"01930000-0000-7000-8000-{number:012d}",
            "kind": kind,
            "at": BEGINS.isoformat().replace("+00:00", "Z"),
            "person": MANAGER,
            "body": body,
        }
        for number, (kind, body) in enumerate(bodies)
    ]
