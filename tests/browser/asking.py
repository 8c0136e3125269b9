"""What the house answers a browser's person beside its screens."""

from playwright.sync_api import APIResponse, Page


def answered(page: Page, address: str, **parameters: str) -> APIResponse:
    """Its answer; a connection let go in the meantime is opened anew, as browsers do."""
    return page.request.get(address, params=dict(parameters) or None, max_retries=3)


def rows_of(page: Page, report: str, **parameters: str) -> list[dict]:
    """The rows of a report."""
    return answered(page, f"/api/reports/{report}", **parameters).json()["rows"]
