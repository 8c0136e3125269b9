"""The authority and the server's certificate as files: who can read them, and when they change."""

from datetime import UTC, datetime, timedelta

import pytest
from cryptography.hazmat.primitives import hashes

from pantry.refusals import Refusal
from pantry.trust.kept import KeptTrust
from pantry.trust.names import read_names

NOW = datetime(2026, 11, 26, 12, tzinfo=UTC)
NAMES = read_names("pantry.home.arpa")


@pytest.fixture
def kept(tmp_path):
    return KeptTrust(tmp_path / "data")


def refused(kept, names=NAMES, now=NOW):
    with pytest.raises(Refusal) as found:
        kept.authority(names, now)
    return found.value.code


def mode(file):
    return file.stat().st_mode & 0o777


def shown(kept, now=NOW, names=NAMES):
    return kept.server_certificate(kept.authority(names, now), names, now).certificate


def test_SY12_nobody_else_can_read_the_keys(kept):
    shown(kept)
    assert mode(kept.folder) == 0o700
    assert mode(kept.authority_key_file) == 0o600
    assert mode(kept.server_file) == 0o600
    assert {file.name for file in kept.folder.iterdir()} == {
        "authority.pem",
        "authority-key.pem",
        "server.pem",
    }


def test_SY12_the_authority_is_made_once(kept):
    first = kept.authority(NAMES, NOW)
    again = KeptTrust(kept.folder.parent).authority(NAMES, NOW + timedelta(days=1_000))
    assert again.fingerprint == first.fingerprint
    assert first.fingerprint == first.certificate.fingerprint(hashes.SHA256()).hex(":").upper()


def test_SY12_a_key_that_others_can_read_is_not_used(kept):
    kept.authority(NAMES, NOW)
    kept.authority_key_file.chmod(0o640)
    assert refused(kept) == "key_not_private"


def test_SY12_half_an_authority_is_not_replaced_by_another(kept):
    """Every phone would have to trust it again, and the other half may be in a safe place."""
    kept.authority(NAMES, NOW)
    kept.authority_key_file.unlink()
    assert refused(kept) == "authority_unreadable"
    kept.authority_key_file.write_bytes(b"no key")
    kept.authority_key_file.chmod(0o600)
    assert refused(kept) == "authority_unreadable"


def test_SY12_the_key_of_another_authority_is_none(kept, tmp_path):
    kept.authority(NAMES, NOW)
    other = KeptTrust(tmp_path / "other")
    other.authority(NAMES, NOW)
    kept.authority_key_file.write_bytes(other.authority_key_file.read_bytes())
    assert refused(kept) == "authority_unreadable"


def test_SY12_a_name_that_the_authority_may_not_vouch_for_is_refused(kept):
    kept.authority(NAMES, NOW)
    assert refused(kept, read_names("larder.example.org")) == "names_outside_authority"
    assert refused(kept, read_names("192.0.2.20")) == "names_outside_authority"
    kept.make_authority_anew(read_names("larder.example.org, 192.0.2.20"), NOW)
    kept.authority(read_names("192.0.2.20"), NOW)


def test_SY12_an_authority_that_has_ended_is_refused(kept):
    ends = kept.authority(NAMES, NOW).ends
    assert refused(kept, now=ends + timedelta(seconds=1)) == "authority_ended"


def test_SY12_the_certificate_is_kept_until_a_new_one_is_due(kept):
    first = shown(kept)
    assert shown(kept, NOW + timedelta(days=200)) == first
    assert shown(kept, NOW + timedelta(days=300)) != first
    other = shown(kept, NOW, read_names("pantry.home.arpa, cellar.home.arpa"))
    assert other != first


@pytest.mark.parametrize("broken", [b"", b"nonsense"])
def test_SY12_a_certificate_that_cannot_be_read_is_made_again(kept, broken):
    shown(kept)
    kept.server_file.write_bytes(broken)
    assert shown(kept).not_valid_after_utc > NOW
