"""The authority and the server's certificate, as files of the data folder.

The keys are in no database and in no backup of it: whoever has the authority's key can pose as this
house to every phone that trusts it.
"""

import os
from datetime import datetime
from pathlib import Path

from cryptography import x509
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.hazmat.primitives.serialization import (
    Encoding,
    NoEncryption,
    PrivateFormat,
    load_pem_private_key,
)

from pantry.refusals import NotNow, declare
from pantry.trust.authority import Authority, make_authority
from pantry.trust.names import HouseNames
from pantry.trust.server_certificate import (
    ServerCertificate,
    is_to_be_renewed,
    make_server_certificate,
)

AUTHORITY_UNREADABLE = declare(
    "authority_unreadable", "The authority of the house, or its key, cannot be read."
)
KEY_NOT_PRIVATE = declare("key_not_private", "The authority's key can be read by others.")
NAMES_OUTSIDE_AUTHORITY = declare(
    "names_outside_authority", "The authority of the house may not vouch for a name of it."
)
AUTHORITY_ENDED = declare("authority_ended", "The authority of the house is not believed any more.")

FOLDER = "trust"
ANEW = "Make a new one with `chooseby trust --anew`; every phone then has to trust that one."

_OTHERS = 0o077


class KeptTrust:
    """The files in a folder of their own, which nobody else may enter."""

    def __init__(self, data: Path) -> None:
        self.folder = data / FOLDER
        self.authority_file = self.folder / "authority.pem"
        self.authority_key_file = self.folder / "authority-key.pem"
        self.server_file = self.folder / "server.pem"

    def authority(self, names: HouseNames, now: datetime) -> Authority:
        """The authority, made where there is none yet.

        Raises:
            NotNow: `authority_unreadable`, `key_not_private`, `names_outside_authority`,
                `authority_ended`.
        """
        if not self.authority_file.exists() and not self.authority_key_file.exists():
            return self.make_authority_anew(names, now)
        found = self._read_authority()
        outside = names.outside(found.constraints)
        if outside:
            raise NotNow(
                NAMES_OUTSIDE_AUTHORITY,
                f"The authority of this house was not made for {', '.join(outside)}.",
                f"Take it out of CHOOSEBY_HTTPS_NAMES. Or: {ANEW}",
                value=outside[0],
            )
        if now > found.ends:
            raise NotNow(AUTHORITY_ENDED, f"The authority ended on {found.ends:%Y-%m-%d}.", ANEW)
        return found

    def make_authority_anew(self, names: HouseNames, now: datetime) -> Authority:
        """A new authority in place of any other."""
        self.folder.mkdir(mode=0o700, parents=True, exist_ok=True)
        made = make_authority(names, now)
        _write(self.authority_key_file, _pem_of_key(made.key), mode=0o600)
        _write(self.authority_file, made.certificate.public_bytes(Encoding.PEM), mode=0o644)
        return made

    def server_certificate(
        self, authority: Authority, names: HouseNames, now: datetime
    ) -> ServerCertificate:
        """What the server shows, which is made anew where that is due."""
        found = self._read_server_certificate()
        if found is not None and not is_to_be_renewed(found, authority, names, now):
            return found
        made = make_server_certificate(authority, names, now)
        pem = made.certificate.public_bytes(Encoding.PEM) + _pem_of_key(made.key)
        _write(self.server_file, pem, mode=0o600)
        return made

    def _read_authority(self) -> Authority:
        self._refuse_open_key()
        try:
            certificate = x509.load_pem_x509_certificate(self.authority_file.read_bytes())
            key = load_pem_private_key(self.authority_key_file.read_bytes(), None)
        except (OSError, ValueError) as error:
            raise self._unreadable(str(error)) from error
        if not isinstance(key, ec.EllipticCurvePrivateKey):
            raise self._unreadable("the key is of another kind")
        if key.public_key() != certificate.public_key():
            raise self._unreadable("the key is not that of the certificate")
        return Authority(certificate, key)

    def _refuse_open_key(self) -> None:
        file = self.authority_key_file
        if file.exists() and file.stat().st_mode & _OTHERS:
            raise NotNow(
                KEY_NOT_PRIVATE,
                f"{file} can be read by others, and who reads it can pose as this house.",
                f"If nobody else has seen it: chmod 600 {file}. If somebody may have: {ANEW}",
                value=str(file),
            )

    def _unreadable(self, why: str) -> NotNow:
        return NotNow(
            AUTHORITY_UNREADABLE,
            f"The authority in {self.folder} cannot be read: {why}.",
            f"Bring both of its files back from where they are kept. Or: {ANEW}",
            value=str(self.folder),
        )

    def _read_server_certificate(self) -> ServerCertificate | None:
        """None where there is none that can be used; it is made again from the authority."""
        try:
            pem = self.server_file.read_bytes()
            certificate = x509.load_pem_x509_certificate(pem)
            key = load_pem_private_key(pem, None)
        except (FileNotFoundError, ValueError):
            return None
        return (
            ServerCertificate(certificate, key)
            if isinstance(key, ec.EllipticCurvePrivateKey)
            else None
        )


def _pem_of_key(key: ec.EllipticCurvePrivateKey) -> bytes:
    return key.private_bytes(Encoding.PEM, PrivateFormat.PKCS8, NoEncryption())


def _write(file: Path, content: bytes, *, mode: int) -> None:
    """Write a file whole or not at all; nobody else can read it while it is being written."""
    beside = file.with_name(f"{file.name}.new")
    beside.unlink(missing_ok=True)
    with os.fdopen(os.open(beside, os.O_WRONLY | os.O_CREAT | os.O_EXCL, mode), "wb") as opened:
        opened.write(content)
        opened.flush()
        os.fsync(opened.fileno())
    beside.replace(file)
