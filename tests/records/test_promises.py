"""Promises: a second, append-only record in which only net differences are written (LG2)."""

from collections import Counter

from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sqlalchemy import event

from pantry.records.database import writing
from pantry.records.promises import settle, write_differences
from pantry.records.read.kitchen_part import held_by
from pantry.records.rows import add, change, remove
from pantry.records.tables import ChangeRow, NeedRow, PromisedRow, PromiseRow
from tests.hazel_court import DINNER, LUNCH, need_row, service_row

PUDDING, SAUCE = f"{DINNER}|rice-pudding", f"{LUNCH}|sauce"
SERVICE_OF = {PUDDING: DINNER, SAUCE: LUNCH}

wishes = st.dictionaries(
    st.tuples(st.sampled_from(list(SERVICE_OF)), st.sampled_from(["milk", "cream", "butter"])),
    st.integers(0, 1000),
    max_size=6,
)


def want(house, wanted, service_of=SERVICE_OF, *, command="command"):
    """One command after which these needs hold exactly this."""
    with house.books(command) as books:
        settle(books, held_by(books, list(SERVICE_OF)), wanted, service_of)
        write_differences(books)


def held(house):
    return {(row.need, row.batch): row.quantity for row in house.rows(PromisedRow)}


def written(house, **equal):
    return [(row.need, row.batch, row.quantity) for row in house.rows(PromiseRow, **equal)]


def test_LG2_only_net_differences_are_written(house):
    want(house, {(PUDDING, "milk"): 500, (SAUCE, "milk"): 100}, command="confirm")
    want(house, {(PUDDING, "milk"): 300, (SAUCE, "milk"): 100, (SAUCE, "cream"): 50}, command="two")
    assert written(house, command="confirm") == [(PUDDING, "milk", 500), (SAUCE, "milk", 100)]
    assert written(house, command="two") == [(PUDDING, "milk", -200), (SAUCE, "cream", 50)]
    assert held(house) == {(PUDDING, "milk"): 300, (SAUCE, "milk"): 100, (SAUCE, "cream"): 50}


def test_LG2_what_stays_as_it_is_writes_nothing(house):
    want(house, {(PUDDING, "milk"): 500})
    before = house.heads().change
    want(house, {(PUDDING, "milk"): 500}, command="again")
    assert written(house, command="again") == []
    assert house.heads().change == before


def test_LG2_what_one_command_takes_and_gives_back_writes_nothing(house):
    want(house, {(PUDDING, "milk"): 500})
    with house.books("there and back") as books:
        settle(books, held_by(books, [PUDDING]), {}, SERVICE_OF)
        settle(books, held_by(books, [PUDDING]), {(PUDDING, "milk"): 500}, SERVICE_OF)
        write_differences(books)
    assert written(house, command="there and back") == []
    assert held(house) == {(PUDDING, "milk"): 500}


def test_LG2_what_is_let_go_is_written_as_less_and_held_no_more(house):
    want(house, {(PUDDING, "milk"): 500})
    want(house, {}, command="serve")
    assert written(house, command="serve") == [(PUDDING, "milk", -500)]
    assert held(house) == {}


def test_LG2_a_need_that_goes_to_another_service_leaves_the_one_and_joins_the_other(house):
    want(house, {(PUDDING, "milk"): 500})
    want(house, {(PUDDING, "milk"): 500}, {PUDDING: LUNCH}, command="moved")
    rows = house.rows(PromiseRow, command="moved")
    assert {row.service: row.quantity for row in rows} == {DINNER: -500, LUNCH: 500}
    (row,) = house.rows(PromisedRow)
    assert (row.service, row.quantity) == (LUNCH, 500)


def test_AL2_a_pin_stays_while_the_quantity_changes(house):
    want(house, {(PUDDING, "milk"): 500})
    with writing(house.database) as connection:
        change(connection, PromisedRow, {"house": house.id}, pinned=True)
    want(house, {(PUDDING, "milk"): 400})
    (row,) = house.rows(PromisedRow)
    assert (row.quantity, row.pinned) == (400, True)


def test_SY6_every_difference_is_a_numbered_change_of_its_service(house):
    want(house, {(PUDDING, "milk"): 500, (SAUCE, "milk"): 100})
    changes = [(row.number, row.what, row.key) for row in house.rows(ChangeRow)]
    promises = [(row.number, "service", row.service) for row in house.rows(PromiseRow)]
    assert promises == changes


def test_LG2_what_is_held_is_asked_for_by_need(house):
    want(house, {(PUDDING, "milk"): 500, (SAUCE, "milk"): 100})
    with house.books() as books:
        assert {key: row.quantity for key, row in held_by(books, [SAUCE]).items()} == {
            (SAUCE, "milk"): 100
        }
        assert held_by(books, []) == {}


@settings(
    max_examples=15, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(steps=st.lists(wishes, min_size=1, max_size=6))
def test_LG2_what_is_held_is_always_the_sum_of_the_promises(house, steps):
    for number, wanted in enumerate(steps):
        want(house, wanted, command=f"command {number}")
        sums = Counter()
        for row in house.rows(PromiseRow):
            sums[row.need, row.batch] += row.quantity
        assert held(house) == {key: quantity for key, quantity in wanted.items() if quantity}
        assert held(house) == {key: quantity for key, quantity in sums.items() if quantity}
    assert all(row.quantity for row in house.rows(PromiseRow))


def test_LG2_promises_that_agree_with_their_needs_and_the_shelf_are_not_complained_of(house):
    house.post("milk", 2_000, "supplier", "area:cold-room")
    with writing(house.database) as connection:
        add(connection, service_row(DINNER), need_row(PUDDING, DINNER))
    want(house, {(PUDDING, "milk"): 500})
    assert house.disagreements() == []
    want(house, {})
    with writing(house.database) as connection:
        remove(connection, NeedRow, house=house.id, id=PUDDING)
    assert house.disagreements() == []


def test_LG2_what_is_held_is_written_in_one_statement_of_each_kind(house):
    asked = []
    event.listen(house.database, "before_cursor_execute", lambda *told: asked.append(told[2]))
    first = {(PUDDING, name): 100 for name in ("milk", "cream", "butter")}
    want(house, first)
    assert len([each for each in asked if "promised" in each and "SELECT" not in each]) == 1
    asked.clear()
    want(house, {(SAUCE, name): 100 for name in ("milk", "cream", "butter")})
    assert len([each for each in asked if "promised" in each and "SELECT" not in each]) == 2
    assert held(house) == {(SAUCE, name): 100 for name in ("milk", "cream", "butter")}
