"""An invoice against order, goods and credit: what it should come to, and what differs."""

from dataclasses import replace

from hypothesis import given
from hypothesis import strategies as st

from pantry.rules.invoiced import Agreed, BilledGoods, BilledInWords, Came, Invoice, TakenOff
from pantry.rules.invoices import match, with_credits

BLOCK = 250_000
ORDER = "dairy/2027-03-09"
BUTTER = f"{ORDER}|butter"


def came(packs, ordered=2, price=230, **more):
    """Butter in blocks of 250 g: so many came of those ordered."""
    quantity = int(packs * BLOCK)
    of = {"source": BUTTER, "order": ORDER, "item": "butter", "pack": "butter"} | more
    missing = max(0, ordered * BLOCK - quantity)
    return Came(
        came=quantity, missing=missing, price=price, price_from="ordered", of_pack=BLOCK, **of
    )


def billed(packs, amount, line=0, price=230):
    return BilledGoods(line, "butter", "butter", packs, packs * BLOCK, amount, price, BLOCK)


def told(invoice, *came, agreed=Agreed(), worth=None, left=None):  # noqa: B008 - it is frozen
    to_bill = {each.source for each in came if each.order}
    matched = match(invoice, came, to_bill, agreed)
    return with_credits(matched, invoice.taken_off, worth or {}, left or {})


def goods(*lines, **more):
    return Invoice(goods=lines, **more)


def kinds(matched):
    return [(each.kind, each.amount) for each in matched.differences]


def test_what_came_as_it_was_agreed_has_no_difference():
    matched = told(goods(billed(2, 460)), came(2))
    assert (matched.should_be, matched.differences) == (460, ())


def test_what_is_billed_and_did_not_come_names_the_order_line():
    matched = told(goods(billed(2, 460)), came(0, receipts=("refused",)))
    assert kinds(matched) == [("not_received", 460)]
    (only,) = matched.differences
    assert (only.source, only.orders, only.receipts) == (BUTTER, (ORDER,), ("refused",))
    assert only.quantity == 2 * BLOCK


def test_more_billed_than_came_is_only_what_is_too_much():
    assert kinds(told(goods(billed(2, 460)), came(1))) == [("more_than_received", 230)]


def test_what_nobody_ordered_and_nobody_saw_is_held_against_nothing():
    (only,) = told(goods(billed(3, 690)), came(2)).differences
    assert (only.kind, only.amount, only.source) == ("not_received", 230, None)


def test_a_dearer_price_names_the_price_agreed_and_where_that_is_from():
    (only,) = told(goods(billed(2, 500)), came(2)).differences
    assert (only.kind, only.billed, only.held_against) == ("price", 500, 460)
    assert (only.price, only.price_from) == (230, "ordered")


def test_a_short_and_a_dearer_line_are_two_differences_that_do_not_overlap():
    matched = told(goods(billed(2, 500)), came(1))
    assert kinds(matched) == [("more_than_received", 230), ("price", 40)]
    assert matched.should_be == 230


def test_what_came_and_is_not_billed_is_told_once_nobody_else_bills_it():
    assert kinds(told(goods(billed(1, 230)), came(2))) == [("not_billed", -230)]
    matched = match(goods(billed(1, 230)), [came(2)], set(), Agreed())
    assert matched.differences == ()
    assert matched.taken[BUTTER].came == BLOCK


def test_what_is_weighed_is_billed_by_its_weight_however_many_packs_stand_beside_it():
    """Two birds of 1.6 kg are ordered, 3.1 kg came and is billed: nothing is to be asked about."""
    bird = replace(came(0), came=3_100_000, missing=100_000, price=800, of_pack=1_600_000)
    line = BilledGoods(0, "butter", "butter", 2, 3_200_000, 1_550, 800, 1_600_000)
    assert told(goods(line), bird).differences == ()


def test_another_pack_of_the_same_item_is_held_against_what_came():
    """A tray was ordered, the bill has the same butter in blocks."""
    tray = replace(came(2), pack="tray", of_pack=2 * BLOCK, price=460)
    assert told(goods(billed(2, 460)), tray).differences == ()


def test_each_of_two_lines_takes_what_came_once():
    matched = told(goods(billed(2, 460), billed(2, 460, line=1)), came(2))
    assert kinds(matched) == [("not_received", 460)]
    assert matched.differences[0].line == 1


def charge(amount, charge_for="delivery", words="delivery", line=5):
    return BilledInWords(line, charge_for, words, amount)


def test_a_charge_is_held_against_the_terms_either_way():
    dearer = told(Invoice(in_words=(charge(600),)), agreed=Agreed(charge=400))
    assert kinds(dearer) == [("charge", 200)]
    assert kinds(told(Invoice(), agreed=Agreed(charge=400))) == [("charge", -400)]
    assert told(Invoice(in_words=(charge(400),)), agreed=Agreed(charge=400)).differences == ()


def test_a_small_order_may_be_charged_up_to_what_lacked_of_the_minimum_and_need_not_be():
    small = Agreed(below_minimum=300)
    assert told(Invoice(in_words=(charge(250, "minimum"),)), agreed=small).differences == ()
    assert told(Invoice(), agreed=small).differences == ()
    too_much = told(Invoice(in_words=(charge(500, "minimum"),)), agreed=small)
    assert kinds(too_much) == [("minimum", 200)]


def test_a_tax_stands_as_it_is_printed():
    matched = told(Invoice(in_words=(charge(77, "tax"),)))
    assert (matched.should_be, matched.differences) == (77, ())


def test_what_was_ordered_in_words_may_be_billed_in_the_same_words():
    curd = charge(420, "other", "goat-curd")
    assert told(Invoice(in_words=(curd,)), agreed=Agreed(words=frozenset({"goat-curd"}))).should_be
    assert kinds(told(Invoice(in_words=(curd,)))) == [("in_words", 420)]


def off(amount, credit="old", line=0):
    return TakenOff(line, credit, amount)


def test_a_credit_owed_and_not_taken_off_is_a_difference():
    matched = told(goods(billed(2, 460)), came(2), left={"old": 150})
    assert (matched.should_be, kinds(matched)) == (310, [("credit_left", 150)])


def test_a_credit_taken_off_is_held_against_what_it_is_worth():
    invoice = goods(billed(2, 460), taken_off=(off(150),))
    assert told(invoice, came(2), worth={"old": 150}).differences == ()
    less = told(invoice, came(2), worth={"old": 200})
    assert kinds(less) == [("credit_other", 50)]


def test_a_credit_taken_off_that_nobody_knew_of_is_told():
    matched = told(goods(billed(2, 460), taken_off=(off(90, None),)), came(2))
    assert kinds(matched) == [("credit_unknown", -90)]


def test_a_credit_taken_off_for_what_the_same_invoice_bills_too_much_settles_it():
    invoice = goods(billed(2, 460), taken_off=(off(230, BUTTER),))
    matched = told(invoice, came(1), worth={BUTTER: 230})
    assert (matched.should_be, matched.differences) == (230, ())


ITEMS = ("butter", "milk")
sums = st.integers(0, 5_000)
quantities = st.integers(0, 4_000)


@st.composite
def deliveries(draw):
    return [
        Came(
            source=f"{number}",
            order=draw(st.sampled_from([None, "a", "b"])),
            item=draw(st.sampled_from(ITEMS)),
            pack=draw(st.sampled_from(["small", "large"])),
            came=draw(quantities),
            missing=draw(quantities),
            price=draw(st.integers(0, 900)),
            price_from="ordered",
            of_pack=draw(st.integers(1, 1_000)),
        )
        for number in range(draw(st.integers(0, 4)))
    ]


@st.composite
def invoices(draw):
    lines = [
        BilledGoods(
            line=number,
            item=draw(st.sampled_from(ITEMS)),
            pack=draw(st.sampled_from(["small", "large"])),
            packs=1,
            quantity=draw(quantities),
            amount=draw(sums),
            price=draw(st.integers(0, 900)),
            of_pack=draw(st.integers(1, 1_000)),
        )
        for number in range(draw(st.integers(0, 4)))
    ]
    others = [
        BilledInWords(
            number,
            draw(st.sampled_from(["delivery", "minimum", "tax", "other"])),
            draw(st.sampled_from(["curd", "crate"])),
            draw(sums),
        )
        for number in range(10, 10 + draw(st.integers(0, 4)))
    ]
    owed = draw(st.lists(st.sampled_from([None, "0", "1", "old"]), max_size=3, unique=True))
    taken_off = [TakenOff(number, each, draw(sums)) for number, each in enumerate(owed)]
    return Invoice(tuple(lines), tuple(others), tuple(taken_off))


agreed_on = st.builds(
    Agreed, charge=sums, below_minimum=sums, words=st.frozensets(st.sampled_from(["curd"]))
)
worths = st.fixed_dictionaries({"0": sums, "1": sums, "old": sums})


@given(invoices(), deliveries(), agreed_on, worths, st.data())
def test_PL7_what_it_should_be_and_the_differences_are_the_total_exactly(
    invoice, found, agreed, worth, data
):
    to_bill = data.draw(st.sets(st.sampled_from([each.source for each in found]))) if found else []
    left = data.draw(st.dictionaries(st.sampled_from(["x", "y"]), sums))
    matched = match(invoice, found, to_bill, agreed)
    whole = with_credits(matched, invoice.taken_off, worth, left)
    assert whole.should_be + sum(each.amount for each in whole.differences) == invoice.total
    keys = [each.key for each in whole.differences]
    assert len(keys) == len(set(keys))
    assert all(each.amount for each in whole.differences)


@given(invoices(), deliveries())
def test_nothing_that_came_is_billed_twice(invoice, found):
    matched = match(invoice, found, (), Agreed())
    billed_in_all = sum(line.quantity for line in invoice.goods)
    taken = 0
    for each in found:
        of = matched.taken[each.source]
        assert 0 <= of.came <= each.came
        assert 0 <= of.missing <= each.missing
        taken += of.came + of.missing
    assert taken <= billed_in_all


@given(deliveries(), st.data())
def test_two_invoices_one_after_the_other_bill_what_came_at_most_once(found, data):
    first, second = data.draw(invoices()), data.draw(invoices())
    one = match(first, found, (), Agreed()).taken
    rest = [replace(each, came=each.came - one[each.source].came) for each in found]
    two = match(second, rest, (), Agreed()).taken
    assert all(one[each.source].came + two[each.source].came <= each.came for each in found)


@given(deliveries())
def test_an_invoice_for_just_what_came_at_the_agreed_price_always_agrees(found):
    """However packs are cut: what a line comes to is rounded once."""
    lines = tuple(
        BilledGoods(
            number,
            each.item,
            each.pack or "",
            1,
            each.came,
            round(each.value(each.came)),
            0,
            each.of_pack,
        )
        for number, each in enumerate(found)
    )
    apart = [replace(each, item=each.source) for each in found]
    invoice = Invoice(tuple(replace(line, item=str(line.line)) for line in lines))
    to_bill = {each.source for each in apart}
    assert match(invoice, apart, to_bill, Agreed()).differences == ()
