"""The routes as they are described to programs: what each takes, answers, and can refuse."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

from pantry.http import bodies
from pantry.http.parameters import CHECK, IMAGE, LABELS, PDF, PICTURE, SHEET, asked

JSON = "application/json"

COMMANDS: dict[str, Any] = {
    "type": "array",
    "maxItems": 500,
    "items": {"$ref": "#/components/schemas/Command"},
}
"""Commands in a list, as many as are taken at once."""

_ANSWERS: dict[str, Any] = {"type": "array", "items": {"$ref": "#/components/schemas/Answer"}}
_BOOK: dict[str, Any] = {
    "type": "object",
    "description": "one .xlsx workbook, or several .csv sheets, each in a part of its own",
    "additionalProperties": {"type": "string", "contentMediaType": "application/octet-stream"},
}


@dataclass(frozen=True, slots=True)
class Operation:
    """One route.

    Attributes:
        says: what it does, in a sentence.
        takes, answers: types of the wire, or schemas as they are; None: nothing.
        problems: the statuses with which it can refuse.
        is_open: nobody need be signed in.
        media, answered_as: how the body and the answer are written.
    """

    method: Literal["get", "post"]
    path: str
    says: str
    answers: Any = None
    takes: Any = None
    problems: tuple[int, ...] = (401, 503)
    status: int = 200
    is_open: bool = False
    media: str = JSON
    answered_as: str = JSON
    parameters: tuple[Mapping[str, Any], ...] = ()


_OF_SECRETS = (400, 401, 403, 413, 422, 429, 503)
_OF_MANAGERS = (400, 401, 403, 404, 503)

OPERATIONS = (
    Operation(
        "get",
        "/api/health",
        "The server works and its database answers.",
        bodies.Health,
        problems=(503,),
        is_open=True,
    ),
    Operation(
        "get",
        "/api/front",
        "What the first screen is.",
        bodies.Front,
        problems=(503,),
        is_open=True,
    ),
    Operation(
        "post",
        "/api/first-manager",
        "Name the first manager, and found the house where there is none.",
        bodies.Me,
        bodies.FirstManager,
        (*_OF_SECRETS, 409),
        is_open=True,
    ),
    Operation(
        "post",
        "/api/sign-in",
        "Sign in by name and password.",
        bodies.Me,
        bodies.SignIn,
        _OF_SECRETS,
        is_open=True,
    ),
    Operation(
        "post",
        "/api/way-in",
        "Set one's own password with a one-time code, and sign in.",
        bodies.Me,
        bodies.UseWayIn,
        _OF_SECRETS,
        is_open=True,
    ),
    Operation("post", "/api/sign-out", "End the session.", problems=(401, 403, 503), status=204),
    Operation("get", "/api/me", "Who is signed in, and what they may do.", bodies.Me),
    Operation(
        "post",
        "/api/ways-in",
        "Make a one-time code for a person; for managers.",
        bodies.WayIn,
        bodies.OfPerson,
        _OF_MANAGERS,
    ),
    Operation(
        "post",
        "/api/sessions/end",
        "End every session of a person; for managers.",
        bodies.Ended,
        bodies.OfPerson,
        _OF_MANAGERS,
    ),
    Operation(
        "post",
        "/api/password",
        "Set another password for oneself; the other sessions end.",
        None,
        bodies.ChangePassword,
        _OF_SECRETS,
        status=204,
    ),
    Operation(
        "post",
        "/api/device-codes",
        "Make a one-time code that enrols a device; for managers.",
        bodies.DeviceCode,
        bodies.NameDevice,
        (400, 401, 403, 503),
    ),
    Operation(
        "post",
        "/api/devices/enrol",
        "Become one of the house's devices, by a one-time code.",
        bodies.ThisDevice,
        bodies.EnrolByCode,
        (400, 401, 403, 409, 413, 429, 503),
        is_open=True,
    ),
    Operation(
        "get",
        "/api/device",
        "What device of the house this is, and who may come in on it.",
        bodies.ThisDevice,
        problems=(401, 403, 503),
        is_open=True,
    ),
    Operation(
        "post",
        "/api/pin",
        "Come in by PIN, on a device of the house.",
        bodies.Me,
        bodies.EnterPin,
        _OF_SECRETS,
        is_open=True,
    ),
    Operation(
        "post",
        "/api/pin/set",
        "Choose a PIN of one's own, by password or one-time code, and come in.",
        bodies.Me,
        bodies.SetPin,
        (*_OF_SECRETS, 404),
        is_open=True,
    ),
    Operation(
        "post",
        "/api/devices/unlock",
        "Let PINs be tried on a device again; for managers.",
        None,
        bodies.OfDevice,
        _OF_MANAGERS,
        status=204,
    ),
    Operation(
        "post",
        "/api/commands",
        "Give commands in a list; each has its own answer, refused or not.",
        _ANSWERS,
        COMMANDS,
        (400, 401, 403, 413, 503),
    ),
    Operation(
        "post",
        "/api/exchange",
        "Hand an outbox in, and learn what has changed since the cursor.",
        bodies.Exchanged,
        bodies.Exchange,
        (400, 401, 403, 413, 422, 503),
    ),
    Operation(
        "post",
        "/api/devices/go-on",
        "After a restore, wait no longer for a device, or for any; for managers.",
        bodies.WentOn,
        bodies.GoOn,
        (*_OF_MANAGERS, 409),
    ),
    Operation(
        "post",
        "/api/book",
        "Take a house book in, or say all that is wrong with it; for managers.",
        bodies.BookTaken,
        _BOOK,
        (400, 401, 403, 413, 422, 503),
        media="multipart/form-data",
        parameters=(CHECK,),
    ),
    Operation(
        "post",
        "/api/pictures/{picture}",
        "Keep a picture (JPEG, PNG or WebP, 1 MB); for porter, chef, manager.",
        takes=IMAGE,
        problems=(400, 401, 403, 409, 413, 422, 503),
        status=204,
        media="image/jpeg",
        parameters=(PICTURE,),
    ),
    Operation(
        "get",
        "/api/pictures/{picture}",
        "A picture that has arrived; for porter, chef, manager.",
        IMAGE,
        problems=(400, 401, 403, 404, 503),
        answered_as="image/jpeg",
        parameters=(PICTURE,),
    ),
    Operation(
        "get",
        "/api/labels.pdf",
        "Labels of batches, a delivery, a day, or reserved numbers; for porter, chef, manager.",
        PDF,
        problems=(401, 403, 404, 422, 503),
        answered_as="application/pdf",
        parameters=LABELS,
    ),
    Operation(
        "get",
        "/api/preparations.pdf",
        "The preparation list on A4; for porter, chef, manager.",
        PDF,
        problems=(401, 403, 422, 503),
        answered_as="application/pdf",
        parameters=(asked("days", "how many, today first", type="integer", minimum=1),),
    ),
    Operation(
        "get",
        "/api/recipes.pdf",
        "A recipe for so many covers, or all of them, on A4; for chef, manager, approver.",
        PDF,
        problems=(401, 403, 404, 422, 503),
        answered_as="application/pdf",
        parameters=(
            asked("recipe", "its name or id", type="string"),
            asked("covers", "for how many", type="integer", minimum=1),
        ),
    ),
    Operation(
        "get",
        "/api/sheets/{sheet}/sheet.pdf",
        "Menus shown to the household, on A4; for chef, manager, approver.",
        PDF,
        problems=(401, 403, 404, 503),
        answered_as="application/pdf",
        parameters=(SHEET,),
    ),
    Operation(
        "get",
        "/api/news",
        "Server-sent events: `change` with {position, change}, whenever the house moves on.",
        {"type": "string"},
        answered_as="text/event-stream",
    ),
)
"""Every route under /api but the reports, which are described from their own table."""
