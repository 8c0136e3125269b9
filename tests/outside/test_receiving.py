"""What is received at the door of a house, against published limits: the whole way of a command.

A case marked `computed` puts a published limit and the value next to it into one row.
"""

import pytest

from pantry.records.database import writing
from pantry.records.rows import change
from pantry.records.tables import HouseRow, ItemRow, ReceiptRow
from tests.commands.house import House, best_before
from tests.commands.larkfield import ID, PORTER, found_database, open_copy


@pytest.fixture(scope="module")
def founded(tmp_path_factory):
    return found_database(tmp_path_factory.mktemp("door") / "founded.db")


@pytest.fixture
def house(founded, tmp_path):
    engine = open_copy(founded, tmp_path / "house.db")
    yield House(engine)
    engine.dispose()


def judged(house, policy, group, written, area="Cold room"):
    """How the house judges salad of a group that came at a temperature as it is written."""
    with writing(house.engine) as connection:
        change(connection, HouseRow, {"id": ID}, policy=policy)
        change(connection, ItemRow, {"house": ID, "id": "salad-leaves"}, group=group)
    body = {"batch": "b", "item": "salad-leaves", "quantity": "1 kg", "area": area}
    body |= {"verdict": "accept", "date_mark": best_before(30), "temperature_c": written}
    house.do("receive", body, person=PORTER)
    return house.row(ReceiptRow).warmth


# Regulation (EC) No 853/2004, Annex III: meat 7 °C, offal 3 °C, poultry 4 °C, mince 2 °C, meat
# preparations 4 °C (fsai.ie, Hygiene During and After Production); fish near melting ice: the same,
# from memory. The Food Hygiene Regulations (England) 2013, Schedule 4, paragraph 2: 8 °C
# (legislation.gov.uk). Directive 89/108/EEC, articles 1 and 5: -18 °C, and 3 °C of deviation
# (EUR-Lex summary l21116). The rows: computed.
@pytest.mark.parametrize(
    ("group", "area", "written", "warmth"),
    [
        ("", "Cold room", "5", "accept"),
        ("", "Cold room", "8", "ask"),
        ("", "Cold room", "8.1", "refuse"),
        ("red meat", "Cold room", "7", "accept"),
        ("Red Meat", "Cold room", "7,1", "ask"),
        ("offal", "Cold room", "3", "accept"),
        ("offal", "Cold room", "3.1", "ask"),
        ("poultry", "Cold room", "4", "accept"),
        ("poultry", "Cold room", "4.1", "ask"),
        ("mince", "Cold room", "2", "accept"),
        ("mince", "Cold room", "2.1", "ask"),
        ("meat preparation", "Cold room", "4.1", "ask"),
        ("fish", "Cold room", "2", "accept"),
        ("fish", "Cold room", "2.1", "ask"),
        ("", "Freezer", "-18", "accept"),
        ("poultry", "Freezer", "−17.9", "ask"),
        ("", "Freezer", "-15", "ask"),
        ("poultry", "Freezer", "-14.9", "refuse"),
    ],
)
def test_SL5_by_food_in_England(house, group, area, written, warmth):
    assert judged(house, "uk", group, written, area) == warmth


# FDA Food Code 2022, 3-202.11: cold food at 41 °F or below, eggs in air of 45 °F or below, what is
# to be frozen received frozen (12VAC5-421-340; WAC 246-215-03235). The rows: computed.
@pytest.mark.parametrize(
    ("group", "area", "written", "warmth"),
    [
        ("", "Cold room", "41 F", "accept"),
        ("", "Cold room", "42 F", "refuse"),
        ("poultry", "Cold room", "41 °F", "accept"),
        ("poultry", "Cold room", "42 °F", "refuse"),
        ("egg in shell", "Cold room", "45 F", "accept"),
        ("egg in shell", "Cold room", "46 F", "refuse"),
        ("", "Freezer", "0 F", "accept"),
        ("", "Freezer", "33 F", "refuse"),
    ],
)
def test_SL5_by_the_food_code(house, group, area, written, warmth):
    assert judged(house, "us", group, written, area) == warmth
