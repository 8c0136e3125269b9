"""An invoice against order, goods and credit: what it should come to, and what differs.

Every minor unit of the total is either as agreed or in one difference; nothing is in two.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import replace

from pantry.rules.invoice_goods import match_goods
from pantry.rules.invoiced import (
    SHORT,
    Agreed,
    BilledInWords,
    Came,
    Difference,
    DifferenceKind,
    Invoice,
    Matched,
    TakenOff,
)


def match(
    invoice: Invoice, came: Sequence[Came], to_bill: Collection[str], agreed: Agreed
) -> Matched:
    """What an invoice should come to by its goods and charges; credits follow by `with_credits`.

    Args:
        invoice: as it was printed.
        came: what may be billed, the first delivery first.
        to_bill: the sources of which nobody bills anything any more after this invoice.
        agreed: what was agreed on beside the goods.
    """
    goods = match_goods(invoice.goods, came, to_bill)
    should_be, found = _charges(invoice.in_words, agreed)
    orders = tuple(dict.fromkeys(each.order for each in came if each.order))
    found = [replace(each, orders=orders) for each in found]
    return Matched(goods.should_be + should_be, (*goods.differences, *found), goods.taken)


def _charges(lines: Sequence[BilledInWords], agreed: Agreed) -> tuple[int, list[Difference]]:
    """What the lines in words should come to; the house keeps no tax rates to hold a tax against.

    A charge for an order under the minimum is as agreed up to what lacked; a supplier need not
    ask for it.
    """
    billed = {of: sum(line.amount for line in lines if line.charge_for == of) for of in _CHARGES}
    due = {
        "delivery": agreed.charge,
        "minimum": min(billed["minimum"], agreed.below_minimum),
        "tax": billed["tax"],
    }
    named: dict[str, int | None] = {
        of: next((line.line for line in lines if line.charge_for == of), None) for of in _CHARGES
    }
    found = []
    if billed["delivery"] != due["delivery"]:
        sums = billed["delivery"], due["delivery"]
        found.append(Difference("charge", "charge", *sums, line=named["delivery"]))
    if billed["minimum"] != due["minimum"]:
        sums = billed["minimum"], due["minimum"]
        found.append(Difference("minimum", "minimum", *sums, line=named["minimum"]))
    should_be = sum(due.values())
    for line in lines:
        if line.charge_for != "other":
            continue
        if line.words in agreed.words:
            should_be += line.amount
        elif line.amount:
            key = f"in_words:{line.line}"
            found.append(Difference(key, "in_words", line.amount, 0, line=line.line))
    return should_be, found


_CHARGES = ("delivery", "minimum", "tax")


def with_credits(
    matched: Matched,
    taken_off: Sequence[TakenOff],
    worth: Mapping[str, int],
    left: Mapping[str, int],
) -> Matched:
    """The same with what was taken off the invoice, and what is owed and was not.

    What was taken off for goods that this very invoice bills and that did not come makes that
    difference smaller, and is nothing beside it.

    Args:
        matched: the invoice by its goods and charges.
        taken_off: what the supplier took off.
        worth: what each credit that was taken off was worth.
        left: the credits that were owed and not taken off, with what each is worth.
    """
    should_be, found = matched.should_be, list(matched.differences)
    for each in taken_off:
        own = next((one for one in found if one.kind in SHORT and one.source == each.credit), None)
        if each.credit is not None and own is not None:
            found[found.index(own)] = replace(own, billed=own.billed - each.amount)
            continue
        due = worth[each.credit] if each.credit is not None else 0
        should_be -= due
        if each.amount != due:
            found.append(_taken_off(each, due))
    for credit, due in left.items():
        should_be -= due
        key = f"credit_left:{credit}"
        found.append(Difference(key, "credit_left", 0, -due, credit=credit))
    return replace(
        matched, should_be=should_be, differences=tuple(each for each in found if each.amount)
    )


def _taken_off(each: TakenOff, due: int) -> Difference:
    kind: DifferenceKind = "credit_unknown" if each.credit is None else "credit_other"
    return Difference(
        key=f"{kind}:{each.line}",
        kind=kind,
        billed=-each.amount,
        held_against=-due,
        line=each.line,
        credit=each.credit,
    )
