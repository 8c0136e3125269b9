"""What the house answers a browser's person beside its screens, and is told by them."""

from playwright.sync_api import APIResponse, Page


def answered(page: Page, address: str, **parameters: str) -> APIResponse:
    """Its answer; a connection let go in the meantime is opened anew, as browsers do."""
    return page.request.get(address, params=dict(parameters) or None, max_retries=3)


def rows_of(page: Page, report: str, **parameters: str) -> list[dict]:
    """The rows of a report."""
    return answered(page, f"/api/reports/{report}", **parameters).json()["rows"]


_GIVE = """async (commands) => {
    const headers = {"content-type": "application/json"};
    const named = commands.map((each) => ({id: crypto.randomUUID(), ...each}));
    const sent = JSON.stringify(named);
    const reply = await fetch("/api/commands", {method: "POST", headers, body: sent});
    return await reply.json();
}"""


def give(page: Page, *commands: dict) -> None:
    """Give commands as whoever came in on that page; all of them must be applied."""
    answers = page.evaluate(_GIVE, list(commands))
    assert {answer["outcome"] for answer in answers} == {"applied"}, answers


def now_of(page: Page) -> str:
    """The house's own time, RFC 3339."""
    return answered(page, "/api/front").json()["now"]
