"""Every report answers exactly what is promised of it, to the last key.

Beside these, whatever another test of this folder asks is read as its shape too.
"""

from typing import get_args

import msgspec
import pytest

from pantry.commands.telling import HIDDEN, as_told
from pantry.records.database import reading
from pantry.reports import asked
from pantry.reports.asked import ASKED
from pantry.reports.shapes.days import DaysRow, MorningRow
from pantry.reports.shapes.trace import TraceRow
from pantry.reports.shapes.ways_out import WayOut
from pantry.reports.view import view
from pantry.rules.house_time import write_instant
from tests.commands.house import DAY, use_by
from tests.commands.larkfield import ID
from tests.reports.demo_house import NOW
from tests.reports.in_shape import in_shape

DAYS = (0, 3)
"""On the first morning, and when menus, deliveries and batches have passed unrecorded."""


OTHERWISE = {
    "stay-change": {"table": "family", "first": "2027-03-12", "heads": 2},
    "late-change": {"off": "yes"},
    "dishes-for": {
        "date": "2027-03-14",
        "meal": "dinner",
        "table": "family",
        "time": "19:30",
    },
}
"""What else a report is asked by, so that there is something to tell."""


def told(seen, name, argument=None):
    given = dict.fromkeys(ASKED[name].needs, argument) | OTHERWISE.get(name, {})
    return asked.ask(seen, name, **given)


def arguments_of(seen, name, labels):
    """A few services where one is asked for, or else these labels; nothing where nothing is."""
    needs = ASKED[name].needs
    if "service" in needs:
        rows = told(seen, "menus")["rows"]
        ahead = [row for row in rows if row["at"] > write_instant(seen.now)]
        return [row["service"] for row in ahead if row["state"] == "confirmed"][::4]
    return labels if needs - OTHERWISE.get(name, {}).keys() else [None]


def said(value, key):
    """All that stands under a key, however deep."""
    if isinstance(value, dict):
        value = {part: of for part, of in value.items() if part != "derivation"}
        yield from (of for part, of in value.items() if part == key and isinstance(of, str))
        value = list(value.values())
    if isinstance(value, list):
        for part in value:
            yield from said(part, key)


def tags(union):
    return {one.__struct_config__.tag for one in get_args(union)}


@pytest.fixture(scope="module")
def answers(house):
    """What every report of the demo house answers, by its name; of codes and traces, several."""
    engine, found = house
    answers = {name: [] for name in ASKED}
    with reading(engine) as connection:
        for days in DAYS:
            seen = view(connection, found, NOW + days * DAY)
            labels = [row["label"] for row in told(seen, "stock")["rows"]][::25]
            for name in ASKED:
                arguments = arguments_of(seen, name, labels)
                answers[name] += [told(seen, name, argument) for argument in arguments]
    return answers


OF_WHAT_HAPPENED = {
    "asked-for",
    "awaited",
    "checks",
    "cooling",
    "count-differences",
    "credits",
    "devices",
    "failed-places",
    "invoices",
    "sheets",
    "shop-runs",
    "standing-orders",
    "waste",
    "waste-without-batch",
}
"""Of these a house that was only brought in has no rows; their own tests read them in shape."""


@pytest.mark.parametrize("name", sorted(ASKED.keys() - OF_WHAT_HAPPENED))
def test_every_report_of_the_demo_house_is_in_its_shape(answers, name):
    assert answers[name][0]["rows"]
    for answer in answers[name]:
        in_shape(name, answer)


def test_the_demo_house_has_rows_of_every_kind(answers):
    """Else their shapes were held against nothing."""
    assert set(said(answers["days"], "what")) == tags(DaysRow)
    assert set(said(answers["morning"], "what")) == tags(MorningRow)
    assert set(said(answers["trace"], "direction")) == tags(TraceRow)
    ways = {*said(answers["plan"], "kind"), *said(answers["coverage"], "kind")}
    assert {"another_dish", "fewer_portions", "shop_run", "substitute"} <= ways <= tags(WayOut)


def odd_things(lodge):
    """On hold, in the kitchen alone, wasted, made, out, proposed and impossible, left unserved."""
    lodge.receive("m", "whole-milk", "2 l", use_by(12), lot="L1")
    lodge.receive("h", "butter", "1 kg", use_by(13), lot="L1")
    lodge.receive("b", "chicken-bones", "2 kg", use_by(9))
    lodge.receive("w", "walnuts", "1 kg")
    made = {"recipe": "chicken-stock", "quantity": "2 l", "child": "s", "area": "cold-room"}
    lodge.do("make", made | {"used": [{"batch": "b", "quantity": "1 kg"}]})
    lodge.do("hold", {"batch": "h", "reason": "torn"})
    lodge.do("set_level", {"item": "salt", "level": "out"})
    lodge.menu("2027-03-08/dinner/family", "rice-pudding")
    out = {"batch": "m", "quantity": "2 l", "service": "2027-03-08/dinner/family"}
    lodge.do("take_out", out)
    lodge.receive("c", "chicken-bones", "3 kg", use_by(9))
    lodge.do("take_out", {"batch": "c", "quantity": "3 kg", "preparation": "chicken-stock"})
    lost = {"batch": "w", "quantity": "10 g", "reason": "mouldy", "destination": "compost"}
    lodge.do("waste", lost)
    lodge.propose("2027-03-09/dinner/family", "walnut-salad", "new-dish", "baked-salmon")
    lodge.menu("2027-03-10/dinner/staff", "pancakes")


@pytest.mark.parametrize("odd", [None, odd_things])
def test_every_report_of_a_small_house_is_in_its_shape(lodge, odd):
    if odd:
        odd(lodge)
    with reading(lodge.engine) as connection:
        for days in (0, 2, 5):
            seen = view(connection, ID, lodge.now + days * DAY)
            labels = [row.label for row in seen.every_batch.values()]
            for name in ASKED:
                for argument in arguments_of(seen, name, labels):
                    in_shape(name, told(seen, name, argument))
            places = {row["area"] for row in told(seen, "stock")["rows"]}
            assert not odd or None in places


@pytest.mark.parametrize("name", sorted(HIDDEN))
def test_what_a_role_is_not_told_may_be_left_out(answers, name):
    answer = answers[name][0]
    for column, roles in HIDDEN[name].items():
        rows = as_told(min(roles), name, answer["rows"])
        assert column not in {key for row in rows for key in row}
        in_shape(name, answer | {"rows": rows})


@pytest.mark.parametrize("name", ["days", "house", "notice", "plan"])
def test_a_key_too_many_or_too_few_is_found_out(answers, name):
    for wrong in broken(answers[name][0]):
        with pytest.raises(msgspec.ValidationError):
            in_shape(name, wrong)


def broken(answer):
    """The answer with something too much, too little or other than it should be."""
    first, *rest = answer["rows"]
    yield answer | {"colour": "white"}
    yield {key: value for key, value in answer.items() if key != "zone"}
    yield answer | {"rows": [first | {"colour": "white"}, *rest]}
    for key in first:
        yield answer | {"rows": [{name: of for name, of in first.items() if name != key}, *rest]}
        yield answer | {"rows": [first | {key: 1.5}, *rest]}
