"""RQ4, PL5, AL3: what each dish would come to at a meal, said before it is proposed."""

from decimal import Decimal

import pytest

from pantry.records.database import reading
from pantry.refusals import Refusal
from pantry.reports.coverage import coverage
from pantry.reports.dishes_for import dishes_for
from pantry.reports.view import view
from pantry.rules.menu import ServiceState
from tests.commands.house import at, best_before, use_by
from tests.commands.larkfield import ID
from tests.reports.demo_house import NOW
from tests.reports.in_shape import rows_in_shape

FRIDAY = {"date": "2027-03-12", "meal": "dinner", "table": "Family", "time": "19:30"}


def thought_of(lodge, **meal):
    with reading(lodge.engine) as connection:
        seen = view(connection, ID, lodge.now)
        rows = rows_in_shape(seen, dishes_for, dishes_for(seen, **{**FRIDAY, **meal}))
    return {(row["dish"], row["variant"]): row for row in rows}


def lacking(row):
    return {each["item"]: each["quantity"]["value"] for each in row["lacking"]}


def test_RQ4_each_dish_says_whether_it_is_covered_to_be_bought_or_cannot_be_had(lodge):
    lodge.receive("m", "whole-milk", "1 l", use_by(14))
    lodge.receive("b", "butter", "100 g", use_by(20))
    rows = thought_of(lodge)
    assert rows["rice-pudding", None]["covering"] == "covered"
    assert rows["rice-pudding", None]["lacking"] == []
    assert rows["baked-salmon", None]["covering"] == "cannot_be_had"  # nobody sells salmon
    assert lacking(rows["baked-salmon", None]) == {"Salmon": "600"}
    assert rows["baked-salmon", None]["choose_by"] is None
    assert rows["broth", None]["covering"] == "to_buy"
    bones = rows["broth", None]
    # a litre of stock takes half of the recipe's bones; the butcher comes on Friday morning
    assert lacking(bones) == {"Chicken bones": "500"}
    assert bones["choose_by"] == bones["lacking"][0]["order_by"] == "2027-03-11T12:00:00Z"
    assert not bones["early"]  # the usual notice ends on Tuesday


def test_RQ4_more_covers_lack_more_and_chosen_menus_come_first(lodge):
    lodge.receive("m", "whole-milk", "2 l", use_by(14))
    lodge.receive("b", "butter", "100 g", use_by(20))
    assert lacking(thought_of(lodge, covers=10)["rice-pudding", None]) == {"Whole milk": "500"}
    lodge.menu("2027-03-11/dinner/staff", "rice-pudding", covers=6)
    assert lacking(thought_of(lodge)["rice-pudding", None]) == {"Whole milk": "500"}


def test_without_a_number_it_is_for_those_who_are_said_to_eat_there(lodge):
    lodge.receive("m", "whole-milk", "2 l", use_by(14))
    lodge.receive("b", "butter", "100 g", use_by(20))
    assert lacking(thought_of(lodge)["rice-pudding", None]) == {}
    guests = {"stay": "s", "who": "six walkers", "heads": 6, "table": "Family"}
    lodge.do("say_stay", guests | {"first": "2027-03-12"})
    assert lacking(thought_of(lodge)["rice-pudding", None]) == {"Whole milk": "500"}
    assert lacking(thought_of(lodge, covers=4)["rice-pudding", None]) == {}


def test_PL5_a_choose_by_before_the_usual_notice_is_said(lodge):
    """Monday's dinner: the butcher comes on the Friday before, ordered for on Thursday at noon."""
    row = thought_of(lodge, date="2027-03-15")["broth", None]
    assert (row["choose_by"], row["early"]) == ("2027-03-11T12:00:00Z", True)
    lodge.now = at(11, 13)
    row = thought_of(lodge, date="2027-03-15")["broth", None]
    assert row["covering"] == "cannot_be_had"


def test_PL5_what_must_be_begun_earlier_than_now_is_too_late(lodge):
    lodge.receive("l", "salad-leaves", "1 kg", use_by(20))
    lodge.set_recipe("green-salad", lead="P5D")
    row = thought_of(lodge)["green-salad", None]
    assert (row["covering"], row["lacking"]) == ("too_late", [])


def test_what_it_saves_is_what_would_die_within_a_week_after_it_each_item_once(lodge):
    lodge.receive("soon", "whole-milk", "600 ml", use_by(13))
    lodge.receive("sooner", "whole-milk", "100 ml", use_by(12))
    lodge.receive("late", "whole-milk", "2 l", use_by(30))
    lodge.receive("b", "butter", "100 g", use_by(28))
    (milk,) = thought_of(lodge)["rice-pudding", None]["dies"]
    assert (milk["item"], milk["quantity"]["value"]) == ("Whole milk", "700")
    assert (milk["until"], milk["date_mark"]) == ("2027-03-12T23:59:59Z", "use_by")


def test_SL2_what_is_past_its_best_by_then_is_flagged_and_saves_nothing(lodge):
    lodge.receive("m", "whole-milk", "3 l", use_by(20))
    lodge.receive("b", "butter", "100 g", best_before(11))
    row = thought_of(lodge)["rice-pudding", None]
    assert (row["past_best"], row["dies"]) == (["Butter"], [])
    assert row["covering"] == "covered"


def test_AL3_who_cannot_eat_it_is_named_with_a_safe_dish_and_a_variant_stands_for_itself(lodge):
    rows = thought_of(lodge)
    (ottilie,) = rows["walnut-salad", None]["against"]
    assert (ottilie["person"], ottilie["cannot_eat"]) == ("Ottilie", "nuts")
    assert (ottilie["safe"]["dish"], ottilie["safe"]["variant"]) == ("walnut-salad", "without nuts")
    assert rows["walnut-salad", "without nuts"]["against"] == []
    assert thought_of(lodge, table="Staff")["walnut-salad", None]["against"] == []


def test_a_dish_that_cannot_be_worked_out_says_why_and_hides_no_other(lodge):
    lodge.set_recipe("broth", yields="0")
    rows = thought_of(lodge)
    assert rows["broth", None]["covering"] == "unclear"
    assert "yields nothing" in rows["broth", None]["problem"]
    assert rows["green-salad", None]["problem"] is None


@pytest.mark.parametrize(
    ("meal", "code"),
    [
        ({"table": "Attic"}, "table_not_there"),
        ({"date": "Friday"}, "meal_unreadable"),
        ({"time": "noon"}, "meal_unreadable"),
    ],
)
def test_what_cannot_be_read_is_refused_with_what_to_write(lodge, meal, code):
    with pytest.raises(Refusal) as refused:
        thought_of(lodge, **meal)
    assert refused.value.code == code
    assert refused.value.todo


def test_RQ4_what_is_said_while_it_is_thought_of_is_what_its_coverage_says_once_proposed(house):
    engine, found = house
    told = 0
    with reading(engine) as connection:
        seen = view(connection, found, NOW)
        for service in seen.services:
            if service.state is not ServiceState.PROPOSED:
                continue
            clock = service.at.astimezone(seen.zone).strftime("%H:%M")
            meal = {"date": str(service.date), "meal": service.meal, "table": service.table}
            rows = dishes_for(seen, **meal, time=clock, covers=service.covers)
            thought = {(row["name"], row["variant"]): row for row in rows}
            for_all = {
                (seen.recipes[each.dish].name, each.variant)
                for each in service.servings
                if each.portions is None
            }
            proposed: dict[tuple[str, str | None], list] = {}
            for row in coverage(seen, service.id):
                if (row["dish"], row["variant"]) in for_all:
                    proposed.setdefault((row["dish"], row["variant"]), []).append(row)
            for dish, parts in proposed.items():
                short: dict[str, Decimal] = {}
                for row in parts:
                    short[row["item"]] = short.get(row["item"], 0) + Decimal(row["short"]["value"])
                found = {name: Decimal(value) for name, value in lacking(thought[dish]).items()}
                assert found == {name: value for name, value in short.items() if value}
                assert thought[dish]["choose_by"] == parts[0]["choose_by"]
                told += 1
    assert told > 5
