"""Ids that a person can read: a slug of the name, the same on every import."""

import re
import unicodedata

_ACCENTS = re.compile("[\u0300-\u036f]")
_APART = re.compile(r"[\W_]+")


def slug(name: str) -> str:
    """Lower case letters and digits of any script, all else one hyphen: `creme-fraiche`.

    Latin, Greek and Cyrillic letters lose their accents, so that a name is found however it is
    typed. Letters that are not Latin stay: a house that writes its items in Greek or Japanese must
    not have them all under one id.
    """
    plain = _ACCENTS.sub("", unicodedata.normalize("NFKD", name.casefold()))
    return _APART.sub("-", unicodedata.normalize("NFC", plain).casefold()).strip("-")
