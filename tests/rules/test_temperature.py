"""Temperatures as people write them, in tenths of a degree Celsius."""

from contextlib import suppress

import pytest
from hypothesis import given
from hypothesis import strategies as st

from pantry.refusals import Refusal, UnreadableInput
from pantry.rules.temperature import degrees, read_temperature, write_temperature


@pytest.mark.parametrize(
    ("text", "temperature"),
    [
        ("4.5", 45),
        ("4,5 °C", 45),
        ("+5", 50),
        ("-18", -180),
        ("−18 c", -180),
        ("0", 0),
        ("4.25", 42),  # half-even, once (MS1)
        ("4.35", 44),
        ("41 F", 50),
        ("41°F", 50),
        ("-0.4 ° F", -180),
    ],
)
def test_SL5_a_temperature_is_read_exactly_and_rounded_once(text, temperature):
    assert read_temperature(text) == temperature


@pytest.mark.parametrize("text", ["", "cold", "4.5.1", "41 K", "--4", "4e1", "1/2", "٤", "4 5"])
def test_SL5_what_is_no_temperature_is_refused(text):
    with pytest.raises(UnreadableInput) as refused:
        read_temperature(text)
    assert refused.value.code == "temperature_unreadable"


def test_SL5_a_temperature_is_written_as_people_read_it():
    assert [write_temperature(t) for t in (0, 45, -5, -180)] == [
        "0 °C",
        "4.5 °C",
        "−0.5 °C",
        "−18 °C",
    ]


def test_SL5_degrees_are_decimal_text():
    assert [degrees(t) for t in (0, 45, -5, -180)] == ["0", "4.5", "-0.5", "-18"]


@given(st.integers(-9999, 9999))
def test_SL5_a_temperature_written_is_read_back_the_same(temperature):
    assert read_temperature(write_temperature(temperature)) == temperature


@given(st.text(max_size=10))
def test_SL5_no_text_does_more_than_be_refused(text):
    with suppress(Refusal):
        assert isinstance(read_temperature(text), int)
