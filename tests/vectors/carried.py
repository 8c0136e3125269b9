"""What in a house carries a code, as the house finds it: written down for the client to find too.

`PYTHONPATH=. python tests/vectors/carried.py` writes `carried_codes.json` anew.
"""

import json
import tempfile
from pathlib import Path

from pantry.records.database import reading, writing
from pantry.records.rows import change
from pantry.records.tables import ItemRow, PackRow
from pantry.refusals import Refusal
from pantry.reports.code import code
from pantry.reports.items import items
from pantry.reports.stock import stock
from pantry.reports.view import view
from pantry.rules.house_time import local_date
from pantry.rules.label_numbers import numbered
from tests.commands.house import House, use_by
from tests.commands.larkfield import ID, found_database, open_copy

FILE = Path(__file__).with_name("carried_codes.json")

MILK = "09521234543213"
CASE = "19521234543210"
WEIGHED = "99521234543216"
"""With indicator 9: of goods sold by measure (GS1 General Specifications, section 2.1)."""
SHOP = "2012301928752"

ITEM_KEYS = ["id", "item", "unit", "counted", "gtin", "density_g_per_ml", "piece_weight_g", "packs"]
STOCK_KEYS = ["item", "item_id", "batch", "label", "numbered", "lot", "on_hand"]

SCANS = {
    "a bottle": MILK.lstrip("0"),
    "a bottle by its EAN-13 as the camera says it": f"]E0{MILK.lstrip('0')}",
    "a case": CASE,
    "a case by its ITF-14": f"]I1{CASE}",
    "a bottle with a lot that stands here": f"]C101{MILK}17270331" + "10L1",
    "a lot of which nothing stands": f"]d201{MILK}10L9",
    "a weight in kilograms": f"]C101{WEIGHED}3103001250",
    "a weight in pounds": f"]C101{WEIGHED}3202000275",
    "a volume of what is weighed": f"]C101{WEIGHED}3153000750",
    "a volume in fluid ounces": f"]C101{WEIGHED}3570000012",
    "a volume in quarts": f"]C101{WEIGHED}3601000015",
    "a volume in gallons": f"]C101{WEIGHED}3612000125",
    "so many pieces of what is weighed": f"]d201{WEIGHED}3012",
    "so many bottles inside a unit": f"]C102{MILK}3724",
    "a shop's own number": SHOP,
    "a link": f"https://id.gs1.org/01/{MILK}/10/L2",
    "a label": "B-0241",
    "a label in Code 128, as the camera says it": "]C0B-0241",
    "a label in a QR code, as the camera says it": "]Q1B-0241",
    "the link on a label": "https://larkfield.home.arpa/shelf/B-0241",
    "a numbered label": f"]C0{numbered(1001)}",
    "a numbered label typed without its hyphen": numbered(1001).replace("-", ""),
    "the link on a numbered label": f"]Q1https://larkfield.home.arpa/shelf/{numbered(1001)}",
    "a numbered label that is misread": numbered(1001).replace("1001", "1007"),
    "a label written as no code is": " Milk of Monday ",
    "a number that nobody has": "6291041500213",
    "a wrong check digit": "9521234543214",
    "no code": "two boxes of plums",
}


def carried(folder: Path) -> dict[str, object]:
    """A lodge with numbers on its things, what it says of them, and what carries each scan."""
    lodge = _lodge(folder)
    with reading(lodge.engine) as connection:
        seen = view(connection, ID, lodge.now)
        told = {
            "note": "Made by carried.py: what stands in a house, and what in it carries a code.",
            "today": local_date(seen.now, seen.zone).isoformat(),
            "items": [{key: row[key] for key in ITEM_KEYS} for row in items(seen)],
            "stock": [{key: row[key] for key in STOCK_KEYS} for row in stock(seen)],
            "cases": [
                {"name": name, "scan": scan, **_found(seen, scan)} for name, scan in SCANS.items()
            ],
        }
    lodge.engine.dispose()
    return told


def _found(seen, scan):
    try:
        (row,) = code(seen, scan)
    except Refusal as refusal:
        return {"refused": refusal.code}
    return {"matches": row["matches"]}


def _lodge(folder: Path) -> House:
    lodge = House(open_copy(found_database(folder / "founded.db"), folder / "lodge.db"))
    _number(lodge, PackRow, "hill-dairy/whole-milk/2-l-bottle", MILK)
    _number(lodge, PackRow, "hill-dairy/whole-milk/crate-of-6-x-2-l", CASE)
    _number(lodge, ItemRow, "whole-milk", MILK, density="103/100")
    _number(lodge, ItemRow, "butter", WEIGHED, density="911/1000", piece_weight="250")
    _number(lodge, ItemRow, "plain-flour", SHOP)
    lodge.receive("m", "whole-milk", "2 l", use_by(12), lot="L1")
    lodge.receive("n", "whole-milk", "1.5 l", use_by(13), lot="L2")
    lodge.receive("b", "butter", "250 g", lot="L1", label="B-0241")
    lodge.receive("o", "whole-milk", "1 l", use_by(12), label="Milk of Monday")
    lodge.do("bind_label", {"batch": "n", "label": numbered(1001)})
    return lodge


def _number(lodge, model, id_, gtin, **more):
    with writing(lodge.engine) as connection:
        change(connection, model, {"house": ID, "id": id_}, gtin=gtin, **more)


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as made:
        FILE.write_text(json.dumps(carried(Path(made)), indent=1) + "\n", encoding="utf-8")
