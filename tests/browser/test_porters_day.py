"""A porter's day on one phone, six hours of it without the house; then the books agree."""

import json
import re
from datetime import datetime, timedelta

from playwright.sync_api import Page, expect

from pantry.records.database import open_database, reading
from pantry.records.rows import every
from pantry.records.tables import HouseRow
from pantry.records.verify import disagreements
from pantry.terminal.settings import DEMO_FILE
from tests.browser.asking import answered
from tests.browser.offline import cold, until_whole
from tests.browser.scanners import scan
from tests.browser.test_lists import asked
from tests.browser.test_porter_goods_in import CRATE, carton, delivery, today_of
from tests.browser.test_temperatures import read, save

HOURS = 6


def key(page: Page, name: str):
    return page.get_by_role("button", name=re.compile(f"^{name}"))


def later(house, hours: int) -> None:
    """The house's own clock has gone on while it was silent."""
    file = house.data / DEMO_FILE
    ahead = json.loads(file.read_text(encoding="utf-8"))["clock_ahead_seconds"] + hours * 3600
    file.write_text(json.dumps({"clock_ahead_seconds": ahead}), encoding="utf-8")


def books_agree(house) -> bool:
    engine = open_database(f"sqlite:///{house.data / 'chooseby.db'}")
    with reading(engine) as connection:
        (row,) = every(connection, HouseRow)
        found = disagreements(connection, row.id)
    engine.dispose()
    return found == []


def test_SY4_a_whole_day_is_recorded_without_the_house_and_handed_in(enrolled, house):
    page = enrolled
    until_whole(page)
    day = today_of(house)
    before = {row["label"]: row for row in asked(page, "stock")}
    began = datetime.fromisoformat(answered(page, "/api/front").json()["now"])
    clock = page.context.clock
    clock.install()
    house.kill()

    page = cold(page, "/pull")
    key(page, "Taken out Venison").click()
    expect(page.get_by_text("Saved on this phone.")).to_be_visible()
    page.goto("/goods-in")
    delivery(page)
    scan(page, carton(CRATE, day + timedelta(days=9), "L71"))
    page.get_by_role("button", name="Accept 1 x crate of 6 x 2 l").click()
    expect(page.get_by_role("list", name="What was ordered")).to_contain_text("all here")

    clock.fast_forward("02:00:00")
    page.goto("/round")
    page.get_by_role("link", name=re.compile("^Cold room")).click()
    read(page, "4")
    save(page)
    expect(page.get_by_text("Saved on this phone.")).to_be_visible()
    page.goto("/pick")
    page.get_by_role("link", name="lunch, staff").first.click()
    page.get_by_role("region", name="Pantry").get_by_role("button", name="All of it").click()
    expect(page.get_by_role("region", name="Brought already")).to_be_visible()

    clock.fast_forward("02:00:00")
    page.goto("/shelf/B-0014")
    page.get_by_label("Only a part of it").fill("250")
    key(page, "Open").click()
    expect(page.get_by_text("Opened:")).to_be_visible()
    page.goto("/waste/B-0901")
    page.get_by_label("Only a part, g").fill("200")
    page.get_by_text("spoiled", exact=True).click()
    page.get_by_text("compost", exact=True).click()
    key(page, "200 g to waste").click()
    expect(page.get_by_text("Saved on this phone.")).to_be_visible()

    clock.fast_forward("02:00:00")
    page.goto("/shop")
    page.get_by_label("Shop, or another one").fill("Sandnes Stores")
    page.get_by_label("Paid in all, GBP").fill("4.20")
    key(page, "Record the shop run").click()
    expect(page.get_by_text("Saved on this phone")).to_be_visible()
    page.goto("/shelf/B-0901")
    expect(page.get_by_role("heading", name="Tomatoes", level=1)).to_be_visible()

    later(house, HOURS)
    house.begin()
    expect(page.get_by_text("online")).to_be_visible()
    expect(page.get_by_role("link", name="wait since")).to_have_count(0)
    after = {row["label"]: row for row in asked(page, "stock")}
    assert [row["lot"] for row in after.values()].count("L71") == 1
    left = {label: int(before[label]["on_hand"]["value"]) for label in ("B-0014", "B-0901")}
    assert int(after["B-0014"]["on_hand"]["value"]) == left["B-0014"] - 250
    assert int(after["B-0901"]["on_hand"]["value"]) == left["B-0901"] - 200
    assert next(row for row in asked(page, "pull") if row["label"] == "B-0241")["done"]
    cold_room = next(row for row in asked(page, "temperatures") if row["area"] == "Cold room")
    assert cold_room["last"]["temperature_c"] == "4"
    # each is told at its own time, not at the time when it was handed in
    taken = datetime.fromisoformat(cold_room["last"]["at"])
    assert timedelta(hours=2) <= taken - began < timedelta(hours=4)
    house.end()
    assert books_agree(house)
