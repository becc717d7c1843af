"""Works the demo's inspection out again with GTC and scipy, which we did not write.

    cargo build && python3 tests/oracles/uncertainty.py

The readings are read by Python's own csv module; the laws of the instruments are typed in here from
Directive 2014/32/EU, Annex X, chapter I (tapes) and from the README (the others); GTC combines them.
Value, guard band and verdict of every row must agree with `kerfwise measure --json`. GUM example H.1
is worked out too: the numbers in src/measures/uncertainty/tests.rs are these.
"""

import csv
import json
import math
import pathlib
import subprocess
import sys

import GTC
from GTC import type_a, type_b
from scipy import stats

from support import tally
from support.tally import check, near

ROOT = pathlib.Path(__file__).resolve().parents[2]
KERFWISE = ROOT / "target/debug/kerfwise"


def gum_h1():
    """JCGM 100:2008, H.1, in nanometres."""
    standard = GTC.ureal(50_000_623.0, 25.0, 18)
    difference = GTC.ureal(215.0, 9.7, 25.6)
    growth = GTC.ureal(11.5e-6, 1.2e-6)
    warmer = GTC.ureal(-0.1, 0.41)
    growth_apart = GTC.ureal(0.0, 0.58e-6, 50)
    warmth_apart = GTC.ureal(0.0, 0.029, 2)
    length = standard + difference - standard * (growth_apart * warmer + growth * warmth_apart)
    near("H.1: length, nm", length.x, 50_000_838.0, 1e-6)
    near("H.1: combined, nm", length.u, 31.710609640, 1e-6)
    near("H.1: degrees of freedom", length.df, 16.656062703, 1e-6)
    factor = stats.t.ppf(0.995, math.floor(length.df))
    near("H.1: t99(16)", factor, 2.920781622425, 1e-11)
    near("H.1: U99, nm", factor * length.u, 93, 0.5)


# what g = 2 covers where the uncertainty is well known
LEVEL = math.erf(2 / math.sqrt(2))


def factor_as_sure_as_two(freedom):
    """Student's t for the probability of g = 2, degrees of freedom cut to a whole number (GUM G.4)."""
    return stats.t.ppf((1 + LEVEL) / 2, math.floor(freedom)) if math.isfinite(freedom) else 2.0


def gum_g2():
    """JCGM 100:2008, Table G.2, column 95.45 %."""
    printed = {1: 13.97, 2: 4.53, 3: 3.31, 4: 2.87, 5: 2.65, 10: 2.28, 20: 2.13, 50: 2.05, 100: 2.025}
    for freedom, expected in printed.items():
        near(f"G.2: t for {freedom}", factor_as_sure_as_two(freedom), expected, 0.0051)


def tape(fixed, per_metre, from_end):
    return lambda length: fixed + per_metre * max(1, math.ceil(length / 1000)) + from_end


# what it may be off by over a length, and how far a reading is off, both either way, in mm
INSTRUMENTS = {
    "tape": (tape(0.3, 0.2, 0.2), 0.25),
    "tape from a mark": (tape(0.3, 0.2, 0.0), 0.25),
    "steel rule": (tape(0.1, 0.1, 0.1), 0.2),
    "micrometer": (lambda _: 0.01, 0.005),
    "calliper": (lambda _: 0.05, 0.02),
}
STEEL = 11.7e-6


def rectangular(half_width):
    return GTC.ureal(0, type_b.uniform(half_width))


def work_out(row, growth):
    """Value and standard uncertainty of a row, by GTC."""
    readings = [float(row[key].removesuffix(" kg")) for key in ("reading", "reading 2", "reading 3") if row[key]]
    if row["name"].startswith("thickness"):
        readings = [max(readings)]  # the upper limit is the nearer one, and each reading must keep it
    with_ = row["with"]
    mean = sum(readings) / len(readings)
    if "±" in with_:
        limit, reading = float(with_.split("±")[1].split()[0]), 0.0
    else:
        law, reading = INSTRUMENTS[with_]
        limit = law(mean)
    result = GTC.constant(mean) + rectangular(limit)
    scatter = type_a.estimate(readings) if len(readings) > 1 else GTC.ureal(0, 1e-300)
    if scatter.u > reading / math.sqrt(3):
        result += scatter - scatter.x
    elif reading:
        result += rectangular(reading)
    # 20 °C: the thing grows by one coefficient, the scale by that of steel
    warmer = GTC.ureal(float(row["temperature"]) - 20, type_b.uniform(2.0))
    if row["name"] == "weight":
        return result
    return result * (1 + STEEL * warmer) / (1 + growth * warmer)


def demo():
    design = ROOT / "fixtures/parts/leeboard.toml"
    path = ROOT / "fixtures/readings/leeboard.csv"
    command = [KERFWISE, "measure", design, path, "--json"]
    done = subprocess.run(command, capture_output=True, text=True)
    check("a broken limit ends with 1", done.returncode == 1, done.returncode, done.stderr)
    tables = [block for block in json.loads(done.stdout)["blocks"] if block["kind"] == "table"]
    comparison = next(table for table in tables if table["title"] == "Readings and limits")
    told = {row["what"]: row for row in comparison["rows"]}
    lines = [line for line in path.read_text().splitlines() if not line.startswith("#")]
    heading = lines[0].split(",")
    for at, place in enumerate([i for i, key in enumerate(heading) if key == "reading"]):
        heading[place] = "reading" if at == 0 else f"reading {at + 1}"
    limits = {"at least": lambda value, limit: value - limit, "at most": lambda value, limit: limit - value}
    for row in csv.DictReader(lines[1:], fieldnames=heading):
        name = row["name"]
        found = work_out(row, GROWTH)
        near(f"{name}: value", told[name]["value"]["value"], found.x, 1e-9)
        guard = factor_as_sure_as_two(found.df) * found.u
        near(f"{name}: sure to", told[name]["sure_to"]["value"], guard, 1e-6)
        words = told[name]["limit"].split()
        inside = limits[" ".join(words[:2])](found.x, float(words[2]))
        if inside >= guard:
            expected = "conforms"
        elif inside < -guard:
            expected = "does not conform"
        else:
            expected = "too close to call"
        check(f"{name}: verdict", told[name]["verdict"] == expected, told[name], inside, found.u)
    check("all rows", len(told) >= 5, told)


# growth of galvanised steel as src/trade/materials has it, an editable default
GROWTH = 12.0e-6

gum_h1()
gum_g2()
demo()
sys.exit(tally.close())
