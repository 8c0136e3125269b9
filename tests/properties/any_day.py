"""Days in a kitchen as chance will have them: what the properties are told of.

Everything goes through the real door into a real database. A `Kitchen` knows which batches,
services and commands there have been, so that chance names things that exist.
"""

import shutil
import tempfile
from datetime import timedelta
from functools import cache
from pathlib import Path

from hypothesis import strategies as st
from hypothesis.stateful import RuleBasedStateMachine, initialize, precondition, rule

from tests.commands.house import House
from tests.commands.larkfield import found_database, open_copy

DISHES = ("pancakes", "rice-pudding", "baked-salmon", "broth", "green-salad", "walnut-salad")
ITEMS = {
    "whole-milk": ("ml", 4_000),
    "butter": ("g", 1_000),
    "plain-flour": ("g", 2_000),
    "eggs": ("each", 12),
    "salmon": ("g", 2_000),
    "chicken-bones": ("g", 2_000),
    "salad-leaves": ("g", 600),
    "walnuts": ("g", 300),
    "salt": ("g", 1_000),
}
AREAS = ("pantry", "cold-room", "freezer")
LOSSES = ("waste", "use", "send_out")
TREATMENTS = ("open", "decant", "freeze", "thaw", "vacuum_pack")

items = st.sampled_from(sorted(ITEMS))
areas = st.sampled_from(AREAS)
shares = st.sampled_from((1, 2, 3, 5, 8, 10, 13))
"""Tenths of what a batch began with: all of it and more is asked for too."""
days = st.integers(-1, 9)
hours = st.integers(0, 20)
choices = st.integers(0, 1_000)


def _area_of(item):
    return "pantry" if item in ("plain-flour", "eggs", "walnuts", "salt") else "cold-room"


@cache
def _founded():
    return found_database(Path(tempfile.mkdtemp(prefix="larkfield-")) / "founded.db")


class Kitchen(RuleBasedStateMachine):
    """Every kind of fact and decision about stock and menus, in any order."""

    def __init__(self):
        super().__init__()
        self.folder = tempfile.mkdtemp(prefix="kitchen-")
        self.house = House(open_copy(_founded(), Path(self.folder) / "house.db"))
        self.batches = {}
        self.services = []
        self.given = []
        self.applied = []
        self.names = 0

    def teardown(self):
        self.house.engine.dispose()
        shutil.rmtree(self.folder)

    # How chance names things

    def fresh(self):
        self.names += 1
        return f"b{self.names}"

    def batch(self, choice):
        names = sorted(self.batches)
        return names[choice % len(names)]

    def service(self, choice):
        return self.services[choice % len(self.services)]

    def wanted(self, which, choice):
        """A service and a batch; of an item that the service needs, if there is one."""
        service = self.service(which)
        needed = {need.item for need in self.house.needs(service=service)}
        fitting = [name for name, item in sorted(self.batches.items()) if item in needed]
        return service, fitting[choice % len(fitting)] if fitting else self.batch(choice)

    def part(self, batch, share):
        item = self.batches[batch]
        unit, most = ITEMS.get(item, ("ml", 1_000))
        return f"{max(1, most * share // 20) if share else 0} {unit}"

    def when(self, ago):
        return self.house.now - timedelta(hours=ago)

    def give(self, kind, body, at=None):
        """Give a command; whatever it is answered, the program has not failed."""
        command = self.house.command(kind, body, at=at)
        (answer,) = self.house.hand_in(command)
        problem = answer.problem
        assert problem is None or problem.code != "program_failed", problem
        self.given.append(command)
        if answer.outcome == "applied":
            self.applied.append(command["id"])
        for row in self.house.new_batches(self.batches):
            self.batches[row.id] = row.item
        return answer

    @initialize(
        stock=st.lists(st.tuples(items, shares, days), min_size=6, max_size=14),
        meals=st.lists(
            st.tuples(st.integers(0, 4), st.sampled_from(DISHES[:5]), st.integers(1, 6)),
            min_size=2,
            max_size=5,
        ),
    )
    def a_house_that_is_lived_in(self, stock, meals):
        """Something of most things, most of it in date, and a few meals chosen."""
        for item, share, day in stock:
            self.receive(item, share, _area_of(item), max(day, 2), 1, 0)
        for number, (day, dish, covers) in enumerate(meals):
            meal = (f"meal-{number}", "19:30")
            self.confirm(day, meal, ("family", "staff")[number % 2], [dish], covers)

    # Facts

    @rule(item=items, share=shares, area=areas, day=days, ago=hours, choice=choices)
    def receive(self, item, share, area, day, ago, choice):
        date = (self.house.now + timedelta(days=day)).date().isoformat()
        kind = ("use_by", "use_by", "best_before", "none")[choice % 4]
        body = {
            "batch": self.fresh(),
            "item": item,
            "quantity": f"{max(1, ITEMS[item][1] * share // 10)} {ITEMS[item][0]}",
            "area": area,
            "date_mark": {"kind": kind, "date": None if kind == "none" else date},
            "verdict": ("accept", "accept", "accept", "accept", "hold", "refuse")[choice % 6],
            "lot": f"L{choice % 5}",
        }
        self.give("receive", body, self.when(ago))

    @precondition(lambda self: self.batches)
    @rule(kind=st.sampled_from(TREATMENTS), choice=choices, share=shares, ago=hours)
    def treat(self, kind, choice, share, ago):
        batch = self.batch(choice)
        body = {"batch": batch, "quantity": self.part(batch, share), "child": self.fresh()}
        self.give(kind, body, self.when(ago))

    @precondition(lambda self: self.batches)
    @rule(choice=choices, share=shares, area=areas, ago=hours)
    def move(self, choice, share, area, ago):
        batch = self.batch(choice)
        body = {"batch": batch, "quantity": self.part(batch, share), "area": area}
        self.give("move", body, self.when(ago))

    @rule(item=items, share=shares, area=areas, day=days, ago=hours)
    def shop_run(self, item, share, area, day, ago):
        date = (self.house.now + timedelta(days=day)).date().isoformat()
        line = {
            "batch": self.fresh(),
            "item": item,
            "quantity": f"{max(1, ITEMS[item][1] * share // 10)} {ITEMS[item][0]}",
            "area": area,
            "date_mark": {"kind": "use_by", "date": date},
        }
        self.give("shop_run", {"shop": "corner shop", "lines": [line]}, self.when(ago))

    @rule(kind=st.sampled_from(("run_out", "use")), item=items, share=shares, ago=hours)
    def miss(self, kind, item, share, ago):
        amount = f"{max(1, ITEMS[item][1] * share // 10)} {ITEMS[item][0]}"
        more = {"quantity": amount} if kind == "use" else {}
        self.give(kind, {"item": item} | more, self.when(ago))

    @precondition(lambda self: self.batches)
    @rule(
        kind=st.sampled_from(("waste", "use", "send_out")), choice=choices, share=shares, ago=hours
    )
    def lose(self, kind, choice, share, ago):
        batch = self.batch(choice)
        body = {"batch": batch, "quantity": self.part(batch, share)}
        more = {
            "waste": {"reason": "mould", "destination": "bin"},
            "use": {},
            "send_out": {"house": "the lodge"},
        }
        self.give(kind, body | more[kind], self.when(ago))

    @precondition(lambda self: self.batches)
    @rule(
        choice=choices,
        share=st.integers(0, 13),
        area=areas,
        taken=st.sampled_from((None, None, True, False)),
        second=st.sampled_from((None, True, False)),
        whole=st.booleans(),
        ago=hours,
    )
    def count(self, choice, share, area, taken, second, whole, ago):
        batch = self.batch(choice)
        line = {"quantity": self.part(batch, share), "taken_out": taken}
        line |= {} if second is None else {"second": second}
        line |= {"item": self.batches[batch]} if whole else {"batch": batch}
        self.give("count", {"area": area, "lines": [line]}, self.when(ago))

    @rule(
        recipe=st.sampled_from(("chicken-stock", "pancake-batter")),
        amount=st.sampled_from(("500 ml", "1 l", "2 l")),
        ago=hours,
    )
    def make(self, recipe, amount, ago):
        body = {"recipe": recipe, "quantity": amount, "child": self.fresh(), "area": "cold-room"}
        self.give("make", body, self.when(ago))

    @precondition(lambda self: self.batches and self.services)
    @rule(choice=choices, which=choices, share=shares, ago=hours)
    def take_out(self, choice, which, share, ago):
        service, batch = self.wanted(which, choice)
        body = {"batch": batch, "quantity": self.part(batch, share)}
        self.give("take_out", body | {"service": service}, self.when(ago))

    @precondition(lambda self: self.services)
    @rule(which=choices, choice=choices, share=st.one_of(st.none(), shares))
    def serve(self, which, choice, share):
        exceptions = []
        if share and self.batches:
            batch = self.batch(choice)
            key = "batch" if choice % 2 else "item"
            named = batch if choice % 2 else self.batches[batch]
            exceptions = [{key: named, "quantity": self.part(batch, share)}]
        self.give("serve", {"service": self.service(which), "exceptions": exceptions})

    # Decisions

    @rule(
        day=st.integers(0, 5),
        meal=st.sampled_from((("lunch", "12:30"), ("dinner", "19:30"))),
        table=st.sampled_from(("family", "staff")),
        dishes=st.lists(st.sampled_from(DISHES), min_size=1, max_size=2, unique=True),
        covers=st.integers(0, 8),
    )
    def confirm(self, day, meal, table, dishes, covers):
        date = (self.house.now + timedelta(days=day)).date().isoformat()
        part = {"date": date, "meal": meal[0], "table": table, "time": meal[1], "covers": covers}
        course = {"course": "main", "dishes": list(dishes)}
        self.give("propose", {"service": part, "courses": [course]})
        service = f"{date}/{meal[0]}/{table}"
        if service not in self.services:
            self.services.append(service)
        chosen = [{"dish": dish} for dish in dishes]
        self.give("confirm", {"service": service, "dishes": chosen})

    @precondition(lambda self: self.services)
    @rule(which=choices, covers=st.integers(0, 9))
    def change_covers(self, which, covers):
        self.give("change_covers", {"service": self.service(which), "covers": covers})

    @precondition(lambda self: self.services)
    @rule(which=choices)
    def take_off(self, which):
        self.give("take_off", {"service": self.service(which), "reason": "away"})

    @precondition(lambda self: self.services)
    @rule(which=choices, dish=st.sampled_from(DISHES), by=st.sampled_from(DISHES))
    def swap_dish(self, which, dish, by):
        body = {"service": self.service(which), "dish": dish, "by": {"dish": by}}
        self.give("swap_dish", body)

    @precondition(lambda self: self.batches and self.services)
    @rule(choice=choices, which=choices, share=st.integers(0, 10))
    def pin(self, choice, which, share):
        service, batch = self.wanted(which, choice)
        body = {"service": service, "batch": batch, "quantity": self.part(batch, share)}
        self.give("pin", body)

    @precondition(lambda self: self.batches)
    @rule(kind=st.sampled_from(("hold", "release")), choice=choices)
    def hold_or_release(self, kind, choice):
        self.give(kind, {"batch": self.batch(choice), "reason": "looked at it"})

    @precondition(lambda self: self.batches)
    @rule(choice=choices, share=shares, kept=st.booleans())
    def set_aside(self, choice, share, kept):
        batch = self.batch(choice)
        body = {"batch": batch, "quantity": self.part(batch, share), "area": "cold-room"}
        self.give("set_aside", body | {"kept": kept})

    @rule(lot=st.integers(0, 9))
    def recall(self, lot):
        self.give("recall", {"lot": f"L{lot}", "reason": "glass"})

    @rule(day=st.integers(1, 4), packs=st.integers(1, 3), agreed=st.booleans())
    def place_order(self, day, packs, agreed):
        date = (self.house.now + timedelta(days=day)).date().isoformat()
        lines = [{"item": "whole-milk", "pack": "2 l bottle", "packs": packs}]
        body = {"supplier": "hill-dairy", "delivery": date, "lines": lines, "agreed": agreed}
        self.give("place_order", body)

    @precondition(lambda self: self.applied)
    @rule(choice=choices)
    def correct(self, choice):
        command = self.applied[-1 - choice % min(len(self.applied), 12)]
        self.give("correct", {"command": command, "reason": "mistake"})

    # Time

    @rule(passed=st.integers(1, 40))
    def time_passes(self, passed):
        self.house.now += timedelta(hours=passed)
        self.house.hand_in()
