"""HTTPS by the house's own authority: the certificate is renewed while the server runs."""

import asyncio
import contextlib
import logging
import ssl
from collections.abc import AsyncIterator, Callable
from datetime import datetime, timedelta

from pantry.refusals import Refusal
from pantry.trust.authority import Authority
from pantry.trust.kept import KeptTrust
from pantry.trust.names import HouseNames

LOOKS = timedelta(hours=1)
"""How often the server looks whether its certificate is to be renewed."""

_log = logging.getLogger(__name__)


class Encrypted:
    """What the server encrypts with.

    The context stays the same one: what is loaded into it is shown to whoever connects from then
    on, and connections that stand are not disturbed.
    """

    def __init__(
        self,
        kept: KeptTrust,
        names: HouseNames,
        clock: Callable[[], datetime],
        looks: timedelta = LOOKS,
    ) -> None:
        self.names = names
        self.context = ssl.SSLContext(ssl.PROTOCOL_TLS_SERVER)
        self.context.minimum_version = ssl.TLSVersion.TLSv1_2
        self._kept = kept
        self._clock = clock
        self._looks = looks
        self._shown = 0
        self.authority: Authority
        self.look()

    def look(self) -> None:
        """Show a new certificate where one is due.

        Raises:
            NotNow: as `KeptTrust.authority` does.
        """
        now = self._clock()
        self.authority = self._kept.authority(self.names, now)
        certificate = self._kept.server_certificate(self.authority, self.names, now).certificate
        if certificate.serial_number != self._shown:
            self.context.load_cert_chain(self._kept.server_file)
            self._shown = certificate.serial_number

    @contextlib.asynccontextmanager
    async def kept_up(self) -> AsyncIterator[None]:
        """Look again and again while the server runs."""
        looking = asyncio.create_task(self._keep_looking())
        try:
            yield
        finally:
            looking.cancel()
            with contextlib.suppress(asyncio.CancelledError):
                await looking

    async def _keep_looking(self) -> None:
        while True:
            await asyncio.sleep(self._looks.total_seconds())
            try:
                self.look()
            except (Refusal, OSError) as error:
                # what is shown is good for months yet, and the next look may do better
                _log.error("the certificate cannot be renewed", exc_info=error)
