"""Numbers as people write them, read exactly (MS2).

Figures (`12`, `1.5`, `1,5`, `1,500.25`), fractions (`1/2`, `½`), mixed numbers (`1 1/2`, `1½`,
`1-1/2`, `one and a half`), small numbers in words (`a`, `two`, `half`) and what is counted in
dozens, pairs or braces.

A point or comma is a decimal mark or a thousands separator by its place where only one of the two
is possible: `1,5` is one and a half and `1,500,000` a million and a half in every house. Only one
mark before exactly three figures (`1,500`) can be both: then the house's decimal mark decides, and
without one it is refused. Spaces never separate thousands (`2 400 g tins`); thin spaces and
apostrophes do.
"""

import re
from collections.abc import Sequence
from fractions import Fraction
from unicodedata import numeric

from pantry.refusals import UnreadableInput, declare

NUMBER_UNREADABLE = declare("number_unreadable", "The number cannot be read.")
NUMBER_AMBIGUOUS = declare("number_ambiguous", "The number can be read in two ways.")

_LONGEST_NUMERAL = 40

_MANY = r"[1-9][0-9]{0,2}(?P<mark>[.,'’\u2009\u202f])[0-9]{3}(?:(?P=mark)[0-9]{3})*"
_WHOLE = re.compile(r"[0-9]+")
_DECIMAL = re.compile(r"(?P<whole>[0-9]*)[.,](?P<decimals>[0-9]+)")
_GROUPED = re.compile(rf"(?P<whole>{_MANY})(?:(?!(?P=mark))[.,](?P<decimals>[0-9]+))?")

_VULGAR = {sign: Fraction(numeric(sign)).limit_denominator(10) for sign in "½⅓⅔¼¾⅕⅖⅗⅘⅙⅚⅐⅛⅜⅝⅞⅑⅒"}
_SLASHES = frozenset("/⁄∕")
_JOINS = frozenset(["and", "&", "-"])
_ARTICLES = frozenset(["a", "an"])
_UP_TO_TWELVE = ["one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"]
_UP_TO_TWELVE += ["eleven", "twelve"]
_WORDS = {word: Fraction(n) for n, word in enumerate(_UP_TO_TWELVE, start=1)}
_WORDS |= dict.fromkeys(_ARTICLES, Fraction(1))
_PARTS = {"half": Fraction(1, 2), "third": Fraction(1, 3), "quarter": Fraction(1, 4)}
_PARTS |= {"thirds": Fraction(1, 3), "quarters": Fraction(1, 4)}
_GROUPS = {"dozen": 12, "doz": 12, "gross": 144, "pair": 2, "brace": 2}

_TOKEN = re.compile(
    r"[0-9](?:[0-9.,'’\u2009\u202f]*[0-9])?|\.[0-9]+"  # figures
    r"|[A-Za-zÀ-ÖØ-öø-ɏ_]+\.?"  # a word, perhaps shortened
    r"|\S"  # a mark of its own: ½ / - × + &
)
_SPACED_DASH = re.compile(r"\s-\s")


def tokens_of(text: str) -> list[str]:
    """Figures, words and marks in their order; a dash between spaces is a range's dash (`–`)."""
    return _TOKEN.findall(_SPACED_DASH.sub(" – ", text))


def plain(token: str) -> str:
    """A word in small letters, without the stop of an abbreviation."""
    return token.lower().removesuffix(".")


def read_numeral(text: str, decimal_mark: str | None = None) -> Fraction:
    """Figures with an optional decimal mark and thousands separators, exactly.

    Args:
        text: figures and marks only, such as `1500`, `1.5`, `1,500.25`, `1'500`.
        decimal_mark: the house's, `.` or `,`; None: not known.

    Raises:
        UnreadableInput: `number_unreadable`, `number_ambiguous`.
    """
    if len(text) > _LONGEST_NUMERAL:
        raise _unreadable(text)
    grouped, decimal = _GROUPED.fullmatch(text), _DECIMAL.fullmatch(text)
    if grouped and decimal:
        return _one_mark(text, grouped["mark"], decimal_mark)
    if grouped:
        whole = "".join(_WHOLE.findall(grouped["whole"]))
        return Fraction(f"{whole}.{grouped['decimals'] or 0}")
    if decimal:
        return Fraction(f"{decimal['whole'] or 0}.{decimal['decimals']}")
    if _WHOLE.fullmatch(text):
        return Fraction(text)
    raise _unreadable(text)


def leading_number(
    tokens: Sequence[str], decimal_mark: str | None = None
) -> tuple[Fraction, Sequence[str]]:
    """The number that the tokens begin with, and the tokens after it.

    Raises:
        UnreadableInput: `number_unreadable`, `number_ambiguous`.
    """
    if not tokens:
        raise _unreadable("")
    if begins_with_figures(tokens):
        number, rest = _in_figures(tokens, decimal_mark)
    else:
        number, rest = _in_words(tokens)
    if rest and plain(rest[0]) in _GROUPS:
        return number * _GROUPS[plain(rest[0])], rest[1:]
    return number, rest


def begins_with_figures(tokens: Sequence[str]) -> bool:
    """Whether a figure or a fraction sign comes first."""
    return bool(tokens) and (tokens[0][0] in "0123456789." or tokens[0] in _VULGAR)


def _one_mark(text: str, mark: str, decimal_mark: str | None) -> Fraction:
    """`1,500`: one and a half or one thousand five hundred, as the house's decimal mark says."""
    figures = text.replace(mark, "")
    if decimal_mark is None:
        raise UnreadableInput(
            NUMBER_AMBIGUOUS,
            f"{text!r} can be {figures}, or {text[:-4]} and {text[-3:]} thousandths.",
            f"Write {figures} for the one or {text}0 for the other.",
            value=text,
        )
    return Fraction(int(figures), 1000 if mark == decimal_mark else 1)


def _in_figures(tokens: Sequence[str], decimal_mark: str | None) -> tuple[Fraction, Sequence[str]]:
    fraction = _fraction(tokens)
    if fraction:
        number, rest = fraction
        if number >= 1 and len(tokens[0]) > 1:
            raise _perhaps_mixed("".join(tokens[:3]))
        return number, rest
    number = read_numeral(tokens[0], decimal_mark)
    if _WHOLE.fullmatch(tokens[0]):
        return _with_part(number, tokens[1:])
    return number, tokens[1:]


def _fraction(tokens: Sequence[str]) -> tuple[Fraction, Sequence[str]] | None:
    """`½` or `1/2` at the beginning, and what follows; None where there is no fraction."""
    if tokens and tokens[0] in _VULGAR:
        return _VULGAR[tokens[0]], tokens[1:]
    if len(tokens) < 3 or tokens[1] not in _SLASHES or not _WHOLE.fullmatch(tokens[0]):
        return None
    above, below = tokens[0], tokens[2]
    if not _WHOLE.fullmatch(below) or not int(below):
        raise _unreadable("".join(tokens[:3]))
    return Fraction(int(above), int(below)), tokens[3:]


def _with_part(whole: Fraction, rest: Sequence[str]) -> tuple[Fraction, Sequence[str]]:
    """A whole number with the proper fraction that follows it, if one does."""
    joined = bool(rest) and rest[0].lower() in _JOINS
    after = rest[1:] if joined else rest
    part = _fraction(after)
    if part is None and joined and rest[0].lower() == "and":
        part = _part_in_words(after)
    if part is None:
        return whole, rest
    if part[0] >= 1:
        raise _unreadable(" ".join([str(whole), *rest[:4]]))
    return whole + part[0], part[1]


def _in_words(tokens: Sequence[str]) -> tuple[Fraction, Sequence[str]]:
    if plain(tokens[0]) in _GROUPS:
        return Fraction(1), tokens
    part = _part_in_words(tokens)
    if part:
        return part
    number = _WORDS.get(plain(tokens[0]))
    if number is None:
        raise _unreadable(tokens[0])
    return _with_part(number, tokens[1:])


def _part_in_words(tokens: Sequence[str]) -> tuple[Fraction, Sequence[str]] | None:
    """`half a`, `a quarter`, `three quarters` at the beginning, and what follows; None: neither."""
    words = [plain(token) for token in tokens[:2]]
    times = _WORDS.get(words[0]) if words else None
    rest = tokens[1:] if times else tokens
    part = _PARTS.get(plain(rest[0])) if rest else None
    if part is None:
        return None
    after = rest[1:]
    if after and plain(after[0]) in _ARTICLES:
        after = after[1:]
    return (times or Fraction(1)) * part, after


def _perhaps_mixed(text: str) -> UnreadableInput:
    return UnreadableInput(
        NUMBER_AMBIGUOUS,
        f"{text!r} can be a fraction above 1 or a mixed number that lost its space.",
        "Write it as a mixed number, such as 1 1/2.",
        value=text,
    )


def _unreadable(text: str) -> UnreadableInput:
    """The refusal of a number that nobody can read."""
    return UnreadableInput(
        NUMBER_UNREADABLE,
        f"{text!r} is no number." if text else "A number is missing.",
        "Write it in figures, such as 250, 1.5 or 1 1/2.",
        value=text,
    )
