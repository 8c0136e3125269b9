"""The goods of an invoice against what came of them at the agreed price.

Whatever came is billed once: first the same pack, then another pack of the same item. What is left
of a line is held against what was ordered and did not come, and the rest against nothing.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from fractions import Fraction

from pantry.rules.invoiced import BilledGoods, Came, Difference, Matched, PriceFrom, Taken


@dataclass(frozen=True, slots=True)
class _Portion:
    """So much of a line, held against one source; `has_come` as it is there."""

    of: Came | None
    quantity: int
    has_come: bool


@dataclass(slots=True)
class _Left:
    """What of each source nobody has billed yet, and the portions of each line so far."""

    came: dict[str, int]
    missing: dict[str, int]
    lines: dict[int, int]
    portions: dict[int, list[_Portion]] = field(default_factory=dict)

    def take(self, line: BilledGoods, each: Came, *, has_come: bool) -> None:
        """Hold as much of a line as is left against one source."""
        left = self.came if has_come else self.missing
        quantity = min(self.lines[line.line], left[each.source])
        if quantity > 0:
            left[each.source] -= quantity
            self.lines[line.line] -= quantity
            self.portions.setdefault(line.line, []).append(_Portion(each, quantity, has_come))


def match_goods(
    lines: Sequence[BilledGoods], came: Sequence[Came], to_bill: Collection[str]
) -> Matched:
    """What the goods of an invoice should come to, and what differs.

    Args:
        lines: what is billed.
        came: what may be billed, the first delivery first; what was billed before is taken off.
        to_bill: the sources of which nobody bills anything any more after this invoice.
    """
    left = _allotted(lines, came)
    should_be, differences = 0, []
    for line in lines:
        portions = left.portions.get(line.line, [])
        rest = left.lines[line.line]
        if rest > 0:
            portions = [*portions, _Portion(None, rest, has_come=False)]
        due, found = _line(line, portions)
        should_be += due
        differences += found
    for each in came:
        not_billed = left.came[each.source]
        if each.source in to_bill and (worth := round(each.value(not_billed))):
            should_be += worth
            differences.append(_not_billed(each, not_billed, worth))
    return Matched(should_be, tuple(differences), _taken(came, left))


def _allotted(lines: Sequence[BilledGoods], came: Sequence[Came]) -> _Left:
    left = _Left(
        {each.source: each.came for each in came},
        {each.source: each.missing for each in came},
        {line.line: line.quantity for line in lines},
    )
    for has_come in (True, False):
        for same_pack in (True, False):
            for line, each in _pairs(lines, came, same_pack=same_pack):
                left.take(line, each, has_come=has_come)
    return left


def _pairs(
    lines: Iterable[BilledGoods], came: Sequence[Came], *, same_pack: bool
) -> Iterator[tuple[BilledGoods, Came]]:
    for line in lines:
        for each in came:
            if each.item == line.item and (each.pack == line.pack or not same_pack):
                yield line, each


def _taken(came: Sequence[Came], left: _Left) -> Mapping[str, Taken]:
    return {
        each.source: Taken(each.came - left.came[each.source], each.missing - missing)
        for each in came
        for missing in (left.missing[each.source],)
    }


def _line(line: BilledGoods, portions: Sequence[_Portion]) -> tuple[int, list[Difference]]:
    """What a line should come to, and what differs; nothing where that is what it comes to.

    What is weighed is billed by its weight, however many packs are printed beside it.
    """
    # rounded as sums, so that parts of a pack come to what the whole comes to
    sums, exact = [], Fraction(0)
    for portion in portions:
        before = round(exact)
        exact += _value(line, portion)
        sums.append(round(exact) - before)
    due = sum(worth for worth, each in zip(sums, portions, strict=True) if each.has_come)
    if due == line.amount:
        return due, []
    found = [
        _short(line, portion, worth)
        for worth, portion in zip(sums, portions, strict=True)
        if worth and not portion.has_come
    ]
    if line.amount != sum(sums):
        found.append(_price(line, portions, sum(sums)))
    return due, found


def _value(line: BilledGoods, portion: _Portion) -> Fraction:
    if portion.of is not None:
        return portion.of.value(portion.quantity)
    return Fraction(portion.quantity * line.price, line.of_pack)


def _short(line: BilledGoods, portion: _Portion, worth: int) -> Difference:
    of = portion.of
    price, price_from = _agreed_price(line, of)
    return Difference(
        key=f"short:{line.line}:{of.source if of else ''}",
        kind="more_than_received" if of and of.came else "not_received",
        billed=worth,
        held_against=0,
        line=line.line,
        item=line.item,
        quantity=portion.quantity,
        price=price,
        price_from=price_from,
        source=of.source if of else None,
        orders=_orders([of]),
        receipts=of.receipts if of else (),
    )


def _price(line: BilledGoods, portions: Sequence[_Portion], agreed: int) -> Difference:
    sources = [portion.of for portion in portions]
    price, price_from = _agreed_price(line, next(iter(sources), None))
    return Difference(
        key=f"price:{line.line}",
        kind="price",
        billed=line.amount,
        held_against=agreed,
        line=line.line,
        item=line.item,
        price=price,
        price_from=price_from,
        orders=_orders(sources),
        receipts=tuple(dict.fromkeys(each for of in sources if of for each in of.receipts)),
    )


def _not_billed(each: Came, quantity: int, worth: int) -> Difference:
    return Difference(
        key=f"not_billed:{each.source}",
        kind="not_billed",
        billed=0,
        held_against=worth,
        item=each.item,
        quantity=quantity,
        price=each.price,
        price_from=each.price_from,
        source=each.source,
        orders=_orders([each]),
        receipts=each.receipts,
    )


def _agreed_price(line: BilledGoods, of: Came | None) -> tuple[int, PriceFrom]:
    return (of.price, of.price_from) if of else (line.price, "last_price")


def _orders(sources: Iterable[Came | None]) -> tuple[str, ...]:
    return tuple(dict.fromkeys(of.order for of in sources if of and of.order))
