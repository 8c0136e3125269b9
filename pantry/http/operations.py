"""The routes as they are described to programs: what each takes, answers, and can refuse."""

from typing import Any

from pantry.http import bodies, calendar_bodies, recipe_bodies
from pantry.http.operation import Operation
from pantry.http.paper_operations import ON_PAPER, PDF

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
_CHECK: dict[str, Any] = {
    "name": "check",
    "in": "query",
    "description": "true: only say what is wrong",
    "schema": {"type": "string", "enum": ["true", "false"], "default": "false"},
}
_PICTURE: dict[str, Any] = {
    "name": "picture",
    "in": "path",
    "required": True,
    "description": "the id that whoever took it gave it",
    "schema": {"type": "string", "format": "uuid"},
}
_SHEET = _PICTURE | {"name": "sheet", "description": "the id of the command that sent it"}
_IMAGE: dict[str, Any] = {"type": "string", "contentMediaType": "image/jpeg"}

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
        "/api/orders/letter",
        "Send an order by the house's mail server, and then give the command that says so: "
        "`send_order` by e-mail. For chef, manager.",
        {"$ref": "#/components/schemas/Answer"},
        {"$ref": "#/components/schemas/Command"},
        (400, 401, 403, 404, 409, 413, 422, 503),
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
        parameters=(_CHECK,),
    ),
    Operation(
        "post",
        "/api/pictures/{picture}",
        "Keep a picture (JPEG, PNG or WebP, 1 MB); for porter, chef, manager.",
        takes=_IMAGE,
        problems=(400, 401, 403, 409, 413, 422, 503),
        status=204,
        media="image/jpeg",
        parameters=(_PICTURE,),
    ),
    Operation(
        "get",
        "/api/pictures/{picture}",
        "A picture that has arrived; for porter, chef, manager, and of a recipe for the approver.",
        _IMAGE,
        problems=(400, 401, 403, 404, 503),
        answered_as="image/jpeg",
        parameters=(_PICTURE,),
    ),
    *ON_PAPER,
    Operation(
        "post",
        "/api/recipes/read",
        "The recipes in a document, line by line with what is sure; for chef, manager.",
        recipe_bodies.RecipesRead,
        recipe_bodies.RecipeText,
        (400, 401, 403, 413, 422, 503),
    ),
    Operation(
        "post",
        "/api/amounts",
        "What amounts come to, each of its item; for chef, manager.",
        recipe_bodies.AmountsUnderstood,
        recipe_bodies.WrittenAmounts,
        (400, 401, 403, 413, 503),
    ),
    Operation(
        "get",
        "/api/sheets/{sheet}/sheet.pdf",
        "Menus shown to the household, on A4; for chef, manager, approver.",
        PDF,
        problems=(401, 403, 404, 503),
        answered_as="application/pdf",
        parameters=(_SHEET,),
    ),
    *calendar_bodies.OPERATIONS,
    Operation(
        "get",
        "/api/news",
        "Server-sent events: `change` with {position, change}, whenever the house moves on.",
        {"type": "string"},
        answered_as="text/event-stream",
    ),
)
"""Every route under /api but the reports, which are described from their own table."""
