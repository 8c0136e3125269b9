"""What an alert says: what to order, of whom, by when, for which service, and what is left."""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from zoneinfo import ZoneInfo

from pantry.reports.order_given import order_given_words
from pantry.reports.report import Row
from pantry.reports.sheet_words import moment_words, sentence
from pantry.reports.view import View
from pantry.reports.ways_words import ways_out
from pantry.rules.deadlines import Alert
from pantry.rules.house_time import read_instant
from pantry.rules.measure import show
from pantry.rules.plan_rows import DAILY_USE, PAR
from pantry.rules.stock import BaseUnit

_STAGES = {
    Alert.OPEN: "Order now",
    Alert.LAST_CALL: "Last call",
    Alert.MISSED: "Too late to order",
}
_PASSED_OVER = {
    Alert.OPEN: "that it was time to order",
    Alert.LAST_CALL: "that it was the last call",
}


@dataclass(frozen=True, slots=True)
class AlertWords:
    """Says alerts of one house on its own wall clock."""

    zone: ZoneInfo
    decimal_mark: str

    def amount(self, quantity: Mapping[str, str] | None) -> str:
        """`1.25 kg`."""
        if quantity is None:
            return ""
        thousandths = int(Decimal(quantity["value"]) * 1000)
        return show(thousandths, BaseUnit(quantity["unit"]), decimal_mark=self.decimal_mark)

    def moment(self, instant: str | None) -> str:
        """`Friday 12 March, 16:50`."""
        return moment_words(read_instant(instant), self.zone) if instant else ""

    def what(self, row: Row) -> str:
        """What is to be done in time: `Order of Hill Dairy`."""
        if row["nobody"]:
            return f"Tell {row['supplier']} to bring nothing"
        return f"Order of {row['supplier']}"

    def title(self, row: Row) -> str:
        """`Last call: order of Hill Dairy by Friday 12 March, 16:50`."""
        stage = _STAGES[Alert(row["stage"])]
        if row["nobody"]:
            return f"{self._stop_stage(row)}, {self.moment(row['delivery'])}"
        if row["stage"] == Alert.MISSED:
            whom = f" of {row['supplier']}" if row["supplier"] else ""
            return f"{stage}{whom}: {', '.join(self._items(row))}"
        return f"{stage}: {row['supplier']} by {self.moment(row['order_by'])}"

    def lines(self, row: Row) -> list[str]:
        """All that is to be known of an alert, line by line."""
        if row["nobody"]:
            return [*self._stop(row), *self._seen_to(row)]
        if row["stage"] == Alert.MISSED:
            return list(self._missed(row))
        first = (
            f"Order of {row['supplier']} by {self.moment(row['order_by'])}, "
            f"for the delivery of {self.moment(row['delivery'])}:"
        )
        ordered = (f"- {self._ordered(line)}" for line in row["lines"])
        how = order_given_words(row["order_given"])
        return [first, *ordered, *([how] if how else []), *self._seen_to(row)]

    def _stop_stage(self, row: Row) -> str:
        if row["stage"] == Alert.MISSED:
            return f"Too late to stop {row['supplier']}"
        last = "Last call: tell" if row["stage"] == Alert.LAST_CALL else "Tell"
        return f"{last} {row['supplier']} to bring nothing"

    def _stop(self, row: Row) -> Iterator[str]:
        first, last = (self._day(row["nobody"][name]) for name in ("first", "last"))
        days = f"on {first}" if first == last else f"from {first} to {last}"
        yield f"Nobody is in the house {days}."
        brings = f"Their standing order comes on {self.moment(row['delivery'])}"
        if row["stage"] == Alert.MISSED:
            yield f"{brings}; it could be stopped until {self.moment(row['order_by'])}."
            yield "Telephone them, or have somebody there to take it in."
        else:
            yield f"{brings}: tell them by {self.moment(row['order_by'])}, then cancel the order."

    def _day(self, written: str) -> str:
        day = date.fromisoformat(written)
        return f"{day:%A} {day.day} {day:%B}"

    def _missed(self, row: Row) -> Iterator[str]:
        if row["supplier"] is None:
            yield "No supplier brings this in time:"
        else:
            by = self.moment(row["order_by"])
            yield f"{row['supplier']} took orders until {by}. Not ordered in time:"
        for line in row["lines"]:
            lacking = f"{self.amount(line['lacking'])} {line['item']}"
            yield f"- {lacking}, for {self._because(line)}"
        ways = ways_out(self, row["ways_out"])
        yield "What is left:" if ways else "Nothing is left but another dish, or less of it."
        yield from (f"- {sentence(way)}" for way in ways)
        yield from self._seen_to(row)

    def _ordered(self, line: Row) -> str:
        risk = ", which may not come" if line["at_risk"] else ""
        return f"{line['packs']} x {line['pack']} {line['item']}{risk}, for {self._because(line)}"

    def _because(self, line: Row) -> str:
        said = [self.service(reason) for reason in line["because"]]
        return "; ".join(said)

    def service(self, reason: str) -> str:
        """`dinner on Saturday 13 March, family`, or what is kept in whatever the menu."""
        if reason in (PAR, DAILY_USE):
            return {PAR: "what is kept in", DAILY_USE: DAILY_USE}[reason]
        on, meal, table = reason.split("/", 2)
        day = date.fromisoformat(on)
        return f"{meal} on {day:%A} {day.day} {day:%B}, {table}"

    def _seen_to(self, row: Row) -> Iterator[str]:
        if row["seen_to"]:
            yield f"{row['seen_to']['person']} sees to it."

    def _items(self, row: Row) -> Iterable[str]:
        return dict.fromkeys(line["item"] for line in row["lines"])


def passed_over(stages: Iterable[Alert]) -> str:
    """That nobody was told an earlier stage, in a sentence; empty where none was passed over."""
    said = [_PASSED_OVER[stage] for stage in stages]
    return f"Nobody was told before {' and '.join(said)}." if said else ""


def words_of(view: View) -> AlertWords:
    """The words of a house."""
    return AlertWords(view.zone, view.row.decimal_mark)
