"""What stands in the house, read from balances that hold years of what stands there no more."""

from collections import defaultdict
from datetime import timedelta
from fractions import Fraction

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import event

from pantry.records import accounts, ledger
from pantry.records.accounts import SUPPLIER, WASTE
from pantry.records.database import reading, writing
from pantry.records.ledger import Movement
from pantry.records.read import stock
from pantry.records.rows import add, every
from pantry.records.tables import BalanceRow, BatchRow, ItemRow
from pantry.rules.house_time import Span
from pantry.rules.stock import BaseUnit
from tests.hazel_court import COLD_ROOM, DINNER, FREEZER, ID, NOW, PANTRY, batch_row

HOLD = accounts.hold("cold-room")
EMERGENCY = accounts.emergency("pantry")
FOR_DINNER = accounts.kitchen(DINNER)
FOR_STOCK = accounts.kitchen("chicken-stock")
GONE = [WASTE, accounts.served(DINNER), accounts.transit("alder-court"), accounts.MADE_INTO]
PLACES = [COLD_ROOM, FREEZER, PANTRY, HOLD, EMERGENCY, FOR_DINNER, FOR_STOCK, *GONE]


def read(house, batches=None):
    with reading(house.database) as connection:
        return stock.standing(connection, ID, batches)


def rows_of(house, *items):
    with reading(house.database) as connection:
        return [row.id for row in stock.batch_rows(connection, ID, list(items))]


def test_on_hand_is_available_promised_hold_and_emergency(house):
    house.post("milk", 2_000, SUPPLIER, COLD_ROOM)
    for account, quantity in ((FREEZER, 100), (HOLD, 200), (EMERGENCY, 300), (FOR_STOCK, 50)):
        house.post("milk", quantity, COLD_ROOM, account)
    standing = read(house)["milk"]
    assert standing.shelf == {"cold-room": 1_350, "freezer": 100}
    assert standing.held == {"cold-room": 200}
    assert standing.kitchen == {"chicken-stock": 50}
    assert standing.emergency == 300
    assert standing.usable == 1_500
    assert standing.on_hand == 2_000


def test_LG2_what_was_taken_out_for_a_service_is_that_services(house):
    house.post("milk", 2_000, SUPPLIER, COLD_ROOM)
    house.post("milk", 500, COLD_ROOM, FOR_DINNER)
    assert read(house)["milk"].usable == 1_500


def test_AL1_what_is_gone_or_on_its_way_elsewhere_does_not_stand_there(house):
    house.post("milk", 2_000, SUPPLIER, COLD_ROOM)
    for account in GONE:
        house.post("milk", 500, COLD_ROOM, account)
    assert read(house) == {}
    assert rows_of(house, "whole-milk") == []


def test_LG3_a_shelf_that_holds_less_than_nothing_is_seen(house):
    house.post("milk", 500, COLD_ROOM, WASTE)
    assert read(house)["milk"].shelf == {"cold-room": -500}
    assert rows_of(house, "whole-milk") == ["milk"]


def test_another_houses_stock_is_not_read(house):
    house.post("milk", 500, SUPPLIER, COLD_ROOM)
    with reading(house.database) as connection:
        assert stock.standing(connection, "alder-court") == {}
        assert stock.batch_rows(connection, "alder-court", ["whole-milk"]) == []


def test_batches_of_which_nothing_stands_are_read_only_to_be_traced(house):
    house.post("milk", 500, SUPPLIER, COLD_ROOM)
    assert rows_of(house, "whole-milk", "plain-flour") == ["milk"]
    assert rows_of(house, "plain-flour") == []
    assert rows_of(house) == []
    with reading(house.database) as connection:
        assert [row.id for row in stock.batch_rows(connection, ID)] == ["milk"]


moved = st.lists(
    st.tuples(
        st.sampled_from(["milk", "flour", "b1", "b2", "b3"]),
        st.integers(1, 5),
        st.sampled_from([SUPPLIER, *PLACES]),
        st.sampled_from(PLACES),
    ).filter(lambda movement: movement[2] != movement[3]),
    max_size=30,
)


@settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(moved=moved)
def test_what_is_read_is_what_every_balance_together_says(house, moved):
    """Against every balance, read and sorted here by hand."""
    with writing(house.database) as connection:
        if not every(connection, BatchRow, house=ID, id="b1"):
            add(connection, *(batch_row(f"b{n}", "whole-milk", 0) for n in (1, 2, 3)))
    with house.books() as books:
        for batch, quantity, source, target in moved:
            ledger.post(books, Movement(batch, quantity, source, target, NOW))
    should = defaultdict(dict)
    for row in house.rows(BalanceRow):
        if row.quantity and accounts.kind(row.account) in accounts.PHYSICAL:
            should[row.batch][row.account] = row.quantity
    for found in (read(house), read(house, ["milk", "flour", "b1", "b2", "b3"])):
        assert {batch: _by_account(standing) for batch, standing in found.items()} == should
    milk = sorted(batch for batch in should if batch != "flour")
    assert rows_of(house, "whole-milk") == milk
    with reading(house.database) as connection:
        assert [row.id for row in stock.batch_rows(connection, ID)] == sorted(should)


def _by_account(standing):
    found = {
        **{accounts.area(place): quantity for place, quantity in standing.shelf.items()},
        **{accounts.hold(place): quantity for place, quantity in standing.held.items()},
        **{accounts.kitchen(place): quantity for place, quantity in standing.kitchen.items()},
        EMERGENCY: standing.emergency,
    }
    return {account: quantity for account, quantity in found.items() if quantity}


def test_what_stands_is_found_without_reading_where_it_came_from(sqlite_database):
    """By the index over what is not empty, a range for each kind of account that stands."""
    asked = []
    event.listen(sqlite_database, "before_cursor_execute", lambda *told: asked.append(told[2:4]))
    with reading(sqlite_database) as connection:
        stock.standing(connection, ID)
        stock.batch_rows(connection, ID, ["whole-milk"])
        stock.batch_rows(connection, ID)
        for statement, values in [each for each in asked if "balance" in each[0]]:
            plan = connection.exec_driver_sql(f"EXPLAIN QUERY PLAN {statement}", values).all()
            steps = [step for *_, step in plan if "balance" in step]
            assert len(steps) == len(accounts.PHYSICAL)
            for step in steps:
                assert "ix_balance_standing (house=? AND account>? AND account<?)" in step


def test_an_item_is_read_as_it_is_kept(house):
    with writing(house.database) as connection:
        add(
            connection,
            ItemRow(
                house=ID,
                id="olive-oil",
                name="Olive oil",
                base_unit="ml",
                density="183/200",
                whole=False,
                opened_life_days=60,
                contains="[]",
                may_contain='["nuts"]',
                free_of='["milk", "eggs"]',
                floor=500_000,
                order_up_to=2_000_000,
                daily_per_head=20_000,
            ),
        )
    with reading(house.database) as connection:
        items = stock.items(connection, ID, ["olive-oil", "nothing"])
        everything = stock.items(connection, ID)
    (oil,) = items.values()
    assert (oil.base_unit, oil.density, oil.piece_weight) == (
        BaseUnit("ml"),
        Fraction(183, 200),
        None,
    )
    assert oil.declared.may_contain == {"nuts"}
    assert oil.declared.free_of == {"milk", "eggs"}
    assert (oil.floor, oil.order_up_to, oil.daily_per_head) == (500_000, 2_000_000, 20_000)
    assert everything.keys() == {"olive-oil", "whole-milk", "plain-flour"}


@pytest.mark.parametrize(
    ("state", "pack", "sealed"),
    [
        ("sealed", 1_000, 1_000),
        ("sealed", None, None),
        ("opened", 1_000, 0),
        ("frozen", 1_000, 1_000),
        ("frozen", None, 0),
        ("thawed", 1_000, 0),
        ("made", 0, 0),
    ],
)
def test_SL3_only_what_is_still_sealed_is_opened_by_using_it(state, pack, sealed):
    row = batch_row("milk", "whole-milk", 2_000, sealed_quantity=pack)
    row.state, row.left = state, "P1DT2H"
    source = stock.source(row, 2_000)
    assert source.sealed_quantity == sealed
    assert (source.opened, source.frozen) == (state == "opened", state == "frozen")
    assert source.left == Span(1, timedelta(hours=2))


def test_AL1_what_is_recalled_or_only_on_hold_is_given_to_nobody():
    fine, recalled, held = (batch_row(name, "whole-milk", 5) for name in ("fine", "bad", "held"))
    recalled.recalled = True
    stands = {
        "fine": stock.Standing(shelf={"cold-room": 5}),
        "bad": stock.Standing(shelf={"cold-room": 5}),
        "held": stock.Standing(held={"cold-room": 5}, kept={"pantry": 5}),
    }
    found = stock.sources([fine, recalled, held], stands)
    assert [source.id for source in found["whole-milk"]] == ["fine"]
