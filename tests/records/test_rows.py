"""Rows go in and come out as they are, of every table, on both databases."""

from datetime import date, datetime, timedelta, timezone

import pytest
from sqlalchemy import BigInteger, Boolean, Date, DateTime, Integer, LargeBinary, String
from sqlalchemy.exc import IntegrityError, StatementError

from pantry.records import rows
from pantry.records.database import reading, writing
from pantry.records.rows import add, among, change, every, find, one, put, remove, stream, table
from pantry.records.tables import AreaRow, BatchRow, HouseRow, MovementRow, SQLModel
from tests.hazel_court import ID, NOW, batch_row

MODELS = sorted(
    (mapper.class_ for mapper in SQLModel._sa_registry.mappers), key=lambda model: model.__name__
)
SUMMER = timezone(timedelta(hours=1))
TO_THE_MICROSECOND = datetime(2027, 6, 10, 8, 30, 15, 123456, tzinfo=SUMMER)
TEXT = "Ærø’s ½ l 'crème' \\ %s :x ? \" 味噌"
KINDS = {
    "base_unit": "ml",
    "level": "low",
    "kind": {"area": "chilled", "recipe": "dish"},
    "certainty": "may_contain",
    "state": {"batch": "frozen", "service": "confirmed", "purchase_order": "received"},
    "date_kind": "use_by",
    "link": "assumed",
    "verdict": "hold",
    "warmth": {"receipt": "ask", "temperature": "too_warm"},
    "outcome": "kept",
    "owner": "chef",
    "role": "porter",
    "dating": "preserved",
    "scaling": "fixed",
    "change": {"variant": "leave_out"},
    "what": {"closure": "no_orders"},
    "holiday_delivery": "day_after",
    "unit_system": "metric",
    "unit": {"waste_without_batch": "ml"},
    "charge_for": "tax",
    "agreed": {"invoice_agreed": "credit"},
    "decimal_mark": ",",
    "stage": "last_call",
    "why": {"alert": "ordered"},
    "target": "waste",
    "zone": "Europe/London",
    "house": ID,
}
"""What a column must be where a CHECK says so, by its name and where need be its table."""


def sample(column):
    """A value that only comes back if nothing is rounded, cut or moved to another zone."""
    kind = KINDS.get(column.name)
    if isinstance(kind, dict):
        kind = kind.get(column.table.name)
    if kind is not None:
        return kind
    by_type = (
        (BigInteger, 2**53 + 1),
        (Boolean, True),
        (Integer, 2**31 - 1),
        (DateTime, TO_THE_MICROSECOND),
        (Date, date(2028, 2, 29)),
        (String, TEXT),
        (LargeBinary, bytes(range(256))),
    )
    of_type = getattr(column.type, "impl", column.type)
    return next(value for type_, value in by_type if isinstance(of_type, type_))


def filled(model):
    return {column.name: sample(column) for column in table(model).columns}


@pytest.mark.parametrize("way", ["add", "put"])
def test_MS1_SL1_what_goes_in_comes_out_of_every_table(database, way):
    with writing(database) as connection:
        for model in sorted(MODELS, key=lambda model: model is not HouseRow):
            values = filled(model) | ({"id": ID} if model is HouseRow else {})
            if way == "add":
                add(connection, model(**values))
            else:
                put(connection, model, **values)
    for model in MODELS:
        with reading(database) as connection:
            (row,) = every(connection, model)
        for column in table(model).columns:
            value = ID if model is HouseRow and column.name == "id" else sample(column)
            came_out = getattr(row, column.name)
            assert came_out == value, column
            assert type(came_out) is type(value), column
            if isinstance(value, datetime):
                assert came_out.utcoffset() == timedelta(0), f"{column} comes back in UTC"


def test_there_is_a_sample_for_every_table():
    assert len(MODELS) == len(SQLModel.metadata.tables) >= 30


def test_SL1_an_instant_without_a_zone_is_refused(house):
    batch = batch_row("cream", "cream", 5)
    batch.since = datetime(2027, 3, 10)  # noqa: DTZ001 - that is what is refused
    with pytest.raises(StatementError), writing(house.database) as connection:
        add(connection, batch)


def test_rows_are_found_by_what_their_columns_equal(house):
    with reading(house.database) as connection:
        assert [row.id for row in every(connection, AreaRow, house=ID, kind="chilled")] == [
            "cold-room"
        ]
        assert every(connection, AreaRow, house="nowhere") == []
        assert find(connection, AreaRow, house=ID, kind="frozen").id == "freezer"
        assert find(connection, AreaRow, house=ID, id="cellar") is None
        assert one(connection, AreaRow, house=ID, id="pantry").name == "Pantry"
        with pytest.raises(LookupError, match="no area"):
            one(connection, AreaRow, house=ID, id="cellar")


def test_a_column_that_equals_nothing_is_asked_for_with_none(house):
    """`= NULL` would find none."""
    with reading(house.database) as connection:
        found = [row.id for row in every(connection, AreaRow, house=ID, max_tenths=None)]
        assert found == ["pantry"]
        cold = every(connection, AreaRow, house=ID, max_tenths=50)
        assert [row.id for row in cold] == ["cold-room"]


def test_rows_come_in_the_order_of_their_key(house):
    with reading(house.database) as connection:
        assert [row.id for row in every(connection, AreaRow)] == ["cold-room", "freezer", "pantry"]


def test_rows_among_many_values_are_found(house, monkeypatch):
    with reading(house.database) as connection:
        found = among(connection, AreaRow, ID, "id", ["pantry", "cellar", "cold-room"])
        assert [row.id for row in found] == ["cold-room", "pantry"]
        assert among(connection, AreaRow, ID, "id", []) == []
        monkeypatch.setattr(rows, "_MOST_VALUES", 2)
        found = among(connection, AreaRow, ID, "kind", ["frozen", "chilled", "chilled", "ambient"])
        assert [row.id for row in found] == ["cold-room", "freezer", "pantry"]


def test_more_values_than_a_statement_has_room_for_are_asked_for_in_parts(house):
    many = [f"cellar {number}" for number in range(70_000)]
    with reading(house.database) as connection:
        found = [row.id for row in among(connection, AreaRow, ID, "id", [*many, "pantry"])]
    if found != ["pantry"]:  # a statement of this length is not to be printed
        pytest.fail(f"{len(found)} rows were found")


def test_rows_are_changed_and_removed_where_their_columns_equal(house):
    with writing(house.database) as connection:
        change(connection, AreaRow, {"house": ID, "id": "pantry"}, name="Larder", shelf_order=3)
        remove(connection, AreaRow, house=ID, kind="frozen")
    rows = {row.id: (row.name, row.shelf_order) for row in house.rows(AreaRow)}
    assert rows == {"cold-room": ("Cold room", 0), "pantry": ("Larder", 3)}


def test_a_column_can_be_found_by_what_it_is_changed_from(house):
    with writing(house.database) as connection:
        change(connection, AreaRow, {"house": ID, "name": "Pantry"}, name="Larder")
    assert [row.name for row in house.rows(AreaRow, id="pantry")] == ["Larder"]


def test_rows_of_several_tables_are_added_together(house):
    with writing(house.database) as connection:
        add(connection)
        add(
            connection,
            AreaRow(house=ID, id="cellar", name="Cellar", kind="ambient"),
            batch_row("claret", "claret", 750_000),
            AreaRow(house=ID, id="attic", name="Attic", kind="ambient"),
        )
    assert [row.id for row in house.rows(AreaRow)][:2] == ["attic", "cellar"]
    assert house.rows(BatchRow, id="claret")


def test_the_same_key_twice_is_refused(house):
    with pytest.raises(IntegrityError), writing(house.database) as connection:
        add(connection, AreaRow(house=ID, id="pantry", name="Pantry", kind="ambient"))


def test_years_of_rows_are_read_a_part_at_a_time(house, monkeypatch):
    monkeypatch.setattr(rows, "_CHUNK", 7)
    with house.books() as books:
        for number in range(50):
            put(
                books.connection,
                MovementRow,
                house=ID,
                number=books.note("batch", "milk"),
                batch="milk",
                quantity=number + 1,
                source="supplier",
                target="waste",
                at=NOW,
                recorded_at=NOW,
                command="c",
                link="scanned",
            )
    with reading(house.database) as connection:
        quantities = [row["quantity"] for row in stream(connection, MovementRow, house=ID)]
    assert quantities == list(range(1, 51))
