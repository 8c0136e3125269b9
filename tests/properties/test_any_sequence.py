"""Whatever happens in whatever order, the books agree and nobody is promised what is not there."""

from collections import Counter
from datetime import UTC, datetime, timedelta

from hypothesis import HealthCheck, settings
from hypothesis import strategies as st
from hypothesis.stateful import initialize, invariant, precondition, rule

from pantry.commands.envelope import canonical
from pantry.records import accounts
from pantry.records.read import menu, stock
from pantry.records.read.waste import lost
from pantry.records.tables import (
    AskedForRow,
    BalanceRow,
    BatchParentRow,
    BatchRow,
    JournalRow,
    NeedRow,
    PromisedRow,
    ServiceRow,
    ServingRow,
)
from pantry.rules.allergens import Certainty, Larder, Made, certainty_of, of_batch
from tests.commands.house import chosen
from tests.commands.larkfield import ID
from tests.properties.any_day import DISHES, ITEMS, Kitchen, choices, items

ALL_TIME = (datetime(2000, 1, 1, tzinfo=UTC), datetime(2100, 1, 1, tzinfo=UTC))


class AnySequence(Kitchen):
    """What holds after every command and after time has passed."""

    @invariant()
    def the_books_agree(self):
        """Every batch sums to nothing; balances and promises are what the records come to."""
        assert self.house.disagreements() == []

    @invariant()
    def nothing_is_promised_past_its_last_usable_instant(self):
        needs = {row.id: row for row in self.house.rows(NeedRow)}
        batches = {row.id: row for row in self.house.rows(BatchRow)}
        for promise in self.house.rows(PromisedRow):
            dies = batches[promise.batch].usable_until
            assert dies is None or dies >= needs[promise.need].until, promise

    @invariant()
    def no_need_is_promised_more_than_it_wants(self):
        held = {}
        for row in self.house.rows(PromisedRow):
            held[row.need] = held.get(row.need, 0) + row.quantity
        for need in self.house.rows(NeedRow):
            assert held.get(need.id, 0) <= need.quantity - need.settled, need

    @invariant()
    def what_is_available_is_never_promised_recalled_or_less_than_nothing(self):
        with self.house.books() as connection:
            stands = stock.standing(connection, ID)
        promised = {}
        for row in self.house.rows(PromisedRow):
            promised[row.batch] = promised.get(row.batch, 0) + row.quantity
        for batch in self.house.rows(BatchRow):
            usable = stands[batch.id].usable if batch.id in stands else 0
            given = promised.get(batch.id, 0)
            assert not (given and batch.recalled), batch
            assert usable - given >= 0 or not given, batch

    @invariant()
    def what_the_report_says_was_lost_is_what_the_ledger_has_as_waste(self):
        """In quantity to the thousandth, in money never more than the batches cost."""
        with self.house.books() as connection:
            parts = lost(connection, ID, *ALL_TIME)
        told, cost = Counter(), Counter()
        for part in parts:
            told[part.batch.id] += part.movement.quantity
            cost[part.batch.id] += part.cost
        wasted = self.house.rows(BalanceRow, account=accounts.WASTE)
        assert told == Counter({row.batch: row.quantity for row in wasted if row.quantity})
        for batch in self.house.rows(BatchRow):
            assert 0 <= cost[batch.id] <= batch.cost, batch

    @invariant()
    def an_allergen_is_never_lost(self):
        """Whatever went into a batch, however many makings ago, what it contains is known of it."""
        items, recipes = self.known
        rows = {row.id: row for row in self.house.rows(BatchRow)}
        parents = {}
        for link in self.house.rows(BatchParentRow):
            parents.setdefault(link.batch, []).append(link.parent)
        made = {
            row.id: Made(
                row.item,
                tuple(parents.get(row.id, ())),
                recipes[row.made_by] if row.made_by and row.id in parents else None,
            )
            for row in rows.values()
        }
        larder = Larder(
            declared={item.id: item.declared for item in items.values()},
            names={item.id: item.name for item in items.values()},
            preparations={recipe.makes: recipe for recipe in recipes.values() if recipe.makes},
        )
        for batch in rows:
            known = of_batch(batch, made, {}, larder)
            for ancestor in _ancestors(batch, parents):
                for allergen in items[rows[ancestor].item].declared.contains:
                    assert certainty_of(known, allergen) is Certainty.CONTAINS, (batch, ancestor)

    @invariant()
    def nobody_is_served_what_they_cannot_eat(self):
        """Ottilie of the family cannot eat nuts, and nobody here overrides that (AL3)."""
        for service in self.house.rows(ServiceRow, state="confirmed", dining_table="family"):
            servings = self.house.rows(ServingRow, service=service.id)
            by_course = {}
            for serving in servings:
                nuts = serving.dish == "walnut-salad" and serving.variant is None
                by_course.setdefault(serving.course, []).append(nuts)
            assert not any(all(course) for course in by_course.values()), servings

    @precondition(lambda self: self.given)
    @rule(choice=choices)
    def the_same_command_again_changes_nothing(self, choice):
        command = self.given[choice % len(self.given)]
        position = self.house.heads()
        (answer,) = self.house.hand_in(command)
        (row,) = self.house.rows(JournalRow, id=command["id"])
        assert canonical(answer) == row.answer
        assert self.house.heads() == position

    @rule(
        day=st.integers(0, 6),
        dishes=st.lists(st.sampled_from(DISHES[:5]), min_size=1, max_size=3, unique=True),
        covers=st.integers(1, 9),
    )
    def confirming_and_taking_off_restores_what_is_available(self, day, dishes, covers):
        """With nothing between, on a meal that nothing else knows of."""
        date = (self.house.now + timedelta(days=day)).date().isoformat()
        service = f"{date}/tea/staff"
        self.house.propose(service, *dishes, covers=covers, time="16:00")
        before = self._available()
        self.house.do("confirm", {"service": service, "dishes": chosen(*dishes)})
        self.house.do("take_off", {"service": service, "reason": "changed their minds"})
        assert self._available() == before

    @rule(item=items, day=st.integers(0, 6))
    def a_shop_run_that_is_taken_back_restores_what_stands_there(self, item, day):
        """With nothing between; what was asked for meanwhile is asked for again (LG4)."""
        date = (self.house.now + timedelta(days=day)).date().isoformat()
        line = {"batch": self.fresh(), "item": item, "area": "cold-room"}
        line["quantity"] = f"1 {ITEMS[item][0]}"
        line["date_mark"] = {"kind": "use_by", "date": date}
        before = self._standing()
        command = self.house.do("shop_run", {"shop": "corner shop", "lines": [line]})
        self.house.do("correct", {"command": command, "reason": "mistake"})
        assert self._standing() == before

    def _standing(self):
        """What every batch stands on, and what is asked for and asked about."""
        stands = {batch: self.house.balances(batch) for batch in sorted(self.batches)}
        asked = [row.id for row in self.house.rows(AskedForRow) if row.closed_at is None]
        return stands, asked, sorted(row.id for row in self.house.questions("run_out"))

    @initialize()
    def what_everything_is_made_of(self):
        with self.house.books() as connection:
            self.known = stock.items(connection, ID), menu.recipes(connection, ID)

    def _available(self):
        return {batch: self.house.available(batch) for batch in sorted(self.batches)}


def _ancestors(batch, parents):
    found, waiting = set(), [batch]
    while waiting:
        for parent in parents.get(waiting.pop(), ()):
            if parent not in found:
                found.add(parent)
                waiting.append(parent)
    return found


Sequence = AnySequence.TestCase
Sequence.settings = settings(
    max_examples=20,
    stateful_step_count=30,
    deadline=None,
    derandomize=True,
    suppress_health_check=list(HealthCheck),
)
