#!/usr/bin/python3
"""Statics of a balloon on a line in a wind profile, solved another way: made the table reference.csv beside this script.

    /usr/bin/python3 reference.py > reference.csv        (Debian python3-scipy 1.10.1)

The forces T_x, T_z and the place x, z along the line are a two-point boundary-value problem for scipy.integrate.solve_bvp
(collocation with control of the residual, Kierzenka and Shampine 2001):

    d/ds (T_x, T_z, x, z) = (f cos θ, -(w + f sin θ), -sin θ, -cos θ),  f = ½ ρ C_n D U(z)² cos²θ,  tan θ = T_x/T_z,

s from the balloon down, stretched as s = L (1 - (1 - r)^4) because the profile bends sharply at the ground; T_x(0) is the balloon's drag at its own height z(0), T_z(0) its lift, x(0) = 0, z(L) = 0. Nothing is
shot, marched or bracketed, and the angle is no unknown. Storms are reached from calm by raising the wind step by step.
A case whose T_z falls below zero does not stand ("no").
"""

import sys

import numpy as np
from scipy.integrate import solve_bvp

G = 9.80665
COLUMNS = ("case length_m linear_mass_kg_m diameter_m line_cd fill_m3 balloon_cd lift_kg air_kg_m3 measured_at_m exponent wind_m_s "
           "stands height_m drift_m top_n ground_n across_n up_n").split()


def solve(length, w, diameter, line_cd, fill, balloon_cd, lift, air, measured_at, exponent, wind):
    disc = np.pi / 4 * (6 * fill / np.pi) ** (2 / 3)

    def q(z, u):
        return 0.5 * air * (u * (np.maximum(z, 0) / measured_at) ** exponent) ** 2

    def slopes(r, y, u):
        tx, tz, x, z = y
        ds = 4 * length * (1 - r) ** 3
        t = np.hypot(tx, tz)
        sin, cos = tx / t, tz / t
        f = q(z, u) * line_cd * diameter * cos ** 2
        return ds * np.vstack([f * cos, -(w * G + f * sin), -sin, -cos])

    def ends(top, foot, u):
        return np.array([top[0] - q(top[3], u) * balloon_cd * disc, top[1] - lift * G, top[2], foot[3]])

    r = np.linspace(0, 1, 100)
    down = 1 - (1 - r) ** 4
    y = np.vstack([0 * r, lift * G - w * G * length * down, 0 * r, length * (1 - down)])
    for u in wind * np.linspace(0, 1, 21)[1:]:
        found = solve_bvp(lambda r, y: slopes(r, y, u), lambda a, b: ends(a, b, u), r, y, tol=1e-7, max_nodes=20000)
        if not found.success:
            sys.exit(f"no solution at {u} m/s: {found.message}")
        r = np.linspace(0, 1, 100)
        y = found.sol(r)
    tx, tz, x, z = found.y
    return tz.min() > 0, z[0], -x[-1], np.hypot(tx[0], tz[0]), np.hypot(tx[-1], tz[-1]), tx[-1], tz[-1]


def cases():
    """Lines from thread to rope, balloons from a bucket to a room, from calm to storm, over every terrain."""
    exponents = [0.10, 0.15, 0.20, 0.25, 0.30, 0.40]
    rigs = [
        # length, linear mass, diameter, line Cd, fill, balloon Cd, lift, air, measured at
        (45, 1.1e-3, 1.4e-3, 1.1, 2.2, 0.7, 0.9, 1.30, 2),
        (30, 0.4e-3, 0.8e-3, 1.2, 1.2, 0.7, 0.35, 1.24, 2),
        (60, 5.0e-3, 3.0e-3, 1.2, 5.6, 0.7, 2.88, 1.15, 10),
        (100, 2.0e-3, 2.0e-3, 1.1, 8.0, 0.47, 4.0, 1.29, 10),
        (150, 8.0e-3, 4.0e-3, 1.2, 14.1, 0.7, 7.0, 1.225, 10),
        (300, 1.5e-3, 1.8e-3, 1.1, 30.0, 0.7, 15.0, 1.10, 10),
        (20, 12.0e-3, 6.0e-3, 1.2, 1.8, 0.7, 0.5, 1.40, 2),
        (45, 15.0e-3, 3.0e-3, 1.1, 2.5, 0.7, 1.0, 1.35, 2),
        (80, 0.2e-3, 0.6e-3, 1.1, 3.2, 0.7, 1.6, 1.20, 3),
        (10, 3.0e-3, 2.5e-3, 1.0, 40.0, 0.7, 30.0, 1.25, 2),
        (100, 8.0e-3, 4.0e-3, 1.2, 3.0, 0.5, 0.95, 1.25, 2),
        (50, 20.0e-3, 8.0e-3, 1.2, 3.0, 0.1, 1.1, 1.25, 10),
    ]
    winds = [0.3, 1, 2, 4, 7, 12]
    for i, rig in enumerate(rigs):
        for j, wind in enumerate(winds):
            yield (*rig, exponents[(i + j) % 6], wind)
    # A line that drags although the balloon does not, and a balloon that drags although the line does not.
    yield (45, 1.1e-3, 1.4e-3, 1.1, 2.2, 0.0, 0.9, 1.30, 2, 0.15, 6)
    yield (45, 1.1e-3, 1.4e-3, 0.0, 2.2, 0.7, 0.9, 1.30, 2, 0.15, 6)
    # A line without weight; a wind that is the same at every height.
    yield (45, 0.0, 1.4e-3, 1.1, 2.2, 0.7, 0.9, 1.30, 2, 0.15, 6)
    yield (60, 5.0e-3, 3.0e-3, 1.2, 5.6, 0.7, 2.88, 1.15, 10, 0.0, 6)


print("# made by reference.py beside this file (scipy.integrate.solve_bvp); do not edit")
print(",".join(COLUMNS))
for number, case in enumerate(cases(), 1):
    stands, *out = solve(*case)
    row = [str(number)] + [f"{v:.6g}" for v in case] + (["yes"] + [f"{v:.8g}" for v in out] if stands else ["no"] + [""] * len(out))
    print(",".join(row), flush=True)
    print(number, stands, file=sys.stderr)
