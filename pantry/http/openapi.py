"""What can be asked, as OpenAPI 3.1: made of the very types that the door and the routes read.

The commands are one tagged union on `kind`; each alternative is the envelope with its own body.
Every report has a path and a shape of its own, though one route serves them all.
"""

from collections.abc import Iterable, Mapping
from functools import cache
from inspect import cleandoc, getdoc
from typing import Any

import msgspec
from litestar import Response, get

from pantry import __version__
from pantry.commands.answers import Answer, Problem
from pantry.commands.decisions import DECISIONS
from pantry.commands.facts import FACTS
from pantry.commands.parts import Part
from pantry.commands.rights import READS, RIGHTS
from pantry.http import bodies, calendar_bodies, recipe_bodies
from pantry.http.edge import COOKIE
from pantry.http.operation import Operation
from pantry.http.operations import COMMANDS, OPERATIONS
from pantry.http.problems import PROBLEM_JSON
from pantry.http.who import OPEN
from pantry.reports.askable import Asked
from pantry.reports.asked import ASKED

_Schema = dict[str, Any]

_REF = "#/components/schemas/{name}"
_STATUS = {
    400: "It cannot be read.",
    401: "Nobody is signed in, or name and secret do not go together.",
    403: "It is not this person's to do, or another site sent it.",
    404: "It is not there.",
    409: "The state of things does not allow it.",
    413: "It is larger than is taken.",
    422: "It can be read, and cannot be done.",
    429: "It was tried too often; Retry-After says how long to wait.",
    503: "The database does not answer just now; nothing was written.",
}
_ENVELOPE: dict[str, _Schema] = {
    "id": {"type": "string", "format": "uuid", "description": "made before it is sent, and kept"},
    "at": {"type": "string", "format": "date-time", "description": "when it happened"},
    "person": {"type": "string", "description": "left out: who is signed in"},
    "device": {"type": ["string", "null"]},
    "n": {"type": ["integer", "null"], "minimum": 1, "description": "1, 2, 3 ... of its device"},
    "base": {
        "type": ["integer", "string", "null"],
        "description": "the version it was decided on, or the id of one's own earlier command",
    },
    "clock": {
        "type": ["object", "null"],
        "required": ["offset_ms", "bound_ms"],
        "properties": {"offset_ms": {"type": "integer"}, "bound_ms": {"type": "integer"}},
        "additionalProperties": False,
    },
}


@get("/openapi.json", opt=OPEN)
async def describe() -> Response[bytes]:
    """What can be asked, as OpenAPI 3.1."""
    return Response(written(), media_type="application/json")


@cache
def written() -> bytes:
    """The document, as it is sent."""
    return msgspec.json.encode(_document())


def _document() -> _Schema:
    kinds: dict[str, type[Part]] = {**FACTS, **DECISIONS}
    reports = {name: report.answers for name, report in ASKED.items()}
    shapes = [*kinds.values(), Answer, Problem, *_shapes(), *reports.values()]
    found, components = msgspec.json.schema_components(shapes, ref_template=_REF)
    _describe_alike(components)
    refs = dict(zip(shapes, found, strict=True))
    told = {_told(name): components.pop(_name_in(refs[of])) for name, of in reports.items()}
    commands = {f"Command_{kind}": _command(kind, refs[kinds[kind]]) for kind in sorted(kinds)}
    union = {
        "oneOf": [_ref(name) for name in commands],
        "discriminator": {
            "propertyName": "kind",
            "mapping": {name.removeprefix("Command_"): _REF.format(name=name) for name in commands},
        },
    }
    components["Exchange"]["properties"]["commands"] = COMMANDS | {"default": []}
    schemas = {**components, **told, **commands, "Command": union}
    return {
        "openapi": "3.1.0",
        "info": {"title": "Chooseby", "version": __version__, "license": {"name": "Apache-2.0"}},
        "servers": [{"url": "/"}],
        "security": [{"cookie": []}, {"token": []}],
        "paths": _paths(refs),
        "components": {
            "schemas": schemas,
            "securitySchemes": {
                "cookie": {"type": "apiKey", "in": "cookie", "name": COOKIE},
                "token": {"type": "http", "scheme": "bearer"},
            },
        },
    }


def _describe_alike(components: Mapping[str, _Schema]) -> None:
    """See to it that descriptions are the same whatever Python keeps of a docstring's indent."""
    for each in components.values():
        if "description" in each:
            each["description"] = cleandoc(each["description"])


def _shapes() -> Iterable[Any]:
    """Every type that a route takes or answers, once."""
    named = [shape for each in OPERATIONS for shape in (each.takes, each.answers)]
    return dict.fromkeys(shape for shape in named if shape is not None and _is_ours(shape))


def _is_ours(shape: object) -> bool:
    return getattr(shape, "__module__", "") in {
        each.__name__ for each in (bodies, calendar_bodies, recipe_bodies)
    }


def _command(kind: str, body: _Schema) -> _Schema:
    """The envelope of one kind of command."""
    shape = FACTS.get(kind) or DECISIONS[kind]
    return {
        "type": "object",
        "description": f"{getdoc(shape)} ({', '.join(sorted(RIGHTS[kind]))})",
        "required": ["id", "kind", "at", "body"],
        "properties": {**_ENVELOPE, "kind": {"const": kind}, "body": body},
        "dependentRequired": {"device": ["n"], "n": ["device"]},
        "additionalProperties": False,
    }


def _paths(refs: Mapping[Any, _Schema]) -> _Schema:
    paths: dict[str, _Schema] = {}
    for each in OPERATIONS:
        paths.setdefault(each.path, {})[each.method] = _operation(each, refs)
    for name, report in sorted(ASKED.items()):
        paths[f"/api/reports/{name}"] = {"get": _report(name, report)}
    return paths


def _operation(each: Operation, refs: Mapping[Any, _Schema]) -> _Schema:
    path, _, named = each.path.removeprefix("/api/").partition("/{")
    called = path.replace("/", "_").replace("-", "_")
    described: _Schema = {
        "operationId": f"{each.method}_{called}" if named else called,
        "summary": each.says,
        "responses": {str(each.status): _answered(each, refs), **_problems(each.problems)},
    }
    if each.is_open:
        described["security"] = []
    if each.parameters:
        described["parameters"] = [dict(parameter) for parameter in each.parameters]
    if each.takes is not None:
        content = {each.media: {"schema": _schema_of(each.takes, refs)}}
        described["requestBody"] = {"required": True, "content": content}
    return described


def _answered(each: Operation, refs: Mapping[Any, _Schema]) -> _Schema:
    if each.answers is None:
        return {"description": "Done."}
    schema = _schema_of(each.answers, refs)
    return {"description": "Done.", "content": {each.answered_as: {"schema": schema}}}


def _schema_of(shape: Any, refs: Mapping[Any, _Schema]) -> _Schema:  # noqa: ANN401 - a type, or a schema as it is
    if isinstance(shape, dict):
        return shape
    return refs[shape]


def _report(name: str, report: Asked) -> _Schema:
    readers = ", ".join(sorted(READS.get(name, ())))
    content = {"application/json": {"schema": _ref(_told(name))}}
    return {
        "operationId": f"report_{name.replace('-', '_')}",
        "summary": f"The report {name} ({readers}).",
        "description": f"Its rows as a sheet: `/api/reports/{name}.csv`, or `.xlsx`.",
        "parameters": [
            {
                "name": argument,
                "in": "query",
                "required": argument in report.needs,
                "schema": _argument(among),
            }
            for argument, among in report.takes.items()
        ],
        "responses": {
            "200": {"description": "Its rows.", "content": content},
            **_problems((401, 403, 404, 422, 503)),
        },
    }


def _argument(among: range | None) -> _Schema:
    if among is None:
        return {"type": "string"}
    return {"type": "integer", "minimum": among.start, "maximum": among.stop - 1}


def _problems(statuses: Iterable[int]) -> _Schema:
    content = {PROBLEM_JSON: {"schema": _ref("Problem")}}
    return {
        str(status): {"description": _STATUS[status], "content": content} for status in statuses
    }


def _told(name: str) -> str:
    """What the shape of a report is called: the types' own names carry those of their rows."""
    return f"Report_{name.replace('-', '_')}"


def _ref(name: str) -> _Schema:
    return {"$ref": _REF.format(name=name)}


def _name_in(ref: _Schema) -> str:
    return str(ref["$ref"]).removeprefix(_REF.format(name=""))
