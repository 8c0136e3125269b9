"""The web address on a house's own label, which opens its batch: `ADDRESS/shelf/LABEL`.

It is read and never fetched. Whose address it is does not matter: a house may have moved to
another, and a label that is none of its own is on no batch.
"""

import re
from urllib.parse import quote, unquote

_LINK = re.compile(
    r"(?:https|HTTPS|http|HTTP)://[A-Za-z0-9.:\-\[\]]+/shelf/([A-Za-z0-9\-._~:@!$&'()*+,;=%]+)"
)


def house_link(address: str, label: str) -> str:
    """What stands in the QR code of a label; `address` is scheme, host and port."""
    return f"{address.rstrip('/')}/shelf/{quote(label, safe='')}"


def label_in_link(text: str) -> str | None:
    """The label that a web address names; None: it is no address of a batch."""
    found = _LINK.fullmatch(text)
    return unquote(found[1]) if found else None
