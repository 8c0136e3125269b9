"""The certificate that the server shows: for the names of the house, renewed in good time."""

from dataclasses import dataclass
from datetime import datetime, timedelta

from cryptography import x509
from cryptography.hazmat.primitives import hashes
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import ExtendedKeyUsageOID

from pantry.trust.authority import BEFORE, Authority, begun, common_name, usage
from pantry.trust.names import HouseNames

LIFE = timedelta(days=397) - BEFORE
"""With the day before it, 397 days in all.

The CA/Browser Forum's longest until March 2026, and under the 825 days of an iPhone (from memory).
"""

EARLY = timedelta(days=120)
"""How long before its end a new one is made: a server may stand still for a season."""


@dataclass(frozen=True, slots=True)
class ServerCertificate:
    """What the server shows, and its key."""

    certificate: x509.Certificate
    key: ec.EllipticCurvePrivateKey


def make_server_certificate(
    authority: Authority, names: HouseNames, now: datetime
) -> ServerCertificate:
    """A new certificate for these names; it does not outlive the authority."""
    key = ec.generate_private_key(ec.SECP256R1())
    root = authority.certificate
    ends = min(now + LIFE, authority.ends)
    identifier = x509.SubjectKeyIdentifier.from_public_key(key.public_key())
    issuer = x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.key.public_key())
    server = x509.ExtendedKeyUsage([ExtendedKeyUsageOID.SERVER_AUTH])
    certificate = (
        begun(common_name(names.hosts[0]), root.subject, now, ends)
        .public_key(key.public_key())
        .add_extension(x509.BasicConstraints(ca=False, path_length=None), critical=True)
        .add_extension(usage(signs_certificates=False), critical=True)
        .add_extension(server, critical=False)
        .add_extension(names.alternative(), critical=False)
        .add_extension(identifier, critical=False)
        .add_extension(issuer, critical=False)
        .sign(authority.key, hashes.SHA256())
    )
    return ServerCertificate(certificate, key)


def is_to_be_renewed(
    shown: ServerCertificate, authority: Authority, names: HouseNames, now: datetime
) -> bool:
    """Whether a new one is due: the end is near, the names are others, or the authority is."""
    certificate = shown.certificate
    alternative = certificate.extensions.get_extension_for_class(x509.SubjectAlternativeName)
    issuer = certificate.extensions.get_extension_for_class(x509.AuthorityKeyIdentifier)
    own = x509.AuthorityKeyIdentifier.from_issuer_public_key(authority.key.public_key())
    ends = certificate.not_valid_after_utc
    near = now >= ends - EARLY and ends < authority.ends
    believed = certificate.not_valid_before_utc <= now <= ends
    return near or not believed or alternative.value != names.alternative() or issuer.value != own
