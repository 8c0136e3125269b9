"""Bought in or kept in: what another notice would change, and a level that is set from there."""

from datetime import datetime, timedelta

from playwright.sync_api import expect

from tests.browser.asking import give, now_of


def test_PL6_what_must_be_kept_in_gets_its_level(opened, house, clean):
    page = opened.as_role(house, "manager", at="/notice")
    other = page.get_by_role("region", name="What another notice would change")
    expect(other).to_contain_text("With 3 days of notice")
    without = page.get_by_role("region", name="Kept in, and no level is set")
    without.get_by_role("button", name="Pearl barley").click()
    panel = page.get_by_role("dialog")
    expect(panel).to_contain_text("Sold by Quillan Dry Goods.")
    expect(panel).to_contain_text("would be in time")
    clean(page)
    panel.get_by_label("Keep at least").fill("500 g")
    panel.get_by_label("Order up to").fill("1.5 kg")
    panel.get_by_role("button", name="Keep it in").click()
    level = page.get_by_role("region", name="Kept in, with a level")
    expect(level).to_contain_text("At least 500 g, ordered up to 1.5 kg")
    page.keyboard.press("Escape")
    clean(page)


def test_PL6_the_days_on_which_nobody_is_there_are_said_and_what_comes_before_they_are_back(
    opened, house, clean
):
    """All fourteen are away for a week, from a good two weeks on."""
    page = opened.as_role(house, "manager", at="/notice")
    today = datetime.fromisoformat(now_of(page))
    first, last = (today.date() + timedelta(days=after) for after in (16, 22))
    tables = {"family": 4, "children": 3, "staff": 7}
    days = {"first": first.isoformat(), "last": last.isoformat()}
    away = [
        {
            "kind": "say_away",
            "at": f"{today:%Y-%m-%dT%H:%M:%SZ}",
            "body": {"away": table, "who": "all", "heads": heads, "table": table} | days,
        }
        for table, heads in tables.items()
    ]
    give(page, *away)
    page.reload()
    told = page.get_by_role("region", name="Who is in the house")
    expect(told).to_contain_text(f"Nobody is in the house from {named(first)} to {named(last)}")
    expect(told).to_contain_text("Nothing is ordered up to a level for these days.")
    clean(page)
    level = page.get_by_role("region", name="Kept in, with a level")
    level.get_by_role("button", name="Rapeseed oil").click()
    panel = page.get_by_role("dialog")
    until = panel.get_by_role("region", name="Until more people are there")
    expect(until).to_contain_text("The last delivery before more are there comes")
    clean(page)


def named(day):
    """As the screens do."""
    return f"{day:%a} {day.day} {day:%b}"
