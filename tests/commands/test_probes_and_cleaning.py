"""Probe checks and cleaning: dated records, taken back like anything else."""

import pytest

from pantry.records.tables import CleaningRow, ProbeCheckRow
from tests.commands.larkfield import MANAGER, PORTER


@pytest.mark.parametrize(
    ("shown", "is_right"),
    [
        ({"ice_c": "0.5", "boiling_c": "99.2"}, True),
        ({"ice_c": "-1"}, True),
        ({"ice_c": "1.1"}, False),
        ({"boiling_c": "98.9"}, False),
        ({"ice_c": "0", "boiling_c": "101.1"}, False),
    ],
)
def test_SL5_a_probe_is_right_where_it_shows_ice_and_boiling_water_as_they_are(
    house, shown, is_right
):
    house.do("check_probe", {"probe": " Red probe "} | shown, person=PORTER)
    row = house.row(ProbeCheckRow)
    assert (row.probe, row.is_right) == ("Red probe", is_right)


def test_SL5_a_house_that_lies_high_up_sets_its_own_boiling_point(house):
    high = {"name": "probe.boiling.at", "value": 950, "reason": "1,500 m up"}
    house.do("set_policy", high, person=MANAGER)
    house.do("check_probe", {"probe": "Red", "boiling_c": "95"})
    assert house.row(ProbeCheckRow).is_right


def test_a_check_that_shows_nothing_is_asked_about(house):
    assert house.keeps("check_probe", {"probe": "Red"}).code == "nothing_shown"
    unread = house.keeps("check_probe", {"probe": "Red", "boiling_c": "hot"})
    assert (unread.code, unread.field) == ("temperature_unreadable", "body.boiling_c")


def test_what_was_cleaned_is_written_down_and_taken_back(house):
    done = house.do("clean", {"what": "Shelves ", "area": "Cold room"}, person=PORTER)
    house.do("clean", {"what": "Ice machine"})
    assert house.row(CleaningRow, command=done).area == "cold-room"
    house.do("correct", {"command": done, "reason": "the other one"}, person=PORTER)
    assert [row.what for row in house.rows(CleaningRow)] == ["Ice machine"]
    assert house.keeps("clean", {"what": "Shelves", "area": "?"}).code == "area_unknown"
