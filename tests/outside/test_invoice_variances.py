"""What is billed against what came, against published examples of price and quantity variances.

The differences of a line are the two variances of cost accounting: (actual price - standard price)
x actual quantity, and (actual quantity - standard quantity) x standard price. Here actual is what
is billed, standard what came at the agreed price.
"""

import pytest

from pantry.rules.invoiced import Agreed, BilledGoods, Came, Invoice
from pantry.rules.invoices import match

EXAMPLES = [
    # accountingqa.blogspot.com, Ex 23-5, direct materials variances (2018): 450 units bought for
    # 2,925 at a standard of 430 units at 6.90
    (450, 292_500, 430, 690, -18_000, 13_800),
    # wizedu.com, question 271540: 4,500 pounds at 5.10, a standard of 4,000 at 5.00
    (4_500, 4_500 * 510, 4_000, 500, 45_000, 250_000),
    # aheadinclass.com, direct materials variance: 10,400 yards at 6.25, a standard of 10,000 at 6;
    # the quantity variance computed by its formula
    (10_400, 10_400 * 625, 10_000, 600, 260_000, 240_000),
    # coursehero.com, file 6545781: 60,000 pounds at 1.05, a standard of 13,300 x 4.5 at 1.10
    (60_000, 60_000 * 105, 59_850, 110, -300_000, 16_500),
]


@pytest.mark.parametrize(("billed", "amount", "came", "price", "of_price", "of_quantity"), EXAMPLES)
def test_a_line_differs_by_its_price_variance_and_its_quantity_variance(
    billed, amount, came, price, of_price, of_quantity
):
    line = BilledGoods(0, "x", "x", billed, billed * 1_000, amount, price, 1_000)
    rest = (billed - came) * 1_000
    found = Came("order|x", "order", "x", "x", came * 1_000, rest, price, "ordered", 1_000)
    matched = match(Invoice(goods=(line,)), [found], {"order|x"}, Agreed())
    told = {each.kind: each.amount for each in matched.differences}
    assert told == {"more_than_received": of_quantity, "price": of_price}
    assert matched.should_be == came * price
