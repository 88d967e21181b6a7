#!/usr/bin/python3
"""Every computed fact of the demonstration kits, and of them with the changes in variations.json, calculated another way:
makes reference.json beside this script.

    go run ./cmd/dev reference        or        /usr/bin/python3 testdata/facts/reference.py

Needs python3 with scipy (made with Debian's 1.10.1). The script reads the manifests with its own reader of units and works
from the published formulas, named at each function; it shares nothing with the Go program but the manifests. The tether
is shot with an eighth-order integrator (scipy.integrate.solve_ivp, DOP853) in the forces T_x and T_z and the place, from
the balloon to the ground, and its limits are found by brentq on each criterion alone.
"""

import hashlib
import json
import math
import pathlib
import re
import sys
from fractions import Fraction

import numpy as np
import scipy
from scipy.integrate import solve_ivp
from scipy.optimize import brentq

HERE = pathlib.Path(__file__).resolve().parent
DEMOS = HERE.parent.parent / "kits" / "demos"

G = 9.80665           # standard gravity, m/s2 (CGPM 1901)
R = 8.314462618       # J/(mol K), CODATA 2018
C_LIGHT = 299792458.0

# ---------------------------------------------------------------- units: NIST SP 811 (2008), appendix B.8

FT, LB, IN = 0.3048, 0.45359237, 0.0254
SCALE = {
    "kg": 1, "g": 1e-3, "lb": LB, "oz": LB / 16,
    "m": 1, "mm": 1e-3, "cm": 1e-2, "km": 1e3, "in": IN, "ft": FT, "mi": 1609.344,
    "m3": 1, "L": 1e-3, "ft3": FT ** 3,
    "s": 1, "min": 60, "h": 3600, "d": 86400,
    "V": 1, "mV": 1e-3, "A": 1, "mA": 1e-3, "Ah": 3600, "mAh": 3.6, "W": 1, "mW": 1e-3,
    "Pa": 1, "hPa": 100, "bar": 1e5, "psi": LB * G / IN ** 2,
    "m/s": 1, "mph": 1609.344 / 3600, "kn": 1852 / 3600, "km/h": 1 / 3.6,
    "N": 1, "lbf": LB * G, "kgf": G, "g/m": 1e-3, "lb/100ft": LB / (100 * FT), "oz/ft": LB / 16 / FT,
    "deg": math.pi / 180, "%": 1e-2, "%/d": 1e-2, "Hz": 1, "kHz": 1e3, "MHz": 1e6, "GHz": 1e9,
    "dB": 1, "dBi": 1, "dBm": 1,
}
QUANTITY = re.compile(r"^(-?[0-9.]+) ?(.*)$")


def q(text):
    """One quantity in SI; decibels stay what they are, dBd becomes dBi, temperatures kelvin."""
    if not isinstance(text, str):
        return float(text)
    if text.startswith("AWG"):
        return float(text[3:])
    number, unit = QUANTITY.match(text).groups()
    n = float(number)
    if unit == "degC":
        return n + 273.15
    if unit == "degF":
        return (n - 32) / 1.8 + 273.15
    if unit == "dBd":
        return n + 2.15
    return n * SCALE[unit]


def span(text):
    low, high = text.split(" to ")
    return q(low), q(high)


# ---------------------------------------------------------------- air and gas

def standard_pressure(z):
    """US Standard Atmosphere 1976 / ISO 2533, troposphere, geometric altitude z in m; M0/R* of that standard."""
    h = 6356766.0 * z / (6356766.0 + z)
    return 101325.0 * (1 - 0.0065 * h / 288.15) ** (9.80665 * 0.0289644 / (8.31432 * 0.0065))


def moist_air(p, kelvin, humidity):
    """Picard, Davis, Glaser, Fujii, Metrologia 45 (2008) 149 (CIPM-2007), 400 ppm of carbon dioxide."""
    t = kelvin - 273.15
    psv = math.exp(1.2378847e-5 * kelvin ** 2 - 1.9121316e-2 * kelvin + 33.93711047 - 6.3431645e3 / kelvin)
    f = 1.00062 + 3.14e-8 * p + 5.6e-7 * t ** 2
    xv = humidity * f * psv / p
    z = (1 - p / kelvin * (1.58123e-6 - 2.9331e-8 * t + 1.1043e-10 * t ** 2 + (5.707e-6 - 2.051e-8 * t) * xv
                           + (1.9898e-4 - 2.376e-6 * t) * xv ** 2) + (p / kelvin) ** 2 * (1.83e-11 - 0.765e-8 * xv ** 2))
    return p * 28.96546e-3 / (z * 8.314472 * kelvin) * (1 - xv * (1 - 18.01528 / 28.96546))


MOLAR = {"helium": 4.002602e-3, "hydrogen": 2.01588e-3}   # kg/mol, IUPAC
VIRIAL = {"helium": 11.8e-6, "hydrogen": 14.1e-6}         # m3/mol near 288 K
ALLOWANCE = {"estimated": 0.20, "calculated": 0.10, "weighed": 0.02}
EXPONENT = {"water": 0.10, "open": 0.15, "rough": 0.20, "wooded": 0.25, "town": 0.30, "city": 0.40}  # Patel, Table 4-3


# ---------------------------------------------------------------- the line

class Line:
    """Berteaux, Buoy Engineering (1976); Hoerner, Fluid-Dynamic Drag: a line under its weight and the drag across it."""

    def __init__(self, length, weight, diameter, line_cd, balloon_cd, air, measured_at, exponent):
        self.length, self.weight, self.dcd, self.cd = length, weight, diameter * line_cd, balloon_cd
        self.air, self.zm, self.alpha = air, measured_at, exponent

    def q(self, z, u):
        return 0.5 * self.air * (u * (max(z, 0.0) / self.zm) ** self.alpha) ** 2

    def drag(self, z, u, fill):
        return self.q(z, u) * self.cd * math.pi / 4 * (6 * fill / math.pi) ** (2 / 3)

    def shoot(self, height, u, lift, fill):
        """From the balloon down; returns where the end is: T_x, T_z, distance downwind, height."""
        def slope(_, y):
            tx, tz, x, z = y
            t = math.hypot(tx, tz)
            sin, cos = tx / t, tz / t
            f = self.q(z, u) * self.dcd * cos * cos
            return [f * cos, -(self.weight + f * sin), -sin, -cos]

        flat = lambda _, y: y[1]
        flat.terminal = True
        run = solve_ivp(slope, (0, self.length), [self.drag(height, u, fill), lift * G, 0.0, height], method="DOP853",
                        rtol=1e-9, atol=1e-9, events=flat)
        return run.y[:, -1], run.status == 1

    def stand(self, u, lift, fill):
        """How the balloon stands, or None where the line would lie on the ground."""
        if lift * G <= self.weight * self.length:
            return None
        miss = lambda h: self.shoot(h, u, lift, fill)[0][3]
        if miss(self.length) <= 1e-9 * self.length:
            h = self.length
        else:
            h = brentq(miss, 1e-6 * self.length, self.length, xtol=1e-8 * self.length, rtol=1e-12)
        (tx, tz, x, _), flat = self.shoot(h, u, lift, fill)
        if flat:
            return None
        d = self.drag(h, u, fill)
        return dict(height=h, drift=-x, lean=math.atan2(-x, h), drag=d, wind=u * (h / self.zm) ** self.alpha,
                    top=math.hypot(d, lift * G), ground=math.hypot(tx, tz), up=tz, across=tx)


# ---------------------------------------------------------------- power

CELL = {  # cutoff, nominal, full, V: cell makers' data
    "li-ion": (3.0, 3.7, 4.2), "lipo": (3.0, 3.7, 4.2), "lifepo4": (2.5, 3.2, 3.65), "nimh": (1.0, 1.2, 1.45),
    "lead-acid": (1.75, 2.0, 2.4), "alkaline": (0.9, 1.5, 1.6),
}
RESTED = {"li-ion": 4.07, "lipo": 4.07, "lifepo4": 3.32, "nimh": 1.30, "lead-acid": 2.10, "alkaline": 1.50}  # charged, an hour later: practice
STATES = ("transmit", "receive", "standby")


def power(m, put):
    parts = m["parts"]
    pick = lambda facet: [(r, p[facet], p) for r, p in sorted(parts.items()) if facet in p]
    feeds = {c["to"]: (r, c) for r, c, _ in pick("converter")}
    roots = {}
    for r, b, p in pick("battery"):
        roots.setdefault(b["rail"], []).append((b, p.get("quantity", 1)))

    def volts(rail):
        if rail in roots:
            b = roots[rail][0][0]
            return tuple(b["cells_in_series"] * v for v in CELL[b["chemistry"]])
        _, c = feeds[rail]
        low, nominal, high = volts(c["from"])
        out, tol = q(c["output"]), q(c["tolerance"])
        if c["kind"] == "boost":
            return out * (1 - tol), max(out, nominal), max(out * (1 + tol), high)
        left = low - q(c["headroom"])
        return min(out * (1 - tol), max(left, 0)), out, out * (1 + tol)

    def drawn(c, amps, source):
        iq = q(c["quiescent"])
        if c["kind"] == "linear":
            return amps + iq
        out = q(c["output"])
        if c["kind"] == "boost":
            out = max(out, source)
        return out * amps / (q(c["efficiency"]) * source) + iq

    def amps(rail, of, at):
        """Current out of a rail; of picks a load's current, at picks the source's voltage (0 lowest, 1 nominal)."""
        total = sum(p.get("quantity", 1) * of(l) for _, l, p in pick("load") if l["rail"] == rail)
        for _, c, _ in pick("converter"):
            if c["from"] == rail:
                total += drawn(c, amps(c["to"], of, at), volts(rail)[at])
        return total

    peak = lambda l: max(q(l["current"][s]) for s in STATES)
    rails = sorted(set(roots) | set(feeds))
    for rail in rails:
        low, _, high = volts(rail)
        put(f"power.rails.{rail}.lowest_v", low)
        put(f"power.rails.{rail}.highest_v", high)
        put(f"power.rails.{rail}.greatest_a", amps(rail, peak, 0))
    for r, l, _ in pick("load"):
        low, _, high = volts(l["rail"])
        d = 0.127e-3 * 92 ** ((36 - q(l["wire"]["gauge"])) / 39)                        # ASTM B258
        ohms = 1.7241e-8 * 2 * q(l["wire"]["length"]) / (math.pi * d * d / 4)           # IACS copper
        put(f"power.loads.{r}.lowest_v", low - peak(l) * ohms)
        put(f"power.loads.{r}.highest_v", high)
        if "transmitter" in parts[r]:
            put(f"radio.transmitters.{r}.supply_w", high * q(l["current"]["transmit"]))
    for r, c, _ in pick("converter"):
        out, volt = amps(c["to"], peak, 0), q(c["output"])
        low, _, high = volts(c["from"])
        put(f"power.converters.{r}.greatest_a", out)
        heat = (high - volt) * out if c["kind"] == "linear" else (1 / q(c["efficiency"]) - 1) * volt * out
        put(f"power.converters.{r}.dissipation_w", heat)
        put(f"power.converters.{r}.source_lowest_v", low)
        put(f"power.converters.{r}.source_highest_v", high)
    for r, f, _ in pick("fuse"):
        put(f"power.fuses.{r}.needed_a", 1.25 * amps(f["rail"], peak, 0))
    for r, b, p in pick("battery"):
        cutoff, nominal, full = CELL[b["chemistry"]]
        put(f"power.batteries.{r}.full_v", b["cells_in_series"] * full)
        put(f"power.batteries.{r}.cutoff_v", b["cells_in_series"] * cutoff)
        put(f"power.batteries.{r}.energy_wh", b["cells_in_series"] * nominal * q(b["capacity"]) / 3600)
        best = {"li-ion": 300, "lipo": 300, "lifepo4": 200, "nimh": 120, "lead-acid": 50, "alkaline": 200}[b["chemistry"]]    # Wh/kg, best cells
        put(f"power.batteries.{r}.energy_possible_wh", q(p["mass"]) * best)
        put(f"power.batteries.{r}.fuse_a", max(q(f["rating"]) for _, f, _ in pick("fuse") if f["rail"] == b["rail"]))
        put(f"power.batteries.{r}.greatest_a", amps(b["rail"], peak, 0))
        put(f"power.batteries.{r}.allowed_a", p.get("quantity", 1) * q(b["greatest_current"]))
    average, usable, endurance = 0.0, 0.0, math.inf
    for rail, batteries in roots.items():
        watts = sum(q(m["station"]["duty"].get(s, 0)) * amps(rail, lambda l: q(l["current"][s]), 1) for s in STATES) * volts(rail)[1]
        joules = sum(n * b["cells_in_series"] * CELL[b["chemistry"]][1] * q(b["capacity"]) * q(b.get("usable", "80 %"))
                     * q(b.get("cold_capacity", "100 %")) for b, n in batteries)
        average, usable, endurance = average + watts, usable + joules, min(endurance, joules / watts)
    every = [b for _, b, _ in pick("battery")]
    put("power.load_count", len(pick("load")))
    put("power.battery_count", len(every))
    put("power.fuse_count", len(pick("fuse")))
    put("power.sets_in_rotation", min(b.get("in_rotation", 1) for b in every))
    put("power.spare_sets", min(b.get("in_rotation", 1) for b in every) - 1)
    for ref, b, _ in pick("battery"):
        put(f"power.batteries.{ref}.fresh_v", b["cells_in_series"] * RESTED[b["chemistry"]])
        put(f"power.batteries.{ref}.fused", any(f["rail"] == b["rail"] for _, f, _ in pick("fuse")))
    put("power.average_w", average)
    put("power.usable_wh", usable / 3600)
    put("power.endurance_h", endurance / 3600)
    duration = q(m["station"]["duration"])
    put("power.battery_changes", math.ceil(duration / endurance) - 1)
    reserve = q(m["station"].get("upkeep", {}).get("battery_reserve", "10 %"))
    put("plan.battery_changes", math.ceil(duration / (endurance * (1 - reserve))) - 1)
    if "identification_interval" in m["station"]:
        put("plan.identifications", math.ceil(duration / q(m["station"]["identification_interval"])))


# ---------------------------------------------------------------- radio

def free_space(km, mhz):
    """Recommendation ITU-R P.525, with the wavelength and not the rounded constant."""
    return 20 * math.log10(4 * math.pi * km * 1e3 * mhz * 1e6 / C_LIGHT)


def hata(kind, km, mhz, base, mobile):
    """Hata 1980, IEEE Trans. Veh. Technol. 29:317, correction for small and medium cities."""
    lf = math.log10(mhz)
    a = (1.1 * lf - 0.7) * mobile - (1.56 * lf - 0.8)
    urban = 69.55 + 26.16 * lf - 13.82 * math.log10(base) - a + (44.9 - 6.55 * math.log10(base)) * math.log10(km)
    return {"urban": urban, "suburban": urban - 2 * math.log10(mhz / 28) ** 2 - 5.4,
            "open": urban - 4.78 * lf ** 2 + 18.33 * lf - 40.94}[kind]


def weissberger(mhz, depth):
    """Weissberger's modified exponential decay, ESD-TR-81-101."""
    f = mhz / 1e3
    return 0.45 * f ** 0.284 * depth if depth <= 14 else 1.33 * f ** 0.284 * depth ** 0.588


def dbm(watts):
    return 10 * math.log10(watts / 1e-3)


def reach(budget, kind, mhz, base, mobile, depth):
    """Distance in km at which the loss takes all of the budget."""
    def left(log_km):
        km = 10 ** log_km
        loss = free_space(km, mhz)
        if kind != "free-space":
            loss = max(loss, hata(kind, km, mhz, base, mobile))
        return budget - loss - weissberger(mhz, depth)
    return 10 ** brentq(left, -3, 6, xtol=1e-13, rtol=1e-14)


def exposure_limits(mhz):
    """W/m2 for the public and for trained people: 47 CFR 1.1310 Table 1; ICNIRP 2020 whole body and local."""
    fcc = (2, 10) if mhz <= 300 else (mhz / 150, mhz / 30) if mhz <= 1500 else (10, 50)
    body = (2, 10) if mhz <= 400 else (mhz / 200, mhz / 40) if mhz <= 2000 else (10, 50)
    local = (10, 50) if mhz <= 400 else (0.058 * mhz ** 0.86, 0.29 * mhz ** 0.86) if mhz <= 2000 else (40, 200)
    return fcc, body, local


def radio(m, put):
    parts, station, cover = m["parts"], m["station"], m["coverage"]
    gain = lambda ref: q(parts[ref]["antenna"]["gain"])
    sends = [(r, p["transmitter"]) for r, p in sorted(parts.items()) if "transmitter" in p]
    hears = [(r, p["receiver"]) for r, p in sorted(parts.items()) if "receiver" in p]
    base, depth, fade = q(station["lowest_height"]), q(cover["vegetation_depth"]), q(cover.get("fade_margin", "10 dB"))
    ends, horizons = [], []
    for name, g in sorted(m["ground"].items()):
        mobile, feed = q(g["height"]), q(g.get("feed_loss", "0 dB"))
        horizon = math.sqrt(2 * 4 / 3 * 6371e3) * (math.sqrt(base) + math.sqrt(mobile)) / 1e3
        far = lambda mhz, budget: reach(budget, cover["environment"], mhz, base, mobile, depth)
        up = min(far(q(r["frequency"]) / 1e6, dbm(q(g["power"])) + q(g["gain"]) + gain(r["antenna"]) - feed - q(r["feed_loss"])
                     - fade - q(r["sensitivity"])) for _, r in hears)
        down = min(far(q(x["frequency"]) / 1e6, dbm(q(x["power"])) + gain(x["antenna"]) + q(g["gain"]) - q(x["feed_loss"]) - feed
                       - fade - q(g["sensitivity"])) for _, x in sends)
        put(f"radio.links.{name}.horizon_km", horizon)
        put(f"radio.links.{name}.up_km", up)
        put(f"radio.links.{name}.down_km", down)
        horizons.append(horizon)
        ends += [(horizon, "the horizon of " + name), (up, f"the link from {name} to the relay"), (down, f"the link from the relay to {name}")]
    put("radio.horizon_km", min(horizons))
    put("radio.coverage_km", min(ends)[0])
    put("radio.limit", min(ends)[1])
    put("radio.duplex", bool(sends) and not all(r.get("muted") for _, r in hears))
    put("radio.transmitter_count", len(sends))
    put("radio.receiver_count", len(hears))
    put("radio.link_count", len(m["ground"]))

    pairs, in_channel = [], []
    for _, x in sends:
        for ref, r in hears:
            if r.get("muted"):
                continue
            p, quiet, mhz = dbm(q(x["power"])), q(r["sensitivity"]) - 6, q(x["frequency"]) / 1e6
            need = [(p - (q(r["sensitivity"]) + q(r["blocking"])), "blocking"), (p + q(x["noise_floor"]) - quiet, "noise")]
            for n in range(2, 6):
                if abs(n * q(x["frequency"]) - q(r["frequency"])) <= q(r["channel_width"]):
                    need.append((p - q(x["harmonic_suppression"]) - quiet, f"harmonic {n}"))

            def apart(mhz):
                waves = q(m["antennas"]["separation"]) * mhz * 1e6 / C_LIGHT
                return 28 + 40 * math.log10(waves) if m["antennas"]["arrangement"] == "vertical" else \
                    22 + 20 * math.log10(waves) - gain(x["antenna"]) - gain(r["antenna"])
            filters = [p["filter"] for p in parts.values() if p.get("filter", {}).get("protects") == ref]
            have = apart(mhz) + sum(q(f["rejection"]) for f in filters)
            pairs.append((have - max(need)[0], *max(need), have))
            # Into the receiver's own channel fall noise and harmonics; a filter in its own line lets the channel pass.
            inside = max(n for n in need if n[1] != "blocking")
            have = apart(q(r["frequency"]) / 1e6) + sum(q(f["rejection"]) for f in filters if f.get("line") == "transmitter")
            in_channel.append((have - inside[0], *inside, have))
    for name, found in (("isolation", pairs), ("channel_isolation", in_channel)):
        if found:
            _, need, binds, have = min(found)
            put(f"radio.{name}_needed_db", need)
            put(f"radio.{name}_available_db", have)
            put(f"radio.{name}_binds", binds)
    for ref, x in sends:
        eirp = q(x["power"]) * 10 ** ((gain(x["antenna"]) - q(x["feed_loss"])) / 10)
        put(f"radio.transmitters.{ref}.eirp_w", eirp)
        away = lambda limit: math.sqrt(2.56 * eirp * q(station["duty"]["transmit"]) / (4 * math.pi * limit))  # OET Bulletin 65
        limits = exposure_limits(q(x["frequency"]) / 1e6)
        put(f"radio.exposure.{ref}.public_m", max(away(public) for public, _ in limits))
        put(f"radio.exposure.{ref}.trained_m", max(away(trained) for _, trained in limits))
        farthest = max(range(3), key=lambda i: away(limits[i][0]))
        put(f"radio.exposure.{ref}.binds", ("47 CFR 1.1310", "ICNIRP 2020, whole body", "ICNIRP 2020, local")[farthest])


# ---------------------------------------------------------------- cost

def cost(m, put):
    def total(sets):
        net = Fraction(0)
        for p in m["parts"].values():
            offers = [Fraction(o["price"]) / o.get("pack", 1) for o in p.get("offers", [])]
            spares = Fraction(p.get("spares", "0 %").split()[0]) / 100
            turns = p.get("battery", {}).get("in_rotation", 1) if sets else 1
            net += p.get("quantity", 1) * turns * (1 + spares) * min(offers)
        gross = net * (1 + Fraction(m["budget"].get("tax", "0 %").split()[0]) / 100)
        return f"{round(gross * 100) / 100:.2f}"                # Python rounds a fraction half to even
    put("cost.kit", total(sets=False))
    put("cost.all_sets", total(sets=True))
    put("cost.budget", m["budget"]["per_kit"])


# ---------------------------------------------------------------- counting

def counts(m, put):
    parts = m["parts"]
    boxes = {}
    for ref, p in sorted(parts.items()):
        if "packed_in" in p:
            packed = boxes.setdefault(p["packed_in"].replace(".", " "), [])
            if not p.get("consumable") or "cylinder" in p:
                packed.append((p.get("quantity", 1) * p.get("battery", {}).get("in_rotation", 1), ref))
    for box, packed in boxes.items():
        put(f"packing.{box}.pieces", sum(n for n, _ in packed))
        if packed:
            put(f"packing.{box}.list", ", ".join(f"{n} {ref}" for n, ref in packed))
    envelopes = [p for p in parts.values() if "envelope" in p]
    put("balloon.kind", envelopes[0]["envelope"]["kind"])
    put("balloon.reused", not envelopes[0].get("consumable", False))
    deflations = [p["deflation"] for p in parts.values() if "deflation" in p]
    put("balloon.deflation", bool(deflations))
    put("balloon.escape_deflation", any(d.get("trigger") == "escape" for d in deflations))
    marks = [p["marker"] for p in parts.values() if "marker" in p]
    put("markers.day_kinds", " and ".join(sorted({x["kind"] + "s" for x in marks if x["kind"] != "light"})))
    put("markers.lit", any(x["kind"] == "light" for x in marks))
    flags = [x for x in marks if x["kind"] != "light"]
    if flags and all("spacing" in x and "visible_from" in x for x in flags):
        # The whole line is marked: n flags part it into n + 1 stretches, the balloon being the mark at its upper end.
        said, out = max(q(x["spacing"]) for x in flags), q(m["station"]["tether_out"])
        pieces = sum(p.get("quantity", 1) for p in parts.values() if p.get("marker", {}).get("kind") in ("pennant", "streamer"))
        put("markers.day_count", pieces)
        put("markers.day_spacing_m", max(said, out / (pieces + 1)))
        put("markers.day_needed", next(n for n in range(1000) if (n + 1) * said >= out * (1 - 1e-9)))
        put("markers.day_visible_m", min(q(x["visible_from"]) for x in flags))
    handled = {ref for s in m.get("steps", {}).get("assembly", []) for ref in [*s.get("parts", []), *re.findall(r"[\w-]+", s["text"])]}
    over = sorted(ref for ref, p in parts.items() if p.get("place") == "aloft" and ref not in handled)
    put("kit.unused_part_count", len(over))
    put("kit.unused_parts", ", ".join(over) or "none")
    fed = {ref for ref, p in parts.items() if "load" in p}
    electric = {ref for ref, p in parts.items() if "transmitter" in p or "receiver" in p}
    for signal in m.get("signals", {}).values():
        electric |= {signal["from"], signal["to"]}
    put("power.unfed_count", len(electric - fed))


# ---------------------------------------------------------------- the whole kit

def lift_and_line(m, put, most_neck=True):
    station, parts = m["station"], m["parts"]
    site, wind = station["site"], station["wind"]
    one = lambda facet: next((r, p, p[facet]) for r, p in sorted(parts.items()) if facet in p)
    p = q(site["pressure"]) if "pressure" in site else standard_pressure(q(site["elevation"]))
    hot, cold, damp = q(site["hottest"]), q(site["coldest"]), q(site.get("humidity", "50 %"))
    air_hot, air_cold = moist_air(p, hot, damp), moist_air(p, cold, damp)
    _, env_part, env = one("envelope")
    purity = q(env.get("purity", "99 %"))
    gas_hot = purity * p * MOLAR[env["gas"]] / (R * hot) + (1 - purity) * air_hot
    put("air.pressure_pa", p)
    if "elevation" in site:
        put("air.pressure_standard_pa", standard_pressure(q(site["elevation"])))
    put("wind.exponent", EXPONENT[wind["terrain"]])
    put("air.density_hot_kg_m3", air_hot)
    put("air.density_cold_kg_m3", air_cold)
    put("gas.density_hot_kg_m3", gas_hot)
    gas_cold = purity * p * MOLAR[env["gas"]] / (R * cold) + (1 - purity) * air_cold
    put("gas.density_cold_kg_m3", gas_cold)

    fill, out = q(env["fill_volume"]), q(station["tether_out"])
    diameter = (6 * fill / math.pi) ** (1 / 3)
    put("gas.fill_m3", fill)
    put("gas.diameter_m", diameter)
    put("gas.largest_m3", q(env["largest_volume"]))
    put("gas.volume_hot_m3", fill if env["kind"] == "fixed" else fill * hot / cold)
    _, _, cylinder = one("cylinder")
    pc, tc = q(cylinder["pressure"]), q(cylinder["filled_at"])
    each = pc * q(cylinder["water_volume"]) / ((1 + VIRIAL[env["gas"]] * pc / (R * tc)) * R * tc)
    put("gas.cylinders_carried", one("cylinder")[1].get("quantity", 1))
    needed = math.ceil(p * fill / (R * cold) / each)
    put("gas.cylinders", needed)
    # What is left of it, by the same law, found by bisection of pressures.
    left, volume = each - p * fill / (R * cold) / needed, q(cylinder["water_volume"])
    after = brentq(lambda x: x * volume / ((1 + VIRIAL[env["gas"]] * x / (R * tc)) * R * tc) - left, 0, pc, xtol=1e-6, rtol=1e-14)
    put("gas.cylinder_after_pa", max(0.0, after - p))

    grows = lambda part: 1 + q(part.get("mass_allowance", ALLOWANCE[part.get("mass_basis", "estimated")]))
    flying = [x for x in parts.values() if x.get("place") == "aloft"]
    _, tether_part, tether = one("tether")
    line_mass = q(tether["linear_mass"]) * out
    nominal = sum(x.get("quantity", 1) * q(x["mass"]) for x in flying) + line_mass
    worst_line = line_mass * grows(tether_part)
    worst_envelope = q(env_part["mass"]) * grows(env_part)
    worst = sum(x.get("quantity", 1) * q(x["mass"]) * grows(x) for x in flying) + worst_line
    put("mass.aloft_kg", nominal)
    put("mass.aloft_worst_kg", worst)
    weighed = sum(x.get("quantity", 1) * q(x["mass"]) for x in flying if x.get("mass_basis") == "weighed")
    weighed += line_mass if tether_part.get("mass_basis") == "weighed" else 0
    put("mass.weighed_share", 100 * weighed / nominal)
    envelope = q(env_part["mass"]) * env_part.get("quantity", 1)
    put("mass.envelope_kg", envelope)
    put("mass.envelope_worst_kg", worst_envelope)
    put("mass.tether_worst_kg", worst_line)
    put("mass.payload_worst_kg", worst - worst_envelope - worst_line)

    per_volume = air_hot - gas_hot
    if env["kind"] == "fixed":       # isothermal, dry air of 28.9647 g/mol
        per_volume *= math.exp(-G * 28.9647e-3 * out / (R * hot))
    kept = (1 - q(env["gas_loss"])) ** (q(station["duration"]) / 86400)
    gross = fill * per_volume
    least = q(station.get("least_free_lift", "20 %"))
    put("lift.gross_kg", gross)
    put("lift.gross_end_kg", gross * kept)
    put("lift.neck_kg", gross - worst_envelope)
    put("lift.free_kg", gross - worst)
    put("lift.free_end_kg", gross * kept - worst)
    put("lift.free_needed_kg", least * worst)

    # A cold fill of the same volume lifts the most, on the ground, and with what is aloft no heavier than it is said to be.
    greatest = fill * (air_cold - gas_cold)
    put("lift.gross_greatest_kg", greatest)
    put("lift.neck_greatest_kg", greatest - envelope)
    put("lift.free_greatest_kg", greatest - nominal)

    line = Line(out, worst_line / out * G, q(tether["diameter"]), tether.get("drag_coefficient", 1.1), env.get("drag_coefficient", 0.7),
                air_cold, q(wind["measured_at"]), EXPONENT[wind["terrain"]])
    hung = worst - worst_line                        # everything aloft but the line
    speed, gust = q(wind["speed"]), wind.get("gust_factor", 1.5)
    working = q(tether["breaking_strength"]) * q(tether.get("knot_efficiency", "50 %")) / tether.get("design_factor", 10)
    put("tether.working_load_n", working)
    net = greatest - nominal + worst_line           # the line weighs its worst above; what it may lack counts as lift
    mean, peak = line.stand(speed, gross * kept - hung, fill), line.stand(speed * gust, net, fill)
    put("wind.at_balloon_m_s", mean["wind"])
    put("wind.balloon_drag_n", mean["drag"])
    put("tether.height_m", mean["height"])
    put("tether.drift_m", mean["drift"])
    put("tether.lean_deg", math.degrees(mean["lean"]))
    put("wind.read_m_s", speed)
    put("tether.lean_explained_deg", math.degrees(line.stand(1.21 * speed, gross * kept - hung, fill)["lean"]) + 5)
    put("tether.tension_top_n", mean["top"])
    put("tether.tension_ground_n", mean["ground"])
    put("tether.tension_peak_n", peak["top"])
    put("station.gust_m_s", speed * gust)
    if "rules" in station:
        put("station.regions", ", ".join(station["rules"]))
    put("fall.energy_j", worst * G * out)
    put("fall.sack_m", worst * out / 10)
    put("tether.peak_by_hand_kg", peak["top"] / G)
    brimful = q(env["largest_volume"]) * (air_cold - gas_cold) - envelope
    put("lift.ballast_kg", 1.5 * brimful)
    put("lift.neck_people", max(1, math.ceil(brimful * G / 150)))     # HSE L23: 150 N to start a load
    put("tether.people", max(1, math.ceil(peak["top"] / 150)))
    put("gas.room_m3", each * R * hot / p * 0.2095 / (0.2095 - 0.195))
    section = math.pi * q(tether["diameter"]) ** 2 / 4
    put("tether.density_kg_m3", q(tether["linear_mass"]) / section)
    put("tether.strongest_n", 3.6e9 * section)
    put("mass.growth_share", 100 * (worst / nominal - 1))
    put("mass.skin_least_kg", 0.005 * (36 * math.pi) ** (1 / 3) * q(env["largest_volume"]) ** (2 / 3))      # area of a sphere from its volume
    put("tether.greatest_height_m", out + diameter)
    put("station.power_line_needed_m", out + diameter + 13.72)       # 29 CFR 1926.1408, Table A, in metres

    _, _, anchor = one("anchor")
    factor = anchor.get("design_factor", 2)
    put("anchor.pull_n", factor * peak["ground"])
    if anchor["kind"] == "deadweight":
        put("anchor.mass_needed_kg", factor * (peak["up"] + peak["across"] / anchor["friction"]) / G)

    lowest, lean = q(station["lowest_height"]), q(station["greatest_lean"])

    def first(margin, low, high):
        """The wind at which a margin is used up, or infinity."""
        while margin(high) > 0:
            if high > 100:
                return math.inf
            low, high = high, 1.5 * high
        return brentq(margin, low, high, xtol=1e-7)

    def standing(u, what):
        s = line.stand(u, gross * kept - hung, fill)
        return -1.0 if s is None else what(s)

    def pulling(u):
        s = line.stand(u * gust, net, fill)
        return -1.0 if s is None else working - s["top"]

    def off_ground(u):
        return -1.0 if line.stand(u * gust, gross * kept - hung, fill) is None else 1.0

    strongest, binds = min((first(lambda u: standing(u, lambda s: s["height"] - lowest), 0.0, speed), "lowest height"),
                           (first(lambda u: standing(u, lambda s: lean - s["lean"]), 0.0, speed), "greatest lean"), (first(pulling, 0.0, speed), "working load"))
    if off_ground(strongest) < 0:
        strongest, binds = brentq(off_ground, 0.0, strongest, xtol=1e-7), "line off the ground"
    put("wind.greatest_m_s", strongest)
    put("wind.binds", binds)
    put("wind.greatest_gust_m_s", strongest * gust)
    farthest = line.stand(strongest * gust * (1 - 1e-9), gross * kept - hung, fill)
    put("tether.drift_greatest_m", farthest["drift"])

    # The most that a scale at the neck may read. The balloon is as large as that lift is on the hottest day, and no larger than
    # it may be; it is full on that day where it stretches, and in the coldest air, lifting the most, where it does not.
    lightest, largest = air_hot - gas_hot, q(env["largest_volume"])

    def pull(neck):
        return line.stand(speed * gust, neck + envelope - nominal + worst_line, min(largest, (neck + worst_envelope) / lightest))

    def most(bears):
        def spare(neck):
            s = pull(neck)
            return 1.0 if s is None else bears(s)       # a line on the ground is slack
        low = nominal - envelope + 1e-6
        high = low
        while spare(high) > 0:
            high *= 1.3
        return brentq(spare, high / 1.3, high, xtol=1e-9) if high > low else -math.inf       # nothing is borne

    if anchor["kind"] == "deadweight":
        held = lambda s: q(anchor["mass"]) - factor * (s["up"] + s["across"] / anchor["friction"]) / G
    else:
        held = lambda s: q(anchor["holding"]) - factor * s["ground"]
    if most_neck:
        least_of, binds = min((most(lambda s: working - s["top"]), "working load"), (most(held), "anchor"),
                              (largest * (air_cold - gas_cold if env["kind"] == "fixed" else lightest) - worst_envelope, "largest volume"))
        if least_of > 0:
            put("lift.neck_most_kg", least_of)
            put("lift.neck_most_binds", binds)

    def holds(g):
        s = line.stand(speed, g * kept - hung, g / per_volume)
        return -1.0 if s is None else min(s["height"] - lowest, lean - s["lean"])

    needed = worst * (1 + least) / kept
    binds = "least free lift"
    if holds(needed) < 0:
        needed = brentq(holds, needed, 20 * needed, xtol=1e-7)
        s = line.stand(speed, needed * kept - hung, needed / per_volume)
        binds = "lowest height" if s["height"] - lowest < lean - s["lean"] else "greatest lean"
    put("lift.neck_binds", binds)
    put("lift.neck_needed_kg", needed - worst_envelope)
    put("gas.fill_needed_m3", needed / per_volume)
    if needed * kept < gross:        # the gross lift that does in the wind is needed * kept, with nothing more lost
        put("gas.top_up_after_h", 24 * math.log(needed * kept / gross) / math.log(1 - q(env["gas_loss"])))


def facts(m):
    out = {}

    def put(name, value):
        out[name] = value if isinstance(value, (str, bool)) else float(value)

    for chapter in (lift_and_line, power, radio, cost, counts):
        chapter(m, put)
    return out


def merged(target, patch):
    """RFC 7396."""
    if not isinstance(patch, dict):
        return patch
    out = dict(target) if isinstance(target, dict) else {}
    for name, value in patch.items():
        if value is None:
            out.pop(name, None)
        else:
            out[name] = merged(out.get(name), value)
    return out


def main():
    kits, manifests = {}, {}
    for path in sorted(DEMOS.glob("*.json")):
        text = path.read_bytes()
        manifests[path.stem] = json.loads(text)
        kits[path.stem] = {"sha256": hashlib.sha256(text).hexdigest(), "facts": dict(sorted(facts(manifests[path.stem]).items()))}
        print(path.stem, len(kits[path.stem]["facts"]), "facts", file=sys.stderr)
    varied, text = {}, (HERE / "variations.json").read_bytes()
    for name, v in json.loads(text).items():
        base = kits[v["kit"]]["facts"]
        now = facts(merged(manifests[v["kit"]], v["change"]))
        changed = {k: now.get(k) for k in sorted(base | now) if base.get(k) != now.get(k)}      # null: there is none any more
        varied[name] = {"kit": v["kit"], "facts": changed}
        print(f"{v['kit']}, {name}: {len(changed)} facts differ", file=sys.stderr)
    made = f"reference.py beside this file; python {sys.version.split()[0]}, scipy {scipy.__version__}, numpy {np.__version__}"
    out = {"made_by": made, "kits": kits, "variations_sha256": hashlib.sha256(text).hexdigest(), "variations": varied}
    (HERE / "reference.json").write_text(json.dumps(out, indent=1, ensure_ascii=False) + "\n")


if __name__ == "__main__":
    main()
