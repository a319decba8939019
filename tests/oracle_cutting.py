#!/usr/bin/python3
"""Cheapest boards by an independent method: every pattern listed, then a mixed-integer programme solved by HiGHS.

Usage: oracle_cutting.py CASES.json ANSWERS.json
Lengths are whole sixteenths of an inch, prices whole cents. A case has `kerf`, `trim`, `pieces` [[length, count]...], `boards`
[[length, price]...] and `offcuts` [[length, count]...]. The answer is a list of costs, null where a case cannot be cut.
"""
import json
import sys

import numpy
from scipy.optimize import LinearConstraint, milp


def patterns(room, sizes, counts):
    """Every way to take pieces that fit into `room`, as tuples of counts."""
    if not sizes:
        yield ()
        return
    for n in range(min(counts[0], room // sizes[0]) + 1):
        for rest in patterns(room - n * sizes[0], sizes[1:], counts[1:]):
            yield (n,) + rest


def cheapest(case):
    kerf, trim = case["kerf"], case["trim"]
    sizes = [length + kerf for length, _ in case["pieces"]]
    counts = [count for _, count in case["pieces"]]
    columns, prices, owner = [], [], []
    for length, price in case["boards"]:
        for pattern in patterns(length - 2 * trim + kerf, sizes, counts):
            columns.append(pattern)
            prices.append(price)
            owner.append(None)
    for index, (length, _) in enumerate(case["offcuts"]):
        for pattern in patterns(length + kerf, sizes, counts):
            columns.append(pattern)
            prices.append(0)
            owner.append(index)
    rules = [LinearConstraint(numpy.array(columns).T, lb=counts, ub=numpy.inf)]
    if case["offcuts"]:
        used = [[1 if o == index else 0 for o in owner] for index in range(len(case["offcuts"]))]
        rules.append(LinearConstraint(numpy.array(used), lb=0, ub=[count for _, count in case["offcuts"]]))
    answer = milp(numpy.array(prices), constraints=rules, integrality=numpy.ones(len(prices)), options={"mip_rel_gap": 0})
    return round(answer.fun) if answer.status == 0 else None


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        cases = json.load(file)
    with open(sys.argv[2], "w", encoding="utf-8") as file:
        json.dump([cheapest(case) for case in cases], file)


main()
