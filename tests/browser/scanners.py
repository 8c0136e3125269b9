"""A handheld scanner: a keyboard whose keys come five milliseconds apart, and end with Enter.

Each key says when it was pressed, so that a loaded machine does not make a slow hand of a scanner.
"""

from playwright.sync_api import Page, expect

from pantry.world import now

APART = 0.005
"""Seconds between two keys: common practice, no source."""

SEPARATOR = "\x1d"


def scan(page: Page, code: str) -> None:
    """Type a code as a scanner does; the separator of GS1 codes comes as Ctrl+]."""
    expect(page.get_by_role("textbox").first).to_be_visible()
    keyboard = page.context.new_cdp_session(page)
    at = now().timestamp()
    for character in code:
        at += APART
        if character == SEPARATOR:
            pressed = {"key": "]", "code": "BracketRight", "modifiers": 2}
        else:
            pressed = {"key": character, "text": character, "unmodifiedText": character}
        _press(keyboard, at, pressed)
    _press(keyboard, at + APART, {"key": "Enter", "code": "Enter", "text": "\r"})
    keyboard.detach()


_SAID_AS_IT_STANDS = """([heading, code]) => {
    new MutationObserver((_, watch) => {
        const headings = [...document.querySelectorAll("h2")];
        if (!headings.some((each) => each.textContent === heading)) return;
        watch.disconnect();
        for (const key of [...code, "Enter"])
            document.body.dispatchEvent(
                new KeyboardEvent("keydown", { key, bubbles: true, cancelable: true }),
            );
    }).observe(document.body, { childList: true, subtree: true });
}"""


def scan_as_it_stands(page: Page, heading: str, code: str) -> None:
    """Have a code scanned in the very moment in which a screen with that heading stands."""
    page.evaluate(_SAID_AS_IT_STANDS, [heading, code])


def _press(keyboard, at: float, pressed: dict) -> None:
    keyboard.send("Input.dispatchKeyEvent", {"type": "keyDown", "timestamp": at, **pressed})
    released = {name: value for name, value in pressed.items() if "ext" not in name}
    keyboard.send("Input.dispatchKeyEvent", {"type": "keyUp", "timestamp": at, **released})
