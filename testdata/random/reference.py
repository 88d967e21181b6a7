#!/usr/bin/python3
"""One thousand random kits, calculated by ../facts/reference.py: makes reference.csv beside this script.

    go run ./cmd/dev random        or        /usr/bin/python3 testdata/random/reference.py

A kit is a demonstration kit (the row's number modulo three) with every value of fields.json moved: times a factor, plus a
number of kelvins, decibels or metres, or another word. How far is drawn by SplitMix64 (Steele, Lea, Flood, Fast splittable
pseudorandom number generators, OOPSLA 2014) from row and field, so that the Go test makes the same kits without a table of
them. A row of reference.csv is the kit's number, the facts of COLUMNS to seven digits, and one more fact, another for each
row. Facts that have no value, because the line does not stand, are empty. It takes some minutes.
"""

import functools
import json
import math
import multiprocessing
import pathlib
import sys

HERE = pathlib.Path(__file__).resolve().parent
sys.dont_write_bytecode = True
sys.path.insert(0, str(HERE.parent / "facts"))
import reference as independent  # noqa: E402

ROWS = 1000
KITS = ["fen-relay", "marsh-data", "ridge-sphere"]
FIELDS = json.loads((HERE / "fields.json").read_text())
COLUMNS = """air.density_hot_kg_m3 air.density_cold_kg_m3 gas.density_hot_kg_m3 gas.cylinders mass.aloft_worst_kg lift.gross_kg lift.free_end_kg
tether.height_m tether.drift_m tether.tension_ground_n tether.tension_peak_n wind.greatest_m_s lift.neck_needed_kg anchor.pull_n power.average_w power.endurance_h
radio.coverage_km radio.isolation_needed_db radio.isolation_available_db""".split()


def draw(row, field):
    """SplitMix64 from a seed of row and field, as a number from 0 to 1."""
    z = (row * 1000 + field + 1) * 0x9E3779B97F4A7C15 & 0xFFFFFFFFFFFFFFFF
    z = (z ^ z >> 30) * 0xBF58476D1CE4E5B9 & 0xFFFFFFFFFFFFFFFF
    z = (z ^ z >> 27) * 0x94D049BB133111EB & 0xFFFFFFFFFFFFFFFF
    return (z ^ z >> 31) / 2 ** 64


def moved(text, how, low, high, u):
    """A value with its unit kept: the number before the unit is what moves."""
    bare = not isinstance(text, str)
    number, unit = (str(text), "") if bare else independent.QUANTITY.match(text).groups()
    by = low + (high - low) * u
    value = f"{float(number) * by if how == 'times' else float(number) + by:.6f}"
    return float(value) if bare else f"{value} {unit}".strip()


def kit(row):
    m = json.loads((independent.DEMOS / f"{KITS[row % 3]}.json").read_text())
    for i, (pointer, how, *args) in enumerate(FIELDS):
        *way, last = pointer.split("/")[1:]
        at = m
        for name in way:
            at = at.get(name, {})
        if last in at:
            u = draw(row, i)
            at[last] = args[int(u * len(args))] if how == "of" else moved(at[last], how, *args, u)
    return m


def facts(row):
    m, out = kit(row), {}

    def put(name, value):
        if not isinstance(value, (str, bool)) and math.isfinite(value):
            out[name] = float(value)

    # The search for the most neck lift takes as long as all the rest, and is left to the demonstration kits and their variations.
    for chapter in (functools.partial(independent.lift_and_line, most_neck=False), independent.power, independent.radio):
        try:
            chapter(m, put)
        except (TypeError, ValueError):      # the line does not stand, or nothing makes it stand
            pass
    others = sorted(set(out) - set(COLUMNS))
    other = others[row // 3 % len(others)]
    return ",".join([str(row)] + [f"{out[c]:.7g}" if c in out else "" for c in COLUMNS] + [other, f"{out[other]:.7g}"])


def main():
    with multiprocessing.Pool(2) as pool:
        lines = pool.map(facts, range(ROWS), chunksize=20)
    text = "# made by reference.py beside this file (scipy " + independent.scipy.__version__ + "); do not edit\n"
    (HERE / "reference.csv").write_text(text + ",".join(["kit"] + COLUMNS + ["other", "value"]) + "\n" + "\n".join(lines) + "\n")


if __name__ == "__main__":
    main()
