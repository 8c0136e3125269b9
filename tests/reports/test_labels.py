"""Which batches want a label, and what their labels say."""

from pantry.records.database import writing
from pantry.records.rows import change
from pantry.records.tables import ItemRow, PackRow
from pantry.reports.code import code
from pantry.reports.house import house
from pantry.reports.labels import labels
from pantry.reports.stock import stock
from pantry.reports.trace import trace
from pantry.rules.label_numbers import numbered
from tests.commands.house import use_by
from tests.commands.larkfield import ID
from tests.reports.asking import told

MILK = "09521234543213"


def rows(lodge):
    return {row["batch"]: row for row in told(lodge, labels)}


def wanting(lodge):
    return {batch for batch, row in rows(lodge).items() if row["wants"]}


def milk(lodge, batch="m", **more):
    lodge.receive(batch, "whole-milk", "4 l", use_by(20), **more)


def test_what_was_treated_picked_or_came_today_without_a_code_wants_a_label(lodge):
    with writing(lodge.engine) as connection:
        change(connection, ItemRow, {"house": ID, "id": "butter"}, gtin=MILK)
    milk(lodge)
    lodge.receive("b", "butter", "1 kg", use_by(20))
    lodge.do("decant", {"batch": "m", "quantity": "1 l", "child": "jar"})
    lodge.do("harvest", {"batch": "r", "item": "rhubarb", "quantity": "3 kg", "area": "pantry"})
    assert wanting(lodge) == {"m", "jar", "r"}
    assert {batch: row["done"] for batch, row in rows(lodge).items()} == {
        "b": "receive",
        "jar": "decant",
        "m": "receive",
        "r": "harvest",
    }


def test_what_has_a_printed_or_a_numbered_label_wants_none(lodge):
    milk(lodge)
    for child in ("one", "two", "three"):
        more = {"label": numbered(1002)} if child == "three" else {}
        lodge.do("decant", {"batch": "m", "quantity": "1 l", "child": child, **more})
    lodge.do("print_labels", {"batches": ["one"]})
    lodge.do("bind_label", {"batch": "two", "label": numbered(1001)})
    assert wanting(lodge) == {"m"}
    found = rows(lodge)
    assert found["one"]["printed_at"] == "2027-03-08T07:00:00Z"
    assert found["two"]["numbered"] == [numbered(1001)]


def test_what_came_yesterday_is_asked_about_no_more(lodge):
    milk(lodge)
    lodge.now = lodge.now.replace(day=9)
    assert wanting(lodge) == set()


def test_SL3_its_dates_are_those_of_what_it_is_now(lodge):
    milk(lodge)
    lodge.do("open", {"batch": "m", "quantity": "2 l", "child": "o"})
    found = rows(lodge)
    assert found["m"]["dates"] == ["Use by Sat 20 Mar 2027"]
    assert found["o"]["dates"][1] == "On the pack: use by Sat 20 Mar 2027"
    assert found["o"]["dates"][0].startswith("Usable until ")


def test_every_way_of_naming_a_batch_finds_it_by_its_number(lodge):
    milk(lodge)
    lodge.do("bind_label", {"batch": "m", "label": numbered(1001)})
    (row,) = told(lodge, stock)
    assert row["numbered"] == [numbered(1001)]
    for text in (
        numbered(1001),
        f"]C0{numbered(1001)}",
        f"https://x.example/shelf/{numbered(1001)}",
    ):
        (match,) = told(lodge, code, text)[0]["matches"]
        assert (match["kind"], match["id"], match["label"]) == ("batch", "m", row["label"])
    (traced, *_) = told(lodge, trace, numbered(1001))
    assert traced["batch"] == "m"


def test_a_sealed_pack_with_number_and_lot_wants_no_label(lodge):
    with writing(lodge.engine) as connection:
        of = {"house": ID, "id": "hill-dairy/whole-milk/2-l-bottle"}
        change(connection, PackRow, of, gtin=MILK)
    milk(lodge, supplier="hill-dairy", pack="2 l bottle", packs=2, lot="C1")
    assert wanting(lodge) == set()


def test_a_phone_is_told_which_numbers_were_printed(lodge):
    def printed():
        (row,) = told(lodge, house)
        return row["numbers_printed"]

    assert printed() == []
    for count in (24, 1, 40):
        lodge.do("reserve_labels", {"count": count})
    assert printed() == [{"first": 1001, "last": 1065}]
    milk(lodge)
    lodge.do("bind_label", {"batch": "m", "label": numbered(5000)})
    lodge.do("reserve_labels", {"count": 2})
    assert printed() == [{"first": 1001, "last": 1065}, {"first": 5001, "last": 5002}]
