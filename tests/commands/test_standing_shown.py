"""What a phone shows of the shelf is what the house says once it has its records (SY4).

The same stories are shown by the client (`web/tests/standing.test.ts`) over what the house said
before; here the real house says what stood before, is given the records, and says what stands then.
What a phone reckons by, the lives among it, is what the house told: `larkfield.json`.
"""

import json
from datetime import datetime
from pathlib import Path

import pytest

from pantry.records.database import reading
from pantry.reports.house import house as house_report
from pantry.reports.items import items as items_report
from pantry.reports.stock import stock
from pantry.reports.view import view
from tests.commands.larkfield import ID

VECTORS = Path(__file__).parents[1] / "vectors"
STORIES = json.loads((VECTORS / "standing.json").read_text("utf-8"))
LARKFIELD = json.loads((VECTORS / "larkfield.json").read_text("utf-8"))
DATES = ("was_thawed", "date_mark", "usable_until", "good_until", "left", "usable", "flagged")
TOLD = ("item_id", "batch", "state", *DATES, "area", "areas")
AMOUNTS = ("on_hand", "promised", "on_hold", "available")


def told(house):
    """What of the report the stories name."""
    with reading(house.engine) as connection:
        rows = stock(view(connection, ID, house.now))
    return [{name: row[name] for name in (*TOLD, *AMOUNTS)} for row in rows]


def in_order(rows):
    return sorted(rows, key=lambda row: row["batch"])


def give(house, records):
    for record in records:
        moment = datetime.fromisoformat(record["at"])
        house.now = max(house.now, moment)
        house.do(record["kind"], record["body"], id=record["id"], at=moment)


@pytest.mark.parametrize("story", STORIES, ids=lambda story: story["name"])
def test_SY4_SL3_the_shelf_is_what_the_house_says_once_it_has_it(house, story):
    give(house, story["had"])
    assert in_order(told(house)) == in_order(story["before"])
    give(house, story["fresh"])
    assert in_order(told(house)) == in_order(story["after"])


def test_SL3_a_phone_is_told_the_lives_by_which_it_reckons(house):
    with reading(house.engine) as connection:
        now = view(connection, ID, house.now)
        (of_house,) = house_report(now)
        items = list(items_report(now))
    assert [of_house["zone"], of_house["lives"]] == [LARKFIELD["zone"], LARKFIELD["lives"]]
    for rows, kept in ((of_house["areas"], "areas"), (items, "items")):
        assert [{name: row[name] for name in LARKFIELD[kept][0]} for row in rows] == LARKFIELD[kept]
