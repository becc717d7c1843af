"""Reads the sample SVG files with svgelements and compares them with closed forms.

    cargo test --test drawing_samples && python3 tests/oracles/svg.py [FOLDER]

FOLDER holds the samples (target/tmp/drawing-samples unless given).
"""

import math
import pathlib
import re
import sys

from svgelements import SVG, Arc, Circle, Close, Line, Move, Path

from support import tally
from support.tally import check

ROOT = pathlib.Path(__file__).resolve().parents[2]
FOLDER = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "target/tmp/drawing-samples"


def near(found, expected, tolerance):
    return abs(found - expected) <= tolerance


def data_of(text):
    """The path strings of a file, in order."""
    return re.findall(r'<path d="([^"]*)"', text)


def area_and_length(data):
    """Signed area (anticlockwise positive, y up) and length of a path of lines and round arcs."""
    area = length = 0.0
    for piece in Path(data):
        if isinstance(piece, Move):
            continue
        a, b = piece.start, piece.end
        area += (a.x * b.y - b.x * a.y) / 2
        if isinstance(piece, Arc):
            area += piece.rx**2 * (piece.sweep - math.sin(piece.sweep)) / 2
            length += piece.rx * abs(piece.sweep)
        elif isinstance(piece, (Line, Close)):
            length += math.hypot(b.x - a.x, b.y - a.y)
        else:
            raise ValueError(f"neither line nor arc: {piece!r}")
    return -area, length


def bounds(data):
    return Path(data).bbox()


SLOT_AREA = 4000 + 400 * math.pi
SLOT_LENGTH = 200 + 40 * math.pi


def slot_is_right(text, sign=1):
    area, length = area_and_length(data_of(text)[0])
    return near(area, sign * SLOT_AREA, 1e-7) and near(length, SLOT_LENGTH, 1e-8)


def lens(r, s, d):
    """Common area of two discs (closed form)."""
    a = r * r * math.acos((d * d + r * r - s * s) / (2 * d * r))
    b = s * s * math.acos((d * d + s * s - r * r) / (2 * d * s))
    k = (-d + r + s) * (d + r - s) * (d - r + s) * (d + r + s)
    return a + b - math.sqrt(k) / 2


def bitten_is_right(text):
    area, _ = area_and_length(data_of(text)[0])
    return near(area, 100 * math.pi - lens(10, 5, 10), 1e-8)


def sweeps_are_right(text):
    """Arcs of r = 123.456 mm about (300 n, ±200) through ±n · 4.999°, from 0.1 rad."""
    paths = data_of(text)
    if len(paths) != 144:
        return False
    for index, data in enumerate(paths):
        step, sign = index // 2 + 1, 1 if index % 2 == 0 else -1
        expected = math.radians(4.999) * step
        centre = complex(300 * step, -200 * sign)
        swept = 0.0
        for piece in Path(data):
            if isinstance(piece, Move):
                continue
            if not isinstance(piece, Arc):
                return False
            # y down: anticlockwise is a falling angle
            swept -= piece.sweep * sign
            for part in range(17):
                point = piece.point(part / 16)
                off = abs(complex(point.x, point.y) - centre) - 123.456
                if abs(off) > 1e-9:
                    return False
        if not near(swept, expected, 1e-9):
            return False
    return True


def size_is_true(text, width, height):
    """Width and height in mm, and as many units inside."""
    found = [float(re.search(rf' {name}="([0-9.]+)mm"', text)[1]) for name in ("width", "height")]
    view = [float(part) for part in re.search(r'viewBox="([^"]+)"', text)[1].split()]
    both = zip(found + view[2:], [width, height] * 2)
    return all(near(a, b, 1e-9) for a, b in both)


# The reader itself, on the arcs of the specification's own example (SVG 1.1, figure arcs01)
for data, length in [
    ("M150,200 a150,150 0 1,0 150,-150", 706.858347),
    ("M275,25 a150,150 0 0,0 -150,150", 235.619449),
    ("M650,325 a25,25 -30 0,1 50,-25", 87.810184),
]:
    piece = list(Path(data))[1]
    check(f"reader on {data}", near(piece.rx * abs(piece.sweep), length, 1e-5))
centre = list(Path("M150,200 a150,150 0 1,0 150,-150"))[1].center
check("reader: centre", near(centre.x, 300, 1e-6) and near(centre.y, 200, 1e-6))

slot = (FOLDER / "slot.svg").read_text()
check("slot: area and length", slot_is_right(slot))
check("slot: bounds", all(near(a, b, 1e-9) for a, b in zip(bounds(data_of(slot)[0]), (-20, -40, 120, 0))))
check("slot: size of the page with a line of 0.2 mm", size_is_true(slot, 140.2, 40.2))
mirrored = (FOLDER / "slot-mirrored.svg").read_text()
check("mirrored slot: runs the other way", slot_is_right(mirrored, -1))
check(
    "mirrored slot: bounds",
    all(near(a, b, 1e-9) for a, b in zip(bounds(data_of(mirrored)[0]), (-120, -40, 20, 0))),
)
turned = (FOLDER / "slot-turned.svg").read_text()
check("turned slot: area and length", slot_is_right(turned))
low_x, low_y, high_x, high_y = bounds(data_of(turned)[0])
cosine, sine = math.cos(0.7), math.sin(0.7)
check("turned slot: width", near(high_x - low_x, 100 * cosine + 40, 1e-6))
check("turned slot: height", near(high_y - low_y, 100 * sine + 40, 1e-6))
check("turned slot: left", near(low_x, 1234.5 - 20 * sine - 20, 1e-6))
check("turned slot: bottom", near(-high_y, -678.9 + 20 * cosine - 20, 1e-6))
bitten = (FOLDER / "bitten.svg").read_text()
check("bitten disc: area", bitten_is_right(bitten))
sweeps = (FOLDER / "sweeps.svg").read_text()
check("arcs of every sweep within 1e-9 mm", sweeps_are_right(sweeps))

circle = (FOLDER / "circle.svg").read_text()
circles = [element for element in SVG.parse(str(FOLDER / "circle.svg"), ppi=25.4).elements() if isinstance(element, Circle)]
check("circle: one, and a circle", len(circles) == 1 and "<path" not in circle)
found = re.search(r'cx="([-0-9.]+)" cy="([-0-9.]+)" r="([-0-9.]+)"', circle).groups()
check("circle: place and radius", [float(part) for part in found] == [40.0, -30.0, 12.5])
left, top, right, bottom = circles[0].bbox()
check("circle: 25 mm across when a unit is a millimetre", near(right - left, 25, 1e-4))  # its inch is 5e-7 off
check("circle: size of the page", size_is_true(circle, 25.2, 25.2))

# The checks themselves must be able to fail
flipped = re.sub(r"(A[0-9.]+ [0-9.]+ 0 [01]) ([01])", lambda m: f"{m[1]} {1 - int(m[2])}", slot)
check("a flipped sweep is noticed", not slot_is_right(flipped))
flipped = re.sub(r"(A[0-9.]+ [0-9.]+ 0) ([01])", lambda m: f"{m[1]} {1 - int(m[2])}", bitten)
check("a flipped large-arc flag is noticed", not bitten_is_right(flipped))
flipped = sweeps.replace(" 0 1 0 ", " 0 1 1 ", 1)
check("one flipped arc among many is noticed", flipped != sweeps and not sweeps_are_right(flipped))
moved = sweeps.replace("A123.456 123.456 ", "A123.45600001 123.45600001 ")
check("a radius 1e-8 mm too large is noticed", not sweeps_are_right(moved))
larger = slot.replace('width="140.2mm"', 'width="141.602mm"')
check("a page 1 % too wide is noticed", not size_is_true(larger, 140.2, 40.2))

sys.exit(tally.close())
