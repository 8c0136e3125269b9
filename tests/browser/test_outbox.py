"""A phone without the house: what is recorded outlives a crash and is there once (SY1-SY4)."""

import json
from collections.abc import Iterator
from datetime import timedelta
from pathlib import Path

import pytest
from playwright.sync_api import Page, expect

from tests.browser.conftest import enrol
from tests.browser.offline import until_whole
from tests.browser.phones import Phone
from tests.browser.scanners import scan
from tests.browser.servers import Served, begun
from tests.browser.test_porter_goods_in import CRATE, YOGHURT, carton, stock, today_of


@pytest.fixture
def phone(play, house, tmp_path) -> Iterator[Phone]:
    made = Phone(play, tmp_path / "phone", house.url)
    yield made
    made.context.close()


def receives(page: Page, code: str, item: str) -> None:
    """Take in what a code says, at a delivery that was opened."""
    page.get_by_role("link", name="Tolsaig Creamery").first.click()
    scan(page, code)
    expect(page.get_by_role("heading", name=item, level=1)).to_be_visible()
    page.get_by_role("button", name="Accept").first.click()
    expect(page.get_by_text(f"{item} accepted")).to_be_visible()


def applied(house: Served, file: Path) -> list[dict]:
    """What `chooseby apply` answers to a file, in the house's own folder."""
    log = file.with_suffix(".log")
    applying = begun(["apply", str(file)], {"CHOOSEBY_DATA": str(house.data)}, log)
    applying.join()
    assert applying.exitcode == 0, log.read_text()
    return [json.loads(line) for line in log.read_text().splitlines()]


def test_SY4_what_two_pages_record_without_the_house_outlives_a_crash_and_is_there_once(
    phone, house, tmp_path, clean
):
    page = enrol(phone.context.new_page(), phone.context.new_page(), "porter")
    until_whole(page)
    day = today_of(house) + timedelta(days=20)
    house.kill()
    receives(page, carton(CRATE, day, "L71"), "Whole milk")
    other = phone.context.new_page()
    other.goto("/goods-in")
    receives(other, carton(YOGHURT, day, "L72"), "Natural yoghurt")
    expect(page.get_by_role("link", name="2 records wait since")).to_be_visible()

    phone.crash()
    page = phone.context.new_page()
    page.goto("/goods-in")
    page.get_by_role("link", name="2 records wait since").click()
    waits = page.get_by_role("region", name="Waiting to be sent")
    expect(waits.get_by_role("listitem")).to_have_count(2)
    clean(page)
    with page.expect_download() as download:
        page.get_by_role("button", name="Save as a file").click()
    file = tmp_path / "records.jsonl"
    download.value.save_as(file)
    saved = [json.loads(line) for line in file.read_text(encoding="utf-8").splitlines()]
    assert [command["n"] for command in saved] == [1, 2]

    house.begin()
    expect(page.get_by_text("Nothing waits. The house has all of it.")).to_be_visible()
    expect(page.get_by_role("link", name="records wait")).to_have_count(0)
    before = [row for item in ("Whole milk", "Natural yoghurt") for row in stock(page, item)]
    assert sorted(row["lot"] for row in before if row["lot"] in ("L71", "L72")) == ["L71", "L72"]
    assert [answer["outcome"] for answer in applied(house, file)] == ["applied", "applied"]
    after = [row for item in ("Whole milk", "Natural yoghurt") for row in stock(page, item)]
    assert after == before
