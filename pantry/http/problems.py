"""Whatever goes wrong, as one kind of answer: `application/problem+json` (RFC 9457)."""

import logging
from collections.abc import Callable
from typing import Any

import msgspec
from litestar import Request, Response
from litestar.exceptions import HTTPException
from msgspec import structs
from sqlalchemy.exc import InterfaceError, OperationalError

from pantry.access.refused import TooManyTries
from pantry.commands.answers import problem
from pantry.commands.door import PROGRAM_FAILED, ProgramFailed
from pantry.refusals import Refusal, declare

DATABASE_AWAY = declare("database_away", "The database does not answer just now.")
NOTHING_THERE = declare("nothing_there", "There is nothing at that address.")
METHOD_UNKNOWN = declare("method_unknown", "That cannot be done with what is at that address.")
TOO_LARGE = declare("too_large", "What was sent is larger than is taken.")
REQUEST_UNREADABLE = declare("request_unreadable", "What was sent cannot be read.")

PROBLEM_JSON = "application/problem+json"

_log = logging.getLogger(__name__)
_OF_HTTP = {
    404: (NOTHING_THERE, "Look the address up in /openapi.json."),
    405: (METHOD_UNKNOWN, "Look the address up in /openapi.json."),
    413: (TOO_LARGE, "Send it in several parts."),
}

Asked = Request[Any, Any, Any]


class DatabaseAway(Refusal):
    """The database does not answer."""

    status = 503


class UnreadableRequest(Refusal):
    """What was sent is not what it should be."""

    status = 400


def as_response(refusal: Refusal, status: int = 0) -> Response[bytes]:
    """A refusal on the wire, with its status and, where one must wait, for how long."""
    headers = {"retry-after": str(refusal.wait)} if isinstance(refusal, TooManyTries) else {}
    if isinstance(refusal, DatabaseAway):
        headers = {"retry-after": "5"}
    said = structs.replace(problem(refusal), status=status or refusal.status)
    return Response(
        msgspec.json.encode(said),
        status_code=said.status,
        media_type=PROBLEM_JSON,
        headers=headers,
    )


def unreadable(why: str, todo: str, *, value: str = "", field: str = "") -> UnreadableRequest:
    """What was sent cannot be read."""
    return UnreadableRequest(REQUEST_UNREADABLE, why, todo, value=value, field=field)


def _of_refusal(_request: Asked, refusal: Refusal) -> Response[bytes]:
    return as_response(refusal)


def _of_database(_request: Asked, error: Exception) -> Response[bytes]:
    _log.error("the database does not answer", exc_info=error)
    return as_response(
        DatabaseAway(
            DATABASE_AWAY, "The database does not answer.", "Nothing was written; send it again."
        )
    )


def _of_http(request: Asked, error: HTTPException) -> Response[bytes]:
    if error.status_code >= 500:
        return _of_fault(request, error)
    code, todo = _OF_HTTP.get(error.status_code, (REQUEST_UNREADABLE, "Correct it and try again."))
    said = f"{request.method} {request.url.path}: {error.detail}."
    return as_response(Refusal(code, said, todo), error.status_code)


def _of_fault(request: Asked, error: Exception) -> Response[bytes]:
    _log.error("%s %s failed", request.method, request.url.path, exc_info=error)
    return as_response(
        ProgramFailed(
            PROGRAM_FAILED,
            f"The program could not do it: {type(error).__name__}.",
            "Nothing was half done. Tell whoever looks after the program.",
        )
    )


HANDLERS: dict[type[Exception] | int, Callable[..., Response[bytes]]] = {
    Refusal: _of_refusal,
    OperationalError: _of_database,
    InterfaceError: _of_database,
    HTTPException: _of_http,
    Exception: _of_fault,
}
"""By what was raised; the most particular is taken."""
