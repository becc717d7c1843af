"""Runs the command on every demo design and holds what it wrote against readers we did not write.

    cargo build && python3 tests/oracles/demo.py

ezdxf reads each DXF plainly and audits it; svgelements reads the SVG; pdfplumber the PDF pages. Area
and bounds must agree between the formats and with `kerfwise check --json`.
"""

import json
import math
import pathlib
import subprocess
import sys
from xml.etree import ElementTree

import ezdxf
import pdfplumber
from svgelements import Arc, Move, Path

from support import tally
from support.tally import check, near

ROOT = pathlib.Path(__file__).resolve().parents[2]
KERFWISE = ROOT / "target/debug/kerfwise"
DESIGNS = sorted((ROOT / "fixtures/parts").glob("*.toml"))
FOLDER = ROOT / "target/tmp/demo"


def run(*arguments):
    done = subprocess.run([KERFWISE, *map(str, arguments)], capture_output=True, text=True)
    if done.returncode != 0:
        check(f"kerfwise {arguments} ends well", False, done.returncode, done.stderr)
    return done.stdout


def bulge_area(points):
    """Area of a closed chain of (x, y, bulge): chords, and circular segments (1/2) r² (t - sin t)."""
    area = 0.0
    for (x0, y0, bulge), (x1, y1, _) in zip(points, points[1:] + points[:1]):
        area += (x0 * y1 - x1 * y0) / 2
        if bulge:
            chord = math.hypot(x1 - x0, y1 - y0)
            angle = 4 * math.atan(bulge)
            radius = chord * (1 + bulge**2) / (4 * abs(bulge))
            area += radius**2 * (angle - math.sin(angle)) / 2
    return area


def dxf_area(path):
    """Area of material in a nominal file, in its own unit squared, and its entities by layer."""
    document = ezdxf.readfile(path)
    auditor = document.audit()
    check(f"{path.name}: audit", not auditor.errors and not auditor.fixes, auditor.errors, auditor.fixes)
    handles = [entity.dxf.handle for entity in document.entitydb.values()]
    check(f"{path.name}: unique handles", len(handles) == len(set(handles)))
    area = 0.0
    for entity in document.modelspace():
        sign = {"outside": 1, "inside": -1}.get(entity.dxf.layer, 0)
        if entity.dxftype() == "CIRCLE":
            area += sign * math.pi * entity.dxf.radius**2
        elif entity.dxftype() == "LWPOLYLINE":
            if sign:
                check(f"{path.name}: closed", entity.closed)
                area += sign * abs(bulge_area(list(entity.get_points("xyb"))))
        elif entity.dxftype() == "POLYLINE":
            if sign:
                check(f"{path.name}: closed", entity.is_closed)
                vertices = [(*v.dxf.location.vec2, v.dxf.bulge) for v in entity.vertices]
                area += sign * abs(bulge_area(vertices))
        layer = document.layers.get(entity.dxf.layer)
        check(f"{path.name}: black and continuous", layer.color == 7 and layer.dxf.linetype.lower() == "continuous")
    return area


def svg_area(path):
    """Area of material in a cut file: its groups by name, their paths and circles by svgelements."""
    space = "{http://www.w3.org/2000/svg}"
    area = 0.0
    for group in ElementTree.parse(path).getroot().iter(f"{space}g"):
        sign = {"outside": 1, "inside": -1}.get(group.get("id"), 0)
        for circle in group.iter(f"{space}circle"):
            area += sign * math.pi * float(circle.get("r")) ** 2
        for element in group.iter(f"{space}path"):
            own = 0.0
            for piece in Path(element.get("d")):
                if piece.start is None or piece.end is None or isinstance(piece, Move):
                    continue
                own += (piece.start.x * piece.end.y - piece.end.x * piece.start.y) / 2
                if isinstance(piece, Arc):
                    own += piece.rx**2 * (piece.sweep - math.sin(piece.sweep)) / 2
            area += sign * abs(own)
    return area


def main():
    check("the command is built", KERFWISE.exists())
    check("there are designs", len(DESIGNS) >= 7, len(DESIGNS))
    areas = {}
    for design in DESIGNS:
        folder = FOLDER / design.stem
        run("job", design, "--out", folder, "--replace")
        names = sorted(path.name for path in folder.iterdir())
        check(f"{design.stem}: an index page", "index.html" in names, names)
        for path in folder.glob("*-nominal-*.dxf"):
            part = path.name.split("-nominal-")[0]
            scale = 25.4 if "-nominal-in-" in path.name else 1.0
            area = dxf_area(path) * scale**2
            areas[design.stem, part] = area
            near(f"{path.name}: SVG area", svg_area(next(folder.glob(f"{part}-nominal-mm-*.svg"))), area, 1e-6 * area)
            for edition in ("r12", "r2007", "r2013"):
                for unit in ("mm", "in"):
                    other = folder / "editions" / f"{part}-{edition}-{unit}.dxf"
                    run("cut", design, "--part", part, "--dxf", edition, "--units", unit, "--out", other, "--replace")
                    scale = 25.4 if unit == "in" else 1.0
                    near(f"{other.name}: area", dxf_area(other) * scale**2, area, 1e-8 * area)
        for path in folder.glob("*-pattern-a4.pdf"):
            with pdfplumber.open(path) as pdf:
                for page in pdf.pages:
                    sides = sorted((float(page.width), float(page.height)))
                    near(f"{path.name}: short side", sides[0], 210 / 25.4 * 72, 1e-3)
                    near(f"{path.name}: long side", sides[1], 297 / 25.4 * 72, 1e-3)
        first = {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}
        run("job", design, "--out", folder)
        second = {path.name: path.read_bytes() for path in folder.iterdir() if path.is_file()}
        check(f"{design.stem}: same bytes on every run", first == second)
    reference = areas["leeboard", "leeboard"]
    for other in ("leeboard-turned", "leeboard-inch"):
        near(f"{other}: same area", areas[other, "leeboard"], reference, 1e-6)
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
