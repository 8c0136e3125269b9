"""What a phone shows of its own records is what the house says once it has them (SY4).

The same stories are shown by the client (`web/tests/shown_once.test.ts`) over what the house said
before; here the real house says what stood before, is given the records, and says what stands then.
"""

import json
from pathlib import Path

import pytest

from pantry.records.database import reading
from pantry.reports.expected import expected
from pantry.reports.view import view
from tests.commands.house import at
from tests.commands.larkfield import ID, MANAGER

STORIES = json.loads((Path(__file__).parents[1] / "vectors" / "shown_once.json").read_text("utf-8"))
TOLD = ("item_id", "pack_id", "counted", "quantity", "received", "outstanding")


def told(house):
    """What of the report the stories name."""
    with reading(house.engine) as connection:
        rows = expected(view(connection, ID, house.now))
    return [
        {
            "order": row["order"],
            "lines": [{name: line[name] for name in TOLD} for line in row["lines"]],
        }
        for row in rows
    ]


@pytest.mark.parametrize("story", STORIES, ids=lambda story: story["name"])
def test_SY4_what_is_shown_is_what_the_house_says_once_it_has_it(house, story):
    order = {"supplier": "Hill Dairy", "delivery": "2027-03-09", "lines": STORIES[0]["ordered"]}
    house.do("place_order", order, person=MANAGER)
    house.now = at(9, 7)
    for record in story["had"]:
        house.do(record["kind"], record["body"], id=record["id"])
    assert told(house) == story["before"]
    for record in story["fresh"]:
        house.do(record["kind"], record["body"], id=record["id"])
    assert told(house) == story["after"]
