"""Cooling through the commands, against what is published: a minute too late holds the batch.

FDA Food Code 2022, 3-501.14(A), in Celsius: 57 to 21 °C within 2 hours, and to 5 °C within a total
of 6 (16 Del. Admin. Code 3-501.14). England: 8 °C, SI 2013/2996, Schedule 4, paragraph 2(1); not
out over an hour and a half, eastdevon.gov.uk. The cases themselves: computed.
"""

from datetime import timedelta

import pytest

from pantry.records.database import writing
from pantry.records.rows import change
from pantry.records.tables import CoolingReadingRow, HouseRow
from tests.commands.house import NOW, House
from tests.commands.larkfield import CHEF, ID, PORTER, found_database, open_copy


@pytest.fixture
def lodge(tmp_path):
    engine = open_copy(found_database(tmp_path / "founded.db"), tmp_path / "lodge.db")
    yield House(engine)
    engine.dispose()


def stock(lodge):
    lodge.receive("bones", "chicken-bones", "4 kg")
    made = {"recipe": "chicken-stock", "quantity": "2 l", "child": "s", "area": "Cold room"}
    lodge.do("make", made)
    return lodge.balances("s")["area:cold-room"]


def follow(lodge, policy, taken):
    """Cool a stock as these readings show it, and say whether it is on hold then."""
    with writing(lodge.engine) as connection:
        change(connection, HouseRow, {"id": ID}, policy=policy)
    there = stock(lodge)
    for shown, clock in taken:
        hours, minutes = clock.split(":")
        lodge.now = NOW + timedelta(hours=int(hours), minutes=int(minutes))
        lodge.do("cool", {"batch": "s", "temperature_c": shown}, person=PORTER)
    held = lodge.balances("s").get("hold:cold-room", 0)
    assert held in (0, there)
    assert len(lodge.questions("on_hold")) == (1 if held else 0)
    return held > 0


@pytest.mark.parametrize(
    ("policy", "taken", "is_held"),
    [
        ("us", (("60 C", "0:00"), ("21 C", "2:00"), ("5 C", "6:00")), False),
        ("us", (("60 C", "0:00"), ("21 C", "2:01")), True),
        ("us", (("60 C", "0:00"), ("21 C", "2:00"), ("5 C", "6:01")), True),
        ("us", (("135 F", "0:00"), ("70 F", "1:55"), ("41 F", "5:50")), False),
        ("us", (("135 F", "0:00"), ("70 F", "2:05")), True),
        ("us", (("135 F", "0:00"), ("70 F", "1:00"), ("41 F", "6:05")), True),
        ("uk", (("75", "0:00"), ("63", "0:20"), ("21", "1:50"), ("8", "6:20")), False),
        ("uk", (("63", "0:00"), ("21", "1:31")), True),
        ("uk", (("63", "0:00"), ("21", "1:30"), ("8", "6:01")), True),
    ],
)
def test_SL5_what_did_not_cool_in_time_is_on_hold_and_the_chef_is_asked(
    lodge, policy, taken, is_held
):
    assert follow(lodge, policy, taken) is is_held


def test_SL5_it_is_held_once_and_the_chef_decides(lodge):
    assert follow(lodge, "us", (("60", "0:00"), ("21", "2:01")))
    lodge.do("release", {"batch": "s", "reason": "boiled up again"}, person=CHEF)
    lodge.do("cool", {"batch": "s", "temperature_c": "5"}, person=PORTER)
    assert lodge.balances("s").get("hold:cold-room", 0) == 0


def test_LG4_a_reading_taken_back_lets_the_batch_go(lodge):
    assert follow(lodge, "us", (("60", "0:00"), ("21", "2:01")))
    wrong = lodge.rows(CoolingReadingRow)
    failed = next(row for row in wrong if row.failed)
    lodge.do("correct", {"command": failed.command, "reason": "the other pot"}, person=PORTER)
    assert lodge.balances("s").get("hold:cold-room", 0) == 0
    assert lodge.questions("on_hold") == []
