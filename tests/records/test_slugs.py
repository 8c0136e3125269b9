"""Ids made of names."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.records.slugs import slug


@pytest.mark.parametrize(
    ("name", "identity"),
    [
        ("Crème fraîche", "creme-fraiche"),
        ("  Flour, plain (T55) ", "flour-plain-t55"),
        ("Brun's Butcher", "brun-s-butcher"),
        ("case of 6 x 750 ml", "case-of-6-x-750-ml"),
        ("Weißkohl", "weisskohl"),
        ("Bœuf", "bœuf"),
        ("½ pint", "1-2-pint"),
        ("Tzatzíki / Τζατζίκι", "tzatziki-τζατζικι"),
        ("味噌", "味噌"),
        ("パン", "パン"),
        ("snake_case", "snake-case"),
        ("ＭＩＬＫ", "milk"),
        ("---", ""),
    ],
)
def test_a_name_becomes_an_id_that_a_person_can_read(name, identity):
    assert slug(name) == identity


def test_names_in_other_scripts_are_told_apart():
    assert len({slug(name) for name in ("味噌", "醤油", "Μέλι", "Γάλα", "Мёд", "Молоко")}) == 6


@given(st.text(max_size=30))
def test_an_id_made_of_an_id_is_the_same_id(name):
    assert slug(slug(name)) == slug(name)


@given(st.text(max_size=30))
def test_an_id_fits_between_the_marks_that_ids_are_joined_with(name):
    assert not set(slug(name)) & set("/|: _;")


@given(st.text(st.characters(max_codepoint=0x24F), max_size=30))
def test_capitals_make_no_difference(name):
    assert slug(name.lower()) == slug(name)
