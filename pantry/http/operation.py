"""One route as it is described to programs."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any, Literal

JSON = "application/json"


def asked(name: str, says: str, **schema: object) -> dict[str, Any]:
    """An argument in the address."""
    return {"name": name, "in": "query", "description": says, "schema": schema}


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
