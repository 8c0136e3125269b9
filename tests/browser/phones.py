"""A phone that keeps what it has when its browser dies."""

from collections.abc import Sequence
from pathlib import Path

import pytest
from playwright.sync_api import BrowserContext, Error, Playwright

from tests.browser.conftest import FLAGS, PHONE, chromium_here


class Phone:
    """A browser that keeps what it has in a folder, so that it may crash and be opened again."""

    def __init__(self, play: Playwright, folder: Path, url: str, flags: Sequence[str] = ()) -> None:
        self._play, self._folder, self._url = play, folder, url
        self._flags = flags
        self.context = self._open()

    def _open(self) -> BrowserContext:
        context = self._play.chromium.launch_persistent_context(
            self._folder,
            executable_path=chromium_here(),
            args=[*FLAGS, *self._flags],
            base_url=self._url,
            viewport=PHONE,
            has_touch=True,
            locale="en-GB",
            reduced_motion="reduce",
        )
        context.set_default_timeout(15_000)
        return context

    def crash(self) -> None:
        """End the browser at once, with nothing put in order, and open it again."""
        lasting = [cookie for cookie in self.context.cookies() if cookie["expires"] > 0]
        browser = self.context.browser
        assert browser
        with pytest.raises(Error):
            browser.new_browser_cdp_session().send("Browser.crash")
        self.context.close()
        self.context = self._open()
        # Chromium writes cookies to the disk half a minute late; those of a test are younger
        self.context.add_cookies(lasting)
