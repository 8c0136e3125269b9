"""Whatever is sent, the answer is one of those that are described, and never a fault of ours."""

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from pantry.http.operations import OPERATIONS
from pantry.reports.asked import ASKED
from tests.commands.larkfield import MANAGER
from tests.http.site import PASSWORD, SECRET

TEXTS = st.one_of(
    st.text(st.characters(exclude_categories=["Cs"]), max_size=20),
    st.sampled_from(
        ["", "\0", "Mara Quill", PASSWORD, "Z" * 300, "2027-03-08T07:00:00Z", "confirm"]
    ),
)
ATOMS = st.one_of(
    st.none(), st.booleans(), st.integers(), st.floats(allow_nan=False, allow_infinity=False), TEXTS
)
JSON = st.recursive(
    ATOMS,
    lambda inner: st.lists(inner, max_size=4) | st.dictionaries(TEXTS, inner, max_size=4),
    max_leaves=8,
)

BODIES = {
    "/api/first-manager": {"secret": SECRET[:-1], "name": "x", "password": "x", "house": {}},
    "/api/sign-in": {"name": "x", "password": "x", "house": None, "keep": "token"},
    "/api/way-in": {"name": "x", "code": "x", "password": PASSWORD},
    "/api/ways-in": {"person": MANAGER},
    "/api/sessions/end": {"person": "Nobody"},
    "/api/password": {"old": "x", "new": "x"},
    "/api/exchange": {"protocol": 1, "epoch": "first", "cursor": 0, "commands": []},
    "/api/commands": {"id": "x", "kind": "confirm", "at": "x", "person": "", "base": 1, "body": {}},
}
DESCRIBED = {each.path: {each.status, *each.problems} for each in OPERATIONS}


@st.composite
def bodies(draw, path):
    """Any JSON at all, or a body of the right shape with one member that is anything."""
    if draw(st.booleans()):
        return draw(JSON)
    known = BODIES[path]
    changed = known | {draw(st.sampled_from(sorted(known))): draw(JSON)}
    return [changed] if path == "/api/commands" else changed


@pytest.mark.parametrize("path", sorted(BODIES))
def test_no_body_is_a_fault_of_the_program(quiet_site, path):
    mara = quiet_site.as_(MANAGER)

    @settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
    @given(bodies(path))
    def send(body):
        answer = mara.post(path, json=body)
        assert answer.status_code in DESCRIBED[path], (body, answer.text)
        if answer.status_code == 200 and path == "/api/commands":
            codes = [each.get("problem", {}).get("code") for each in answer.json()]
            assert "program_failed" not in codes, (body, answer.text)

    send()


@pytest.mark.parametrize("name", sorted(ASKED))
def test_no_argument_of_a_report_is_a_fault_of_the_program(quiet_site, name):
    mara = quiet_site.as_(MANAGER)
    arguments = st.dictionaries(
        st.sampled_from(["service", "name", "since", "days", "text", "x"]),
        TEXTS | st.integers(-3, 2**60).map(str),
        max_size=2,
    )

    @settings(max_examples=25, deadline=None, suppress_health_check=[HealthCheck.too_slow])
    @given(arguments)
    def ask(params):
        answer = mara.get(f"/api/reports/{name}", params=params)
        assert answer.status_code in (200, 404, 422), (params, answer.text)

    ask()
