"""A mail server on this machine: aiosmtpd, an SMTP server that knows nothing of ours."""

import ssl
from contextlib import contextmanager
from datetime import UTC, datetime, timedelta
from ipaddress import ip_address

from aiosmtpd.controller import Controller
from aiosmtpd.smtp import AuthResult
from cryptography import x509
from cryptography.hazmat.primitives import hashes, serialization
from cryptography.hazmat.primitives.asymmetric import ec
from cryptography.x509.oid import NameOID

from pantry.mail.mail_server import MailServer

USER, PASSWORD = "lodge@larkfield.example", "correct horse"


class Mailbox:
    """Takes letters, unless it is told to answer something else."""

    def __init__(self):
        self.letters = []
        self.answers = []

    async def handle_DATA(self, _server, _session, envelope):
        if self.answers:
            return self.answers.pop(0)
        self.letters.append(envelope)
        return "250 taken"

    async def handle_RCPT(self, _server, _session, envelope, to, _options):
        if to.startswith("nobody"):
            return "550 no such mailbox"
        envelope.rcpt_tos.append(to)
        return "250 known"


class _OnAnyPort(Controller):
    """A controller that looks whether its server is up on the port that it was given."""

    def _trigger_server(self):
        self.port = self.server.sockets[0].getsockname()[1]
        super()._trigger_server()


def knows(_server, _session, _envelope, _mechanism, given):
    right = given.login == USER.encode() and given.password == PASSWORD.encode()
    return AuthResult(success=right, handled=False)


def certificate(folder, host="127.0.0.1"):
    """A certificate for this machine, and what believes it; made for one test."""
    key = ec.generate_private_key(ec.SECP256R1())
    name = x509.Name([x509.NameAttribute(NameOID.COMMON_NAME, "mail of a test")])
    here = x509.IPAddress(ip_address(host))
    began = datetime(2026, 1, 1, tzinfo=UTC)
    made = (
        x509.CertificateBuilder()
        .subject_name(name)
        .issuer_name(name)
        .public_key(key.public_key())
        .serial_number(x509.random_serial_number())
        .not_valid_before(began)
        .not_valid_after(began + timedelta(days=3650))
        .add_extension(x509.SubjectAlternativeName([here]), critical=False)
        .add_extension(x509.BasicConstraints(ca=True, path_length=0), critical=True)
        .sign(key, hashes.SHA256())
    )
    file = folder / "mail.pem"
    private = key.private_bytes(
        serialization.Encoding.PEM,
        serialization.PrivateFormat.PKCS8,
        serialization.NoEncryption(),
    )
    file.write_bytes(private + made.public_bytes(serialization.Encoding.PEM))
    own = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
    own.load_cert_chain(file)
    trust = ssl.SSLContext(ssl.PROTOCOL_TLS_CLIENT)
    trust.load_verify_locations(file)
    return own, trust


@contextmanager
def mail_server(folder):
    """A mailbox that wants STARTTLS and a login, and where it is."""
    own, trust = certificate(folder)
    box = Mailbox()
    controller = _OnAnyPort(
        box,
        hostname="127.0.0.1",
        port=0,
        tls_context=own,
        require_starttls=True,
        auth_required=True,
        authenticator=knows,
    )
    controller.start()
    port = controller.port
    try:
        yield box, MailServer("127.0.0.1", port, USER, "starttls", USER, PASSWORD, trust)
    finally:
        controller.stop()
