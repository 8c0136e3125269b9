"""Ways that the tests of the chef's screens share."""

from playwright.sync_api import Locator, Page, expect


def day(page: Page, ahead: int) -> Locator:
    """So many days from the demo house's today on the list of menus."""
    return page.get_by_role("region").nth(ahead)


def open_menu(page: Page, ahead: int, name: str) -> None:
    """Open a menu from the list."""
    day(page, ahead).get_by_role("link", name=name).click()
    expect(page.get_by_role("heading", name=name, level=1)).to_be_visible()
