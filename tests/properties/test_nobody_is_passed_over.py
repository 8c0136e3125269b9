"""Whatever is decided in whatever order, nobody's confirmed dish is passed over in silence (AL3).

What is in a dish is said here by hand, beside the rules that are tested.
"""

import tempfile
from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pantry.records.tables import OverrideRow, RecipeRow, ServiceRow, ServingRow
from tests.commands.house import House, chosen
from tests.commands.larkfield import found_database, open_copy

FOODS = {
    "pancakes": {"milk", "gluten", "eggs"},
    "rice-pudding": {"milk"},
    "walnut-salad": {"nuts"},
    "green-salad": set[str](),
    "baked-salmon": {"fish", "milk"},
}
OF_BUTTER = ("rice-pudding", "baked-salmon")
SERVICES = [f"2027-03-{day}/dinner/{table}" for day in (12, 13) for table in ("family", "staff")]

services, dishes = st.sampled_from(SERVICES), st.sampled_from(sorted(FOODS))
some = st.lists(dishes, min_size=1, max_size=2, unique=True)
named = st.sets(st.sampled_from(["Ottilie", "Bo"])).map(sorted)
foods = st.sampled_from(["nuts", "fish", "eggs", "milk"])
steps = st.one_of(
    st.tuples(st.just("choose"), services, some, named),
    st.tuples(st.just("propose"), services, some),
    st.tuples(st.just("swap"), services, dishes, dishes, named),
    st.tuples(st.just("move"), services, services, named),
    st.tuples(st.just("hour"), services),
    st.tuples(st.just("covers"), services),
    st.tuples(st.just("sheet"), services),
    st.tuples(st.just("put_in"), services),
    st.tuples(st.just("guest"), st.sampled_from(["family", "staff"]), foods),
    st.tuples(st.just("product")),
    st.tuples(st.just("recipe")),
)


class Decided:
    """A house in which things are decided, and what is known beside its books."""

    def __init__(self, house):
        self.house = house
        self.contains = {dish: set(of) for dish, of in FOODS.items()}
        self.cannot_eat = {("family", "Ottilie"): {"nuts"}}
        self.of_walnuts = {"walnut-salad"}
        self.put_into = set()
        house.receive("walnuts", "walnuts", "5 kg")

    def do(self, step):
        kind, *rest = step
        return getattr(self, kind)(*rest)

    def choose(self, service, of, overrides):
        self.propose(service, of)
        body = {"service": service, "dishes": chosen(*of), "overrides": overrides}
        if self.is_applied("confirm", body):
            self.put_into.discard(service)

    def propose(self, service, of):
        day, meal, table = service.split("/")
        part = {"date": day, "meal": meal, "table": table, "time": "19:30", "covers": 4}
        courses = [{"course": "main", "dishes": chosen(*of)}]
        self.is_applied("propose", {"service": part, "courses": courses})

    def swap(self, service, dish, other, overrides):
        body = {"service": service, "dish": dish, "by": {"dish": other}, "overrides": overrides}
        if self.is_applied("swap_dish", body):
            self.put_into.discard(service)

    def move(self, service, to, overrides):
        day, meal, table = to.split("/")
        part = {"date": day, "meal": meal, "table": table, "time": "19:30"}
        body = {"service": service, "to": part, "overrides": overrides}
        if self.is_applied("move_service", body) and to != service:
            self.put_into -= {service, to}

    def hour(self, service):
        day, meal, table = service.split("/")
        part = {"date": day, "meal": meal, "table": table, "time": "21:15"}
        self.is_applied("move_service", {"service": service, "to": part})

    def sheet(self, service):
        self.is_applied("send_sheet", {"services": [service]})

    def put_in(self, service):
        body = {"batch": "walnuts", "quantity": "10 g", "service": service}
        if self.is_applied("take_out", body):
            served = {each.dish for each in self.house.rows(ServingRow, service=service)}
            if not served & self.of_walnuts:  # else it is for that dish, which says so
                self.put_into.add(service)

    def covers(self, service):
        self.is_applied("change_covers", {"service": service, "covers": 7})

    def guest(self, table, food):
        self.house.do("add_guest", {"person": "Bo", "table": table, "cannot_eat": [food]})
        self.cannot_eat.setdefault((table, "Bo"), set()).add(food)

    def product(self):
        pack = "hill-dairy/butter/250-g-block"
        body = {"pack": pack, "contains": ["milk"], "may_contain": ["nuts"]}
        self.house.do("change_product", body)
        for dish in OF_BUTTER:
            self.contains[dish].add("nuts")

    def recipe(self):
        lines = [
            {"ingredient": "Salad leaves", "amount": "50 g"},
            {"ingredient": "Walnuts", "amount": "5 g"},
        ]
        body = {"recipe": "Green salad", "kind": "dish", "yields": "1", "ingredients": lines}
        body["approved"] = True
        base = self.house.row(RecipeRow, id="green-salad").version
        self.house.do("write_recipe", body, base=base)
        self.contains["green-salad"].add("nuts")
        self.of_walnuts.add("green-salad")

    def is_applied(self, kind, body):
        return self.house.give(kind, body).outcome == "applied"

    def passed_over(self):
        """Each person who has nothing to eat of a confirmed course, and of whom nobody knows."""
        asked = {row.about.partition("|")[0] for row in self.house.questions("allergen")}
        agreed = {(row.service, row.person) for row in self.house.rows(OverrideRow)}
        for row in self.house.rows(ServiceRow, state="confirmed"):
            served = [each.dish for each in self.house.rows(ServingRow, service=row.id)]
            for (table, person), words in self.cannot_eat.items():
                is_all = all(words & self.contains[dish] for dish in served)
                is_all = is_all or (row.id in self.put_into and "nuts" in words)
                is_known = (row.id, person) in agreed or row.id in asked
                if table == row.dining_table and is_all and not is_known:
                    yield person, row.id, served


@pytest.fixture(scope="module")
def founded_once(tmp_path_factory):
    return found_database(tmp_path_factory.mktemp("larkfield") / "founded.db")


@settings(max_examples=40, deadline=None, suppress_health_check=list(HealthCheck))
@given(sequence=st.lists(steps, min_size=3, max_size=9))
def test_AL3_nobody_is_passed_over_in_silence(founded_once, sequence):
    with tempfile.TemporaryDirectory() as folder:
        engine = open_copy(founded_once, Path(folder) / "house.db")
        decided = Decided(House(engine))
        for step in sequence:
            decided.do(step)
            assert list(decided.passed_over()) == [], step
        engine.dispose()
