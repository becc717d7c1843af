"""Measures the demo parts with shapely and sectionproperties (run: python3 geometry.py, after cargo test).

Both know polygons only: arcs are cut into chords here, fine enough for what is asserted.
"""

import json
import math
import pathlib
import sys

from sectionproperties.analysis import Section
from sectionproperties.pre import Geometry
from shapely.geometry import LineString
from shapely.geometry import Polygon

ROOT = pathlib.Path(__file__).parent.parent.parent
SAMPLES = ROOT / "target" / "tmp" / "geometry" / "samples.json"
passed = failed = 0


def check(what, found, expected, within):
    global passed, failed
    fine = abs(found - expected) <= within
    passed, failed = passed + fine, failed + (not fine)
    if not fine:
        print(f"FAILED: {what}: {expected} by us, {found} by them, off by {found - expected:.3g}")


def points(contour, bow):
    """The corners of a contour whose arcs are cut into chords with a bow of at most so many mm."""
    found = []
    for piece in contour:
        if "from" in piece:
            found.append(tuple(piece["from"]))
            continue
        (x, y), radius = piece["centre"], piece["radius"]
        chord = min(math.pi / 60, math.sqrt(8 * bow / radius))
        count = max(1, math.ceil(abs(piece["sweep"]) / chord))
        for step in range(count):
            angle = piece["start"] + piece["sweep"] * step / count
            found.append((x + radius * math.cos(angle), y + radius * math.sin(angle)))
    return found


def polygon(sample, bow):
    holes = [points(hole, bow) for hole in sample["holes"]]
    return Polygon(points(sample["outer"], bow), holes)


def compare(name, sample):
    fine = polygon(sample, 1e-6)
    check(name + " is valid", fine.is_valid, True, 0)
    area = sample["area"]
    check(name + " area", fine.area, area, 1e-6 * area)
    check(name + " edges", fine.length, sample["perimeter"], 1e-6 * sample["perimeter"])
    for axis, found, expected in zip("xy", fine.centroid.coords[0], sample["centroid"]):
        check(f"{name} centroid {axis}", found, expected, 1e-4)
    left, _, right, _ = fine.bounds
    for station in sample["stations"]:
        line = LineString([(left - 1, station["y"]), (right + 1, station["y"])])
        met = fine.intersection(line)
        check(f"{name} metal at {station['y']:.1f}", met.length, station["metal"], 2e-3)
        low, _, high, _ = met.bounds
        check(f"{name} width at {station['y']:.1f}", high - low, station["width"], 2e-3)
    rims = [LineString(ring.coords) for ring in fine.interiors]
    outer = LineString(fine.exterior.coords)
    for index, (rim, expected) in enumerate(zip(rims, sample["strips"])):
        others = [other for place, other in enumerate(rims) if place != index]
        least = min(rim.distance(other) for other in [outer, *others])
        check(f"{name} strip beside opening {index}", least, expected, 2e-3)
    section = Section(Geometry(polygon(sample, 0.01)).create_mesh([area / 40]))
    section.calculate_geometric_properties()
    ixx, iyy, ixy = section.get_ic()
    size = sample["largest"]
    for what, found, expected in [
        ("second moment about x", ixx, sample["about_x"]),
        ("second moment about y", iyy, sample["about_y"]),
        ("product of inertia", ixy, sample["product"]),
        ("largest", max(section.get_ip()), sample["largest"]),
        ("least", min(section.get_ip()), sample["least"]),
    ]:
        check(f"{name} {what}", found, expected, 1e-3 * size)


for name, sample in json.loads(SAMPLES.read_text()).items():
    compare(name, sample)
print(f"{passed} passed, {failed} failed")
sys.exit(1 if failed or not passed else 0)
