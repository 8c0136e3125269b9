"""Draws the icons of a home screen from `public/mark.svg`, with the browser of the tests.

Used as `python web/icons.py`, after the mark has changed; what it draws is committed.
"""

import shutil
from pathlib import Path

from playwright.sync_api import sync_playwright

PUBLIC = Path(__file__).resolve().parent / "public"

ROUND = 'rx="7"'


def main() -> None:
    """Draw every icon: with round corners, and whole where the phone cuts a shape of its own."""
    mark = (PUBLIC / "mark.svg").read_text(encoding="utf-8")
    whole = mark.replace(ROUND, "")
    icons = {
        "icon-192.png": (mark, 192),
        "icon-512.png": (mark, 512),
        "icon-whole-512.png": (whole, 512),
        "icon-180.png": (whole, 180),
    }
    with sync_playwright() as play:
        browser = play.chromium.launch(executable_path=shutil.which("chromium"))
        for name, (drawn, size) in icons.items():
            page = browser.new_page(viewport={"width": size, "height": size})
            page.set_content(f"<style>body{{margin:0}}svg{{display:block}}</style>{drawn}")
            page.screenshot(path=PUBLIC / name, omit_background=True)
            page.close()
        browser.close()


if __name__ == "__main__":
    main()
