"""A house book is imported whole or not at all, and the house works on from it."""

import json
import shutil
from datetime import UTC, date, datetime, timedelta
from pathlib import Path
from uuid import UUID, uuid5

import pytest

from pantry.commands import door
from pantry.commands.book.check import check_book
from pantry.commands.book.files import read_book
from pantry.commands.book.founding import found_house
from pantry.commands.book.known import known
from pantry.commands.book.sheets import as_body, from_body
from pantry.records.database import open_database, reading, writing
from pantry.records.rows import every, find, one, table
from pantry.records.schema import bring_up_to_date
from pantry.records.tables import (
    AwayRow,
    BalanceRow,
    BatchRow,
    ChangeRow,
    ConstraintRow,
    DeliveryRuleRow,
    HarvestRow,
    HouseRow,
    IngredientRow,
    ItemRow,
    JournalRow,
    MovementRow,
    NeedRow,
    OrderLineRow,
    OrderRow,
    PackRow,
    PromisedRow,
    QuestionRow,
    RecipeRow,
    RotaRow,
    ServiceRow,
    ServingRow,
    SQLModel,
    StayRow,
    SupplierRow,
    VariantRow,
)
from pantry.records.verify import disagreements
from pantry.refusals import FaultyBook
from tests.commands.cottage import NOW, body, places, with_row

ID = "gull-cottage"
FIRST = "018f0000-0000-7000-8000-000000000001"
SECOND = "018f0000-0000-7000-8000-000000000002"
FRIDAY = "2027-03-12/dinner/family"
TOMORROW = "2027-03-11/lunch/guests"


class Cottage:
    """A database, and the cottage in it once its book has been imported."""

    def __init__(self, engine):
        self.engine = engine

    def found(self, sheets):
        with writing(self.engine) as connection:
            return found_house(connection, from_body(sheets), "first", at=NOW)

    def give(self, sheets, command=FIRST, person="Una Shaw", at=NOW):
        envelope = {"id": command, "kind": "import_book", "at": at.isoformat(), "person": person}
        with writing(self.engine) as connection:
            (answer,) = door.apply(connection, ID, [envelope | {"body": {"sheets": sheets}}], at)
        return answer

    def do(self, sheets, command=FIRST):
        answer = self.give(sheets, command)
        assert answer.outcome == "applied", answer.problem
        return answer

    def rows(self, model, **equal):
        with reading(self.engine) as connection:
            return every(connection, model, house=ID, **equal)

    def row(self, model, **equal):
        (found,) = self.rows(model, **equal)
        return found

    def house(self):
        with reading(self.engine) as connection:
            return one(connection, HouseRow, id=ID)

    def balances(self):
        labels = {row.id: row.label for row in self.rows(BatchRow)}
        return {(labels[row.batch], row.account): row.quantity for row in self.rows(BalanceRow)}

    def promised(self):
        """What each service holds of each batch, by its label, in thousandths."""
        labels = {row.id: row.label for row in self.rows(BatchRow)}
        found = {}
        for row in self.rows(PromisedRow):
            key = row.service, labels[row.batch]
            found[key] = found.get(key, 0) + row.quantity
        return found

    def everything(self):
        """Every row of every table, as it can be compared."""
        with reading(self.engine) as connection:
            return {
                name: connection.execute(declared.select()).all()
                for name, declared in SQLModel.metadata.tables.items()
            }


@pytest.fixture(scope="session")
def bare(tmp_path_factory):
    """A database without a house, copied for every test that wants one."""
    path = tmp_path_factory.mktemp("bare") / "cottage.db"
    _with(path, bring_up_to_date)
    return path


@pytest.fixture(scope="session")
def imported(bare, tmp_path_factory):
    """A database with the cottage's book in it, copied for every test that wants one."""
    path = tmp_path_factory.mktemp("imported") / "cottage.db"
    shutil.copy(bare, path)

    def bring(engine):
        Cottage(engine).found(body())
        Cottage(engine).do(body())

    _with(path, bring)
    return path


def _with(path, work):
    """Work on a database file, and leave everything in that one file."""
    engine = open_database(f"sqlite:///{path}")
    work(engine)
    with engine.connect() as connection:
        connection.exec_driver_sql("PRAGMA wal_checkpoint(TRUNCATE)")
    engine.dispose()


@pytest.fixture
def empty(bare, tmp_path):
    shutil.copy(bare, tmp_path / "empty.db")
    engine = open_database(f"sqlite:///{tmp_path / 'empty.db'}")
    yield Cottage(engine)
    engine.dispose()


@pytest.fixture
def cottage(imported, tmp_path):
    """The cottage with its book imported; at the end of every test its books must agree."""
    shutil.copy(imported, tmp_path / "cottage.db")
    engine = open_database(f"sqlite:///{tmp_path / 'cottage.db'}")
    yield Cottage(engine)
    with reading(engine) as connection:
        assert disagreements(connection, ID) == []
    engine.dispose()


def test_a_house_is_founded_from_its_sheet(cottage):
    house = cottage.house()
    assert (house.id, house.name, house.zone) == (ID, "Gull Cottage", "Europe/Dublin")
    assert (house.notice, house.warning, house.last_call) == ("PT48H", "PT12H", "PT1H30M")
    assert (house.receiving_margin, house.people) == ("PT1H", 3)
    assert (house.policy, house.allergen_list, house.currency) == ("uk", "eu14", "EUR")


def test_a_house_is_founded_once(empty):
    assert empty.found(body()) == ID
    assert empty.found(body()) == ID
    assert empty.house().epoch == "first"


def test_settings_that_are_left_out_are_the_usual_ones(empty):
    sheets = body()
    for column in ("warning", "last_call", "receiving_margin", "people"):
        sheets["house"][0][column] = ""
    empty.found(sheets)
    house = empty.house()
    assert (house.warning, house.last_call) == ("PT24H", "PT2H")
    assert (house.receiving_margin, house.people) == ("PT0S", 0)


def test_no_house_is_founded_on_a_faulty_sheet_and_every_fault_of_the_book_is_named(empty):
    sheets = body()
    sheets["house"][0]["currency"] = "EURO"
    sheets["tables"][0]["rank"] = "top"
    with pytest.raises(FaultyBook) as refused:
        empty.found(sheets)
    assert [each.column for each in refused.value.faults] == ["currency", "rank"]
    with reading(empty.engine) as connection:
        assert find(connection, HouseRow, id=ID) is None


def test_LG1_every_batch_stands_where_its_row_says_and_its_accounts_sum_to_zero(cottage):
    shelf = {key: q for key, q in cottage.balances().items() if key[1] != "opening_stock"}
    assert shelf == {
        ("M-1", "area:fridge"): 2_000_000,
        ("M-2", "area:fridge"): 400_000,
        ("F-1", "area:larder"): 3_000_000,
        ("E-1", "area:fridge"): 24_000,
        ("H-1", "area:freezer"): 1_200_000,
        ("W-1", "area:larder"): 1_500_000,
        ("P-1", "area:fridge"): 284_131,  # 1/2 imperial pint is 284.130625 ml exactly
    }
    assert sum(cottage.balances().values()) == 0


def test_a_batch_s_id_follows_from_the_command_and_its_label(cottage):
    row = cottage.row(BatchRow, label="M-2")
    assert row.id == str(uuid5(UUID(FIRST), "M-2"))
    assert (row.item, row.supplier, row.cost, row.lot) == ("whole-milk", "bay-dairy", 52, "L76")


def test_an_item_knows_its_facts_exactly(cottage):
    milk = cottage.row(ItemRow, id="whole-milk")
    assert (milk.base_unit, milk.density, milk.group, milk.area) == (
        "ml",
        "1031/1000",
        "dairy",
        "fridge",
    )
    assert (milk.floor, milk.order_up_to, milk.daily_per_head) == (2_000_000, 6_000_000, 200_000)
    assert (milk.gtin, milk.high_risk, milk.whole) == ("05012345678900", True, False)
    assert cottage.row(ItemRow, id="salt").measured is False


def test_AL3_a_filled_contains_declares_the_whole_label_and_an_empty_one_nothing(cottage):
    def declared(item):
        row = cottage.row(ItemRow, id=item)
        return [set(json.loads(each)) for each in (row.contains, row.may_contain, row.free_of)]

    contains, may_contain, free_of = declared("rhubarb")
    assert (contains, may_contain) == (set(), set())
    # The fourteen of Regulation (EU) No 1169/2011, Annex II, and the kinds it names.
    assert {"milk", "eggs", "nuts", "almond", "celery", "cereals containing gluten"} <= free_of
    assert declared("apple-juice") == [set(), set(), set()]
    contains, may_contain, free_of = declared("walnuts")
    assert (contains, may_contain) == ({"walnut"}, {"nuts"})
    assert not {"walnut", "nuts", "almond"} & free_of
    assert "milk" in free_of
    _, _, free_of = declared("plain-flour")
    assert "barley" in free_of
    assert not {"wheat", "cereals containing gluten"} & free_of


def test_AL3_a_word_on_no_list_leaves_everything_else_unknown(empty):
    sheets = body()
    sheets["items"][0]["contains"] = "milk; peanutz"
    empty.found(sheets)
    empty.do(sheets)
    row = empty.row(ItemRow, id="whole-milk")
    assert json.loads(row.contains) == ["milk", "peanutz"]
    assert json.loads(row.free_of) == []


def test_a_preparation_in_no_sheet_of_items_is_an_item_of_its_own(cottage):
    item = cottage.row(ItemRow, id="pancake-batter")
    assert (item.name, item.base_unit, item.area) == ("Pancake batter", "ml", "fridge")
    recipe = cottage.row(RecipeRow, id="pancake-batter")
    assert (recipe.makes, recipe.yields, recipe.lead) == ("pancake-batter", "1000", "PT30M")


def test_MS2_amounts_are_kept_as_written_and_exactly(cottage):
    lines = {row.item: row for row in cottage.rows(IngredientRow, recipe="pancake-batter")}
    # 1 imperial pint is 568.26125 ml, 8 oz are 226.796185 g (NIST Handbook 44, appendix C).
    assert (lines["whole-milk"].written, lines["whole-milk"].amount) == ("1 pint", "454609/800")
    assert lines["plain-flour"].amount == "45359237/200000"
    assert lines["eggs"].amount == "3", "of a range the larger is planned for"
    assert (lines["salt"].written, lines["salt"].amount) == ("a pinch", "0")
    hake = {row.item: row for row in cottage.rows(IngredientRow, recipe="hake-in-milk")}
    assert hake["hake-fillet"].trimming_yield == "9/10"
    assert hake["whole-milk"].scaling == "fixed"


def test_a_pack_knows_its_ladder_from_its_quantity_or_its_name(cottage):
    packs = {row.id: row for row in cottage.rows(PackRow)}
    crate = packs["bay-dairy/whole-milk/crate-of-6-x-1-l"]
    assert (crate.quantity, crate.sealed_quantity, crate.price) == (6_000_000, 1_000_000, 720)
    wine = packs["hill-stores/red-wine/case-of-6-x-750-ml"]
    assert (wine.quantity, wine.sealed_quantity) == (4_500_000, 750_000)
    assert packs["hill-stores/eggs/tray-of-30"].sealed_quantity == 30_000


def test_LG2_an_imported_confirmed_service_is_promised_what_it_needs(cottage):
    # Friday: two of four portions of hake, 600 g trimmed at 0.9, so 333 1/3 g as bought, which
    # can be thawed by then; 300 ml of milk whatever the number, of what is usable on that day.
    assert cottage.promised()[FRIDAY, "H-1"] == 333_333
    assert cottage.promised()[FRIDAY, "M-1"] == 300_000
    # Tomorrow: three portions of pancakes, one without nuts; the batter that is made covers part.
    needs = {row.id: row.quantity for row in cottage.rows(NeedRow, service=TOMORROW)}
    assert needs[f"{TOMORROW}|main|pancakes|pancake-batter"] == 400_000
    assert needs[f"{TOMORROW}|main|pancakes|pancake-batter|without nuts"] == 200_000
    assert needs[f"{TOMORROW}|main|pancakes|walnuts"] == 30_000
    assert sum(q for (_, label), q in cottage.promised().items() if label == "P-1") == 284_131


def test_a_service_keeps_what_was_chosen_of_its_menu(cottage):
    def menu(service):
        rows = cottage.rows(ServingRow, service=service)
        return [(row.dish, row.variant, row.portions, row.chosen) for row in rows]

    assert menu(FRIDAY) == [("hake-in-milk", None, None, True)]
    assert menu(TOMORROW) == [
        ("pancakes", "without nuts", 1, True),
        ("pancakes", None, 2, True),
    ]
    assert menu("2027-03-13/dinner/family") == [
        ("pancakes", "with apple", None, False),
        ("hake-in-milk", None, None, False),
        ("rhubarb-fool", None, None, False),
    ]
    assert menu("2027-03-09/dinner/family") == [("pancakes", None, None, True)]
    states = {row.id: row.state for row in cottage.rows(ServiceRow)}
    assert states["2027-03-09/dinner/family"] == "served"
    assert states["2027-03-14/dinner/guests"] == "taken_off"
    assert cottage.row(ServiceRow, id=FRIDAY).at == datetime(2027, 3, 12, 19, 30, tzinfo=UTC)
    assert cottage.rows(NeedRow, service="2027-03-09/dinner/family") == []


def test_AL3_the_chef_is_asked_about_a_confirmed_menu_that_somebody_cannot_eat(cottage):
    # Nell cannot eat nuts; the pancakes are on the menu without them too, so she has her own dish.
    assert cottage.rows(QuestionRow) == []


def test_AL3_a_menu_without_a_safe_dish_is_asked_about(empty):
    sheets = body()
    sheets["choices"][3]["variant"] = ""
    sheets["choices"][3]["portions"] = "3"
    del sheets["choices"][4]
    empty.found(sheets)
    empty.do(sheets)
    question = empty.row(QuestionRow)
    assert (question.kind, question.owner, question.about) == ("allergen", "chef", TOMORROW)
    assert "Nell cannot eat nuts" in question.against
    assert "without nuts" in question.against


def test_rows_for_one_delivery_are_one_order(cottage):
    orders = {row.id: row for row in cottage.rows(OrderRow)}
    assert set(orders) == {"bay-dairy/2027-03-12", "hill-stores/2027-03-11"}
    assert orders["bay-dairy/2027-03-12"].delivery_at == datetime(2027, 3, 12, 7, tzinfo=UTC)
    lines = cottage.rows(OrderLineRow, purchase_order="bay-dairy/2027-03-12")
    assert {(row.item, row.packs, row.quantity) for row in lines} == {
        ("whole-milk", 1, 6_000_000),
        ("creme-fraiche", 2, 1_000_000),
    }


def test_calendars_harvest_and_constraints_are_as_the_sheets_say(cottage):
    rules = cottage.rows(DeliveryRuleRow, supplier="bay-dairy")
    assert [(row.weekday, row.at, row.cutoff_at) for row in rules] == [
        (0, "07:00", "17:00"),
        (2, "07:00", "17:00"),
        (4, "07:00", "17:00"),
    ]
    store = cottage.row(SupplierRow, id="hill-stores")
    assert (store.minimum, store.charge, store.may_fail, store.send_minutes) == (
        2000,
        450,
        True,
        30,
    )
    harvest = cottage.row(HarvestRow)
    assert (harvest.first, harvest.last, harvest.quantity) == (
        date(2027, 3, 12),
        date(2027, 3, 20),
        3_000_000,
    )
    foods = {row.id: json.loads(row.cannot_eat) for row in cottage.rows(ConstraintRow)}
    assert foods == {"guests|nell": ["fish", "nuts"], "guests|nell|2": ["Crème fraîche"]}


def test_who_comes_who_is_away_and_who_eats_when_are_as_the_sheets_say(cottage):
    ann, walkers = sorted(cottage.rows(StayRow), key=lambda row: row.first)
    assert (ann.who, ann.heads, ann.first_at, ann.last, ann.last_at) == (
        "Ann Weir",
        1,
        "dinner",
        date(2027, 3, 14),
        "13:00",
    )
    assert (ann.said_by, ann.said_at) == ("Una Mullen", datetime(2027, 3, 8, 18, 30, tzinfo=UTC))
    assert (walkers.last, walkers.said_by, walkers.said_at) == (None, "Una Shaw", NOW)
    away = cottage.row(AwayRow)
    assert (away.first, away.last, away.meal) == (date(2027, 3, 11), date(2027, 3, 11), "lunch")
    assert json.loads(cottage.row(RotaRow).lines) == [
        {"weekday": 0, "meal": "", "heads": 4},
        {"on": "2027-03-15", "meal": "lunch", "heads": 0},
    ]


def test_menus_that_stand_follow_what_a_book_says_and_its_own_keep_their_numbers(cottage):
    saturday = "2027-03-13/dinner/family"
    assert cottage.row(ServiceRow, id=saturday).covers == 2  # as the book has it
    assert cottage.rows(QuestionRow, kind="covers_said") == []
    sheets = {"stays": [{"who": "Ann Weir", "table": "Family", "heads": "3", "from": "2027-03-12"}]}
    cottage.do(sheets, SECOND)
    assert [row.heads for row in cottage.rows(StayRow, who="Ann Weir")] == [1, 3]
    assert cottage.row(ServiceRow, id=saturday).covers == 2  # another number than was said before
    (question,) = cottage.rows(QuestionRow, kind="covers_said")
    assert (question.about, question.against[:10]) == (FRIDAY, "5, not 2, ")


def test_what_was_said_is_not_said_again_by_the_same_book(cottage):
    said = cottage.rows(StayRow) + cottage.rows(AwayRow) + cottage.rows(RotaRow)
    again = {name: rows for name, rows in body().items() if name in {"stays", "away", "rota"}}
    cottage.do(again, SECOND)
    assert cottage.rows(StayRow) + cottage.rows(AwayRow) + cottage.rows(RotaRow) == said


@pytest.mark.parametrize(
    ("sheet", "cells", "column"),
    [
        ("stays", {"who": "ANN weir", "table": "family", "from": "2027-03-12"}, "from"),
        (
            "away",
            {"who": "Oisin", "table": "Family", "from": "2027-03-11", "meal": "Lunch"},
            "from",
        ),
        ("rota", {"table": "Guests", "weekday": "Mon", "heads": "2"}, "weekday"),
    ],
)
def test_nothing_is_said_twice_in_one_book(sheet, cells, column):
    sheets = with_row(sheet, **cells)
    last = len(sheets[sheet]) + 1
    code = "rota_line_twice" if sheet == "rota" else "name_twice"
    assert places(sheets) == [(sheet, last, column, code)]


def test_nothing_is_written_on_a_fault_but_the_command_and_its_refusal(empty):
    sheets = body()
    empty.found(sheets)
    before = empty.everything()
    sheets["people"][1]["role"] = "butler"  # in the last sheet that is read
    answer = empty.give(sheets)
    assert answer.outcome == "refused"
    assert answer.problem.code == "book_faulty"
    (fault,) = answer.problem.faults
    assert (fault.file, fault.row, fault.column, fault.value) == ("people", 3, "role", "butler")
    after = empty.everything()
    assert [len(rows) for rows in (after["journal"], before["journal"])] == [1, 0]
    assert {n: r for n, r in after.items() if n not in ("journal", "house")} == {
        n: r for n, r in before.items() if n not in ("journal", "house")
    }


def test_SY2_the_same_command_again_gets_the_first_answer_faults_included(empty):
    sheets = body()
    empty.found(sheets)
    sheets["people"][1]["role"] = "butler"
    assert empty.give(sheets) == empty.give(sheets)
    assert len(empty.rows(JournalRow)) == 1


def test_the_same_command_on_another_database_writes_the_same_rows(cottage, empty):
    empty.found(body())
    empty.do(body())
    assert empty.everything() == cottage.everything()


def test_importing_again_names_what_is_there_already(cottage):
    before = cottage.everything()
    answer = cottage.give(body(), SECOND)
    assert answer.outcome == "refused"
    places = {(each.file, each.column, each.code) for each in answer.problem.faults}
    assert places == {
        ("batches", "label", "already_there"),
        ("services", "date", "already_there"),
        ("orders", "delivery_date", "already_there"),
    }
    assert cottage.everything()["batch"] == before["batch"]


def _master_data():
    sheets = body()
    for name in ("batches", "services", "choices", "orders"):
        del sheets[name]
    return sheets


def test_what_the_house_has_by_the_same_name_is_replaced_and_the_rest_stays(cottage):
    sheets = {
        "items": [{"item": "PLAIN flour", "base_unit": "g", "area": "Fridge", "floor": "5 kg"}],
        "tables": [{"table": "Kitchen", "rank": "3"}],
        "deliveries": [
            {
                "supplier": "Bay Dairy",
                "weekday": "Tuesday",
                "time": "06:00",
                "cutoff_days_before": "1",
                "cutoff_time": "12:00",
            }
        ],
    }
    cottage.do(sheets, SECOND)
    flour = cottage.row(ItemRow, id="plain-flour")
    assert (flour.name, flour.area, flour.floor, flour.version) == (
        "PLAIN flour",
        "fridge",
        5_000_000,
        2,
    )
    assert flour.last_command == SECOND
    assert cottage.row(ItemRow, id="whole-milk").version == 1
    assert [row.weekday for row in cottage.rows(DeliveryRuleRow, supplier="bay-dairy")] == [1]
    assert len(cottage.rows(DeliveryRuleRow, supplier="hill-stores")) == 1
    noted = {(row.what, row.key) for row in cottage.rows(ChangeRow, position=2)}
    assert {("item", "plain-flour"), ("table", "kitchen"), ("supplier", "bay-dairy")} <= noted


def test_the_same_master_data_again_changes_nothing_but_versions(cottage):
    before = cottage.everything()
    cottage.do(_master_data(), SECOND)
    after = cottage.everything()
    for name in ("area", "pack", "ingredient", "variant", "closure", "delivery_rule", "promised"):
        plain = [
            [
                tuple(v for k, v in row._mapping.items() if k not in ("version", "last_command"))
                for row in rows[name]
            ]
            for rows in (before, after)
        ]
        assert plain[0] == plain[1], name


def test_what_no_sheet_says_stays_as_it_was(cottage):
    with writing(cottage.engine) as connection:
        low = table(ItemRow).update().where(table(ItemRow).c.id == "salt").values(level="low")
        connection.execute(low)
        label = table(PackRow).update().where(table(PackRow).c.item == "walnuts")
        connection.execute(label.values(contains='["walnut"]'))
        connection.execute(table(HarvestRow).update().values(gathered=400_000))
    cottage.do(_master_data(), SECOND)
    assert cottage.row(ItemRow, id="salt").level == "low"
    assert cottage.row(PackRow, item="walnuts").contains == '["walnut"]'
    assert cottage.row(HarvestRow).gathered == 400_000


def test_LG2_a_recipe_that_is_replaced_changes_what_a_confirmed_service_needs(cottage):
    common = {"recipe": "Hake in milk"}
    lines = [
        common | {"ingredient": "Hake fillet", "amount": "400 g"},
        common | {"ingredient": "Whole milk", "amount": "200 ml"},
    ]
    cottage.do({"ingredients": lines}, SECOND)
    assert cottage.promised()[FRIDAY, "H-1"] == 200_000
    assert cottage.promised()[FRIDAY, "M-1"] == 100_000


def test_a_recipe_whose_ingredients_are_replaced_keeps_no_variant_of_the_old_ones(cottage):
    line = {"recipe": "Pancakes", "ingredient": "Pancake batter", "amount": "800 ml"}
    variant = {"recipe": "Pancakes", "variant": "Without nuts", "change": "add"}
    variant |= {"ingredient": "Rhubarb", "amount": "50 g"}
    cottage.do({"ingredients": [line], "variants": [variant]}, SECOND)
    assert [row.variant for row in cottage.rows(VariantRow)] == ["Without nuts"]


def test_a_house_keeps_its_currency_zone_and_name_and_an_item_its_base_unit(cottage):
    with reading(cottage.engine) as connection:
        stands = known(connection, ID)
    sheets = _master_data()
    sheets["house"][0] |= {"name": "Tern Cottage", "currency": "GBP", "time_zone": "UTC"}
    sheets["house"][0]["people"] = "5"
    sheets["items"][0]["base_unit"] = "g"
    sheets["suppliers"] = []
    sheets["packs"] = []
    found = check_book(from_body(sheets), stands, at=NOW)
    assert [(each.column, each.code) for each in found][:3] == [
        ("name", "another_house"),
        ("time_zone", "house_fixed"),
        ("currency", "house_fixed"),
    ]
    assert ("base_unit", "base_unit_fixed") in [(each.column, each.code) for each in found]


def test_settings_can_be_imported_again(cottage):
    sheets = {"house": body()["house"]}
    sheets["house"][0] |= {"people": "5", "notice": "3 d"}
    cottage.do(sheets, SECOND)
    house = cottage.house()
    assert (house.people, house.notice, house.version) == (5, "P3D", 2)
    assert house.position == 2


def test_a_book_may_name_what_only_the_house_has(cottage):
    sheets = {
        "batches": [
            {
                "label": "M-9",
                "item": "whole milk",
                "quantity": "1 l",
                "area": "fridge",
                "date_kind": "use_by",
                "date": "2027-03-12",
                "supplier": "bay dairy",
            }
        ]
    }
    cottage.do(sheets, SECOND)
    assert cottage.row(BatchRow, label="M-9").sealed_quantity == 1_000_000
    assert cottage.balances()["M-9", "area:fridge"] == 1_000_000


def test_only_a_manager_imports_a_book(cottage):
    answer = cottage.give({"tables": [{"table": "Kitchen", "rank": "3"}]}, SECOND, "Bran Healy")
    assert (answer.outcome, answer.problem.code) == ("refused", "role_lacking")


def test_LG5_a_confirmed_service_long_past_is_promised_nothing(empty):
    sheets = body()
    empty.found(sheets)
    assert empty.give(sheets, at=NOW + timedelta(days=30)).outcome == "applied"
    assert empty.rows(NeedRow) == []


SEED = Path(__file__).parents[2] / "seed"


def test_the_demo_house_is_imported_without_a_fault(empty):
    book = read_book(SEED)
    assert book.faults == ()
    assert check_book(book, at=NOW) == ()
    with writing(empty.engine) as connection:
        house = found_house(connection, book, "first", at=NOW)
        command = {"id": FIRST, "kind": "import_book", "at": NOW.isoformat(), "person": ""}
        (answer,) = door.apply(
            connection, house, [command | {"body": {"sheets": as_body(book)}}], NOW
        )
    assert answer.outcome == "applied", answer.problem
    with reading(empty.engine) as connection:
        assert disagreements(connection, house) == []
        assert len(every(connection, BatchRow, house=house)) == len(book.sheets["batches"].rows)
        moved = every(connection, MovementRow, house=house)
        assert {row.source for row in moved} == {"opening_stock"}


def test_a_sheet_of_the_command_is_read_as_the_rows_of_a_spreadsheet():
    sheets = with_row("tables", table="Kitchen", rank="nobody knows")
    sheets["tables"].insert(0, {})
    (fault,) = check_book(from_body(sheets), at=NOW)
    assert fault.row == 5
