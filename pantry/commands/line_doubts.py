"""Why a line at the back door must wait for a person, whatever was said of it there.

The porter never has to decide: what is too warm, past its date, recalled or another thing than was
ordered waits for the chef. Local codes, the maker's label and licensed practice come first.
"""

from pantry.commands.arrivals import unfit
from pantry.commands.facts import Receive
from pantry.commands.given import Given
from pantry.commands.line import Line
from pantry.commands.replan import given_of
from pantry.commands.substitution import differences
from pantry.records.books import Books
from pantry.records.rows import find
from pantry.records.tables import BatchRow, SupplierTermsRow
from pantry.rules.goods_in import too_short_for
from pantry.rules.house_time import last_day, local_date
from pantry.rules.safety import Verdict
from pantry.rules.stock import AreaKind

_AGREED = {
    "never": "Its supplier is to send nothing in place of what is ordered.",
    "ask_first": "Its supplier was to ask before sending another thing.",
}


def doubts(books: Books, given: Given[Receive], line: Line, batch: BatchRow) -> list[str]:
    """What speaks against a line, each in a sentence."""
    found = []
    if line.warmth and line.warmth.verdict is not Verdict.ACCEPT:
        found.append(line.warmth.reason)
    found += unfit(books, batch, given.at)
    if line.instead and given.role != "chef":
        found += differences(books, line.item, line.instead.item)
        found += _against_agreed(books, line)
    if given.role == "porter":
        found += _beyond_a_porter(books, given, line, batch)
    return found


def _against_agreed(books: Books, line: Line) -> list[str]:
    """What was agreed with the supplier of sending another thing than was ordered."""
    if line.supplier is None:
        return []
    key = {"house": books.id, "supplier": line.supplier}
    terms = find(books.connection, SupplierTermsRow, **key)
    said = _AGREED.get(terms.substitution or "") if terms else None
    return [said] if said else []


def _beyond_a_porter(books: Books, given: Given[Receive], line: Line, batch: BatchRow) -> list[str]:
    """What a chef may accept on sight, and a porter may not: common practice, no source."""
    if line.instead:
        return []
    if line.ordered is None:
        return ["Nobody ordered it."]
    return [*_short_lived(books, given, line), *_short_for_a_service(books, line, batch)]


def _short_lived(books: Books, given: Given[Receive], line: Line) -> list[str]:
    """It is dated shorter than its supplier has agreed to."""
    life = line.ordered and line.ordered.pack and line.ordered.pack.life_on_arrival_days
    if not life or line.mark.date is None:
        return []
    expected = last_day(local_date(given.at, books.zone), life)
    if line.mark.date >= expected:
        return []
    return [f"It is dated {line.mark.date}, and was to keep until {expected}."]


def _short_for_a_service(books: Books, line: Line, batch: BatchRow) -> list[str]:
    """It keeps too short for a service that is to be given of it; a freezer stops its clock."""
    if line.ordered is None or line.area.kind == AreaKind.FROZEN:
        return []
    needs = given_of(books, line.item.id, line.ordered.source)
    services = too_short_for(needs, batch.usable_until or batch.good_until)
    return [
        f"It keeps until {line.mark.date}, and is wanted for {service}." for service in services
    ]
