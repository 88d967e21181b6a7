#!/usr/bin/python3
"""Published formulas worked independently at random points: makes air.csv, lift.csv, radio.csv and power.csv beside this script.

    go run ./cmd/dev formulas        or        /usr/bin/python3 testdata/formulas/reference.py

Needs Debian's python3-scipy (1.10.1) and python3-fluids (1.0.22). It shares no code with the Go program. Constants come from
scipy.constants, the standard atmosphere from fluids, roots from scipy.optimize; every other formula is typed here from the
work named beside it. The columns are the formula, its inputs in SI, and the value to twelve digits.
"""

import math
import pathlib
import random

import scipy
from fluids.atmosphere import ATMOSPHERE_1976
from scipy import constants
from scipy.optimize import brentq

HERE = pathlib.Path(__file__).resolve().parent
R = constants.R
DRAW = random.Random(1976)
EACH = 24


def between(low, high):
    return float(f"{DRAW.uniform(low, high):.5g}")


def spread(low, high):
    """Between two positive bounds, evenly on a scale of logarithms."""
    return float(f"{math.exp(DRAW.uniform(math.log(low), math.log(high))):.5g}")


# ---------------------------------------------------------------- air: Picard et al., Metrologia 45 (2008) 149 (CIPM-2007)

def vapour_pressure(t):
    return math.exp(1.2378847e-5 * t ** 2 - 1.9121316e-2 * t + 33.93711047 - 6.3431645e3 / t)


def vapour_fraction(p, t, h):
    c = t - 273.15
    return h * (1.00062 + 3.14e-8 * p + 5.6e-7 * c ** 2) * vapour_pressure(t) / p


def compressibility(p, t, h):
    c, xv = t - 273.15, vapour_fraction(p, t, h)
    one = 1.58123e-6 - 2.9331e-8 * c + 1.1043e-10 * c ** 2 + (5.707e-6 - 2.051e-8 * c) * xv + (1.9898e-4 - 2.376e-6 * c) * xv ** 2
    return 1 - p / t * one + (p / t) ** 2 * (1.83e-11 - 0.765e-8 * xv ** 2)


def density(p, t, h):
    m_air, m_water = 28.96546e-3, 18.01528e-3        # kg/mol, 400 ppm of carbon dioxide
    return p * m_air / (compressibility(p, t, h) * 8.314472 * t) * (1 - vapour_fraction(p, t, h) * (1 - m_water / m_air))


MOLAR = {"helium": 4.002602e-3, "hydrogen": 2.01588e-3}     # IUPAC standard atomic weights


def gas_density(gas, p, t, h, purity):
    return purity * p * MOLAR[gas] / (R * t) + (1 - purity) * density(p, t, h)


def air_rows():
    for _ in range(EACH):
        state = between(60000, 110000), between(250, 318), between(0, 1)
        yield "density", *state, density(*state)
        yield "vapour_fraction", *state, vapour_fraction(*state)
        yield "compressibility", *state, compressibility(*state)
        gas, purity = DRAW.choice(list(MOLAR)), between(0.9, 1)
        yield "gas_density", gas, *state, purity, gas_density(gas, *state, purity)
        z = between(-400, 10900)
        yield "standard_pressure", z, ATMOSPHERE_1976(z).P
        h, t = between(0, 1000), between(250, 318)
        yield "density_ratio", h, t, math.exp(-constants.g * 28.9647e-3 * h / (R * t))


# ---------------------------------------------------------------- lift: Archimedes, the gas laws

VIRIAL = {"helium": 11.8e-6, "hydrogen": 14.1e-6}           # m3/mol near 15 degC, second coefficients


def lift_rows():
    for _ in range(EACH):
        v, p, t = spread(0.1, 50), between(60000, 110000), between(250, 318)
        yield "fill_moles", v, p, t, p * v / (R * t)
        gas, water, bar, at = DRAW.choice(list(VIRIAL)), between(0.001, 0.08), between(10e5, 300e5), between(263, 313)
        z = 1 + VIRIAL[gas] * bar / (R * at)
        yield "cylinder", gas, water, bar, at, bar * water / (z * R * at)
        t2, p2 = between(250, 318), between(60000, 110000)
        yield "warmed", v, p, t, p2, t2, v * t2 / t * p / p2
        loss, seconds = between(0, 0.6), spread(600, 2e6)
        yield "kept", loss, seconds, math.exp(seconds / 86400 * math.log1p(-loss))
        gross, loss = spread(0.1, 50), between(0.005, 0.6)
        needed = gross * between(0.3, 0.999)
        yield "top_up_after", gross, needed, loss, 86400 * brentq(lambda d: gross * (1 - loss) ** d - needed, 0, 1e4, xtol=1e-12, rtol=1e-14)


# ---------------------------------------------------------------- radio

def free_space(d, f):
    """Recommendation ITU-R P.525 with the wavelength."""
    return 20 * math.log10(4 * math.pi * d * f / constants.c)


def correction(kind, f, hm):
    lf = math.log10(f / 1e6)
    if kind != "large-city":
        return (1.1 * lf - 0.7) * hm - (1.56 * lf - 0.8)
    low, high = 8.29 * math.log10(1.54 * hm) ** 2 - 1.1, 3.2 * math.log10(11.75 * hm) ** 2 - 4.97
    return low if f <= 200e6 else high if f >= 400e6 else min(low, high)


def hata(kind, d, f, hb, hm):
    """Hata 1980, IEEE Trans. Veh. Technol. 29:317."""
    lf, lb = math.log10(f / 1e6), math.log10(hb)
    loss = 69.55 + 26.16 * lf - 13.82 * lb - correction(kind, f, hm) + (44.9 - 6.55 * lb) * math.log10(d / 1e3)
    if kind == "suburban":
        loss -= 2 * math.log10(f / 28e6) ** 2 + 5.4
    if kind == "open":
        loss += -4.78 * lf ** 2 + 18.33 * lf - 40.94
    return loss


def foliage(depth, f):
    """Weissberger, ESD-TR-81-101 (1982), f in GHz."""
    return 0.45 * (f / 1e9) ** 0.284 * depth if depth <= 14 else 1.33 * (f / 1e9) ** 0.284 * depth ** 0.588


def path_loss(kind, d, f, hb, hm, depth):
    loss = free_space(d, f) if kind == "free-space" else max(free_space(d, f), hata(kind, d, f, hb, hm))
    return loss + (foliage(depth, f) if depth else 0)


def limit(standard, who, f):
    """47 CFR 1.1310 Table 1 in W/m2; ICNIRP 2020, Tables 5 and 6."""
    m, trained = f / 1e6, who == "trained"
    if standard == "fcc":
        public, work = (2, 10) if m <= 300 else (m / 150, m / 30) if m <= 1500 else (10, 50)
    elif standard == "body":
        public, work = (2, 10) if m <= 400 else (m / 200, m / 40) if m <= 2000 else (10, 50)
    else:
        public, work = (10, 50) if m <= 400 else (0.058 * m ** 0.86, 0.29 * m ** 0.86) if m <= 2000 else (40, 200)
    return work if trained else public


def radio_rows():
    kinds = ["free-space", "open", "suburban", "urban", "large-city"]
    for n in range(EACH):
        d, f = spread(100, 50e3), spread(100e6, 2e9)
        yield "free_space", d, f, free_space(d, f)
        hb, hm = between(10, 200), between(1, 10)
        yield "horizon", hb, hm, math.sqrt(2 * 4 / 3 * 6371e3) * (math.sqrt(hb) + math.sqrt(hm))
        for kind in kinds[1:]:
            yield "hata", kind, d, f, hb, hm, hata(kind, d, f, hb, hm)
        depth = spread(0.5, 400)
        yield "foliage", depth, f, foliage(depth, f)
        yield "foliage", float(f"{depth / 30:.5g}"), f, foliage(float(f"{depth / 30:.5g}"), f)
        kind, depth = kinds[n % 5], depth if n % 2 else 0.0
        watts, gains, losses, fade, sensitivity = spread(0.05, 50), between(-5, 12), between(0, 4), between(0, 15), between(-125, -90)
        allowed = 10 * math.log10(watts / 1e-3) + gains - losses - fade - sensitivity
        yield "range", kind, f, watts, gains, losses, fade, sensitivity, hb, hm, depth, \
            math.exp(brentq(lambda x: allowed - path_loss(kind, math.exp(x), f, hb, hm, depth), 0, math.log(1e9), xtol=1e-13, rtol=1e-14))
        s, g1, g2 = spread(0.3, 60), between(0, 9), between(0, 9)
        yield "isolation", "horizontal", s, f, g1, g2, 22 + 20 * math.log10(s * f / constants.c) - g1 - g2
        yield "isolation", "vertical", s, f, g1, g2, 28 + 40 * math.log10(s * f / constants.c)
        f, duty = spread(30e6, 6e9), between(0.01, 1)
        standard, who = DRAW.choice(["fcc", "body", "local"]), DRAW.choice(["public", "trained"])
        eirp = watts * 10 ** ((g1 - losses) / 10)
        yield "limit", standard, who, f, limit(standard, who, f)
        yield "exposure", standard, who, f, watts, g1, losses, duty, \
            math.sqrt(2.56 * eirp * duty / (4 * math.pi * limit(standard, who, f)))       # OET Bulletin 65
        tx, blocking, noise, harmonic = between(140e6, 150e6), between(40, 90), between(-120, -60), between(30, 80)
        n = DRAW.choice([2, 3, 4, 5])
        rx = float(f"{tx * n + DRAW.choice([0, 10e3, 40e3]):.8g}")
        p, quiet = 10 * math.log10(watts / 1e-3), sensitivity - 6
        needs = [p - sensitivity - blocking, p + noise - quiet] + ([p - harmonic - quiet] if abs(n * tx - rx) <= 25e3 else [])
        yield "needed", tx, rx, watts, sensitivity, blocking, noise, harmonic, 25e3, max(needs)


# ---------------------------------------------------------------- power

def power_rows():
    for _ in range(EACH):
        gauge, length, amps = DRAW.randrange(0, 41), between(0.05, 3), between(0.01, 3)
        d = 0.127e-3 * math.exp((36 - gauge) / 39 * math.log(92))                         # ASTM B258
        yield "diameter", gauge, d
        yield "drop", gauge, length, amps, amps * 2 * length * 1.7241e-8 / (math.pi * (d / 2) ** 2)   # IACS copper
        volts, cells = DRAW.choice([("li-ion", 3.7), ("lipo", 3.7), ("lifepo4", 3.2), ("nimh", 1.2), ("lead-acid", 2.0), ("alkaline", 1.5)]), DRAW.randrange(1, 8)
        ah, usable, cold, count = between(0.5, 20), between(0.3, 1), between(0.3, 1), DRAW.randrange(1, 4)
        draws = [between(0.01, 2) for _ in range(3)]
        duty = between(0, 0.5)
        shares = duty, 0.25, 0.75 - duty
        nominal = volts[1] * cells
        average = nominal * sum(share * amps for share, amps in zip(shares, draws))
        joules = nominal * ah * 3600 * usable * cold * count
        yield "endurance", volts[0], cells, ah, usable, cold, count, *draws, duty, joules / average
        hours, lasts = between(0.5, 200), between(0.5, 50)
        yield "changes", hours * 3600, lasts * 3600, math.ceil(hours / lasts) - 1


def write(name, rows):
    text = f"# made by reference.py beside this file (scipy {scipy.__version__}); do not edit\n"
    for *inputs, value in rows:
        text += ",".join([x if isinstance(x, str) else f"{x:.10g}" for x in inputs] + [f"{value:.12g}"]) + "\n"
    (HERE / name).write_text(text)


write("air.csv", air_rows())
write("lift.csv", lift_rows())
write("radio.csv", radio_rows())
write("power.csv", power_rows())
