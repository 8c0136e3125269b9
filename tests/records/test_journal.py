"""The journal: every command once, at its own position, chained by hash."""

import hashlib
from dataclasses import replace
from datetime import timedelta, timezone

import pytest
from sqlalchemy.exc import IntegrityError

from pantry.records import journal
from pantry.records.journal import link
from pantry.records.tables import JournalRow
from tests.hazel_court import HOUR, NOW, entry


def test_SY2_a_command_is_found_again_with_its_first_answer(house):
    house.keep(1, answer='{"outcome":"applied","position":1}')
    with house.books() as books:
        kept = journal.kept(books, "command 1")
        assert journal.kept(books, "command 2") is None
    assert (kept.position, kept.answer) == (1, '{"outcome":"applied","position":1}')
    assert (kept.at, kept.recorded_at) == (NOW, NOW)


def test_SY2_the_same_id_or_the_same_number_of_a_device_is_not_kept_twice(house):
    house.keep(1)
    with pytest.raises(IntegrityError):
        house.keep(2, id="command 1")
    with pytest.raises(IntegrityError):
        house.keep(2, n=1)
    assert house.heads().position == 1


def test_SY6_refused_commands_have_positions_of_their_own(house):
    for number, outcome in enumerate(("applied", "refused", "conflict", "kept"), 1):
        house.keep(number, outcome=outcome)
    rows = house.rows(JournalRow)
    assert [(row.position, row.outcome) for row in rows] == [
        (1, "applied"),
        (2, "refused"),
        (3, "conflict"),
        (4, "kept"),
    ]


def test_SY11_the_chain_is_sha_256_over_the_link_before_and_everything_that_is_kept(house):
    """Made once more here, from the columns and nothing else."""
    house.keep(1)
    house.keep(2, device=None, n=None, person="Zoë")
    previous = ""
    for row in house.rows(JournalRow):
        parts = [
            previous,
            str(row.position),
            row.recorded_at.isoformat(),
            row.id,
            row.kind,
            row.at.isoformat(),
            row.person,
            row.device or "",
            "" if row.n is None else str(row.n),
            row.envelope,
            row.outcome,
            row.answer,
        ]
        whole = b"".join(len(p.encode()).to_bytes(8, "big") + p.encode() for p in parts)
        previous = hashlib.sha256(whole).hexdigest()
        assert row.chain == previous
    assert house.heads().chain == previous


@pytest.mark.parametrize(
    "change",
    [
        {"id": "command 2"},
        {"kind": "waste"},
        {"at": NOW + HOUR},
        {"person": "mabel"},
        {"device": "tablet"},
        {"n": 2},
        {"envelope": "{}"},
        {"outcome": "refused"},
        {"answer": "{}"},
    ],
)
def test_SY11_nothing_of_an_entry_can_be_altered_without_another_link(change):
    first = entry(1)
    assert link("", 1, first, NOW) != link("", 1, replace(first, **change), NOW)


def test_SY11_nor_its_place_nor_when_it_was_recorded():
    whole = link("", 1, entry(1), NOW)
    others = {
        link("before", 1, entry(1), NOW),
        link("", 2, entry(1), NOW),
        link("", 1, entry(1), NOW + timedelta(microseconds=1)),
    }
    assert whole not in others
    assert len(others) == 3


def test_SY11_text_cannot_be_shifted_from_one_part_to_the_next():
    one = entry(1, person="wilf", device="phone")
    assert link("", 1, one, NOW) != link("", 1, replace(one, person="wilfp", device="hone"), NOW)


def test_SY11_the_same_instant_in_another_zone_is_the_same_link():
    summer = timezone(timedelta(hours=1))
    there = entry(1, at=NOW.astimezone(summer))
    assert link("", 1, entry(1), NOW) == link("", 1, there, NOW.astimezone(summer))
