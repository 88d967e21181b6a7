#!/usr/bin/python3
"""How long scipy takes for what the benchmarks do: prints seconds a piece, the least of several.

    times.py stand      one line in a wind (solve_ivp and brentq), the station of kits/tether/bench_test.go
    times.py order      one order (milp, HiGHS), the mean of twelve of testdata/orders/reference.jsonl

Needs python3 with scipy. The benchmarks start it: go run ./cmd/dev bench
"""
import importlib.util
import json
import pathlib
import sys
import time

TESTDATA = pathlib.Path(__file__).resolve().parent.parent


def reference(folder):
    spec = importlib.util.spec_from_file_location(folder, TESTDATA / folder / "reference.py")
    module = importlib.util.module_from_spec(spec)
    spec.loader.exec_module(module)
    return module


def least(times, work):
    best = float("inf")
    for _ in range(times):
        begun = time.process_time()
        work()
        best = min(best, time.process_time() - begun)
    return best


def stand():
    line = reference("facts").Line(45, 1.1e-3 * 9.80665, 1.4e-3, 1.1, 0.7, 1.30, 2, 0.15)
    return least(5, lambda: line.stand(2.0, 2.2, 4.0))


def order():
    solve = reference("orders").solve
    with open(TESTDATA / "orders" / "reference.jsonl", encoding="utf-8") as lines:
        asked = [json.loads(line) for line in lines][81:93]
    return least(1, lambda: [solve(q) for q in asked]) / len(asked)


print({"stand": stand, "order": order}[sys.argv[1]]())
