#!/usr/bin/python3
"""Cheapest boards by an independent method: every pattern listed, then a mixed-integer programme solved by HiGHS.

Usage: oracle_cutting.py CASES.json ANSWERS.json
Lengths are whole sixteenths of an inch, prices whole cents. A case has `kerf`, `trim`, `bad_end`, `pieces` [[length, count,
sound]...], `boards` [[length, price, how many there are]...] and `offcuts` [[length, scrap value, how many]...]; a sound piece
stays out of a board's bad end. The answer is a list of costs, null where a case cannot be cut.
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
    kerf = case["kerf"]
    sizes = [length + kerf for length, _, _ in case["pieces"]]
    counts = [count for _, count, _ in case["pieces"]]
    sound = [is_sound for _, _, is_sound in case["pieces"]]
    lost = 2 * case["trim"]
    stock = [(length - lost + kerf, price, many, case["bad_end"]) for length, price, many in case["boards"]]
    stock += [(length + kerf, value, many, 0) for length, value, many in case["offcuts"]]
    columns, prices, owner = [], [], []
    for index, (room, price, _, bad_end) in enumerate(stock):
        for pattern in patterns(room, sizes, counts):
            sound_length = sum(n * size for n, size, is_sound in zip(pattern, sizes, sound) if is_sound)
            if sound_length > 0 and sound_length > room - bad_end:
                continue
            columns.append(pattern)
            prices.append(price)
            owner.append(index)
    used = [[1 if o == index else 0 for o in owner] for index in range(len(stock))]
    rules = [
        LinearConstraint(numpy.array(columns).T, lb=counts, ub=numpy.inf),
        LinearConstraint(numpy.array(used), lb=0, ub=[many for _, _, many, _ in stock]),
    ]
    answer = milp(numpy.array(prices), constraints=rules, integrality=numpy.ones(len(prices)), options={"mip_rel_gap": 0})
    return round(answer.fun) if answer.status == 0 else None


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        cases = json.load(file)
    with open(sys.argv[2], "w", encoding="utf-8") as file:
        json.dump([cheapest(case) for case in cases], file)


main()
