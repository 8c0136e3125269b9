"""What a phone shows of the shelf is what the house says once it has its records (SY4).

The same stories are shown by the client (`web/tests/standing.test.ts`) over what the house said
before; here the real house says what stood before, is given the records, and says what stands then.
"""

import json
from pathlib import Path

import pytest

from pantry.records.database import reading
from pantry.reports.stock import stock
from pantry.reports.view import view
from tests.commands.house import at
from tests.commands.larkfield import ID

FILE = Path(__file__).parents[1] / "vectors" / "standing.json"
STORIES = json.loads(FILE.read_text("utf-8"))
TOLD = ("batch", "state", "area", "areas", "on_hand", "promised", "on_hold", "available")


def told(house):
    """What of the report the stories name."""
    with reading(house.engine) as connection:
        rows = stock(view(connection, ID, house.now))
    return [{name: row[name] for name in ("item_id", *TOLD)} for row in rows]


def in_order(rows):
    return sorted(rows, key=lambda row: row["batch"])


@pytest.mark.parametrize("story", STORIES, ids=lambda story: story["name"])
def test_SY4_the_shelf_is_what_the_house_says_once_it_has_it(house, story):
    house.now = at(9, 7)
    for record in story["had"]:
        house.do(record["kind"], record["body"], id=record["id"])
    assert in_order(told(house)) == in_order(story["before"])
    for record in story["fresh"]:
        house.do(record["kind"], record["body"], id=record["id"])
    assert in_order(told(house)) == in_order(story["after"])
