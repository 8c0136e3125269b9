"""What the household answers to a menu that is proposed: the last answer stands, the chef confirms.

An answer is a thing of its own: it moves no stock and no version, so that two who answer at the
same time are both heard and both see what stands.
"""

import json
from typing import Any

from pantry.commands import base, menus, naming
from pantry.commands.confirm import RECIPE_UNAPPROVED
from pantry.commands.given import Given
from pantry.commands.send_sheet import SHEET_UNKNOWN, refuse_over, sheet_named
from pantry.commands.sheet_decisions import AnsweredPart, AnswerMenu
from pantry.records.books import Books
from pantry.records.read.sheets import services_of
from pantry.records.rows import add, every, one
from pantry.records.slugs import slug
from pantry.records.tables import MenuAnswerRow, RecipeRow, ServiceRow, ServingRow, SheetRow
from pantry.refusals import NotNow, NotThere, UnreadableInput, declare
from pantry.rules.menu import ServiceState

MENU_SETTLED = declare("menu_settled", "The menu is settled; an answer changes nothing any more.")
ANSWER_EMPTY = declare("answer_empty", "The answer says nothing.")
ANSWER_UNCLEAR = declare("answer_unclear", "The answer says two things of one course.")
COURSE_UNKNOWN = declare("course_unknown", "The menu has no such course.")
DISH_NOT_PROPOSED = declare("dish_not_proposed", "The dish is not proposed in that course.")


def answer_menu(books: Books, given: Given[AnswerMenu]) -> None:
    """Write the answer down; a new dish that is picked from a sheet is approved by that.

    Raises:
        NotThere: an unknown service or dish, `sheet_unknown`, `course_unknown`,
            `dish_not_proposed`.
        NotNow: `sheet_over`, `menu_settled`, `recipe_unapproved`.
        Moved: `base_moved`: the menu was changed since it was looked at.
        UnreadableInput: `answer_empty`, `answer_unclear`.
    """
    body = given.body
    row = naming.service(books, body.service)
    sheet = None if body.sheet is None else _sheet(books, body.sheet, row)
    _refuse_settled(row, sheet)
    base.check(books, given, row, f"The service {row.id}")
    servings = every(books.connection, ServingRow, house=books.id, service=row.id)
    courses = [_course(books, part, servings, at) for at, part in enumerate(body.courses)]
    if not (courses or body.covers is not None or body.wish.strip()):
        raise UnreadableInput(
            ANSWER_EMPTY,
            f"Nothing is said of {row.id}.",
            "Choose a dish, say how many you are, or write a wish.",
            field="body.courses",
        )
    if sheet is not None:
        _approve(books, courses)
    answer = MenuAnswerRow(
        house=books.id,
        id=given.id,
        number=books.position,
        service=row.id,
        sheet=body.sheet,
        person=given.person,
        said_by=body.by.strip() or None,
        at=given.at,
        version=row.version,
        covers=body.covers,
        wish=body.wish.strip(),
        courses=json.dumps(courses),
    )
    add(books.connection, answer)
    books.note("answer", row.id)


def _sheet(books: Books, called: str, service: ServiceRow) -> SheetRow:
    sheet = sheet_named(books, called)
    if service.id not in services_of(books.connection, books.id, sheet.id):
        raise NotThere(
            SHEET_UNKNOWN,
            f"The service {service.id} is not on that sheet.",
            "Answer what is on it.",
            value=service.id,
            field="body.service",
        )
    refuse_over(books, sheet)
    return sheet


def _refuse_settled(row: ServiceRow, sheet: SheetRow | None) -> None:
    if row.state != ServiceState.PROPOSED:
        whom = sheet.sent_by if sheet else "the chef"
        raise NotNow(
            MENU_SETTLED,
            f"The menu of {row.id} is settled: it is {row.state.replace('_', ' ')}.",
            f"Tell {whom} what you wish otherwise.",
            value=row.state,
            field="body.service",
        )


def _course(
    books: Books, part: AnsweredPart, servings: list[ServingRow], at: int
) -> dict[str, Any]:
    """What is said of one course, its dishes by id."""
    field = f"body.courses[{at}]"
    proposed = [each for each in servings if slug(each.course) == slug(part.course)]
    if not proposed:
        known = ", ".join(dict.fromkeys(each.course for each in servings))
        raise NotThere(
            COURSE_UNKNOWN,
            f"The menu has no course {part.course!r}.",
            f"Its courses are: {known}.",
            value=part.course,
            field=field,
        )
    struck = [_proposed(name, proposed, field).dish for name in part.not_these]
    picked = None if part.dish is None else _proposed(part.dish, proposed, field, part.variant)
    said = [picked is not None, part.any, part.instead is not None]
    if sum(said) > 1 or (picked and picked.dish in struck):
        raise UnreadableInput(
            ANSWER_UNCLEAR,
            f"Two things are said of the {part.course}.",
            "Pick one dish, any of them, or another one in their place.",
            value=part.course,
            field=field,
        )
    return {
        "course": proposed[0].course,
        "dish": picked and picked.dish,
        "variant": picked and picked.variant,
        "any": part.any,
        "instead": part.instead and _instead(books, part.instead, field),
        "not_these": struck,
    }


def _proposed(
    name: str, proposed: list[ServingRow], field: str, variant: str | None = None
) -> ServingRow:
    found = [each for each in proposed if each.dish == slug(name)]
    exact = [each for each in found if slug(each.variant or "") == slug(variant or "")]
    if not found:
        raise NotThere(
            DISH_NOT_PROPOSED,
            f"{name} is not proposed in that course.",
            "Choose one that is, or name it as another dish.",
            value=name,
            field=field,
        )
    return (exact or found)[0]


def _instead(books: Books, name: str, field: str) -> str:
    """The id of an approved dish of the house that is to take the place of what is proposed."""
    dish, _ = menus.dish(books, name, None, field)
    recipe = one(books.connection, RecipeRow, house=books.id, id=dish)
    if not recipe.approved:
        raise NotNow(
            RECIPE_UNAPPROVED,
            f"The recipe of {recipe.name} has not been approved.",
            "Choose one that is, or write it as a wish.",
            value=recipe.name,
            field=field,
        )
    return dish


def _approve(books: Books, courses: list[dict[str, Any]]) -> None:
    """Who picks a new dish from a sheet has its recipe before them."""
    for course in courses:
        if course["dish"] is None:
            continue
        recipe = one(books.connection, RecipeRow, house=books.id, id=course["dish"])
        if not recipe.approved:
            base.next_version(books, recipe, "recipe", approved=True)
            books.settings_changed()
