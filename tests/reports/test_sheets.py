"""What was shown to the household, and what stands of their answers on the menus."""

import hashlib

from pantry.reports.menus import menus
from pantry.reports.sheets import sheets
from tests.commands.house import HOUR
from tests.commands.larkfield import APPROVER
from tests.reports.asking import told

DINNER = "2027-03-12/dinner/family"


def show(lodge):
    lodge.propose(DINNER, "rice-pudding", "pancakes")
    link = hashlib.sha256(b"a link").hexdigest()
    return lodge.do("send_sheet", {"services": [DINNER], "link": link})


def test_a_menu_that_nobody_was_shown_has_no_sheet_and_no_answer(lodge):
    lodge.propose(DINNER, "pancakes")
    (row,) = told(lodge, menus)
    assert (row["answer"], row["shown"]) == (None, None)
    # choose-by is Thursday's delivery ordered on Wednesday, the house's notice is earlier
    assert row["answer_by"] == row["notice_by"] == "2027-03-09T19:30:00Z"


def test_a_menu_says_on_which_sheet_it_is_shown_and_what_was_answered(lodge):
    sheet = show(lodge)
    course = {"course": "main", "dish": "pancakes", "not_these": ["rice pudding"]}
    body = {"service": DINNER, "sheet": sheet, "courses": [course], "covers": 6, "wish": "Warm."}
    lodge.do("answer_menu", body, person=APPROVER)
    (row,) = told(lodge, menus)
    assert row["shown"]["sheet"] == sheet
    answer = row["answer"]
    assert (answer["by"], answer["covers"], answer["wish"]) == (APPROVER, 6, "Warm.")
    assert answer["courses"] == [
        {
            "course": "main",
            "dish": {"dish": "pancakes", "name": "Pancakes", "variant": None},
            "any": False,
            "instead": None,
            "not_these": [{"dish": "rice-pudding", "name": "Rice pudding", "variant": None}],
        }
    ]


def test_an_answer_to_what_was_changed_since_says_so(lodge):
    show(lodge)
    lodge.do("answer_menu", {"service": DINNER, "covers": 6, "by": "Ottilie"})
    lodge.propose(DINNER, "broth")
    (row,) = told(lodge, menus)
    assert (row["answer"]["by"], row["answer"]["earlier"]) == ("Ottilie", True)


def test_sheets_say_what_was_sent_read_and_answered_when(lodge):
    show(lodge)
    (row,) = told(lodge, sheets)
    assert (row["to"], row["table"], row["state"]) == (APPROVER, "Family", "shown")
    assert (row["has_link"], row["read_at"]) == (True, None)
    assert row["services"][0]["answer"] is None
    lodge.now += 200 * HOUR
    assert told(lodge, sheets)[0]["state"] == "over"


def test_a_sheet_that_was_withdrawn_is_shown_no_more(lodge):
    sheet = show(lodge)
    lodge.do("withdraw_sheet", {"sheet": sheet})
    assert told(lodge, sheets)[0]["state"] == "withdrawn"
    (row,) = told(lodge, menus)
    assert row["shown"] is None
