"""The ledger: every batch sums to nothing, balances beside it, nothing taken back in secret."""

from collections import Counter
from datetime import timedelta

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import text
from sqlalchemy.exc import DBAPIError

from pantry.records import accounts, ledger
from pantry.records.accounts import COUNT_DIFFERENCE, GARDEN, MADE_INTO, SUPPLIER, WASTE
from pantry.records.database import writing
from pantry.records.ledger import Movement
from pantry.records.rows import add, put
from pantry.records.tables import BalanceRow, BatchRow, ChangeRow, MovementRow, PromiseRow
from tests.hazel_court import COLD_ROOM, DINNER, FREEZER, HOUR, ID, NOW, PANTRY, batch_row

KITCHEN = accounts.kitchen(DINNER)
HOLD = accounts.hold("cold-room")

places = st.sampled_from(
    [SUPPLIER, GARDEN, COLD_ROOM, FREEZER, PANTRY, HOLD, KITCHEN, MADE_INTO, WASTE, "served:x"]
)
hours = st.integers(0, 200).map(lambda hours: NOW - hours * HOUR)
movements = st.builds(
    Movement,
    batch=st.sampled_from(["milk", "flour", "extra"]),
    quantity=st.integers(1, 10**12),
    source=places,
    target=places,
    at=hours,
    pieces=st.none() | st.integers(0, 1000),
).filter(lambda movement: movement.source != movement.target)


def balances(house, batch="milk"):
    return {row.account: row.quantity for row in house.rows(BalanceRow, batch=batch)}


def test_LG1_a_movement_takes_from_one_account_and_gives_to_another(house):
    assert house.post("milk", 2_000_000, SUPPLIER, COLD_ROOM) == -2_000_000
    assert house.post("milk", 250_000, COLD_ROOM, KITCHEN) == 1_750_000
    assert house.post("milk", 250_000, KITCHEN, accounts.served(DINNER)) == 0
    assert balances(house) == {
        SUPPLIER: -2_000_000,
        COLD_ROOM: 1_750_000,
        KITCHEN: 0,
        accounts.served(DINNER): 250_000,
    }
    with house.books() as books:
        assert ledger.standing(books, "milk") == {COLD_ROOM: 1_750_000}
        assert KITCHEN not in ledger.balances(books, "milk")
        assert KITCHEN in ledger.accounts_of(books, "milk")
    assert house.disagreements() == []


@settings(
    max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(moved=st.lists(movements, min_size=1, max_size=25))
def test_LG1_every_batch_sums_to_zero_and_balances_are_the_movements_sums(house, moved):
    """Held against a sum made here, over everything that was ever moved."""
    with writing(house.database) as connection:
        if not house.rows(BatchRow, id="extra"):
            add(connection, batch_row("extra", "whole-milk", 0))
    answered = []
    with house.books() as books:
        answered.extend(ledger.post(books, movement).left for movement in moved)
    quantities, pieces = Counter(), Counter()
    for row in house.rows(MovementRow):
        for account, sign in ((row.source, -1), (row.target, 1)):
            quantities[row.batch, account] += sign * row.quantity
            pieces[row.batch, account] += sign * (row.pieces or 0)
    kept = house.rows(BalanceRow)
    assert {(r.batch, r.account): r.quantity for r in kept} == dict(quantities)
    assert {(r.batch, r.account): r.pieces for r in kept} == dict(pieces)
    for batch in ("milk", "flour", "extra"):
        assert sum(balances(house, batch).values()) == 0
    assert answered[-1] == quantities[moved[-1].batch, moved[-1].source]
    assert house.disagreements() == []


def test_LG1_a_movement_and_its_balances_are_written_together_or_not_at_all(house):
    with pytest.raises(ZeroDivisionError):
        _post_and_fail(house)
    assert house.rows(MovementRow) == []
    assert balances(house) == {}
    assert house.heads().change == 0


def _post_and_fail(house):
    with house.books() as books:
        ledger.post(books, Movement("milk", 5, SUPPLIER, COLD_ROOM, NOW))
        raise ZeroDivisionError


@pytest.mark.parametrize(
    ("quantity", "source", "target"),
    [(0, SUPPLIER, COLD_ROOM), (-5, SUPPLIER, COLD_ROOM), (5, COLD_ROOM, COLD_ROOM)],
)
def test_LG1_the_database_refuses_what_is_no_movement(house, quantity, source, target):
    with pytest.raises(DBAPIError):
        house.post("milk", quantity, source, target)
    assert house.rows(MovementRow) == []


@pytest.mark.parametrize("table", ["movement", "promise", "journal"])
@pytest.mark.parametrize("verb", ["UPDATE", "DELETE", "TRUNCATE"])
def test_LG1_LG2_SY2_what_was_written_is_never_changed_or_deleted(house, table, verb):
    if verb == "TRUNCATE" and house.database.dialect.name == "sqlite":
        pytest.skip("SQLite has no TRUNCATE; its DELETE of every row is tested beside this")
    house.post("milk", 5, SUPPLIER, COLD_ROOM)
    house.keep(1)
    promise = {"service": DINNER, "need": "need", "batch": "milk", "quantity": 5, "command": "c"}
    with writing(house.database) as connection:
        put(connection, PromiseRow, house=ID, number=1, **promise)
    statement = {
        "UPDATE": f"UPDATE {table} SET house = house",  # noqa: S608 - a table of ours
        "DELETE": f"DELETE FROM {table}",  # noqa: S608 - as above
        "TRUNCATE": f"TRUNCATE {table} CASCADE",
    }[verb]
    with (
        pytest.raises(DBAPIError, match=f"{table} rows are kept as they are"),
        writing(house.database) as connection,
    ):
        connection.execute(text(statement))


def test_LG1_every_movement_has_a_number_of_the_one_sequence(house):
    for _ in range(3):
        house.post("milk", 5, SUPPLIER, COLD_ROOM)
    numbers = [row.number for row in house.rows(MovementRow)]
    assert numbers == [1, 2, 3]
    changes = house.rows(ChangeRow)
    assert [(row.number, row.what, row.key) for row in changes] == [
        (number, "batch", "milk") for number in numbers
    ]


def test_LG3_a_fact_is_never_refused_for_what_the_books_say(house):
    assert house.post("milk", 5, COLD_ROOM, WASTE) == -5
    assert house.disagreements() == []


def test_LG4_a_correction_names_the_movement_it_reverses(house):
    house.post("milk", 5, SUPPLIER, COLD_ROOM, reason="typed twice")
    house.post("milk", 5, COLD_ROOM, SUPPLIER, reverses=1)
    (reversal,) = house.rows(MovementRow, reverses=1)
    assert (reversal.number, reversal.source, reversal.target) == (2, COLD_ROOM, SUPPLIER)
    assert set(balances(house).values()) == {0}


def test_MS1_an_item_that_is_counted_while_weighed_holds_both(house):
    """Two chickens, 3.46 kg; one is taken out."""
    house.post("extra", 3_460_000, SUPPLIER, COLD_ROOM, pieces=2000)
    house.post("extra", 1_700_000, COLD_ROOM, KITCHEN, pieces=1000)
    (row,) = house.rows(BalanceRow, batch="extra", account=COLD_ROOM)
    assert (row.quantity, row.pieces) == (1_760_000, 1000)


def test_MS1_quantities_are_whole_numbers_of_64_bits_to_the_last_one(house):
    """What a floating point number, or a REAL column, could not tell apart."""
    most = 2**63 - 1
    house.post("milk", most - 1, SUPPLIER, COLD_ROOM)
    house.post("milk", 1, SUPPLIER, COLD_ROOM)
    assert balances(house) == {SUPPLIER: -most, COLD_ROOM: most}
    assert house.disagreements() == []


@settings(
    max_examples=20, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(moved=st.lists(movements, max_size=20), at=hours)
def test_SY8_what_stood_at_an_instant_is_what_had_happened_by_then(house, moved, at):
    """Recorded in any order; by the instants at which things happened."""
    with house.books() as books:
        for movement in moved:
            ledger.post(books, movement)
    by_then = Counter()
    for row in house.rows(MovementRow, batch="milk"):
        if row.at <= at:
            by_then[row.source] -= row.quantity
            by_then[row.target] += row.quantity
    with house.books() as books:
        stood = ledger.balances_at(books, "milk", books.moment(at))
    assert {k: v for k, v in stood.items() if v} == {k: v for k, v in by_then.items() if v}


def test_SY8_what_happened_before_a_count_and_is_written_after_it_had_been_counted(house):
    """Taken out at nine, counted at ten, and the taking out is handed in at noon."""
    at = [NOW + timedelta(hours=hour) for hour in range(6)]
    house.post("milk", 2_000_000, SUPPLIER, COLD_ROOM, at=at[0])
    house.post("milk", 500_000, COLD_ROOM, COUNT_DIFFERENCE, at=at[3])
    with house.books() as books:
        ledger.counted(books, "milk", COLD_ROOM, books.moment(at[3]))
    house.post("milk", 500_000, COLD_ROOM, KITCHEN, at=at[2])
    assert balances(house) == {
        SUPPLIER: -2_000_000,
        COLD_ROOM: 1_500_000,
        COUNT_DIFFERENCE: 0,
        KITCHEN: 500_000,
    }
    house.post("milk", 100_000, COLD_ROOM, KITCHEN, at=at[4])
    assert balances(house)[COLD_ROOM] == 1_400_000
    assert house.disagreements() == []


def test_LG1_the_kinds_of_account():
    assert accounts.kind(HOLD) == "hold"
    assert accounts.place(HOLD) == "cold-room"
    assert accounts.place(WASTE) == ""
    assert accounts.place(KITCHEN) == DINNER
    assert accounts.is_usable(COLD_ROOM)
    assert accounts.is_usable(accounts.kitchen("chicken-stock"))
    assert not accounts.is_usable(KITCHEN), "what was taken out for a service is that service's"
    for account in (HOLD, WASTE, SUPPLIER, accounts.emergency("pantry"), accounts.transit("x")):
        assert not accounts.is_usable(account)
