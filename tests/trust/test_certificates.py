"""What the house's certificates say, and whom they convince: other people's verifiers.

The verifiers are that of `cryptography` (RFC 5280, the profile of the web) and OpenSSL's, by
Python's `ssl`.
"""

import socket
import ssl
import threading
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address

import pytest
from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding, NoEncryption, PrivateFormat
from cryptography.x509.oid import ExtendedKeyUsageOID, NameOID
from cryptography.x509.verification import PolicyBuilder, Store, VerificationError

from pantry.trust import authority as roots
from pantry.trust.authority import make_authority
from pantry.trust.names import read_names
from pantry.trust.server_certificate import (
    EARLY,
    is_to_be_renewed,
    make_server_certificate,
)

NOW = datetime(2026, 11, 26, 12, tzinfo=UTC)
NAMES = read_names("pantry.home.arpa, kitchen.local, 192.0.2.20")
WITHOUT_ADDRESSES = read_names("pantry.home.arpa")
FOREIGN = ["pantry.example.org", "home.arpa.example.org", "192.0.2.21", "2001:db8::1"]


@pytest.fixture(scope="module")
def authority():
    return make_authority(NAMES, NOW)


def extension(certificate, kind):
    return certificate.extensions.get_extension_for_class(kind)


def general(host):
    try:
        return x509.IPAddress(ip_address(host))
    except ValueError:
        return x509.DNSName(host)


def verified(authority, shown, host, now=NOW):
    store = Store([authority.certificate])
    builder = PolicyBuilder().store(store).time(now)
    return builder.build_server_verifier(general(host)).verify(shown.certificate, [])


def greeted(authority, shown, host, tmp_path):
    """What OpenSSL makes of a greeting by this certificate; raises where it is not believed."""
    file = tmp_path / "shown.pem"
    key = shown.key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())
    file.write_bytes(shown.certificate.public_bytes(Encoding.PEM) + key)
    server = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    server.load_cert_chain(file)
    here, there = socket.socketpair()
    here.settimeout(10)
    there.settimeout(10)

    def answer():
        try:
            server.wrap_socket(there, server_side=True).close()
        except OSError:
            there.close()

    thread = threading.Thread(target=answer)
    thread.start()
    client = ssl.create_default_context(
        cadata=authority.certificate.public_bytes(Encoding.PEM).decode()
    )
    try:
        with client.wrap_socket(here, server_hostname=host) as greeting:
            return greeting.getpeercert()
    finally:
        here.close()
        thread.join()


def test_SY12_the_authority_may_sign_servers_of_this_house_and_nothing_else(authority):
    """RFC 5280, sections 4.2.1.3, 4.2.1.9 and 4.2.1.10."""
    root = authority.certificate
    basic = extension(root, x509.BasicConstraints)
    assert (basic.critical, basic.value) == (True, x509.BasicConstraints(ca=True, path_length=0))
    use = extension(root, x509.KeyUsage)
    assert use.critical
    assert (use.value.key_cert_sign, use.value.digital_signature) == (True, False)
    limits = extension(root, x509.NameConstraints)
    assert limits.critical
    permitted = [str(tree.value) for tree in limits.value.permitted_subtrees]
    assert permitted == ["home.arpa", "local", "192.0.2.20/32"]
    assert [str(tree.value) for tree in limits.value.excluded_subtrees] == ["::/0"]
    assert isinstance(root.public_key().curve, ec.SECP256R1)
    assert root.subject.get_attributes_for_oid(NameOID.COMMON_NAME)


def test_SY12_the_servers_certificate_is_as_browsers_want_it(authority):
    """At most 397 days (CA/Browser Forum, from memory), a subject alternative name, for servers."""
    shown = make_server_certificate(authority, NAMES, NOW).certificate
    assert shown.not_valid_after_utc - shown.not_valid_before_utc <= timedelta(days=397)
    assert shown.not_valid_before_utc < NOW
    alternative = extension(shown, x509.SubjectAlternativeName).value
    assert [str(each.value) for each in alternative] == [*NAMES.domains, "192.0.2.20"]
    purposes = list(extension(shown, x509.ExtendedKeyUsage).value)
    assert purposes == [ExtendedKeyUsageOID.SERVER_AUTH]
    assert not extension(shown, x509.BasicConstraints).value.ca


@pytest.mark.parametrize("host", ["pantry.home.arpa", "kitchen.local", "192.0.2.20"])
def test_SY12_two_verifiers_believe_it_for_the_names_of_the_house(authority, host, tmp_path):
    shown = make_server_certificate(authority, NAMES, NOW)
    assert verified(authority, shown, host)[-1] == authority.certificate
    assert greeted(authority, make_server_certificate(authority, NAMES, _today()), host, tmp_path)


def _today():
    return datetime.now(UTC)  # noqa: TID251 - OpenSSL goes by the machine's clock


@pytest.mark.parametrize("host", FOREIGN)
@pytest.mark.parametrize("named", [NAMES, WITHOUT_ADDRESSES])
def test_SY12_a_name_outside_the_constraints_convinces_nobody(named, host, tmp_path):
    """Whoever has stolen the key cannot pose as anybody else with it."""
    stolen = make_authority(named, _today())
    shown = make_server_certificate(stolen, read_names(host), _today())
    with pytest.raises(VerificationError):
        verified(stolen, shown, host, _today())
    with pytest.raises(ssl.SSLCertVerificationError, match=r"permitted|excluded"):
        greeted(stolen, shown, host, tmp_path)


def test_SY12_another_authority_of_the_same_name_convinces_nobody(authority):
    other = make_server_certificate(make_authority(NAMES, NOW), NAMES, NOW)
    with pytest.raises(VerificationError):
        verified(authority, other, "pantry.home.arpa")


def test_SY12_an_authority_below_this_one_convinces_nobody(authority):
    """A path length of 0 (RFC 5280, section 4.2.1.9)."""
    key = ec.generate_private_key(ec.SECP256R1())
    name = roots.common_name("below")
    issuer = x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.key.public_key())
    below = roots.Authority(
        roots.begun(name, authority.certificate.subject, NOW, NOW + timedelta(days=300))
        .public_key(key.public_key())
        .add_extension(x509.BasicConstraints(ca=True, path_length=None), critical=True)
        .add_extension(roots.usage(signs_certificates=True), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .add_extension(issuer, critical=False)
        .sign(authority.key, hashes.SHA256()),
        key,
    )
    shown = make_server_certificate(below, NAMES, NOW)
    builder = PolicyBuilder().store(Store([authority.certificate])).time(NOW)
    verifier = builder.build_server_verifier(x509.DNSName("pantry.home.arpa"))
    with pytest.raises(VerificationError):
        verifier.verify(shown.certificate, [below.certificate])


def test_SY12_a_new_certificate_is_due_well_before_the_end(authority):
    shown = make_server_certificate(authority, NAMES, NOW)
    due = shown.certificate.not_valid_after_utc - EARLY
    assert timedelta(days=30) <= EARLY
    assert not is_to_be_renewed(shown, authority, NAMES, due - timedelta(seconds=1))
    assert is_to_be_renewed(shown, authority, NAMES, due)
    assert is_to_be_renewed(shown, authority, NAMES, NOW - timedelta(days=2))


def test_SY12_other_names_or_another_authority_need_a_new_certificate(authority):
    shown = make_server_certificate(authority, NAMES, NOW)
    assert is_to_be_renewed(shown, authority, WITHOUT_ADDRESSES, NOW)
    assert is_to_be_renewed(shown, make_authority(NAMES, NOW), NAMES, NOW)


def test_SY12_no_certificate_outlives_its_authority_and_the_last_is_not_made_again_and_again(
    authority,
):
    late = authority.ends - timedelta(days=30)
    last = make_server_certificate(authority, NAMES, late)
    assert last.certificate.not_valid_after_utc == authority.ends
    assert not is_to_be_renewed(last, authority, NAMES, late)
    assert is_to_be_renewed(last, authority, NAMES, authority.ends + timedelta(seconds=1))
