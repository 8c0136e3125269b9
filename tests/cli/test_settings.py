"""What the environment sets."""

from pathlib import Path

import pytest

from pantry.refusals import NotAllowed, UnreadableInput
from pantry.terminal.settings import from_environment, present


def test_without_anything_said_the_books_are_in_the_user_s_data_folder(monkeypatch):
    # XDG Base Directory Specification 0.8
    monkeypatch.setenv("HOME", "/home/ann")
    settings = from_environment({})
    assert settings.data == Path("/home/ann/.local/share/chooseby")
    assert settings.database == "sqlite:////home/ann/.local/share/chooseby/chooseby.db"
    assert settings.house is None
    named = [settings.data_named, settings.database_named, settings.now_fixed]
    assert named == [False, False, False]


def test_the_shared_data_home_is_used_where_it_is_absolute(monkeypatch):
    monkeypatch.setenv("HOME", "/home/ann")
    assert from_environment({"XDG_DATA_HOME": "/srv"}).data == Path("/srv/chooseby")
    ignored = from_environment({"XDG_DATA_HOME": "here"}).data
    assert ignored == Path("/home/ann/.local/share/chooseby")


def test_a_data_folder_of_one_s_own_holds_the_database(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    settings = from_environment({"CHOOSEBY_DATA": "mine"})
    assert settings.data == tmp_path / "mine"
    assert settings.database == f"sqlite:///{tmp_path}/mine/chooseby.db"
    assert settings.data_named


def test_a_database_of_one_s_own_goes_before_the_data_folder():
    settings = from_environment({"CHOOSEBY_DATABASE_URL": "postgresql://host/house"})
    assert settings.database == "postgresql://host/house"
    assert settings.database_named


def test_what_is_empty_is_not_set():
    names = ("CHOOSEBY_DATA", "CHOOSEBY_DATABASE_URL", "CHOOSEBY_HOUSE", "CHOOSEBY_NOW")
    names += ("CHOOSEBY_HTTPS_NAMES", "CHOOSEBY_TRUST_PORT", "CHOOSEBY_PROXIES")
    assert from_environment(dict.fromkeys(names, "")) == from_environment({})


def test_a_fixed_instant_is_the_present(monkeypatch):
    monkeypatch.setenv("CHOOSEBY_NOW", "2027-03-10T08:00:00.5+01:00")
    assert present(from_environment()).isoformat() == "2027-03-10T07:00:00+00:00"


def test_a_fixed_instant_is_refused_in_production(monkeypatch):
    monkeypatch.setenv("CHOOSEBY_NOW", "2027-03-10T07:00:00Z")
    monkeypatch.setenv("CHOOSEBY_ENV", "production")
    with pytest.raises(NotAllowed) as refused:
        present(from_environment())
    assert refused.value.code == "now_refused"


@pytest.mark.parametrize("written", ["seven o'clock", "2027-03-10T07:00:00"])
def test_a_fixed_instant_that_is_none_is_refused(monkeypatch, written):
    monkeypatch.setenv("CHOOSEBY_NOW", written)
    with pytest.raises(UnreadableInput) as refused:
        present(from_environment())
    assert refused.value.code == "now_refused"
    assert refused.value.value == written
