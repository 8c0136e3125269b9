"""Recipes in documents: schema.org/Recipe as JSON-LD, alone or in a saved page, or lines of text.

What the vocabulary says: https://schema.org/Recipe (properties name, recipeYield, recipeIngredient,
recipeInstructions, totalTime, suitableForDiet), https://schema.org/HowToStep, HowToSection and
https://schema.org/ItemList (itemListElement). People write any of them as a text, a number, a list
or a thing with a name. Nothing is fetched, nothing is run, and what a document says of diets is not
believed: what is in a dish follows from our items (AL3).
"""

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from html import unescape
from html.parser import HTMLParser
from typing import Any

from pantry.refusals import Refusal, UnreadableInput, declare
from pantry.rules.house_time import Span, read_span, write_span

DOCUMENT_UNREADABLE = declare("document_unreadable", "No recipe can be read in what was brought.")

LARGEST = 2_000_000
"""Characters of a document."""

_MOST_RECIPES = 50
_MOST_LINES = 200
_LONGEST_METHOD = 20_000
_LONGEST_NAME = 200
_MOST_PARTS = 200_000

_TAG = re.compile(r"<[^>]*>")
_BREAK = re.compile(r"<\s*(?:br|/p|/li|/div)\b[^>]*>", re.IGNORECASE)
_FOR_HOW_MANY = re.compile(
    r"(?:serves|makes|for|yields?|serving|servings|portions?|people|persons|covers)?[\s:]*"
    r"([0-9]{1,4})\s*(?:servings?|portions?|people|persons|covers)?\.?",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Document:
    """A recipe as a document has it.

    Attributes:
        name: empty: it has none.
        yields: for how many, where that is one whole number of people; None: a person has to say.
        yields_written: as it stands there.
        lead: how long it takes, ISO 8601; None: not said, or not readable.
        ingredients: the lines, as they stand there.
        method: its paragraphs; a section's name is one of its own.
        not_believed: what it claims of diets.
    """

    name: str
    yields: int | None
    yields_written: str
    lead: str | None
    ingredients: tuple[str, ...]
    method: str
    not_believed: tuple[str, ...] = ()


def recipes_in(text: str) -> list[Document]:
    """Every recipe in a document, in its order.

    Raises:
        UnreadableInput: `document_unreadable`; there is none, or the document is too long.
    """
    if len(text) > LARGEST:
        raise _unreadable("it is too long", "Bring a part of it.")
    plain = text.strip().removeprefix("\ufeff").strip()
    if plain.startswith(("{", "[")):
        found = [_document(node) for node in _recipes(_loaded(plain))]
    elif plain.startswith("<"):
        found = [_document(node) for part in _scripts(plain) for node in _recipes(_loaded(part))]
    else:
        found = _lines(plain)
    if not found:
        raise _unreadable(
            "there is no recipe in it",
            "Bring a page that was saved whole, its JSON-LD, or the lines of the ingredients.",
        )
    return found[:_MOST_RECIPES]


def _unreadable(why: str, todo: str) -> UnreadableInput:
    return UnreadableInput(DOCUMENT_UNREADABLE, f"This cannot be read: {why}.", todo)


class _Scripts(HTMLParser):
    """The JSON-LD of a page: what stands in script elements of its media type."""

    def __init__(self) -> None:
        super().__init__(convert_charrefs=False)
        self.found: list[str] = []
        self._inside = False

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        """Begin a script of JSON-LD."""
        kind = (dict(attrs).get("type") or "").casefold()
        if tag == "script" and kind.startswith("application/ld+json"):
            self._inside = True
            self.found.append("")

    def handle_endtag(self, tag: str) -> None:
        """End it."""
        if tag == "script":
            self._inside = False

    def handle_data(self, data: str) -> None:
        """Take what stands in it."""
        if self._inside:
            self.found[-1] += data


def _scripts(page: str) -> list[str]:
    parser = _Scripts()
    parser.feed(page)
    parser.close()
    return parser.found


def _loaded(text: str) -> Any:  # noqa: ANN401 - whatever somebody wrote
    """The JSON of a text; nothing where it is none."""
    try:
        return json.loads(text)
    except (ValueError, RecursionError):
        return None


def _recipes(loaded: Any) -> Iterator[dict[str, Any]]:  # noqa: ANN401 - as above
    """The things of type Recipe, however deep they stand."""
    waiting = [loaded]
    looked_at = 0
    while waiting and looked_at < _MOST_PARTS:
        part = waiting.pop(0)
        looked_at += 1
        if isinstance(part, list):
            waiting[:0] = part
        elif isinstance(part, dict):
            if any(_is_recipe(each) for each in _listed(part.get("@type"))):
                yield part
            else:
                waiting[:0] = [each for each in part.values() if isinstance(each, dict | list)]


def _is_recipe(kind: object) -> bool:
    return isinstance(kind, str) and re.split(r"[/:#]", kind)[-1] == "Recipe"


def _listed(value: object) -> list[Any]:
    if value is None:
        return []
    return value if isinstance(value, list) else [value]


def _document(node: dict[str, Any]) -> Document:
    yields, written = _yields(node.get("recipeYield", node.get("yield")))
    lines = _listed(node.get("recipeIngredient") or node.get("ingredients"))
    return Document(
        name=_text(node.get("name"))[:_LONGEST_NAME],
        yields=yields,
        yields_written=written,
        lead=_lead(node),
        ingredients=tuple(text for text in map(_text, lines) if text)[:_MOST_LINES],
        method="\n".join(_steps(node.get("recipeInstructions")))[:_LONGEST_METHOD],
        not_believed=tuple(
            re.split(r"[/:#]", _text(diet))[-1] for diet in _listed(node.get("suitableForDiet"))
        ),
    )


def _text(value: object) -> str:
    """A value as one line of text: of a thing its text or name, of a list the first."""
    for _ in range(4):
        if isinstance(value, list):
            value = value[0] if value else ""
        elif isinstance(value, dict):
            value = (
                value.get("@value") or value.get("text") or value.get("name") or value.get("@id")
            )
    if isinstance(value, bool) or not isinstance(value, str | int | float):
        return ""
    return " ".join(_TAG.sub(" ", unescape(str(value))).split())


def _yields(value: object) -> tuple[int | None, str]:
    """For how many it is, and how that stands there.

    Of a list (`8`, `8 servings`) those that are a number decide, if they say the same.
    """
    written = [_amount_of(each) for each in _listed(value)]
    numbers = {
        int(found[1]) for each in written if (found := _FOR_HOW_MANY.fullmatch(each)) is not None
    } - {0}
    return (numbers.pop() if len(numbers) == 1 else None), "; ".join(filter(None, written))


def _amount_of(value: object) -> str:
    """A yield as text; of a QuantitativeValue its value and unit."""
    if isinstance(value, dict) and "value" in value:
        unit = _text(value.get("unitText"))
        return f"{_text(value['value'])} {unit}".strip()
    return _text(value).removesuffix(".0")


def _lead(node: dict[str, Any]) -> str | None:
    """How long it takes: in all, or else preparing and cooking together."""
    total = _span(node.get("totalTime"))
    if total is None:
        parts = [_span(node.get("prepTime")), _span(node.get("cookTime"))]
        known = [part for part in parts if part is not None]
        if not known:
            return None
        days, exact = sum(part.days for part in known), known[0].exact
        for part in known[1:]:
            exact += part.exact
        total = Span(days=days, exact=exact)
    return write_span(total)


def _span(value: object) -> Span | None:
    try:
        return read_span(_text(value))
    except (Refusal, OverflowError):
        return None


def _steps(value: object) -> Iterator[str]:
    """The paragraphs of a method: of texts, steps, and sections with steps in them."""
    waiting = _listed(value)[:]
    count = 0
    while waiting and count < _MOST_PARTS:
        step = waiting.pop(0)
        count += 1
        if isinstance(step, list):
            waiting[:0] = step
        elif isinstance(step, dict) and step.get("itemListElement") is not None:
            name = _text(step.get("name"))
            if name:
                yield f"{name}:"
            waiting[:0] = _listed(step.get("itemListElement"))
        elif isinstance(step, dict) and isinstance(step.get("item"), dict):
            waiting.insert(0, step["item"])
        elif isinstance(step, str):
            for paragraph in _BREAK.sub("\n", unescape(step)).splitlines():
                if text := _text(paragraph):
                    yield text
        elif text := _text(step):
            yield text


def _lines(text: str) -> list[Document]:
    """A document of plain lines, such as cells copied from a sheet: every line an ingredient."""
    lines = [" ".join(_cells(line)) for line in text.splitlines()]
    lines = [line for line in lines if line]
    if not lines:
        return []
    return [Document("", None, "", None, tuple(lines[:_MOST_LINES]), "")]


def _cells(line: str) -> list[str]:
    """The cells of a copied row, an amount first wherever it stands."""
    cells = [" ".join(cell.split()) for cell in line.split("\t")]
    found = [cell for cell in cells if cell]
    return sorted(found, key=lambda cell: not cell[0].isdigit()) if len(found) > 1 else found
