"""What is said can be asked, in OpenAPI 3.1, held against an independent validator."""

import pytest
from jsonschema import Draft202012Validator
from openapi_spec_validator import OpenAPIV31SpecValidator
from referencing import Registry, Resource
from referencing.jsonschema import DRAFT202012

from pantry.commands.decisions import DECISIONS
from pantry.commands.facts import FACTS
from pantry.http.app import ROUTES
from pantry.reports.asked import ASKED
from tests.commands.larkfield import CHEF, MANAGER, PORTER
from tests.http.site import ARGUMENTS, SERVICE

HERE = "urn:openapi"


@pytest.fixture(scope="module")
def document(quiet_site):
    return quiet_site.nobody.get("/openapi.json").json()


@pytest.fixture
def shape(document):
    """A validator of one of the document's schemas."""
    resource = Resource(contents=document, specification=DRAFT202012)
    registry = Registry().with_resource(HERE, resource)

    def of(name):
        where = {"$ref": f"{HERE}#/components/schemas/{name}"}
        checker = Draft202012Validator.FORMAT_CHECKER
        return Draft202012Validator(where, registry=registry, format_checker=checker)

    return of


def test_the_document_is_openapi_3_1(document):
    """OpenAPI Specification 3.1, by the package openapi-spec-validator."""
    assert document["openapi"].startswith("3.1.")
    OpenAPIV31SpecValidator(document).validate()


def test_a_document_that_is_none_would_be_found_out(document):
    short = document | {"paths": {}, "components": {}}
    assert not list(OpenAPIV31SpecValidator(short).iter_errors())
    for broken in ({"paths": {"me": {}}}, {"info": {}}, {"security": "none"}):
        assert list(OpenAPIV31SpecValidator(short | broken).iter_errors()), broken


def test_every_route_is_described_and_nothing_else(document):
    """One route serves the reports; each is described with its own arguments and rows."""
    paths = [path for handler in ROUTES for path in handler.paths]
    reports = "/api/reports/{name:str}"
    assert reports in paths
    served = {
        (method.lower(), path.replace(":str}", "}"))
        for handler in ROUTES
        for path in handler.paths
        for method in handler.http_methods
        if path.startswith("/api/") and path != reports
    }
    served |= {("get", f"/api/reports/{name}") for name in ASKED}
    described = {(method, path) for path, of in document["paths"].items() for method in of}
    assert described == served


def test_every_report_is_described_with_its_arguments_and_its_own_rows(document):
    shapes = set()
    for name, report in ASKED.items():
        of = document["paths"][f"/api/reports/{name}"]["get"]
        needed = {each["name"]: each["required"] for each in of["parameters"]}
        assert needed == {argument: argument in report.needs for argument in report.takes}
        (content,) = of["responses"]["200"]["content"].values()
        shape = content["schema"]["$ref"].rpartition("/")[2]
        rows = document["components"]["schemas"][shape]["properties"]["rows"]["items"]
        assert "$ref" in rows or "discriminator" in rows
        shapes.add(shape)
    assert len(shapes) == len(ASKED)


def test_the_commands_are_one_union_tagged_by_their_kind(document):
    union = document["components"]["schemas"]["Command"]
    kinds = {*FACTS, *DECISIONS}
    assert union["discriminator"]["propertyName"] == "kind"
    assert union["discriminator"]["mapping"].keys() == kinds
    assert len(union["oneOf"]) == len(kinds)


MILK = {
    "id": "0196f000-0000-7000-8000-000000000001",
    "kind": "receive",
    "at": "2027-03-08T07:00:00Z",
    "body": {
        "batch": "m",
        "item": "whole-milk",
        "quantity": {"value": "2", "unit": "l"},
        "area": "cold-room",
        "verdict": "accept",
        "date_mark": {"kind": "use_by", "date": "2027-03-12"},
    },
}
PAR = {
    "id": "0196f000-0000-7000-8000-000000000002",
    "kind": "set_par",
    "at": "2027-03-08T07:00:00+00:00",
    "person": "Mara Quill",
    "base": None,
    "body": {"item": "butter", "floor": "500 g", "order_up_to": "1 kg"},
}


@pytest.mark.parametrize(("name", "command"), [(PORTER, MILK), (MANAGER, PAR)])
def test_a_command_made_by_the_document_is_taken(site, shape, name, command):
    shape("Command").validate(command)
    answers = site.as_(name).post("/api/commands", json=[command]).json()
    for answer in answers:
        shape("Answer").validate(answer)
    assert [answer["outcome"] for answer in answers] == ["applied"]


@pytest.mark.parametrize(
    "wrong",
    [
        MILK | {"kind": "nothing"},
        MILK | {"kind": "waste"},
        MILK | {"colour": "white"},
        MILK | {"device": "phone"},
        MILK | {"body": MILK["body"] | {"verdict": "perhaps"}},
        MILK | {"body": MILK["body"] | {"colour": "white"}},
        {key: value for key, value in MILK.items() if key != "at"},
    ],
)
def test_what_the_document_forbids_is_refused(site, shape, wrong):
    assert not shape("Command").is_valid(wrong)
    (answer,) = site.as_(PORTER).post("/api/commands", json=[wrong]).json()
    assert answer["outcome"] != "applied"
    shape("Answer").validate(answer)


def test_every_answer_has_the_shape_that_is_described(site, shape):
    shape("Health").validate(site.nobody.get("/api/health").json())
    shape("Front").validate(site.nobody.get("/api/front").json())
    mara = site.as_(MANAGER)
    shape("Me").validate(mara.get("/api/me").json())
    shape("WayIn").validate(mara.post("/api/ways-in", json={"person": CHEF}).json())
    told = mara.post("/api/exchange", json={"protocol": 1, "commands": [MILK | {"person": ""}]})
    assert told.json()["changes"]
    shape("Exchanged").validate(told.json())
    shape("Problem").validate(site.nobody.get("/api/me").json())
    site.house.menu(SERVICE, "pancakes")
    for name in ASKED:
        params = {argument: ARGUMENTS[argument] for argument in ASKED[name].needs}
        told = mara.get(f"/api/reports/{name}", params=params).json()
        shape(f"Report_{name.replace('-', '_')}").validate(told)
    files = [("book", ("items.csv", b"item,base_unit\n,x\n", "text/csv"))]
    told = mara.post("/api/book", files=files).json()
    assert told["faults"]
    shape("BookTaken").validate(told)


def test_refusals_have_the_statuses_that_are_described(document, site):
    """Each of these is refused in one of the ways its route names."""
    asked = {
        ("post", "/api/sign-in"): {"name": CHEF, "password": "wrong"},
        ("post", "/api/way-in"): {"name": CHEF, "code": "x", "password": "four words in a row"},
        ("post", "/api/first-manager"): {"secret": "x", "name": "x", "password": "x"},
        ("post", "/api/commands"): {},
        ("post", "/api/exchange"): {"protocol": 9},
        ("post", "/api/ways-in"): {"person": "Nobody"},
        ("post", "/api/sessions/end"): {"person": "Nobody"},
        ("post", "/api/password"): {"old": "x", "new": "x"},
    }
    mara = site.as_(MANAGER)
    for (method, path), body in asked.items():
        answer = mara.request(method, path, json=body)
        described = document["paths"][path][method]["responses"]
        assert answer.status_code >= 400, path
        assert str(answer.status_code) in described, path
        assert answer.headers["content-type"] in described[str(answer.status_code)]["content"]
