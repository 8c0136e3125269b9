"""What stands in the addresses of routes, and what is sent that is no JSON, as OpenAPI says it."""

from typing import Any

CHECK: dict[str, Any] = {
    "name": "check",
    "in": "query",
    "description": "true: only say what is wrong",
    "schema": {"type": "string", "enum": ["true", "false"], "default": "false"},
}
PICTURE: dict[str, Any] = {
    "name": "picture",
    "in": "path",
    "required": True,
    "description": "the id that whoever took it gave it",
    "schema": {"type": "string", "format": "uuid"},
}
SHEET: dict[str, Any] = {
    "name": "sheet",
    "in": "path",
    "required": True,
    "description": "the id of the command that sent it",
    "schema": {"type": "string", "format": "uuid"},
}
IMAGE: dict[str, Any] = {"type": "string", "contentMediaType": "image/jpeg"}
PDF: dict[str, Any] = {"type": "string", "contentMediaType": "application/pdf"}


def asked(name: str, says: str, **schema: object) -> dict[str, Any]:
    """What may be asked after the question mark, and what it says."""
    return {"name": name, "in": "query", "description": says, "schema": schema}


LABELS = (
    asked("paper", "a sheet as a4/3x8/70x37 or a roll as 62x29, in mm", type="string"),
    asked("start", "the first free label of a begun sheet", type="integer", minimum=1),
    asked("copies", "of each batch's label", type="integer", minimum=1, maximum=50),
    asked("batch", "by id or label", type="array", items={"type": "string"}),
    asked("order", "all that was received of it", type="string"),
    asked("day", "all that came or was made on it", type="string", format="date"),
    asked("numbers", "the id of the command that reserved them", type="string"),
)
