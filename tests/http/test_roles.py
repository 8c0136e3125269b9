"""The matrix of roles, cell by cell: which commands and which reports are whose."""

import re
from datetime import timedelta

import pytest

from pantry.commands.rights import RIGHTS
from pantry.records.database import writing
from pantry.records.rows import add, change
from pantry.records.tables import PersonRow, QuestionRow
from pantry.reports.asked import ASKED
from tests.commands.house import NOW
from tests.commands.larkfield import ID
from tests.http.site import ARGUMENTS, PEOPLE, code

PCM, CM, CMA = "porter chef manager", "chef manager", "chef manager approver"

MAY_GIVE = {
    "add_guest": CMA,
    "amend_order": CM,
    "answer_menu": CMA,
    "approve_recipe": CMA,
    "ask_for": PCM,
    "call_off_delivery": CM,
    "cancel_order": CM,
    "bind_label": PCM,
    "change_covers": CMA,
    "change_product": CM,
    "check_probe": PCM,
    "clean": PCM,
    "close_delivery": PCM,
    "confirm": CMA,
    "cool": PCM,
    "correct": "porter chef manager approver",
    "count": PCM,
    "decant": PCM,
    "end_stay": CMA,
    "enrol_device": "manager",
    "freeze": PCM,
    "harvest": PCM,
    "hold": PCM,
    "import_book": "manager",
    "left_over": CM,
    "make": PCM,
    "move_service": CMA,
    "move": PCM,
    "open": PCM,
    "pin": "chef",
    "place_order": CM,
    "print_labels": PCM,
    "propose": CM,
    "put_away_recipe": CM,
    "rename_recipe": CM,
    "set_answers_for": "manager",
    "recall": CM,
    "receive": PCM,
    "record_confirmation": CM,
    "record_credit": "manager",
    "record_invoice": CM,
    "release": "chef",
    "reserve_labels": PCM,
    "revoke_device": "manager",
    "run_out": PCM,
    "say_away": CMA,
    "say_stay": CMA,
    "see_to_alert": CM,
    "send_order": CM,
    "send_out": PCM,
    "send_sheet": CM,
    "serve": CM,
    "set_aside": CM,
    "set_budget": "manager",
    "set_calendar": "manager",
    "set_digest": "manager",
    "set_own_letters": CM,
    "set_level": PCM,
    "set_par": CM,
    "set_policy": CM,
    "set_rota": CMA,
    "set_standing_order": CM,
    "set_substitutes": CM,
    "set_terms": "manager",
    "settle": PCM,
    "settle_invoice": CM,
    "shop_run": PCM,
    "swap_dish": CMA,
    "take_off": CMA,
    "take_out": PCM,
    "take_temperature": PCM,
    "thaw": PCM,
    "tick_off": CM,
    "use": PCM,
    "vacuum_pack": PCM,
    "waste": PCM,
    "waste_without_batch": PCM,
    "withdraw_invoice": CM,
    "withdraw_sheet": CM,
    "write_recipe": CM,
}
"""Common practice, no source: who costs or binds the house, who touches safety, who chooses."""

MAY_READ = {
    "alerts": CM,
    "asked-for": PCM,
    "awaited": PCM,
    "devices": "manager",
    "budget": CM,
    "changes": "porter chef manager approver",
    "checks": PCM,
    "code": PCM,
    "count-differences": PCM,
    "counts": PCM,
    "cooling": PCM,
    "coverage": CM,
    "credits": "manager",
    "days": PCM,
    "dishes": CMA,
    "dishes-for": CM,
    "expected": PCM,
    "failed-places": PCM,
    "house": "porter chef manager approver",
    "instead": CMA,
    "invoices": CM,
    "items": PCM,
    "labels": PCM,
    "late-change": CM,
    "menus": CMA,
    "morning": PCM,
    "longer-notice": CM,
    "notice": CM,
    "orders": CM,
    "people": "manager",
    "pick": PCM,
    "plan": CM,
    "preparations": PCM,
    "presence": CMA,
    "prices": CM,
    "pull": PCM,
    "questions": PCM,
    "recipes": CMA,
    "reorder": CM,
    "served": CMA,
    "serving": CM,
    "sheets": CMA,
    "shop-runs": CM,
    "standing-orders": CM,
    "stay-change": CMA,
    "stock": PCM,
    "supplier-record": CM,
    "suppliers": CM,
    "temperatures": PCM,
    "trace": PCM,
    "use-first": PCM,
    "wrong-places": PCM,
    "waste": CM,
    "waste-without-batch": CM,
}
"""Common practice, no source: at the back door no costs; the household sees its menus."""


@pytest.mark.parametrize("role", PEOPLE)
def test_every_command_is_given_by_the_roles_that_may_and_no_other(site, role):
    """An empty body: who may is told what it lacks, who may not is told that first."""
    assert MAY_GIVE.keys() == RIGHTS.keys()
    kinds = sorted(MAY_GIVE)
    given = [site.command(kind, {}) for kind in kinds]
    answers = site.as_(PEOPLE[role]).post("/api/commands", json=given).json()
    for kind, answer in zip(kinds, answers, strict=True):
        problem = answer.get("problem")
        if role in MAY_GIVE[kind].split():
            assert problem is None or problem["code"] != "role_lacking", kind
        else:
            assert problem["code"] == "role_lacking", kind
            assert problem["status"] == 403
            assert answer["outcome"] in ("refused", "kept")


@pytest.mark.parametrize("role", PEOPLE)
@pytest.mark.parametrize("name", sorted(ASKED))
def test_every_report_is_told_to_the_roles_that_may_see_it_and_no_other(quiet_site, role, name):
    site = quiet_site
    needed = {argument: ARGUMENTS[argument] for argument in ASKED[name].needs}
    answer = site.as_(PEOPLE[role]).get(f"/api/reports/{name}", params=needed)
    if role not in MAY_READ[name].split():
        assert code(answer) == (403, "report_lacking")
    elif answer.status_code != 200:
        assert code(answer) in {(404, "traced_nothing"), (404, "service_not_ahead")}
    else:
        assert answer.json()["house"] == "Larkfield Lodge"


@pytest.mark.parametrize("role", PEOPLE)
def test_one_is_told_what_one_may(quiet_site, role):
    told = quiet_site.as_(PEOPLE[role]).get("/api/me").json()
    assert told["person"] == {
        "id": PEOPLE[role].split()[0].lower() if role != "approver" else "lady",
        "name": PEOPLE[role],
        "role": role,
    }
    assert told["may"]["commands"] == [k for k in sorted(MAY_GIVE) if role in MAY_GIVE[k].split()]
    assert told["may"]["reports"] == [r for r in sorted(ASKED) if role in MAY_READ[r].split()]


def test_SY10_at_the_back_door_nothing_is_said_of_money(site):
    body = {"batch": "m", "item": "whole-milk", "quantity": "2 l", "area": "cold-room"}
    body |= {"verdict": "accept", "cost": {"minor": 215, "currency": "GBP"}}
    site.house.do("receive", body | {"date_mark": {"kind": "use_by", "date": "2027-03-12"}})
    (of_chef,) = site.as_(PEOPLE["chef"]).get("/api/reports/stock").json()["rows"]
    assert of_chef["value"] == {"minor": 215, "currency": "GBP"}
    (of_porter,) = site.as_(PEOPLE["porter"]).get("/api/reports/stock").json()["rows"]
    assert of_porter == {name: value for name, value in of_chef.items() if name != "value"}
    for name in sorted(ASKED):
        if "porter" not in MAY_READ[name].split():
            continue
        needed = {argument: ARGUMENTS[argument] for argument in ASKED[name].needs}
        told = site.as_(PEOPLE["porter"]).get(f"/api/reports/{name}", params=needed).text
        assert not re.search(r'"minor"|"(price|cost)":[^n]', told), name


def test_a_porter_is_asked_only_what_is_for_a_porter(site):
    """The chef's questions may name who cannot eat what (SY10)."""
    with writing(site.engine) as connection:
        add(connection, *(question(owner) for owner in ("chef", "manager", "porter")))
    everything = site.as_(PEOPLE["manager"]).get("/api/reports/questions").json()["rows"]
    assert {row["owner"] for row in everything} == {"chef", "manager", "porter"}
    assert site.as_(PEOPLE["chef"]).get("/api/reports/questions").json()["rows"] == everything
    own = site.as_(PEOPLE["porter"]).get("/api/reports/questions").json()["rows"]
    assert own == [row for row in everything if row["owner"] == "porter"]


def test_what_was_left_unfinished_is_told_to_a_porter_where_it_is_everybodys(site):
    """A delivery that has not come has no owner; the chef's question does, and may name a guest."""
    order = {"supplier": "Hill Dairy", "delivery": "2027-03-09"}
    lines = [{"item": "whole-milk", "pack": "2 l bottle", "packs": 1}]
    site.house.do("place_order", order | {"lines": lines})
    with writing(site.engine) as connection:
        add(connection, question("chef"))
    site.house.now += timedelta(days=2)
    told = {
        role: {
            (row["kind"], row["owner"])
            for row in site.as_(PEOPLE[role]).get("/api/reports/morning").json()["rows"]
            if row["what"] == "left"
        }
        for role in ("chef", "porter")
    }
    assert told["chef"] == {("delivery", None), ("question", "chef")}
    assert told["porter"] == {("delivery", None)}


def question(owner):
    return QuestionRow(
        house=ID,
        id=f"q-{owner}",
        kind="doubt",
        owner=owner,
        about="milk",
        recorded="x",
        against="y",
        answers="[]",
        opened_at=NOW,
        opened_by="",
    )


def test_SY10_a_porter_is_not_told_who_cannot_eat_what(site):
    body = {"person": "Tobias", "table": "family", "cannot_eat": ["fish"]}
    site.house.do("add_guest", body)
    site.house.do("set_level", {"item": "salt", "level": "low"})
    asked = {"protocol": 1, "cursor": 0}
    for role in PEOPLE:
        one = site.as_(PEOPLE[role])
        told = one.post("/api/exchange", json=asked).json()
        rows = one.get("/api/reports/changes").json()["rows"]
        assert told["changes"] == rows
        assert any("tobias" in row["key"] for row in rows) is (role != "porter")
        assert told["cursor"] == rows[-1]["number"]
    site.house.do("add_guest", body | {"person": "Agnes"})
    told = site.as_(PEOPLE["porter"]).post("/api/exchange", json=asked).json()
    assert told["cursor"] > told["changes"][-1]["number"], "what is not told is passed over"


def test_SY10_no_report_names_to_a_role_who_cannot_eat_what_where_it_may_not(site):
    """Common practice, no source: the back door needs none of it; what is in a batch is for all."""
    menu = "2027-03-12/dinner/family"
    site.house.menu(menu, "rice-pudding", "pancakes")
    site.house.do("add_guest", {"person": "Zebedee", "table": "family", "cannot_eat": ["milk"]})
    assert "Zebedee" in site.house.question("allergen").against
    naming = dict.fromkeys(PEOPLE, frozenset[str]())
    for role, person in PEOPLE.items():
        for name in sorted(ASKED):
            needed = {each: ARGUMENTS[each] for each in ASKED[name].needs}
            needed |= {"service": menu} if "service" in needed else {}
            told = site.as_(person).get(f"/api/reports/{name}", params=needed)
            if "zebedee" in told.text.lower():
                naming[role] |= {name}
    assert naming["porter"] == set()
    assert naming["approver"] == {"changes", "instead", "menus"}
    assert {"menus", "questions", "changes"} <= naming["chef"]
    approver = site.as_(PEOPLE["approver"]).get("/api/reports/changes").json()["rows"]
    assert not any(row["what"] == "question" and "zebedee" in row["key"] for row in approver)


def test_a_role_is_looked_at_with_every_request(site):
    """Who was a manager when signing in may be none by now."""
    mara = site.as_(PEOPLE["manager"])
    assert mara.get("/api/reports/plan").status_code == 200
    with writing(site.engine) as connection:
        change(connection, PersonRow, {"name": PEOPLE["manager"]}, role="porter")
    assert code(mara.get("/api/reports/plan")) == (403, "report_lacking")


def test_SY10_a_porter_is_told_what_somebody_cannot_eat_of_a_preparation_not_who(site):
    menu = "2027-03-12/dinner/family"
    site.house.menu(menu, "broth")
    body = {"person": "Zebedee", "table": "family", "cannot_eat": ["Chicken bones"]}
    site.house.do("add_guest", body)
    told = {}
    for role in ("porter", "chef"):
        rows = site.as_(PEOPLE[role]).get("/api/reports/preparations").json()["rows"]
        (told[role],) = (each for row in rows for of in row["wanted"] for each in of["conflicts"])
    assert told["chef"]["person"] == "Zebedee"
    assert told["porter"] == told["chef"] | {"person": None}
    assert told["porter"]["asked"]


def test_SY10_who_answers_for_a_table_is_told_only_of_who_eats_there(site):
    """Without a table they are told of all, as common practice has it."""
    dinner, staff = "2027-03-12/dinner/family", "2027-03-12/lunch/staff"
    site.house.menu(dinner, "rice-pudding")
    site.house.menu(staff, "rice-pudding", time="12:15")
    for person, table in (("Agnes", "family"), ("Zebedee", "staff")):
        body = {"person": person, "table": table, "cannot_eat": ["milk"]}
        site.house.do("add_guest", body)

    def named(role):
        found = set()
        for name, given in (
            ("menus", {}),
            ("recipes", {"recipe": "rice-pudding"}),
            ("instead", {"service": dinner}),
            ("instead", {"service": staff}),
            ("changes", {"since": 0}),
        ):
            told = site.as_(PEOPLE[role]).get(f"/api/reports/{name}", params=given).text.lower()
            found |= {(name, each) for each in ("agnes", "zebedee") if each in told}
        return found

    both = {
        (name, each)
        for name in ("menus", "recipes", "instead", "changes")
        for each in ("agnes", "zebedee")
    }
    assert named("approver") == both
    manager = {"person": PEOPLE["manager"]}
    site.house.do("set_answers_for", {"person": PEOPLE["approver"], "table": "Family"}, **manager)
    assert named("approver") == {pair for pair in both if pair[1] == "agnes"}
    assert named("chef") == both
    site.house.do("set_answers_for", {"person": PEOPLE["approver"]}, **manager)
    assert named("approver") == both
