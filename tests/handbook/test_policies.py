"""SL5: the policies are data, and every number has a named source and edition."""

import tomllib
from fractions import Fraction
from importlib.resources import files

import pytest

from pantry.handbook.policies import (
    CAUTION,
    POLICIES,
    Known,
    Stricter,
    Unit,
    policy,
    tenths,
)
from pantry.refusals import NotThere

EVERY = [policy(name) for name in POLICIES]


@pytest.mark.parametrize("each", EVERY, ids=POLICIES)
def test_SL5_every_number_has_a_source_an_edition_and_says_how_it_is_known(each):
    assert len(each.numbers) > 50
    for key, number in each.numbers.items():
        assert len(number.source) > 15, key
        assert number.edition, key
        assert (number.known is Known.COMMON_PRACTICE) == (
            "common practice, " in number.source or "physics" in number.source
        ), key


FILES = [f"policies_{name}.toml" for name in (*POLICIES, "frozen", "checks", "counting")]


@pytest.mark.parametrize("file", FILES)
def test_SL5_every_source_of_a_file_is_used_and_no_other(file):
    data = tomllib.loads(files("pantry.handbook").joinpath(file).read_text("utf-8"))
    used = set()

    def walk(table):
        for entry in table.values():
            if isinstance(entry, dict):
                if "value" in entry:
                    used.add(entry["source"])
                    assert entry["known"] in ("seen", "memory", "common_practice")
                else:
                    walk(entry)

    walk({key: entry for key, entry in data.items() if key != "sources"})
    assert used == set(data["sources"])


@pytest.mark.parametrize("each", EVERY, ids=POLICIES)
def test_SL5_every_number_says_which_way_is_safer(each):
    hot = {key for key, number in each.numbers.items() if number.stricter is Stricter.HIGHER}
    assert hot == {
        "receiving.hot.accept",
        "receiving.hot.refuse",
        "holding.hot.limit",
        "cooling.cooked.from",
    }
    neither = {key for key, number in each.numbers.items() if number.stricter is Stricter.NEITHER}
    assert neither == {
        "thawing.step.weight",
        "thawing.step.time",
        "probe.ice.at",
        "probe.boiling.at",
        "round.again",
        "counting.high_value.share",
        "counting.high_value.most",
    }


@pytest.mark.parametrize("each", EVERY, ids=POLICIES)
def test_SL5_every_policy_judges_the_same_trade(each):
    foods = {"chilled", "milk", "red_meat", "offal", "poultry", "mince", "meat_preparation"}
    assert foods | {"fish", "frozen", "hot"} <= set(each.names("receiving"))
    assert set(each.names("holding")) == {"chilled", "hot", "frozen"}
    assert each.names("cooling.cooked") == ("from", "stage_1", "stage_2")
    for treatment in ("opened", "prepared", "thawed", "vacuum"):
        life = each.life(treatment, "anything else")
        assert (life.days is None) != (life.hours is None)
    assert each.life("thawed", "anything else").hours
    assert each.life("vacuum", "anything else").days


def test_SL5_a_food_has_its_own_life_or_that_of_any_food():
    uk = policy("uk")
    assert uk.life("prepared", "rice").hours == 24
    assert uk.life("prepared", "stew").days == 3
    with pytest.raises(NotThere) as refused:
        uk.life("frozen", "porcelain")
    assert "butter" in refused.value.todo


@pytest.mark.parametrize(
    ("name", "meant"),
    [("uk", "uk"), (" England ", "uk"), ("US", "us"), ("us food code 2022", "us")],
)
def test_SL5_a_policy_is_found_by_its_names(name, meant):
    assert policy(name).name == meant


@pytest.mark.parametrize("name", ["", "moon", "u"])
def test_SL5_an_unknown_policy_is_refused_by_naming_those_that_exist(name):
    with pytest.raises(NotThere) as refused:
        policy(name)
    assert refused.value.code == "policy_unknown"
    assert all(known in refused.value.todo for known in POLICIES)


def test_SL5_an_unknown_number_names_what_stands_beside_it():
    with pytest.raises(NotThere) as refused:
        policy("uk").number("receiving.poultry.melt")
    assert refused.value.todo == "Choose one of: accept, refuse."
    with pytest.raises(NotThere) as refused:
        policy("uk").number("weather")
    assert "receiving" in refused.value.todo


def test_SL5_local_codes_come_first_and_the_program_says_so():
    assert "Local codes" in CAUTION
    assert "licensed practice" in CAUTION


def test_MS1_temperatures_are_rounded_half_even_once():
    assert tenths(Fraction("4.25")) == 42
    assert tenths(Fraction("4.35")) == 44
    assert tenths(Fraction("-4.25")) == -42


def test_SL5_numbers_are_written_as_their_source_writes_them():
    us = policy("us")
    assert us.number("cooling.cooked.stage_1.to").written == "70 °F"
    assert us.number("receiving.frozen.accept").unit is Unit.TEMPERATURE
    assert policy("uk").number("receiving.frozen.accept").written == "−18 °C"
    assert us.life("frozen", "bacon").written == "1 month"
    assert us.life("frozen", "bacon").days == 30
