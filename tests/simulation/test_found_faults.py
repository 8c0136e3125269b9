"""Faults of the product that histories found, each as the shortest story that showed it."""

from datetime import timedelta

import pytest

from pantry.commands import door
from pantry.records.database import reading, writing
from tests.simulation import checks
from tests.simulation.thornwick import BEGINS, CHEF, ID

MINUTE = timedelta(minutes=1)


class Story:
    """Commands handed in one after the other, each with the time it happened at."""

    def __init__(self, premises):
        premises.begin()
        self._engine = premises.engine
        self._given = 0
        self._numbers = {}

    def hand_in(self, minutes, kind, device="phone-1", bound_ms=None, **body):
        """Hand in what happened so many minutes after the beginning; answers its id."""
        self._given += 1
        n = self._numbers[device] = self._numbers.get(device, 0) + 1
        at = (BEGINS + minutes * MINUTE).isoformat().replace("+00:00", "Z")
        identity = f"01930000-0000-7000-8000-{self._given + 1000:012d}"
        command = {"id": identity, "kind": kind, "at": at, "person": CHEF, "body": body}
        command |= {"device": device, "n": n}
        if bound_ms is not None:
            command["clock"] = {"offset_ms": 0, "bound_ms": bound_ms}
        with writing(self._engine) as connection:
            (answer,) = door.apply(connection, ID, [command], BEGINS + 600 * MINUTE)
        assert answer.outcome == "applied", answer.problem
        return identity

    def stands(self, batch):
        """What stands of a batch, by account, in thousandths."""
        return {account: q for (of, account), q in self._rows().items() if of == batch}

    def _rows(self):
        with reading(self._engine) as connection:
            return checks.balances(connection)

    def asked(self):
        """The kinds of question that were asked."""
        with reading(self._engine) as connection:
            return {kind for kind, _ in checks.questions(connection)}


@pytest.fixture
def story(premises):
    return Story(premises)


def test_SY8_nothing_counted_where_the_books_never_had_any_is_remembered(story):
    """Seed 73: moved to the loft at 10, found gone at 20, and the moving is handed in last."""
    lines = [{"batch": "flour-1", "quantity": "0 g"}]
    story.hand_in(20, "count", "phone-3", area="loft", lines=lines)
    moved = {"batch": "flour-1", "quantity": "500 g", "from_area": "pantry", "area": "loft"}
    story.hand_in(10, "move", "phone-2", **moved)
    assert "area:loft" not in story.stands("flour-1")
    assert story.stands("flour-1")["area:pantry"] == 7_500_000


def test_SY8_a_movement_that_comes_after_a_count_within_the_bounds_is_asked_about(story):
    """Counted at 10 and used at 11, two clocks that may each be 2 minutes off."""
    lines = [{"batch": "milk-1", "quantity": "5 l"}]
    story.hand_in(10, "count", "phone-1", bound_ms=120_000, area="cold-room", lines=lines)
    story.hand_in(11, "use", "phone-2", bound_ms=120_000, batch="milk-1", quantity="1 l")
    assert "which_was_first" in story.asked()


def test_SY8_one_device_knows_its_own_order_whatever_its_clock_says(story):
    """Counted, then used; between the two the phone was off and its clock was set back."""
    lines = [{"batch": "milk-1", "quantity": "5 l"}]
    story.hand_in(20, "count", area="cold-room", lines=lines)
    story.hand_in(15, "use", bound_ms=900_000, batch="milk-1", quantity="1 l")
    assert story.stands("milk-1")["area:cold-room"] == 4_000_000


def test_LG4_a_use_taken_back_in_the_second_of_a_count_changes_nothing_counted(story):
    """Used and counted in one second, as a script writes them; then the use is taken back."""
    used = story.hand_in(5, "use", batch="milk-1", quantity="1 l")
    story.hand_in(5, "count", area="cold-room", lines=[{"batch": "milk-1", "quantity": "5 l"}])
    story.hand_in(9, "correct", command=used, reason="pressed by mistake")
    assert story.stands("milk-1")["area:cold-room"] == 5_000_000
