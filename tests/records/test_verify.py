"""Every kind of damage is said in plain words; books that agree are not complained of (SY11)."""

from pathlib import Path

import pytest
from sqlalchemy import text

from pantry.records.database import writing
from pantry.records.promises import settle, write_differences
from pantry.records.read.kitchen_part import held_by
from pantry.records.rows import add
from tests.hazel_court import COLD_ROOM, DINNER, PANTRY, House, found, need_row, service_row

PUDDING = f"{DINNER}|rice-pudding"


@pytest.fixture
def kept(house):
    """Hazel Court after a busy morning: deliveries, a confirmed dinner, commands of a phone."""
    house.post("milk", 2_000, "supplier", COLD_ROOM)
    house.post("flour", 1_500, "supplier", PANTRY, pieces=1)
    house.post("milk", 500, COLD_ROOM, "waste")
    with writing(house.database) as connection:
        add(connection, service_row(DINNER), need_row(PUDDING, DINNER))
    with house.books() as books:
        settle(books, held_by(books, [PUDDING]), {(PUDDING, "milk"): 1_000}, {PUDDING: DINNER})
        write_differences(books)
    for number in range(1, 4):
        house.keep(number)
    return house


@pytest.fixture
def damage(kept):
    """Change something by hand that nothing of ours would change; what verify then says."""

    def do(*statements):
        with writing(kept.database) as connection:
            _drop_guards(connection)
            for statement in statements:
                connection.execute(text(statement))
        said = kept.disagreements()
        unguarded = [each for each in said if "not guarded" in each]
        assert unguarded, "the guards are gone, and that is said first"
        assert said[: len(unguarded)] == unguarded
        return said[len(unguarded) :]

    return do


def _drop_guards(connection):
    if connection.dialect.name == "sqlite":
        found = connection.execute(text("SELECT name FROM sqlite_master WHERE type = 'trigger'"))
        for name in found.scalars().all():
            connection.execute(text(f"DROP TRIGGER {name}"))
    else:
        connection.execute(text("DROP FUNCTION kept_as_it_is CASCADE"))


def test_SY11_books_that_agree_are_not_complained_of(kept):
    assert kept.disagreements() == []


def test_SY11_nor_are_those_of_a_house_where_nothing_has_happened_yet(house):
    assert house.disagreements() == []


def test_SY11_guards_that_are_gone(damage):
    assert damage() == []


@pytest.mark.parametrize("verb", ["update", "delete"])
def test_SY11_one_guard_that_is_gone(kept, verb):
    on = "" if kept.database.dialect.name == "sqlite" else " ON movement"
    with writing(kept.database) as connection:
        connection.execute(text(f"DROP TRIGGER movement_no_{verb}{on}"))
    assert kept.disagreements() == [f"The rows of movement are not guarded against {verb}."]


@pytest.mark.postgres
def test_SY11_a_guard_that_is_only_switched_off(postgres_database):
    with writing(postgres_database) as connection:
        found(connection)
        connection.execute(text("ALTER TABLE journal DISABLE TRIGGER journal_no_delete"))
    assert House(postgres_database).disagreements() == [
        "The rows of journal are not guarded against delete."
    ]


def test_SY11_a_balance_that_was_written_by_hand(damage):
    said = damage("UPDATE balance SET quantity = 7 WHERE account = 'area:cold-room'")
    assert said[0] == ("Batch milk: the balance of area:cold-room says 7, its movements say 1500.")
    assert "Batch milk: its accounts come to -1493, and should come to nothing." in said
    assert "Batch milk: 1000 is promised, and 7 stands there." in said


def test_SY11_a_balance_that_is_gone_and_one_that_nothing_made(damage):
    said = damage(
        "DELETE FROM balance WHERE account = 'area:pantry'",
        "INSERT INTO balance (house, batch, account, quantity, pieces)"
        " SELECT id, 'flour', 'area:freezer', 1500, 1 FROM house",
    )
    assert said == [
        "Batch flour: the balance of area:freezer says 1500, its movements say 0.",
        "Batch flour: the balance of area:freezer says 1 pieces, its movements say 0.",
        "Batch flour: the balance of area:pantry says 0, its movements say 1500.",
        "Batch flour: the balance of area:pantry says 0 pieces, its movements say 1.",
    ]


def test_MS1_SY11_pieces_that_were_written_by_hand(damage):
    said = damage("UPDATE balance SET pieces = 3 WHERE account = 'area:pantry'")
    assert said == ["Batch flour: the balance of area:pantry says 3 pieces, its movements say 1."]


def test_SY11_a_movement_that_was_altered(damage):
    said = damage("UPDATE movement SET quantity = 400 WHERE target = 'waste'")
    assert said == [
        "Batch milk: the balance of area:cold-room says 1500, its movements say 1600.",
        "Batch milk: the balance of waste says 500, its movements say 400.",
    ]


def test_SY11_a_movement_that_is_gone(damage):
    said = damage("DELETE FROM movement WHERE target = 'waste'")
    assert "Batch milk: the balance of waste says 500, its movements say 0." in said


def test_SY11_a_movement_and_its_balances_that_were_given_to_another_batch(damage):
    """The sums agree; the change of that number was of another batch."""
    said = damage(
        "UPDATE movement SET batch = 'milk' WHERE batch = 'flour'",
        "UPDATE balance SET batch = 'milk' WHERE batch = 'flour' AND account = 'area:pantry'",
        "DELETE FROM balance WHERE batch = 'flour'",
        "UPDATE balance SET quantity = quantity - 1500, pieces = -1 WHERE account = 'supplier'",
    )
    assert said == ["Movement 2 is not the change of that number."]


def test_SY11_a_movement_of_a_batch_that_is_not_there(damage):
    said = damage("DELETE FROM batch WHERE id = 'flour'")
    assert said == ["Batch flour: it was moved, and nothing says what it is."]


def test_SY11_a_promise_that_was_altered(damage):
    said = damage("UPDATE promise SET quantity = 900")
    assert said == [f"{PUDDING}: it holds 1000 of batch milk, the promises come to 900."]


def test_SY11_a_promise_that_is_gone(damage):
    said = damage("DELETE FROM promise")
    assert said == [f"{PUDDING}: it holds 1000 of batch milk, the promises come to 0."]


def test_SY11_a_promise_to_another_service(damage):
    assert damage("UPDATE promise SET service = 'another'") == [
        "Promise 4 is not the change of that number."
    ]


def test_SY11_what_is_held_without_a_promise(damage):
    assert damage("UPDATE promised SET batch = 'flour'") == [
        f"{PUDDING}: it holds 1000 of batch flour, the promises come to 0.",
        f"{PUDDING}: it holds 0 of batch milk, the promises come to 1000.",
    ]


def test_SY11_what_is_held_by_a_need_that_is_not_there(damage):
    assert damage("DELETE FROM need") == [
        f"{PUDDING}: it holds of batch milk, and is not wanted by any service."
    ]


@pytest.mark.parametrize("account", ["hold:cold-room", "kitchen:2027-03-13/dinner/family"])
def test_SY11_more_is_promised_than_stands_where_it_may_be_used(kept, account):
    kept.post("milk", 600, COLD_ROOM, account)
    assert kept.disagreements() == ["Batch milk: 1000 is promised, and 900 stands there."]


@pytest.mark.parametrize(
    "column",
    [
        "kind = 'waste'",
        "person = 'mabel'",
        "envelope = '{}'",
        "outcome = 'refused'",
        "answer = '{}'",
        "id = 'another'",
        "n = 9",
        "device = 'tablet'",
        "at = recorded_at, recorded_at = '2027-03-11 07:00:00.000000'",
    ],
)
def test_SY11_a_command_in_the_journal_that_was_altered(damage, column):
    said = damage(f"UPDATE journal SET {column} WHERE position = 2")  # noqa: S608 - ours
    assert said[0].startswith("The journal was altered at or before position 2 (")
    others = said[1:]
    assert all("Wilf's phone" in each for each in others), "and nothing but the phone's count"


def test_SY11_every_command_after_the_altered_one_is_still_believed(damage):
    assert damage("UPDATE journal SET answer = '{}' WHERE position IN (1, 3)") == [
        "The journal was altered at or before position 1 (receive).",
        "The journal was altered at or before position 3 (receive).",
    ]


def test_SY11_a_command_that_is_gone_from_the_middle(damage):
    said = damage("DELETE FROM journal WHERE position = 2")
    assert said == [
        "The journal goes from position 1 to 3.",
        "The journal was altered at or before position 3 (receive).",
        "Wilf's phone: its outbox counts to 3, and the journal keeps 2.",
    ]


def test_SY11_a_command_that_is_gone_from_the_end(damage):
    said = damage("DELETE FROM journal WHERE position = 3")
    assert said == [
        "The journal ends at 2, the house's row says 3.",
        "The journal's last link is not the one in the house's row.",
        "Wilf's phone: its outbox counts to 3, and the journal keeps 2.",
    ]


def test_SY11_a_chain_that_was_made_anew_from_another_command_on(damage):
    """Whoever makes all links after it anew still has to alter the house's row."""
    said = damage("UPDATE journal SET chain = 'made anew' WHERE position = 3")
    assert said == [
        "The journal was altered at or before position 3 (receive).",
        "The journal's last link is not the one in the house's row.",
    ]


@pytest.mark.parametrize(
    ("statement", "said"),
    [
        ("DELETE FROM change WHERE number = 3", "3 are there up to 4"),
        ("DELETE FROM change WHERE number = 1", "3 are there up to 4"),
        ("DELETE FROM change WHERE number = 4", "3 are there up to 4"),
        ("UPDATE house SET change = 5", "4 are there up to 5"),
        ("UPDATE change SET number = 9 WHERE number = 4", "4 are there up to 4"),
    ],
)
def test_SY6_SY11_numbered_changes_with_a_gap(damage, statement, said):
    assert f"The numbered changes have a gap: {said}." in damage(statement)


def test_SY11_a_phone_whose_outbox_counts_further_than_the_journal_is_named(damage):
    assert damage("UPDATE device SET highest = 5") == [
        "Wilf's phone: its outbox counts to 5, and the journal keeps 3."
    ]


def test_SY11_two_phones_of_one_name_are_counted_apart(kept):
    with writing(kept.database) as connection:
        connection.execute(
            text(
                "INSERT INTO device (house, id, name, highest, revoked, enrolled_at)"
                " SELECT house, 'second', name, 3, revoked, enrolled_at FROM device"
            )
        )
    assert kept.disagreements() == [
        "Wilf's phone: its outbox counts to 3, and the journal keeps 0."
    ]


def test_SY6_SY11_one_house_is_verified_without_the_other(kept):
    with writing(kept.database) as connection:
        found(connection, "alder-court")
        connection.execute(text("UPDATE house SET change = 9 WHERE id = 'alder-court'"))
    assert kept.disagreements() == []


@pytest.fixture
def written(sqlite_database):
    """Hazel Court with some stock in a file that nobody has open."""
    with writing(sqlite_database) as connection:
        found(connection)
    house = House(sqlite_database)
    for _ in range(40):
        house.post("milk", 5, "supplier", COLD_ROOM)
    return house


def test_SY11_a_file_whose_index_does_not_say_what_the_table_says(written):
    with writing(written.database) as connection:
        connection.execute(text("PRAGMA writable_schema = ON"))
        connection.execute(
            text(
                "UPDATE sqlite_master SET sql = replace(sql, ', lot)', ', label)')"
                " WHERE name = 'ix_batch_lot'"
            )
        )
    written.database.dispose()
    said = written.disagreements()
    assert said
    assert all(each.startswith("The database file is damaged: ") for each in said)
    assert "ix_batch_lot" in said[0]


def test_SY11_a_file_that_was_overwritten_in_the_middle(written):
    with writing(written.database) as connection:
        connection.execute(text("SELECT 1"))
        where = connection.execute(
            text("SELECT rootpage FROM sqlite_master WHERE name = 'movement'")
        ).scalar()
        size = connection.execute(text("PRAGMA page_size")).scalar()
    written.database.dispose()
    with Path(written.database.url.database).open("r+b") as file:
        file.seek((where - 1) * size)
        file.write(b"\xff" * size)
    said = written.disagreements()
    assert said[-1] == "The books cannot be read to the end: database disk image is malformed."
