"""Ask stockpyl for its numbers: cases as JSON on standard input, answers on standard output.

It runs in an environment of its own, because stockpyl pins an old Sphinx whose add-on slows every
start of an interpreter; nothing of the project is imported here.
"""

import json
import sys

from stockpyl.newsvendor import newsvendor_normal
from stockpyl.rq import r_q_eoqss_approximation


def answer(case):
    """Order-up-to level after `lead` further periods, and reorder point over `lead`."""
    costs = (case["holding"], case["stockout"])
    level, _ = newsvendor_normal(*costs, case["rate"], case["deviation"], case["whole_lead"])
    point, _ = r_q_eoqss_approximation(*costs, 1, case["rate"], case["deviation"], case["lead"])
    return {"order_up_to": float(level), "reorder_point": float(point)}


if __name__ == "__main__":
    json.dump([answer(case) for case in json.load(sys.stdin)], sys.stdout)
