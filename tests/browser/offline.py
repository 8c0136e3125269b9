"""A phone that has everything it needs without the house."""

from playwright.sync_api import Error, Page

_WHOLE = """async (reports) => {
    const wait = () => new Promise((done) => setTimeout(done, 100));
    const ends = Date.now() + 60000;
    const program = async () => {
        const standing = await navigator.serviceWorker.getRegistration("/");
        return standing?.active && navigator.serviceWorker.controller;
    };
    const copy = () => new Promise((done) => {
        const asked = indexedDB.open("chooseby");
        asked.onerror = () => done(0);
        asked.onsuccess = () => {
            const open = asked.result;
            if (!open.objectStoreNames.contains("copy")) { open.close(); return done(0); }
            const count = open.transaction("copy").objectStore("copy").count();
            count.onsuccess = () => { open.close(); done(count.result); };
        };
    });
    while (!(await program()) || (await copy()) < reports) {
        if (Date.now() > ends) throw new Error("the phone is not ready to go without the house");
        await wait();
    }
}"""

REPORTS = 14
"""Kept: expected, items, stock, house, counts, temperatures, cooling, checks, morning, pull, pick,
days, questions, asked-for."""


def until_whole(page: Page) -> None:
    """Wait until the whole program and the whole copy are on the phone."""
    page.evaluate(_WHOLE, REPORTS)


def cold(page: Page, path: str) -> Page:
    """The program started anew at an address; a worker that takes over may hold up a first try."""
    fresh = page.context.new_page()
    page.close()
    try:
        fresh.goto(path)
    except Error:
        fresh.goto(path)
    return fresh
