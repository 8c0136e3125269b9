"""The simulator sees the faults it is there for."""

from datetime import timedelta

import pytest

from tests.simulation.clock import Clock
from tests.simulation.phone import Phone
from tests.simulation.planted import FAULTS
from tests.simulation.planted_phones import PrunesByOldPlaces
from tests.simulation.thornwick import BEGINS


@pytest.mark.parametrize("name", FAULTS)
def test_every_planted_fault_is_caught(premises, name):
    fault = FAULTS[name]
    seen = (fault.played(seed, premises).broken for seed in fault.seeds)
    assert any(seen), f"{fault.within} histories do not see that {fault.says}"


@pytest.mark.parametrize(("kind", "keeps"), [(Phone, {6, 7}), (PrunesByOldPlaces, set())])
def test_SY7_a_place_in_a_lost_journal_says_nothing_about_the_new_backup(kind, keeps):
    """Seven records answered at places 11 to 17; restored; five are handed in again, two wait.

    The new backup has passed place 20 of the new journal. A phone that compares it with the old
    places forgets the two, of which no server has heard since. It takes a second lost disk for a
    history to see it, so that it is a story of its own.
    """
    phone = kind("phone-1", Clock(timedelta(0)))
    ids = [phone.save({"id": f"record-{n}", "kind": "use"})["id"] for n in range(1, 8)]
    _told(phone, "0000", {key: 10 + n for n, key in enumerate(ids, start=1)}, backed_up=10)
    _told(phone, "0001", {}, backed_up=20)
    _told(phone, "0001", {key: 12 + n for n, key in enumerate(ids[:5], start=1)}, backed_up=20)
    assert {entry.n for entry in phone.waiting} == keeps


def _told(phone, epoch, places, backed_up):
    """A reply with the places of some records in the journal of an epoch."""
    answers = [{"id": key, "outcome": "applied", "position": at} for key, at in places.items()]
    reply = {"epoch": epoch, "now": BEGINS.isoformat(), "answers": answers, "things": {}}
    reply |= {"backed_up": backed_up, "whole": True, "cursor": 1, "highest": 0}
    phone.take(reply, BEGINS, BEGINS)
