#!/usr/bin/env python3
"""The cheapest orders of random requests, by a general solver of mixed-integer programs (scipy.optimize.milp, HiGHS).

Every part is wanted once and offered singly, so that an order is a choice of one offer for every part. The program:

    minimise   sum of prices + make-up + postage, then the number of parcels
    each part  one offer is taken
    supplier   used when anything is taken; make-up >= minimum - goods; postage unless max(goods, minimum) >= free_from

The second best is the cheapest with another set of suppliers. Amounts are cents. Run: go run ./cmd/dev orders
"""
import json
import os
import random

import numpy as np
import scipy
from scipy.optimize import Bounds, LinearConstraint, milp


def request(rng, suppliers, parts, offers):
    terms = []
    for _ in range(suppliers):
        free = rng.choice([None, rng.randrange(2000, 12000, 500)])
        least = rng.choice([0, 0, rng.randrange(1000, 5000, 500)])
        terms.append({"postage": rng.randrange(0, 900, 10), "free": free, "minimum": least})
    wanted = []
    for _ in range(parts):
        base = rng.choice([rng.randrange(20, 400), rng.randrange(300, 3000)])
        sold = rng.sample(range(suppliers), min(offers, suppliers))
        wanted.append([[s, max(1, round(base * rng.uniform(0.85, 1.2)))] for s in sold])
    return {"suppliers": terms, "parts": wanted}


def solve(q, other_than=None):
    """The least weighted cost, and the set of suppliers. other_than is a set that may not be used."""
    terms, offers = q["suppliers"], [(p, s, c) for p, sold in enumerate(q["parts"]) for s, c in sold]
    n, m = len(offers), len(terms)
    weight = m + 1
    used, makeup, paid = n, n + m, n + 2 * m  # columns: taken, then used, make-up and postage paid of each supplier
    width = n + 3 * m
    objective = np.zeros(width)
    upper = np.ones(width)
    whole = np.ones(width)
    rows, low, high = [], [], []

    def row(pairs, lowest, highest):
        r = np.zeros(width)
        for column, factor in pairs:
            r[column] += factor
        rows.append(r), low.append(lowest), high.append(highest)

    for i, (_, _, cost) in enumerate(offers):
        objective[i] = cost * weight
    for s, t in enumerate(terms):
        mine = [(i, c) for i, (_, at, c) in enumerate(offers) if at == s]
        objective[used + s] = 1
        objective[makeup + s] = weight
        objective[paid + s] = t["postage"] * weight
        upper[makeup + s], whole[makeup + s] = t["minimum"], 0
        for i, _ in mine:
            row([(i, 1), (used + s, -1)], -np.inf, 0)
        row([(i, 1) for i, _ in mine] + [(used + s, -1)], 0, np.inf)  # what is not used is not a parcel
        row([(i, c) for i, c in mine] + [(makeup + s, 1), (used + s, -t["minimum"])], 0, np.inf)
        if t["free"] is None:
            row([(paid + s, 1), (used + s, -1)], 0, np.inf)
        elif t["free"] > t["minimum"]:
            row([(i, c) for i, c in mine] + [(paid + s, t["free"]), (used + s, -t["free"])], 0, np.inf)
    for p in range(len(q["parts"])):
        row([(i, 1) for i, (at, _, _) in enumerate(offers) if at == p], 1, 1)
    if other_than is not None:
        row([(used + s, -1 if s in other_than else 1) for s in range(m)], 1 - len(other_than), np.inf)
    got = milp(objective, constraints=LinearConstraint(np.array(rows), low, high), bounds=Bounds(0, upper), integrality=whole,
               options={"mip_rel_gap": 0, "time_limit": 300})
    if got.status == 2:
        return None, None
    assert got.status == 0, got.message
    total = round(got.fun)
    assert abs(total - got.fun) < 0.01
    return total, sorted(s for s in range(m) if got.x[used + s] > 0.5)


def main():
    rng = random.Random(1)
    here = os.path.dirname(os.path.abspath(__file__))
    with open(os.path.join(here, "reference.jsonl"), "w", encoding="utf-8") as out:
        print(json.dumps({"made_by": "testdata/orders/reference.py, scipy " + scipy.__version__}), file=out)
        for suppliers, parts, offers, times in [(2, 4, 2, 10), (3, 8, 2, 15), (4, 12, 3, 20), (6, 20, 3, 20), (8, 30, 3, 15), (10, 40, 4, 10), (12, 60, 3, 6), (15, 100, 3, 4)]:
            for _ in range(times):
                q = request(rng, suppliers, parts, offers)
                best, chosen = solve(q)
                second, _ = solve(q, chosen)
                weight = suppliers + 1
                q["best"], q["parcels"] = best // weight, best % weight
                q["second"] = None if second is None else second // weight
                print(json.dumps(q), file=out)


if __name__ == "__main__":
    main()
