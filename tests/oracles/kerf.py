"""Kerf allowances held against shapely's buffers, closed forms, numpy's least squares and scipy's quantiles.

    cargo build && python3 tests/oracles/kerf.py

The parts are built here a second time, as polygons of 4096 sides a circle, and cut by buffers: grown to the
line of the tool, then shrunk by half the kerf. A rectangle, a disc, a slot and an L have closed forms besides
(Steiner's formula). The command says sizes to 0.01 mm, lengths of cut and areas in full.
"""

import json
import math
import pathlib
import subprocess
import sys

import numpy as np
import scipy.stats
from shapely import Point, Polygon, box

from support import tally
from support.tally import near

ROOT = pathlib.Path(__file__).resolve().parents[2]
KERFWISE = ROOT / "target/debug/kerfwise"
FOLDER = ROOT / "target/tmp/kerf-oracle"
FOLDER.mkdir(parents=True, exist_ok=True)
SIDES = 1024  # a quarter


def run(*arguments):
    done = subprocess.run([KERFWISE, *map(str, arguments)], capture_output=True, text=True, cwd=ROOT)
    assert done.returncode in (0, 1), done.stderr
    return json.loads(done.stdout)


def tables(document):
    return [block for block in document["blocks"] if block["kind"] == "table"]


def compared(name, text, kerf, processes, *more):
    """The row of work and the rows of cases for one kerf of the process `trial`."""
    path = FOLDER / f"{name}.toml"
    path.write_text(text)
    document = run("kerf", path, "--json", "--detail", "--process", "trial", "--kerf", kerf, "--processes", processes, *more)
    found = tables(document)
    work = next(table for table in found if table["columns"][1]["key"] == "length")
    cases = next(table for table in found if any(c["key"] == "narrow" for c in table["columns"]))
    return work["rows"][0], {row["what"]: row for row in cases["rows"]}


def millimetres(cell):
    """The number that a cell of a case starts with."""
    return float(cell.split()[0])


def processes():
    """A process without taper, ways in or error: what is found is the kerf's alone."""
    path = FOLDER / "processes.toml"
    path.write_text(
        "# for kerfwise\n[process.trial]\nkerf = { value = 1, spread = 0.1 }\n"
        "cuts = ['aluminium', 'steel', 'wood', 'plastic']\n"
    )
    return path


def grown(shape, by):
    return shape.buffer(by, quad_segs=SIDES)


def cut(shape, line, half):
    return grown(grown(shape, line), -half) if line else grown(shape, -half)


CASES = {
    "compensated": lambda k: (k / 2, k / 2),
    "narrow": lambda k: (k / 2, (k - 0.1) / 2),
    "wide": lambda k: (k / 2, (k + 0.1) / 2),
    "not_compensated": lambda k: (0, k / 2),
    "twice": lambda k: (k, k / 2),
}


def width(shape):
    west, _, east, _ = shape.bounds
    return east - west


def height(shape):
    _, south, _, north = shape.bounds
    return north - south


RECTANGLE = """
[dims]
long = { value = 80, tol = 0.5, measure = { distance = { from = "left", to = "right" } } }
high = { value = 50, tol = 0.5, measure = { distance = { from = "bottom", to = "top" } } }
[part.p]
outline = [
  { corner = "a", at = [0, 0], edge = { name = "bottom" } }, { corner = "b", at = ["long", 0], edge = { name = "right" } },
  { corner = "c", at = ["long", "high"], edge = { name = "top" } }, { corner = "d", at = [0, "high"], edge = { name = "left" } },
]
"""
PIN = '[[part.p.opening]]\nname = "pin"\ncircle = { at = [20, 25], diameter = 12 }\n'
SLOT = '[[part.p.opening]]\nname = "slot"\nslot = { at = [50, 25], length = 30, width = 8 }\n'
L_SHAPE = """
[dims]
leg = { value = 40, tol = 0.5, measure = { distance = { from = "foot", to = "crest" } } }
arm = { value = 10, tol = 0.5, measure = { distance = { from = "foot", to = "shelf" } } }
[part.p]
outline = [
  { corner = "a", at = [0, 0], edge = { name = "foot" } }, { corner = "b", at = [60, 0] },
  { corner = "c", at = [60, "arm"], edge = { name = "shelf" } }, { corner = "d", at = [12, "arm"] },
  { corner = "e", at = [12, "leg"], edge = { name = "crest" } }, { corner = "f", at = [0, "leg"] },
]
"""
DISC = """
[dims]
r = { value = 30, tol = 0.5, measure = { radius = "rim" } }
[part.p]
outline = [
  { round = "rim", about = [0, 0], radius = "r" }, { round = "other", about = [50, 0], radius = "r" },
]
"""


def stadium(x, y, length, wide):
    r = wide / 2
    half = length / 2 - r
    return grown(box(x - half, y - 1e-9, x + half, y + 1e-9), r)


def check_part(name, text, shape, sizes, closed, known):
    for kerf in (0.3, 0.9, 1.7, 2.6):
        work, cases = compared(name, text, kerf, known)
        line = grown(shape, kerf / 2)
        near(f"{name} {kerf}: length of cut", work["length"]["value"], line.length, 2e-4)
        lost = grown(shape, kerf).area - cut(shape, kerf / 2, kerf / 2).area
        # GEOS thins the outline before it buffers, by a share of the distance
        near(f"{name} {kerf}: material lost", work["lost"]["value"], lost, 1e-2)
        length, area = closed(kerf)
        near(f"{name} {kerf}: length in closed form", work["length"]["value"], length, 1e-5)
        near(f"{name} {kerf}: material in closed form", work["lost"]["value"], area, 1e-4)
        for what, measure in sizes.items():
            for case, how in CASES.items():
                expected = measure(cut(shape, *how(kerf)))
                near(f"{name} {kerf} {what} {case}", millimetres(cases[what][case]), expected, 0.0052)


def check_parts():
    known = processes()
    rectangle = box(0, 0, 80, 50)
    check_part(
        "rectangle",
        RECTANGLE,
        rectangle,
        {"long": width, "high": height},
        lambda k: (260 + math.pi * k, 260 * k + math.pi * k * k),
        known,
    )
    pin = Point(20, 25).buffer(6, quad_segs=SIDES)
    slot = stadium(50, 25, 30, 8)
    openings = rectangle.difference(pin).difference(slot)
    check_part(
        "openings",
        RECTANGLE + PIN + SLOT,
        openings,
        {
            "long": width,
            "pin diameter": lambda s: width(min(s.interiors, key=lambda h: Polygon(h).centroid.x)),
            "slot length": lambda s: width(max(s.interiors, key=lambda h: Polygon(h).centroid.x)),
            "slot width": lambda s: height(max(s.interiors, key=lambda h: Polygon(h).centroid.x)),
        },
        lambda k: (
            260 + math.pi * k + (math.pi * (12 - k)) + (2 * 22 + math.pi * (8 - k)),
            # grown by the kerf, less as drawn, for the outside; as drawn, less shrunk by it, for each opening
            260 * k + math.pi * k * k
            + math.pi * (36 - (6 - k) ** 2)
            + (22 * 8 + math.pi * 16) - (22 * (8 - 2 * k) + math.pi * (4 - k) ** 2),
        ),
        known,
    )
    corners = [(0, 0), (60, 0), (60, 10), (12, 10), (12, 40), (0, 40)]
    filled = 1 - math.pi / 4
    check_part(
        "l",
        L_SHAPE,
        Polygon(corners),
        {"leg": height, "arm": lambda s: s.intersection(box(30, -9, 31, 99)).bounds[3] - s.bounds[1]},
        lambda k: (
            # five outside corners of a quarter turn; at the inside corner two half kerfs less
            200 + 5 * math.pi / 2 * k / 2 - k,
            200 * k + (5 * math.pi / 4 - 1) * k * k - filled * k * k / 4,
        ),
        known,
    )
    discs = Point(0, 0).buffer(30, quad_segs=4 * SIDES).union(Point(50, 0).buffer(30, quad_segs=4 * SIDES))
    discs = discs.convex_hull
    check_part(
        "discs",
        DISC,
        discs,
        {"r": lambda s: height(s) / 2},
        lambda k: (100 + 2 * math.pi * (30 + k / 2), (100 + 60 * math.pi) * k + math.pi * k * k),
        known,
    )


KNEES = ROOT / "fixtures/fits/knees.toml"


def across(shape, west, south, east, north):
    """The least width along x of the material in a window."""
    return width(shape.intersection(box(west, south, east, north)))


def check_fits():
    """The clearance of a tenon of 44 in a mortise of 44.4, one side as cut, the other as designed; the knee and
    its mirror image alike."""
    known = processes()
    text = KNEES.read_text()
    # the tenon as a plain tongue below a wide shoulder, above the reliefs of its roots
    knee = box(0, 60, 76, 165).union(box(16, 165, 60, 175))
    cleat = box(0, 0, 116, 50).difference(box(35.8, 20, 80.2, 30))
    for kerf in (0.3, 0.9, 1.7):
        for part in ("knee_port", "knee_starboard", "cleat"):
            _, cases = compared("knees", text, kerf, known, "--part", part)
            row = cases["tenon in its mortise: clearance"]
            for case, how in CASES.items():
                if part == "cleat":
                    hole = Polygon(cut(cleat, *how(kerf)).interiors[0])
                    clearance = width(hole) - 44
                else:
                    clearance = 44.4 - across(cut(knee, *how(kerf)), -9, 170, 99, 172)
                near(f"{part} {kerf} clearance {case}", millimetres(row[case]), clearance, 0.0052)


def check_trial_cut():
    rows = {
        1: (100, -1), 2: (80, -1), 3: (60, -1), 4: (60, -1), 5: (50, -1), 6: (10, -1),
        7: (8, 1), 8: (12, 1), 9: (20, 1), 10: (6, 1), 11: (14, 1), 12: (30, 1),
    }  # fmt: skip
    numbers = np.random.default_rng(20261128)
    for chosen in ([1, 4, 6, 7, 9], [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12], [1, 6, 7, 12], [3, 5, 8, 9, 11, 12, 2]):
        kerf, scale = numbers.uniform(0.2, 2.0), numbers.uniform(-6e-4, 6e-4)
        drawn = np.array([rows[row][0] for row in chosen], float)
        sign = np.array([rows[row][1] for row in chosen], float)
        read = np.round(drawn * (1 + scale) + sign * kerf + numbers.normal(0, 0.02, len(chosen)), 2)
        path = FOLDER / "readings.csv"
        path.write_text(
            "row,what,drawn,top,bottom\n" + "".join(f"{row},,,{value:.2f},\n" for row, value in zip(chosen, read))
        )
        said = run("trial-cut", "--readings", path, "--json")
        matrix = np.column_stack([sign, drawn])
        found, residues, _, _ = np.linalg.lstsq(matrix, read - drawn, rcond=None)
        freedom = len(chosen) - 2
        variance = residues[0] / freedom
        covariance = variance * np.linalg.inv(matrix.T @ matrix)
        student = scipy.stats.t.ppf(0.975, freedom)
        near("kerf", said["kerf"], found[0], 1e-9)
        near("scale", said["scale"], found[1], 1e-11)
        expected = student * math.sqrt(covariance[0, 0])
        # quantiles are kept to three decimals
        near("uncertainty of the kerf", said["kerf_uncertainty"], expected, 4e-4 * expected)
        expected = student * math.sqrt(covariance[0, 0] + variance)
        near("spread", said["spread"], expected, 4e-4 * expected)


check_parts()
check_fits()
check_trial_cut()
sys.exit(tally.close())
