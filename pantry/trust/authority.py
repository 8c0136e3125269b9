"""The house's own authority: a root made once, that may vouch for the names of this house alone."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import Encoding
from cryptography.x509.oid import NameOID

from pantry.trust.names import HouseNames

LIFE = timedelta(days=3_650)
"""Ten years: everybody has to trust the next one by hand."""

BEFORE = timedelta(days=1)
"""A certificate begins a day early, for the sake of a phone whose clock is behind."""

_LONGEST_NAME = 64
"""Letters of a common name (RFC 5280, appendix A.1)."""


@dataclass(frozen=True, slots=True)
class Authority:
    """The root and its key."""

    certificate: x509.Certificate
    key: ec.EllipticCurvePrivateKey

    @property
    def constraints(self) -> x509.NameConstraints:
        """What it may vouch for."""
        return self.certificate.extensions.get_extension_for_class(x509.NameConstraints).value

    @property
    def ends(self) -> datetime:
        """The last instant at which it is believed."""
        return self.certificate.not_valid_after_utc

    @property
    def fingerprint(self) -> str:
        """Its SHA-256, in pairs of letters, as phones and browsers show it."""
        return self.certificate.fingerprint(hashes.SHA256()).hex(":").upper()

    @property
    def file(self) -> bytes:
        """The root as a file that phones take: DER (RFC 5280)."""
        return self.certificate.public_bytes(Encoding.DER)


def make_authority(names: HouseNames, now: datetime) -> Authority:
    """A new root for a house that is reached under these names."""
    key = ec.generate_private_key(ec.SECP256R1())
    called = common_name(f"Chooseby at {names.hosts[0]}")
    certificate = (
        begun(called, called, now, now + LIFE)
        .public_key(key.public_key())
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .add_extension(usage(signs_certificates=True), critical=True)
        .add_extension(names.constraints(), critical=True)
        .add_extension(x509.SubjectKeyIdentifier.from_public_key(key.public_key()), critical=False)
        .sign(key, hashes.SHA256())
    )
    return Authority(certificate, key)


def common_name(text: str) -> x509.Name:
    """A name of one part; an iPhone lists no root without a common name (mkcert #202)."""
    return x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, text[:_LONGEST_NAME])])


def begun(
    subject: x509.Name, issuer: x509.Name, now: datetime, ends: datetime
) -> x509.CertificateBuilder:
    """A certificate with its names, its number and its time."""
    return (
        x509.CertificateBuilder()
        .subject_name(subject)
        .issuer_name(issuer)
        .serial_number(x509.random_serial_number())
        .not_valid_before(now - BEFORE)
        .not_valid_after(ends)
    )


def usage(*, signs_certificates: bool) -> x509.KeyUsage:
    """What a key is for: a root signs certificates, a server its greetings."""
    return x509.KeyUsage(
        digital_signature=not signs_certificates,
        content_commitment=False,
        key_encipherment=False,
        data_encipherment=False,
        key_agreement=False,
        key_cert_sign=signs_certificates,
        crl_sign=signs_certificates,
        encipher_only=False,
        decipher_only=False,
    )
