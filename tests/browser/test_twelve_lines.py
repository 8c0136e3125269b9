"""A delivery of twelve lines in a cellar: by camera, without the house, in a browser that dies.

The labels are printed by libraries that are not the phone's reader (`tests/printed.py`); the camera
sees them in a video, one after the other, again and again.
"""

from datetime import timedelta

import httpx
from playwright.sync_api import Page, expect

from pantry.world import new_id
from tests.browser.conftest import PASSWORD, PEOPLE, enrol
from tests.browser.offline import until_whole
from tests.browser.phones import Phone
from tests.browser.test_porter_goods_in import today_of
from tests.browser.videos import flags, labels
from tests.printed import gs1_datamatrix

SUPPLIER = "Quillan Dry Goods"
PACKS = [
    ("Raisins", "1 kg bag", "9521234008514"),
    ("Long-grain rice", "5 kg bag", "9521234008880"),
    ("Arborio rice", "1 kg bag", "9521234009252"),
    ("Pudding rice", "500 g bag", "9521234009627"),
    ("Red lentils", "3 kg bag", "9521234009993"),
    ("Pearl barley", "1 kg bag", "9521234010364"),
    ("Chickpeas, tinned", "case of 12 x 400 g", "19521234010736"),
    ("Tinned tomatoes", "case of 12 x 400 g", "19521234011108"),
    ("Coconut milk", "case of 12 x 400 ml", "19521234011474"),
    ("Anchovies in oil", "100 g jar", "9521234007036"),
    ("Dried wild mushrooms", "100 g bag", "9521234007777"),
    ("Parmesan", "1 kg wedge", "9521234003700"),
]
"""Twelve of the supplier's packs in the demo house, with the numbers on them."""


def asked(house, name: str, **args: str) -> list[dict]:
    """What the manager is told by a report."""
    signed = {"name": PEOPLE["manager"], "password": PASSWORD, "keep": "token"}
    token = httpx.post(f"{house.url}/api/sign-in", json=signed).json()["token"]
    bearer = {"authorization": f"Bearer {token}"}
    return httpx.get(f"{house.url}/api/reports/{name}", params=args, headers=bearer).json()["rows"]


def ordered(house) -> str:
    """An order of one of each, which the manager places; answers its id."""
    delivery = today_of(house) + timedelta(days=15)
    signed = {"name": PEOPLE["manager"], "password": PASSWORD, "keep": "token"}
    with httpx.Client(base_url=house.url) as desk:
        token = desk.post("/api/sign-in", json=signed).json()["token"]
        command = {
            "id": new_id(),
            "kind": "place_order",
            "at": desk.get("/api/front").json()["now"],
            "body": {
                "supplier": SUPPLIER,
                "delivery": f"{delivery}",
                "lines": [{"item": item, "pack": pack, "packs": 1} for item, pack, _ in PACKS],
            },
        }
        bearer = {"authorization": f"Bearer {token}"}
        (answer,) = desk.post("/api/commands", json=[command], headers=bearer).json()
    assert answer["outcome"] == "applied", answer
    return f"quillan-dry-goods/{delivery}"


def receives(page: Page, awaited: set[str], *, until: int) -> None:
    """Take in what comes before the camera, each line once, until so many are left."""
    while len(awaited) > until:
        leave = page.get_by_role("link", name="Leave it for now")
        expect(leave).to_be_visible()
        item = page.get_by_role("heading", level=1).inner_text()
        if item in awaited:
            page.get_by_role("button", name="Accept 1 x").click()
            awaited.remove(item)
        else:
            leave.click()
        expect(page.get_by_role("heading", name=item, level=1)).to_have_count(0)


def opens_camera(page: Page, order: str) -> None:
    page.goto(f"/goods-in/{order}")
    page.get_by_role("button", name="Open the camera").click()


def test_twelve_lines_by_camera_without_the_house_are_there_once(play, house, tmp_path):
    order = ordered(house)
    keeps = today_of(house) + timedelta(days=1_000)
    printed = [
        gs1_datamatrix(f"(01){number.zfill(14)}(15){keeps:%y%m%d}(10)LOT{place}")
        for place, (_, _, number) in enumerate(PACKS)
    ]
    video = labels(tmp_path / "delivery.y4m", printed, hold=1.2, between=0.3)
    phone = Phone(play, tmp_path / "phone", house.url, flags(video))
    page = enrol(phone.context.new_page(), phone.context.new_page(), "porter")
    until_whole(page)
    house.kill()

    awaited = {item for item, _, _ in PACKS}
    opens_camera(page, order)
    receives(page, awaited, until=6)
    phone.crash()
    page = phone.context.new_page()
    opens_camera(page, order)
    receives(page, awaited, until=0)
    expect(page.get_by_role("link", name="12 records wait since")).to_be_visible()

    house.begin()
    expect(page.get_by_role("link", name="records wait since")).to_have_count(0)
    stock = [row for row in asked(house, "stock") if (row["lot"] or "").startswith("LOT")]
    lots = {row["lot"]: row for row in stock}
    assert len(stock) == len(lots)
    assert {lot: row["item"] for lot, row in lots.items()} == {
        f"LOT{place}": item for place, (item, _, _) in enumerate(PACKS)
    }
    assert {row["date_mark"]["date"] for row in lots.values()} == {f"{keeps}"}
    assert order not in {row["order"] for row in asked(house, "expected")}
    phone.context.close()
    video.unlink()
