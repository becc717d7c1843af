"""Recomputes the spline values that tests/fair_curve.rs asserts, with scipy (run: python3 fair_curve.py).

The expected values are read out of the Rust test itself, so that neither can drift from the other.
"""

import pathlib
import re
import sys

import numpy
from scipy.interpolate import CubicSpline

TEXT = (pathlib.Path(__file__).parent.parent / "fair_curve.rs").read_text().replace("_", "")
ROW = re.compile(r"\((\d+), \[([^\]]*)\]\)")
passed = failed = 0


def check(what, fine):
    global passed, failed
    passed, failed = passed + bool(fine), failed + (not fine)
    if not fine:
        print("FAILED:", what)


def rows_before(name):
    """The rows asserted under a name."""
    text = TEXT[: TEXT.index(f'assertrows("{name}"')]
    text = text[text.rindex("let rows") :]
    return [(int(i), [float(v) for v in vs.split(",") if v.strip()]) for i, vs in ROW.findall(text)]


def compare(name, x, y, bc):
    spline = CubicSpline(x, y, bc_type=bc)
    rows = rows_before(name)
    check(name + " has rows", rows)
    for index, row in rows:
        own = spline.c[:, index][2::-1]
        check(f"{name} {index}: {own} for {row}", numpy.allclose(own, row, rtol=0, atol=6e-7))


compare("natural", [1, 2, 3], [2, 3, 5], "natural")
compare("held", [1, 2, 3], [2, 3, 5], ((1, 2.0), (1, 1.0)))
t = numpy.arange(4.0)
compare("natural on e^x", t, numpy.exp(t), "natural")
compare("held on e^x", t, numpy.exp(t), ((1, 1.0), (1, numpy.exp(3))))
table = re.search(r"TABLEOF21: .*?\] = \[(.*?)\];", TEXT, re.S).group(1)
table = numpy.array([[float(a), float(b)] for a, b in re.findall(r"\(([\d.]+), ([\d.]+)\)", table)])
check("21 stations", table.shape == (21, 2))
compare("21 stations", table[:, 0], table[:, 1], "natural")

ring = re.search(r"for \(count, expected\) in \[(.*?)\]", TEXT, re.S).group(1)
for count, expected in re.findall(r"\((\d+), ([\de.-]+)\)", ring):
    a = numpy.linspace(0, 2 * numpy.pi, int(count) + 1)
    points = numpy.c_[numpy.cos(a), numpy.sin(a)]
    points[-1] = points[0]
    on = CubicSpline(a, points, bc_type="periodic")(numpy.linspace(0, 2 * numpy.pi, 100 * int(count) + 1))
    worst = abs(numpy.hypot(*on.T) - 1).max()
    check(f"ring of {count}: {worst} for {expected}", abs(worst / float(expected) - 1) < 1e-3)

print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed else 0)
