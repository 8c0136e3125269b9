"""Receiving, holding, cooling and thawing, against what is published.

A case marked `computed` puts a published limit and the value next to it into one row.
"""

from datetime import UTC, datetime, timedelta

import pytest

from pantry.handbook.policies import policy
from pantry.rules.cooling import Outcome, cooling
from pantry.rules.safety import Reading, Verdict, holding, off_control_until, receiving, thaw_time
from pantry.rules.temperature import read_temperature

UK, US = policy("uk"), policy("us")
START = datetime(2027, 3, 10, 12, tzinfo=UTC)
ACCEPT, ASK, REFUSE = Verdict.ACCEPT, Verdict.ASK, Verdict.REFUSE
PASSED, FAILED, RUNNING = Outcome.PASSED, Outcome.FAILED, Outcome.RUNNING


def readings(*taken: tuple[str, str]) -> list[Reading]:
    """Readings as (temperature, hours:minutes after the start)."""
    result = []
    for temperature, clock in taken:
        hours, minutes = clock.split(":")
        at = START + timedelta(hours=int(hours), minutes=int(minutes))
        result.append(Reading(at, read_temperature(temperature)))
    return result


# NIST SP 811, appendix B.8: t/°C = (t/°F - 32)/1.8; from it: 41 -> 5, 135 -> 57.2, 70 -> 21.1,
# 165 -> 73.9, 0 -> -17.8, and -18 °C is -0.4 °F.
@pytest.mark.parametrize(
    ("fahrenheit", "celsius"),
    [
        ("41", "5"),
        ("135", "57.2"),
        ("70", "21.1"),
        ("165", "73.9"),
        ("0", "-17.8"),
        ("-0.4", "-18"),
    ],
)
def test_SL5_fahrenheit_is_read_exactly(fahrenheit, celsius):
    assert read_temperature(f"{fahrenheit} F") == read_temperature(celsius)


# FDA Food Code 2022, 3-501.14(A): 135 to 70 °F within 2 hours, and to 41 °F within a total of 6
# (16 Del. Admin. Code 3-501.14). The cases: computed.
@pytest.mark.parametrize(
    ("taken", "outcome", "stage"),
    [
        ((("135 F", "0:00"), ("70 F", "1:55"), ("41 F", "5:50")), PASSED, 2),
        ((("135 F", "0:00"), ("70 F", "2:00"), ("41 F", "6:00")), PASSED, 2),
        ((("135 F", "0:00"), ("70 F", "2:05")), FAILED, 1),
        ((("135 F", "0:00"), ("70 F", "2:05"), ("41 F", "5:50")), FAILED, 1),
        ((("135 F", "0:00"), ("70 F", "1:00"), ("41 F", "6:05")), FAILED, 2),
        ((("135 F", "0:00"), ("71 F", "2:00")), RUNNING, 1),
        ((("135 F", "0:00"), ("70 F", "1:55")), RUNNING, 2),
        ((("180 F", "0:00"), ("135 F", "0:30"), ("70 F", "2:30"), ("41 F", "6:30")), PASSED, 2),
        # the same Code in its Celsius: 57 °C, 21 °C, 5 °C
        ((("57 C", "0:00"), ("21 C", "1:55"), ("5 C", "5:50")), PASSED, 2),
        ((("57 C", "0:00"), ("21 C", "2:05"), ("5 C", "5:50")), FAILED, 1),
    ],
)
def test_SL5_cooling_by_the_food_code(taken, outcome, stage):
    shown = readings(*taken)
    now = shown[-1].at
    judged = cooling(US, shown, now)
    assert (judged.outcome, judged.stage) == (outcome, stage)


# FDA Food Code 2022, 3-501.14(B): from room temperature to 41 °F within 4 hours. Cases: computed.
@pytest.mark.parametrize(("clock", "outcome"), [("4:00", PASSED), ("4:01", FAILED)])
def test_SL5_cooling_what_was_made_cold_by_the_food_code(clock, outcome):
    shown = readings(("70 F", "0:00"), ("41 F", clock))
    assert cooling(US, shown, shown[-1].at, start="ambient").outcome is outcome


# England: not out over an hour and a half (eastdevon.gov.uk), then to 8 °C (SI 2013/2996, Schedule
# 4, paragraph 2). The 21 °C between: common practice, no source. The total of 6 hours: FDA Food
# Code 2022, 3-501.14(A), since English law gives none. The cases: computed.
@pytest.mark.parametrize(
    ("taken", "outcome", "stage"),
    [
        ((("63", "0:00"), ("21", "1:30"), ("8", "6:00")), PASSED, 2),
        ((("63", "0:00"), ("21", "1:31"), ("8", "3:00")), FAILED, 1),
        ((("63", "0:00"), ("21", "1:00"), ("8", "6:01")), FAILED, 2),
        ((("63", "0:00"), ("7.5", "1:25")), PASSED, 2),
    ],
)
def test_SL5_cooling_in_England(taken, outcome, stage):
    shown = readings(*taken)
    judged = cooling(UK, shown, shown[-1].at)
    assert (judged.outcome, judged.stage) == (outcome, stage)


# England, by food: 8 °C SI 2013/2996, Schedule 4, paragraph 2 (legislation.gov.uk); 0-5 °C
# recommended (nibusinessinfo.co.uk); meat 7, offal 3, poultry 4, mince 2, preparations 4 °C
# Regulation (EC) No 853/2004, Annex III (fsai.ie, Hygiene During and After Production); fish near
# melting ice: the same, from memory; -18 °C and 3 °C of deviation Directive 89/108/EEC, articles 1
# and 5 (EUR-Lex summary l21116); 63 °C Schedule 4, paragraph 6. The rows: computed.
@pytest.mark.parametrize(
    ("food", "temperature", "verdict"),
    [
        ("chilled", "5", ACCEPT),
        ("chilled", "5.1", ASK),
        ("chilled", "8", ASK),
        ("chilled", "8.1", REFUSE),
        ("red_meat", "7", ACCEPT),
        ("red_meat", "7.1", ASK),
        ("red_meat", "8.1", REFUSE),
        ("offal", "3", ACCEPT),
        ("offal", "3.1", ASK),
        ("poultry", "4", ACCEPT),
        ("poultry", "4.1", ASK),
        ("poultry", "8.1", REFUSE),
        ("mince", "2", ACCEPT),
        ("mince", "2.1", ASK),
        ("mince", "5.1", REFUSE),
        ("meat_preparation", "4", ACCEPT),
        ("meat_preparation", "4.1", ASK),
        ("fish", "2", ACCEPT),
        ("fish", "2.1", ASK),
        ("fish", "5.1", REFUSE),
        ("frozen", "-18", ACCEPT),
        ("frozen", "-17.9", ASK),
        ("frozen", "-15", ASK),
        ("frozen", "-14.9", REFUSE),
        ("hot", "63", ACCEPT),
        ("hot", "62.9", REFUSE),
    ],
)
def test_SL5_receiving_in_England(food, temperature, verdict):
    assert receiving(UK, food, read_temperature(temperature)).verdict is verdict


# FDA Food Code 2022, 3-202.11: cold food 41 °F, hot 135 °F (57 °C), air of raw eggs 45 °F, frozen
# received frozen (S.C. Code Regs. 61-25); milk and shellfish may arrive at 45 °F (quizwizapp.com,
# Receiving Temperatures); a freezer stands at 0 °F (FDA, Refrigerator and Freezer Storage Chart).
# The rows: computed.
@pytest.mark.parametrize(
    ("food", "temperature", "verdict"),
    [
        ("chilled", "41 F", ACCEPT),
        ("chilled", "42 F", REFUSE),
        ("poultry", "5", ACCEPT),
        ("poultry", "5.1", REFUSE),
        ("milk", "45 F", ASK),
        ("milk", "46 F", REFUSE),
        ("live_shellfish", "45 F", ASK),
        ("egg_in_shell", "45 F", ACCEPT),
        ("egg_in_shell", "46 F", REFUSE),
        ("frozen", "0 F", ACCEPT),
        ("frozen", "1 F", ASK),
        ("frozen", "33 F", REFUSE),
        ("hot", "135 F", ACCEPT),
        ("hot", "57", ACCEPT),
        ("hot", "134 F", REFUSE),
    ],
)
def test_SL5_receiving_by_the_food_code(food, temperature, verdict):
    assert receiving(US, food, read_temperature(temperature)).verdict is verdict


# England, Wales and Northern Ireland, Schedule 4: at most 8 °C but for one period of less than four
# hours (legislation.gov.uk/nisr/2006/3/schedule/4/paragraph/5); at least 63 °C but for one period
# of less than two (legislation.gov.uk/wsi/2006/31/schedule/4/paragraph/7). The cases: computed.
@pytest.mark.parametrize(
    ("kind", "taken", "verdict"),
    [
        ("chilled", (("8", "0:00"), ("8", "9:00")), ACCEPT),
        ("chilled", (("5", "0:00"), ("12", "0:01"), ("12", "3:58"), ("5", "3:59")), ACCEPT),
        ("chilled", (("5", "0:00"), ("12", "0:01"), ("12", "4:01"), ("5", "4:02")), REFUSE),
        ("chilled", (("9", "0:00"), ("8", "1:00"), ("9", "2:00"), ("8", "3:00")), REFUSE),
        ("hot", (("63", "0:00"), ("63", "3:00")), ACCEPT),
        ("hot", (("63", "0:00"), ("58", "0:01"), ("58", "1:58"), ("63", "1:59")), ACCEPT),
        ("hot", (("63", "0:00"), ("58", "0:01"), ("58", "2:01")), REFUSE),
        ("frozen", (("-18", "0:00"), ("-15", "1:00")), ASK),
        ("frozen", (("-18", "0:00"), ("-14.9", "1:00")), REFUSE),
    ],
)
def test_SL5_holding_in_England(kind, taken, verdict):
    shown = readings(*taken)
    assert holding(UK, kind, shown, shown[-1].at).verdict is verdict


# FDA Food Code 2022, 3-501.16: cold at 41 °F or less, hot at 135 °F or more (WAC 246-215-03525).
@pytest.mark.parametrize(
    ("kind", "temperature", "verdict"),
    [
        ("chilled", "41 F", ACCEPT),
        ("chilled", "42 F", REFUSE),
        ("hot", "135 F", ACCEPT),
        ("hot", "57 C", ACCEPT),
        ("hot", "134 F", REFUSE),
    ],
)
def test_SL5_holding_by_the_food_code(kind, temperature, verdict):
    assert holding(US, kind, readings((temperature, "0:00")), START).verdict is verdict


# FDA Food Code 2022, 3-501.19: 4 hours out of control; 6 where it was never above 70 °F (Wis.
# Admin. Code ATCP 75, 3-501.19).
@pytest.mark.parametrize(
    ("kind", "highest", "hours"),
    [
        ("chilled", None, 4),
        ("chilled", "70 F", 6),
        ("chilled", "71 F", 4),
        ("hot", None, 4),
        ("hot", "70 F", 4),
    ],
)
def test_SL5_time_as_a_control_by_the_food_code(kind, highest, hours):
    warmest = None if highest is None else read_temperature(highest)
    assert off_control_until(US, kind, START, warmest) == START + timedelta(hours=hours)


# Food Standards Agency, Christmas 2018 (resiliencepost.com, 23 December 2018): a turkey of 6-7 kg
# could take up to four days at 4 °C, at 10 to 12 hours for a kilogram.
def test_SL3_a_turkey_of_seven_kilograms_takes_up_to_four_days():
    assert timedelta(days=3) < thaw_time(UK, 6_500_000) <= thaw_time(UK, 7_000_000)
    assert thaw_time(UK, 7_000_000) <= timedelta(days=4)


# USDA (buyeatlivebetter.org, Safe thawing practices): a day for every 5 lb; a 15 lb turkey three
# days. The policy counts 4 lb to the day, the slower end of 4 to 5 lb, so it never plans less.
def test_SL3_a_turkey_of_fifteen_pounds_takes_at_least_three_days():
    fifteen_pounds = 15 * 453_592
    assert timedelta(days=3) <= thaw_time(US, fifteen_pounds) <= timedelta(days=4)
