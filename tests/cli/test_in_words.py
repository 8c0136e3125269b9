"""The reports as people read them: a hundred columns at most, words for everything."""

from datetime import UTC, datetime
from io import StringIO
from zoneinfo import ZoneInfo

import pytest
from rich.console import Console

from pantry.terminal import shown
from pantry.terminal.words import Words
from tests.cli.commands import command, lines, new_id, receive

REPORTS = [
    ("house",),
    ("days",),
    ("morning",),
    ("pull",),
    ("pick",),
    ("preparations",),
    ("serving",),
    ("served", "--from", "2027-03-01"),
    ("menus",),
    ("sheets",),
    ("dishes",),
    ("recipes",),
    ("recipes", "lemon-posset", "--covers", "7"),
    ("expected",),
    ("items",),
    ("code", "R-0001"),
    ("stock",),
    ("wrong-places",),
    ("use-first",),
    ("plan",),
    ("reorder",),
    ("alerts",),
    ("orders",),
    ("prices",),
    ("invoices",),
    ("budget",),
    ("coverage",),
    ("instead", "2027-03-13/dinner/family"),
    ("coverage", "--service", "2027-03-13/dinner/family"),
    ("late-change", "2027-03-13/dinner/family", "--covers", "9"),
    ("dishes-for", "2027-03-14/dinner/family", "--time", "19:30", "--covers", "6"),
    ("notice",),
    ("notice", "--longer"),
    ("trace", "C11"),
    ("temperatures",),
    ("cooling",),
    ("checks", "--days", "30"),
    ("questions",),
    ("waste",),
    ("credits",),
    ("suppliers",),
    ("suppliers", "--record"),
    ("devices",),
    ("changes",),
]


@pytest.mark.parametrize("words", REPORTS, ids="-".join)
def test_each_fits_a_hundred_columns_and_names_house_and_hour(asked, words):
    said = asked.words(*words)
    assert said.startswith("Rookhope Lodge, Wed 10 Mar 07:00\n")
    assert max(len(line.rstrip()) for line in said.splitlines()) <= 100
    assert "\x1b" not in said
    assert "_" not in said.replace("2027", "")


def line_with(said, *parts):
    found = [line for line in said.splitlines() if all(part in line for part in parts)]
    assert found, (parts, said)
    return found[0]


def test_stock_draws_how_long_is_left(asked):
    said = asked.words("stock")
    assert "━━━ use by Fri 12 Mar" in line_with(said, "R-0001", "2 l")
    assert "━ use by today" in line_with(said, "R-0005")
    assert "× past its best since Sun 28 Feb" in line_with(said, "R-0004")
    assert "600 g" in line_with(said, "R-0003", "1 kg", "400 g")
    assert "2.3 l" in line_with(said, "Double cream")
    assert "5 batches of 4 items." in said


def test_stock_says_what_is_on_hold(lodge):
    held = receive("N-0009")
    held["body"] |= {"verdict": "hold", "reason": "warm", "temperature_c": "9"}
    lodge.run("apply", "-", given=lines(held))
    said = lodge.words("stock")
    assert "Cold room, 1 l" in line_with(said, "N-0009")
    assert "hold" in said.partition("N-0009")[2]


def test_use_first_says_which_dish_could_use_it(asked):
    said = asked.words("use-first")
    assert "taste it first" in line_with(said, "Honey R-0004")
    assert "Honey cream" in line_with(said, "R-0001")


def test_what_is_past_use_is_to_be_thrown_away(asked):
    said = asked.words("use-first", CHOOSEBY_NOW="2027-03-13T07:00:00Z")
    assert "× not to be used since Fri 12 Mar" in line_with(said, "R-0001")
    assert "throw it away" in line_with(said, "R-0001")


def test_plan_groups_by_deadline_with_supplier_delivery_and_reason(asked):
    said = asked.words("plan")
    deadline = "Order by Fri 12 Mar 16:50 of Weardale Dairy, for Sat 13 Mar 06:45: not yet due"
    assert deadline in said
    cream = line_with(said, "1 l tub", "Double cream")
    assert "6.20 GBP" in cream
    assert "Sat 13 Mar dinner, family" in cream


@pytest.mark.parametrize(
    ("now", "alert"),
    [
        ("2027-03-11T16:49:59Z", "not yet due"),
        ("2027-03-11T16:50:00Z", "order now"),
        ("2027-03-12T14:50:00Z", "last call"),
    ],
)
def test_PL5_alerts_are_words(asked, now, alert):
    said = asked.words("plan", CHOOSEBY_NOW=now)
    assert line_with(said, "Order by Fri 12 Mar 16:50").endswith(alert)


def test_PL5_what_is_missed_says_what_is_left_to_do(asked):
    said = " ".join(asked.words("plan", CHOOSEBY_NOW="2027-03-12T17:00:00Z").split())
    assert "Cannot be had any more in time: too late" in said
    assert "somebody goes to the shop for" in said


def test_coverage_says_covered_or_what_is_short_and_until_when(asked):
    said = " ".join(asked.words("coverage").split())
    assert "Grilled trout chosen covered" in said
    assert "short of 1 l Double cream: order by Fri 12 Mar 16:50" in said
    assert "contains milk, which Ann Weir cannot eat" in said
    assert "something in it has allergens that nobody knows" in said
    assert "taste first, past its best: Honey" in said


def test_coverage_of_one_service_goes_item_by_item(asked):
    said = asked.words("coverage", "--service", "2027-03-13/dinner/family")
    assert line_with(said, "Double cream", "15:30").rstrip().endswith("1 l")
    assert "200 g of R-0002" in line_with(said, "Caster sugar")


def test_coverage_says_what_must_be_thawed(asked):
    said = asked.words("coverage", "--service", "2027-03-11/dinner/family")
    assert "600 g of R-0003, out of the freezer by" in line_with(said, "Trout fillet")


def test_notice_says_what_is_kept_in_and_why(asked):
    said = asked.words("notice")
    kept, bought = said.split("Bought in once the menu is chosen: 1 item")
    assert "Tue, Thu and Sat, by up to" in line_with(kept, "Caster sugar")
    assert "no time is enough" in line_with(kept, "Honey")
    assert "1 day" in line_with(bought, "Double cream")


def test_PL6_notice_says_when_nobody_is_there_and_what_comes_before_they_are_back(lodge):
    """Sugar comes on Thursdays and is ordered ten days ahead."""
    body = {"away": new_id(), "who": "The family", "table": "Family", "heads": 4}
    body |= {"first": "2027-03-20", "last": "2027-03-28"}
    lodge.run("apply", "-", given=lines(command("say_away", body)))
    said = lodge.words("notice")
    assert "Nobody is in the house from Sat 20 Mar to Sun 28 Mar: nothing is ordered up to" in said
    assert line_with(said, "Caster sugar", "Thu 25 Mar 12:00", "Mon 15 Mar 12:00")


def test_notice_says_what_a_longer_one_would_change(asked):
    said = asked.words("notice", "--longer")
    assert "the own" in said
    assert "more: Caster sugar" in said


def test_trace_says_where_it_came_from_and_went(asked):
    said = " ".join(asked.words("trace", "C11").split())
    assert "Where it came from" in said
    assert "2 l there when the books were opened, from Weardale Dairy" in said
    assert "2 l in Cold room" in said
    assert "for a recall, look at these too" in said


def test_the_days_have_a_line_for_each_kind_of_thing(asked):
    said = asked.words("days")
    thursday = said.partition("Thu 11 Mar")[2].partition("Fri 12 Mar")[0]
    assert "12:00 Alston Stores" in thursday
    assert "meals      19:30 dinner, family (4)" in thursday
    assert "600 g Trout fillet R-0003 for Thu 11 Mar dinner, family" in said
    assert "19:30 dinner, family (4, proposed, 1 item short)" in said
    cream = line_with(said, "order by", "Weardale Dairy")
    assert "16:50 Weardale Dairy, 1 item for Sat 13 Mar 06:45" in cream
    assert "Double cream R-0001" in line_with(said, "dies", "R-0001")


def test_the_morning_says_what_dies_and_what_was_left(asked):
    said = asked.words("morning")
    assert "Double cream R-0005, 300 ml in Cold room, promised to nobody" in said
    assert line_with(said, "Comes today").split() == ["Comes", "today", "nothing"]
    later = asked.words("morning", CHOOSEBY_NOW="2027-03-12T07:00:00Z")
    assert "Not recorded as served: Thu 11 Mar dinner, family" in later
    assert "Thu 11 Mar 12:00: Still awaited from Alston Stores: Caster sugar." in later


def test_menus_say_what_a_dish_lacks_and_by_when_to_choose(asked):
    said = asked.words("menus")
    assert "Sat 13 Mar dinner, family: 4 covers, confirmed" in said
    assert "Double cream" in line_with(said, "pudding", "Lemon posset", "4")


def test_a_dish_says_what_it_contains_and_when_it_was_served(asked):
    said = asked.words("dishes")
    assert "Tue 9 Mar family" in line_with(said, "Grilled trout", "fish")
    assert "3 dishes." in said


def test_recipes_say_what_a_cover_costs_and_one_what_is_taken_for_how_many(asked, tmp_path):
    said = asked.words("recipes")
    assert "a cover" in line_with(said, "Lemon posset", "portions")
    said = asked.words("recipes", "Lemon posset", "--covers", "7")
    assert "Lemon posset, for 7 covers" in said
    paper = tmp_path / "posset.pdf"
    assert str(paper.name) in asked.run("recipes", "lemon-posset", "--pdf", paper).stdout
    assert paper.read_bytes().startswith(b"%PDF")


def test_what_is_expected_says_where_it_goes(asked):
    said = asked.words("expected")
    assert "Thu 11 Mar 12:00 Alston Stores" in said
    assert "Pantry" in line_with(said, "2 kg bag", "Caster sugar", "2 kg")


def test_items_say_what_nobody_counts_and_what_nobody_knows(asked):
    said = " ".join(asked.words("items").split())
    assert "Salt (not counted: plenty)" in said
    assert "unknown: cereals containing gluten" in said


def test_a_code_says_what_carries_it(asked):
    said = asked.words("code", "R-0001")
    assert "2 l" in line_with(said, "batch", "Double cream", "R-0001")
    assert "Nothing in the house carries it." in asked.words("code", "9521234543213")


def test_a_house_says_what_it_has(asked):
    said = asked.words("house")
    assert "5 items; 5 batches; 3 recipes; 4 services; 3 people who work with it." in said
    assert "Menus are chosen 3 days ahead; money in GBP" in said


def test_SL5_cold_places_say_what_was_not_right_and_which_rounds_are_missing(lodge):
    warm = {"area": "Cold room", "temperature_c": "9.5", "done": "door_closed"}
    early = command("take_temperature", warm) | {"at": "2027-03-09T07:00:00Z"}
    lodge.run("apply", "-", given=lines(early))
    said = lodge.words("temperatures")
    assert "too warm" in line_with(said, "Cold room", "9.5 °C", "Tue 9 Mar 07:00, Cato Burn")
    assert line_with(said, "9.5 °C, too warm, Cato Burn: door closed")
    assert line_with(said, "Tue 9 Mar, round 2 of 2: nobody read it")
    assert "local codes" in said.lower()


def test_SL5_checks_say_whether_a_probe_is_right_and_what_was_cleaned(lodge):
    for kind, body in (
        ("check_probe", {"probe": "Red probe", "ice_c": "0.4"}),
        ("check_probe", {"probe": "Old probe", "ice_c": "-3"}),
        ("clean", {"what": "Shelves", "area": "Cold room"}),
    ):
        lodge.run("apply", "-", given=lines(command(kind, body)))
    said = lodge.words("checks")
    assert "0.4 °C in ice and water, right" in line_with(said, "Red probe")
    assert "−3 °C in ice and water, wrong: do not use it" in line_with(said, "Old probe")
    assert "cleaned" in line_with(said, "Shelves, Cold room")
    assert "3 checks." in said


COOLS = {
    "item": "Chicken stock",
    "label": "N-0001",
    "outcome": "running",
    "by": "2027-03-10T08:30:00Z",
    "to_c": "21",
    "from_c": "63",
    "reason": None,
    "readings": [{"temperature_c": "63", "at": "2027-03-10T07:00:00Z", "person": "Cato Burn"}],
    "caution": "Local codes come first.",
}


@pytest.mark.parametrize(
    ("stands", "words"),
    [
        ({}, "must be at 21 °C by Wed 10 Mar 08:30"),
        ({"by": None}, "still hot: the clock begins at 63 °C"),
        ({"outcome": "passed"}, "it cooled in time"),
        ({"outcome": "failed", "reason": "Too slow."}, "it did not cool in time: do not use it."),
        ({"outcome": "unread", "readings": []}, "nobody has taken its temperature"),
    ],
)
def test_SL5_what_cools_says_what_must_be_reached_by_when(stands, words):
    said = " ".join(told(shown.cooling, COOLS | stands).split())
    assert "Chicken stock N-0001" in said
    assert words in said
    assert "Local codes come first." in said


def test_questions_have_an_owner_and_answers(asked):
    said = asked.words("questions")
    assert "For the chef, since Wed 10 Mar 07:00" in said
    assert "1 question open." in said


def test_changes_say_where_to_go_on(asked):
    last = asked.json("changes")["rows"][-1]["number"]
    assert f"Go on with: chooseby changes --since {last}" in asked.words("changes")
    assert "Nothing has changed since." in asked.words("changes", "--since", last)


def test_an_empty_house_is_said_to_be_empty(empty, tmp_path):
    house = "name,time_zone,currency,unit_system,notice,policy,allergen_list\n"
    (tmp_path / "house.csv").write_text(
        house + "New House,Europe/Paris,EUR,metric,72 h,uk,eu14\n", encoding="utf-8"
    )
    empty.run("import", tmp_path)
    for words, sentence in (
        ("house", "0 items; 0 batches"),
        ("days", "Nothing is known of these days."),
        ("menus", "No menu is proposed."),
        ("dishes", "No dish is known yet."),
        ("recipes", "No recipe is known yet."),
        ("pull", "Nothing is to be taken out before tomorrow morning."),
        ("pick", "Nothing is to be brought to the kitchen today or tomorrow."),
        ("preparations", "Nothing is to be made in these days."),
        ("serving", "Nothing is served today."),
        ("served", "Nothing was served in these days."),
        ("expected", "Nothing is on order."),
        ("items", "No item is known yet."),
        ("stock", "Nothing stands in the house."),
        ("wrong-places", "Everything stands where such food is kept, by what is recorded."),
        ("use-first", "Nothing that is promised to nobody dies within a fortnight."),
        ("plan", "nothing is to be ordered"),
        ("coverage", "No menu is proposed or confirmed"),
        ("notice", "Nothing is bought yet"),
        ("notice --longer", "Nothing is bought yet"),
        ("temperatures", "This house has no chilled or frozen place."),
        ("cooling", "Nothing cools."),
        ("checks", "No probe was checked and nothing was cleaned."),
        ("questions", "Nobody has to settle anything."),
        ("waste", "Nothing was lost."),
        ("credits", "No supplier owes anything."),
        ("invoices", "No invoice is recorded."),
        ("devices", "No phone is enrolled."),
    ):
        said = empty.words(*words.split())
        assert sentence in said
        assert said.startswith("New House, Wed 10 Mar 08:00")


WORDS = Words(ZoneInfo("Europe/London"), datetime(2027, 3, 10, 7, tzinfo=UTC))


def told(say, row):
    terminal = Console(file=StringIO(), width=100)
    say(terminal, WORDS, [row])
    return terminal.file.getvalue()


def test_a_credit_says_of_whom_how_much_for_what_and_why():
    row = {
        "supplier": "Tolsaig Creamery",
        "delivery": "2027-03-09T06:45:00Z",
        "item": "Whole milk",
        "pack": "crate of 6 x 2 l",
        "counted": True,
        "ordered": {"value": "12000", "unit": "ml"},
        "missing": {"value": "2000", "unit": "ml"},
        "value": {"minor": 310, "currency": "GBP"},
        "refused": ["too warm"],
        "instead": ["Goat milk"],
        "opened_at": "2027-03-09T06:50:00Z",
    }
    said = told(shown.owed, row)
    assert "Tolsaig Creamery, delivery of Tue 9 Mar 06:45: 3.10 GBP" in said
    assert "Whole milk: 2 l of 12 l refused (too warm) and Goat milk came instead" in said
    assert "1 credit expected." in said
    nothing = told(shown.owed, row | {"counted": False, "refused": [], "instead": []})
    assert "Whole milk: crate of 6 x 2 l did not come" in nothing


def test_SY11_a_device_says_what_it_has_not_handed_in():
    row = {
        "name": "Back door phone",
        "enrolled_at": "2027-03-01T08:00:00Z",
        "heard_at": None,
        "unsent": 3,
        "people": ["Calum Whin"],
        "locked": False,
        "revoked": True,
    }
    said = told(shown.devices, row)
    assert "Back door phone (taken out of the house)" in said
    assert "last heard of: never" in said
    assert "Holds 3 records not handed in yet" in said
    assert "Used by Calum Whin" in said


def test_a_late_change_says_what_is_short_and_what_is_spare(asked):
    nine = asked.words("late-change", "2027-03-13/dinner/family", "--covers", "9")
    assert "still to be ordered" in nine
    assert "order by" in nine
    off = asked.words("late-change", "2027-03-13/dinner/family", "--off")
    assert "Spare: no chosen menu uses it any more" in off
