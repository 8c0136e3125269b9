"""Ids that a person can read: a slug of the name, the same on every import."""

import re
import unicodedata

_APART = re.compile(r"[^a-z0-9]+")


def slug(name: str) -> str:
    """Lower case ASCII letters and digits, all else one hyphen: `creme-fraiche`."""
    plain = unicodedata.normalize("NFKD", name).encode("ascii", "ignore").decode().lower()
    return _APART.sub("-", plain).strip("-")
