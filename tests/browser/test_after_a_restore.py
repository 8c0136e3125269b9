"""A manager of a house that was restored sees whom it waits for, and goes on without them (SY7)."""

import shutil

import pytest
from playwright.sync_api import expect

from pantry.commands import door
from pantry.records.backup import back_up, restore
from pantry.records.database import open_database, reading, writing
from pantry.records.rows import every
from pantry.records.tables import HouseRow
from pantry.world import new_id, now
from tests.browser.conftest import PEOPLE
from tests.browser.servers import serving

PHONES = ("Back door phone", "Cellar phone")


@pytest.fixture
def restored(demo_folder, tmp_path, opened):
    """The demo house, in which two phones were enrolled, restored from its backup."""
    data = tmp_path / "house"
    shutil.copytree(demo_folder, data)
    file, backup = data / "chooseby.db", tmp_path / "last.backup"
    engine = open_database(f"sqlite:///{file}")
    with reading(engine) as connection:
        (house,) = every(connection, HouseRow)
    commands = [
        {
            "id": new_id(),
            "kind": "enrol_device",
            "at": now().isoformat(),
            "person": PEOPLE["manager"],
            "body": {"device": name, "name": name},
        }
        for name in PHONES
    ]
    with writing(engine) as connection:
        answers = door.apply(connection, house.id, commands, now().replace(microsecond=0))
    assert [answer.outcome for answer in answers] == ["applied", "applied"]
    back_up(engine, backup)
    engine.dispose()
    for part in data.glob("chooseby.db*"):
        part.unlink()
    engine = open_database(f"sqlite:///{file}")
    restore(engine, backup, new_id, now())
    engine.dispose()
    with serving(data) as served:
        yield served
        opened.leave()


def test_SY7_a_manager_sees_who_is_awaited_and_goes_on(opened, restored, clean):
    page = opened.as_role(restored, "manager", at="/people")
    section = page.locator("section", has_text="Awaited since the restore")
    expect(section.get_by_role("listitem")).to_have_count(2)
    clean(page)
    section.get_by_role("button", name="Go on without Back door phone").click()
    expect(section.get_by_role("button")).to_have_count(1)
    expect(section).to_contain_text("takes nothing new")
    section.get_by_role("button", name="Go on without Cellar phone").click()
    expect(section).to_contain_text("The house has gone on without these")
    expect(section.get_by_role("button")).to_have_count(0)
