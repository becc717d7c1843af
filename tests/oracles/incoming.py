"""`kerfwise inspect` against ezdxf (1.4.5), scipy (1.17.1), shapely (2.2.0) and svgelements (1.9.6).

Drawings with every kind of entity are made by ezdxf in every edition: length, size and area of each as
ezdxf's own paths and scipy's splines have them, counts, layers, units and what is left out. SVG drawings against svgelements. A
mended drawing is read and audited by ezdxf, and its distance from the original measured by shapely. Needs the
built command.

    cargo build && python3 tests/oracles/incoming.py
"""

import json
import logging
import math
import pathlib
import re
import subprocess
import sys
import tempfile

import ezdxf
import ezdxf.path
import ezdxf.units
import numpy
from ezdxf.math import Matrix44, Vec3
from scipy.interpolate import BSpline
from shapely.geometry import LineString, MultiLineString, Point, Polygon
from svgelements import SVG, Close, Line, Move, Path, Shape

from support import tally

ROOT = pathlib.Path(__file__).resolve().parents[2]
KERFWISE = ROOT / "target/debug/kerfwise"
VERSIONS = ["R12", "R2000", "R2004", "R2007", "R2010", "R2013", "R2018"]
# R12 has no place for the unit, as is known
logging.getLogger("ezdxf").setLevel(logging.ERROR)


def check(fine, message):
    return tally.check(message, fine)


def near(found, expected, what, part=1e-6, least=1e-9):
    fine = found is not None and abs(found - expected) <= max(part * abs(expected), least)
    return check(fine, f"{what}: {found} for {expected}")


def inspect(path, *options, code=None):
    command = [str(KERFWISE), "inspect", str(path), "--json", *options]
    done = subprocess.run(command, capture_output=True, text=True, timeout=120)
    if code is not None:
        check(done.returncode == code, f"{path.name} {options}: exit {done.returncode}, {done.stderr}")
    return json.loads(done.stdout) if done.stdout else {}


def rows(report, title):
    for block in report.get("blocks", []):
        if block.get("kind") == "table" and block.get("title", "").startswith(title):
            return block["rows"]
    return []


def number(cell):
    return cell.get("value") if isinstance(cell, dict) else cell


def holds(report):
    return {row["what"]: number(row["value"]) for row in rows(report, "What it holds")}


# --- single entities against ezdxf's own paths -------------------------------------------------------


def star(document):
    block = document.blocks.new("star", base_point=(1, 2))
    block.add_circle((4, 2), 3)
    block.add_arc((0, 0), 5, 30, 200)
    block.add_line((0, 0), (7, 1))
    outer = document.blocks.new("outer")
    outer.add_blockref("star", (10, 0), dxfattribs={"xscale": 2, "yscale": 2, "zscale": 2, "rotation": 40})
    outer.add_blockref("star", (-10, 3), dxfattribs={"xscale": -1, "rotation": 10})


def entities(version):
    """Name, what adds it, and how near the lengths must be."""
    flipped = {"extrusion": (0, 0, -1)}
    slot = [(0, 0, 0), (100, 0, 1), (100, 40, 0), (0, 40, 1)]
    old = version == "R12"

    def polyline(space, **attributes):
        if old:
            space.add_polyline2d(slot, format="xyb", close=True, dxfattribs=attributes)
        else:
            space.add_lwpolyline(slot, format="xyb", close=True, dxfattribs=attributes)

    yield "line", lambda s: s.add_line((1, 2), (31, 42)), 1e-9
    yield "circle", lambda s: s.add_circle((5, 6), 7), 1e-6
    yield "circle from behind", lambda s: s.add_circle((5, 6), 7, dxfattribs=flipped), 1e-6
    yield "arc", lambda s: s.add_arc((5, 6), 7, 300, 80), 1e-6
    yield "arc from behind", lambda s: s.add_arc((5, 6), 7, 300, 80, dxfattribs=flipped), 1e-6
    yield "polyline", polyline, 1e-6
    yield "polyline from behind", lambda s: polyline(s, **flipped), 1e-6
    yield "insert", lambda s: s.add_blockref("star", (20, 30), dxfattribs={"rotation": 33}), 1e-6
    yield "insert, scaled", lambda s: s.add_blockref("star", (20, 30), dxfattribs={"xscale": 3, "yscale": 3}), 1e-6
    yield "insert, mirrored", lambda s: s.add_blockref(
        "star", (20, 30), dxfattribs={"xscale": -2, "yscale": 2, "rotation": 70}
    ), 1e-6
    yield "insert from behind", lambda s: s.add_blockref("star", (20, 30), dxfattribs={"rotation": 20, **flipped}), 1e-6
    yield "insert of inserts", lambda s: s.add_blockref(
        "outer", (2, 3), dxfattribs={"xscale": 1.5, "yscale": 1.5, "rotation": 15}
    ), 1e-6
    yield "insert, repeated", lambda s: s.add_blockref(
        "star",
        (2, 3),
        dxfattribs={"column_count": 3, "row_count": 2, "column_spacing": 20, "row_spacing": 30, "rotation": 25},
    ), 1e-6
    if old:
        return
    yield "insert, stretched", lambda s: s.add_blockref("star", (20, 30), dxfattribs={"xscale": 3, "yscale": 1}), 2e-3
    yield "ellipse", lambda s: s.add_ellipse((3, 4), (30, 10), 0.4), 1e-3
    yield "part of an ellipse", lambda s: s.add_ellipse((3, 4), (30, 10), 0.4, 0.3, 4.1), 1e-3
    yield "ellipse from behind", lambda s: s.add_ellipse(
        (3, 4), (30, 10), 0.4, 0.3, 4.1, dxfattribs=flipped
    ), 1e-3
    points = [(0, 0), (10, 20), (30, 20), (40, 0), (60, 10), (80, -10)]
    yield "spline", lambda s: s.add_open_spline(points), 1e-3
    yield "closed spline", lambda s: s.add_spline().set_closed([Vec3(p) for p in points]), 1e-3
    yield "spline of degree 5", lambda s: s.add_open_spline(points, degree=5), 1e-3
    yield "rational spline", lambda s: s.add_rational_spline(points, [1, 2, 0.5, 3, 1, 1]), 1e-3
    yield "straight spline", lambda s: s.add_open_spline([(0, 0), (10, 10), (20, 20), (50, 50)]), 1e-9


def lines_of_entity(entity):
    """Its outline in short chords: on the circle itself for arcs, which ezdxf's paths take as Bézier curves."""
    kind = entity.dxftype()
    if kind in ("CIRCLE", "ARC"):
        points = [(p.x, p.y) for p in entity.flattening(1e-7)]
        return [points + points[:1] if kind == "CIRCLE" and points[0] != points[-1] else points]
    if kind == "SPLINE":
        # scipy, over the range of the knots where the spline is defined
        knots, degree = list(entity.knots), entity.dxf.degree
        weights = numpy.array(list(entity.weights) or [1.0] * len(entity.control_points))
        points = numpy.array([(p[0], p[1], 1.0) for p in entity.control_points]) * weights[:, None]
        at = numpy.linspace(knots[degree], knots[-degree - 1], 20001)
        values = BSpline(knots, points, degree)(at)
        return [[(x / w, y / w) for x, y, w in values]]
    if kind in ("LWPOLYLINE", "POLYLINE"):
        points = []
        for piece in entity.virtual_entities():
            for line in lines_of_entity(piece):
                # arcs of the format have one sense only
                if points and math.dist(points[-1], line[0]) > math.dist(points[-1], line[-1]):
                    line = line[::-1]
                points.extend(line)
        return [points]
    if kind != "INSERT":
        path = ezdxf.path.make_path(entity)
        points = [(p.x, p.y) for p in path.flattening(1e-6, segments=64)]
        if path.is_closed and points[0] != points[-1]:
            points.append(points[0])
        return [points]
    inserts = list(entity.multi_insert()) if entity.mcount > 1 else [entity]
    found = []
    for insert in inserts:
        for inner in insert.virtual_entities():
            found.extend(lines_of_entity(inner))
    return found


def lines_of(space):
    return [line for entity in space for line in lines_of_entity(entity)]


def single_entities(folder):
    for version in ("R12", "R2000", "R2018"):
        for name, add, part in entities(version):
            document = ezdxf.new(version, units=ezdxf.units.MM)
            star(document)
            add(document.modelspace())
            path = folder / f"{version}-{name.replace(' ', '-').replace(',', '')}.dxf"
            document.saveas(path)
            lines = lines_of(document.modelspace())
            whole = MultiLineString([line for line in lines if len(line) > 1])
            found = holds(inspect(path, "--units", "mm"))
            what = f"{version}, {name}"
            near(found.get("length to cut"), whole.length, f"{what}: length", part)
            left, bottom, right, top = whole.bounds
            # curves are followed within 0.01 mm, and by ezdxf within 1.4e-4 of their size
            slack = 0.015 if part > 1e-4 else max(part, 1e-6) * 100
            near(found.get("overall, across"), right - left, f"{what}: across", 0, slack)
            near(found.get("overall, up"), top - bottom, f"{what}: up", 0, slack)
            closed = [line for line in lines if len(line) > 3 and math.dist(line[0], line[-1]) < 1e-9]
            if len(closed) == len(lines) == 1:
                area = Polygon(closed[0]).area
                near(found.get("area of material"), area, f"{what}: area", max(part, 1e-4))


# --- a drawing with everything in it ------------------------------------------------------------------


def whole_drawing(folder):
    for version in VERSIONS[1:]:
        document = ezdxf.new(version, units=ezdxf.units.MM, setup=True)
        star(document)
        space = document.modelspace()
        for layer in ("plate", "holes", "frame"):
            document.layers.add(layer)
        outline = [(0, 0), (300, 0), (300, 200), (0, 200)]
        for start, end in zip(outline, outline[1:] + outline[:1]):
            space.add_line(start, end, dxfattribs={"layer": "plate"})
        for x in (40, 80, 120):
            space.add_circle((x, 40), 8, dxfattribs={"layer": "holes"})
        space.add_lwpolyline(
            [(50, 100, 0), (150, 100, 1), (150, 120, 0), (50, 120, 1)],
            format="xyb",
            close=True,
            dxfattribs={"layer": "holes"},
        )
        space.add_point((200, 100), dxfattribs={"layer": "holes"})
        space.add_text("hinge side", dxfattribs={"layer": "frame"}).set_placement((10, 10))
        space.add_mtext("two\nlines", dxfattribs={"layer": "frame"})
        hatch = space.add_hatch(dxfattribs={"layer": "frame"})
        hatch.paths.add_polyline_path([(0, 0), (10, 0), (10, 10)], is_closed=True)
        dimension = space.add_linear_dim(base=(0, -20), p1=(0, 0), p2=(300, 0), dxfattribs={"layer": "frame"})
        dimension.render()
        space.add_xline((0, 0), (1, 1))
        space.add_solid([(0, 0), (1, 0), (0, 1)])
        space.add_3dface([(0, 0), (1, 0), (0, 1)])
        path = folder / f"whole-{version}.dxf"
        document.saveas(path)
        report = inspect(path)
        found = holds(report)
        what = f"whole drawing, {version}"
        outside = Polygon(outline)
        holes = [Point(x, 40).buffer(8, quad_segs=2000) for x in (40, 80, 120)]
        slot = LineString([(50, 110), (150, 110)]).buffer(10, quad_segs=2000)
        material = outside
        for hole in [*holes, slot]:
            material = material.difference(hole)
        near(found["area of material"], material.area, f"{what}: area")
        near(found["length to cut"], material.exterior.length + sum(r.length for r in material.interiors), f"{what}: length")
        check(found["closed outlines"] == 5, f"{what}: outlines {found['closed outlines']}")
        check(found["openings"] == 4, f"{what}: openings {found['openings']}")
        check(found["points"] == 1, f"{what}: points {found['points']}")
        check(report["unit"]["known"] == "stated", f"{what}: unit {report['unit']}")
        kinds = {row["kind"]: number(row["count"]) for row in rows(report, "Kinds")}
        for kind in ("LINE", "CIRCLE", "POINT", "TEXT", "MTEXT", "HATCH", "DIMENSION", "XLINE", "SOLID", "3DFACE"):
            expected = len(space.query(kind))
            check(kinds.get(kind) == expected, f"{what}: {kind} {kinds.get(kind)} for {expected}")
        check(kinds.get("POLYLINE") == 1, f"{what}: polylines {kinds}")
        total = sum(kinds.values())
        check(total == len(space), f"{what}: {total} counted of {len(space)}")
        layers = {row["layer"] for row in rows(report, "Layers")}
        check({"plate", "holes"} <= layers, f"{what}: layers {layers}")


def units(folder):
    for code in range(1, 25):
        # light years and the like leave nothing of a drawing
        try:
            metres = ezdxf.units.conversion_factor(code, ezdxf.units.M)
        except TypeError:
            continue
        document = ezdxf.new("R2010")
        document.header["$INSUNITS"] = code
        side = 0.5 / metres
        document.modelspace().add_lwpolyline([(0, 0), (side, 0), (side, side)], close=True)
        path = folder / f"unit-{code}.dxf"
        document.saveas(path)
        report = inspect(path)
        # it gives light years and parsecs three digits
        part = 2e-3 if code in (19, 20) else 1e-8
        near(report["unit"]["millimetres"], metres * 1000, f"unit {code}", part)


def likely_units(folder):
    for name, numbers, expected in [
        ("inches", [12, 8.375, 0.1875, 2.625], 25.4),
        ("millimetres", [305, 210, 12.5, 64], 1.0),
    ]:
        document = ezdxf.new("R2010", units=0)
        space = document.modelspace()
        width, height, radius, place = numbers
        space.add_lwpolyline([(0, 0), (width, 0), (width, height), (0, height)], close=True)
        space.add_circle((place, place), radius)
        path = folder / f"likely-{name}.dxf"
        document.saveas(path)
        report = inspect(path, code=1)
        near(report["unit"]["millimetres"], expected, f"likely unit of {name}")
        found = [f for f in report["findings"] if f["name"] == "missing-unit"]
        check(len(found) == 1 and "mm" in found[0]["message"], f"{name}: {found}")


# --- SVG ----------------------------------------------------------------------------------------------

SHAPES = [
    '<rect x="10" y="20" width="60" height="40"/>',
    '<rect x="10" y="20" width="60" height="40" rx="8"/>',
    '<rect x="10" y="20" width="60" height="40" rx="12" ry="6"/>',
    '<circle cx="50" cy="40" r="12"/>',
    '<ellipse cx="50" cy="40" rx="30" ry="12"/>',
    '<line x1="1" y1="2" x2="31" y2="42"/>',
    '<polyline points="0,0 30,10 20,40 5 45"/>',
    '<polygon points="0,0 30,10 20,40"/>',
    '<path d="M10,10 L60,10 L60,50 Z m5,5 h20 v10 z"/>',
    '<path d="M10 80 C 40 10, 65 10, 95 80 S 150 150, 180 80"/>',
    '<path d="M10 80 Q 52.5 10, 95 80 T 180 80"/>',
    '<path d="M80 80 A 45 45, 0, 0, 0, 125 125 L 125 80 Z"/>',
    '<path d="M80 80 A 60 25, 30, 1, 1, 125 125"/>',
    '<path d="M10 10a5 8 20 0 1 30 12a5 5 0 1 0 3 4"/>',
    '<g transform="translate(5 6) rotate(30) scale(2)"><circle r="5"/><path d="M0 0h10"/></g>',
    '<g transform="matrix(1 .3 -.2 1.1 4 5)"><circle cx="9" cy="9" r="5"/><rect width="9" height="4"/></g>',
    '<g transform="skewX(20)"><rect width="30" height="14" rx="3"/></g>',
    '<defs><path id="p" d="M0 0h10v5z"/></defs><use href="#p" x="3" y="4"/><use href="#p" transform="scale(3)"/>',
]


def svg_drawings(folder):
    for index, shape in enumerate(SHAPES):
        for size in ('width="200mm" height="150mm" viewBox="0 0 200 150"', 'width="8in" height="6in" viewBox="0 0 400 300"'):
            text = f'<svg xmlns="http://www.w3.org/2000/svg" {size}>{shape}</svg>'
            path = folder / f"shape-{index}.svg"
            path.write_text(text)
            # sampled before its transformation, which svgelements does not carry through to all arcs
            drawing = SVG.parse(str(path), ppi=96, reify=False)
            length, corners = 0.0, []
            for element in drawing.elements():
                if not isinstance(element, Shape):
                    continue
                for segment in Path(element).segments(transformed=False):
                    if isinstance(segment, Move):
                        continue
                    steps = 1 if isinstance(segment, (Line, Close)) else 4000
                    points = [
                        element.transform.point_in_matrix_space(segment.point(i / steps)) for i in range(steps + 1)
                    ]
                    length += sum(math.dist(p, q) for p, q in zip(points, points[1:]))
                    corners.extend(points)
            found = holds(inspect(path))
            pixel = 25.4 / 96
            what = f"SVG {shape} in {size}"
            near(found.get("length to cut"), length * pixel, f"{what}: length", 2e-3)
            across = max(p[0] for p in corners) - min(p[0] for p in corners)
            up = max(p[1] for p in corners) - min(p[1] for p in corners)
            near(found.get("overall, across"), across * pixel, f"{what}: across", 0, 0.021)
            near(found.get("overall, up"), up * pixel, f"{what}: up", 0, 0.021)


# --- mending ------------------------------------------------------------------------------------------


def flat(points):
    return [tuple(p) for p in points]


def mending(folder):
    for version in VERSIONS:
        document = ezdxf.new(version, units=ezdxf.units.MM)
        space = document.modelspace()
        circle = [
            (150 + 40 * math.cos(t), 100 + 40 * math.sin(t)) for t in (2 * math.pi * i / 1000 for i in range(1000))
        ]
        ellipse = [
            (60 + 30 * math.cos(t), 60 + 15 * math.sin(t)) for t in (2 * math.pi * i / 720 for i in range(720))
        ]
        outline = [(0, 0), (250, 0), (250, 200), (0, 200)]
        for ring in (circle, ellipse, outline):
            for start, end in zip(ring, ring[1:] + ring[:1]):
                space.add_line(start, end)
        # one side twice, and nothing at all once
        space.add_line((250, 0), (0, 0))
        space.add_line((9, 9), (9, 9))
        path = folder / f"flat-{version}.dxf"
        document.saveas(path)
        mended = folder / f"flat-{version}-mended.dxf"
        report = inspect(path, "--mend", "--units", "mm", "--out", str(mended), code=1)
        what = f"mended {version}"
        try:
            again = ezdxf.readfile(mended)
        except Exception as error:  # noqa: BLE001
            check(False, f"{what}: {error}")
            continue
        auditor = again.audit()
        check(not auditor.errors and not auditor.fixes, f"{what}: {auditor.errors} {auditor.fixes}")
        found = list(again.modelspace())
        circles = [e for e in found if e.dxftype() == "CIRCLE"]
        check(len(circles) == 1, f"{what}: {[e.dxftype() for e in found]}")
        check(len(found) == 3, f"{what}: {len(found)} things")
        if circles:
            near(circles[0].dxf.radius, 40, f"{what}: radius", 1e-6)
            near(Vec3(circles[0].dxf.center).distance((150, 100)), 0, f"{what}: centre", 0, 1e-6)
        before = MultiLineString([flat(r + r[:1]) for r in (circle, ellipse, outline)])
        after = MultiLineString(lines_of(again.modelspace()))
        distance = max(before.hausdorff_distance(after), after.hausdorff_distance(before))
        said = [number(r["after"]) for r in rows(report, "Mended") if r["what"].startswith("greatest distance")]
        check(len(said) == 1 and said[0] <= 0.01, f"{what}: says {said}")
        # shapely looks at the corners of what ezdxf flattened only
        check(bool(said) and distance <= said[0] + 1e-3, f"{what}: {distance} measured, {said} said")
        report = inspect(mended, code=0)
        check(not [f for f in report["findings"] if f["severity"] == "error"], f"{what}: {report['findings']}")
        refused = subprocess.run(
            [str(KERFWISE), "inspect", str(path), "--mend", "--out", str(path), "--replace"],
            capture_output=True,
            text=True,
            timeout=60,
        )
        check(refused.returncode == 2 and "never replaced" in refused.stderr, f"{what}: {refused.stderr}")


def against_a_design(folder):
    design = ROOT / "fixtures/parts/belt-guard.toml"
    subprocess.run([str(KERFWISE), "cut", str(design), "--out", str(folder) + "/"], check=True, capture_output=True)
    for path in sorted(folder.glob("*-nominal-mm-*.dxf")):
        report = inspect(path, "--against", str(design), code=0)
        strays = [number(r["value"]) for r in rows(report, "Against") if "strays" in r["what"]]
        check(len(strays) == 2 and max(strays) < 1e-8, f"{path.name}: strays {strays}")
        document = ezdxf.readfile(path)
        moved = document.modelspace().query("CIRCLE").first
        moved.dxf.center = Vec3(moved.dxf.center) + Vec3(0.3, 0.4)
        other = folder / "moved.dxf"
        document.saveas(other)
        report = inspect(other, "--against", str(design), code=1)
        strays = [number(r["value"]) for r in rows(report, "Against") if "strays" in r["what"]]
        near(max(strays, default=0), 0.5, f"{path.name} with a hole moved", 1e-6)


def tangent_arcs(folder):
    """A plate with rounded corners in chords, written with three decimals: mended, every joint is tangent."""
    turn = 0.4
    points = []
    for x, y, radius, start in [(90, 10, 10, -90), (75, 35, 25, 0), (10, 50, 10, 90), (25, 25, 25, 180)]:
        for index in range(41):
            angle = math.radians(start + 90 * index / 40)
            px, py = x + radius * math.cos(angle), y + radius * math.sin(angle)
            points.append((px * math.cos(turn) - py * math.sin(turn), px * math.sin(turn) + py * math.cos(turn)))
    points = [(round(x, 3), round(y, 3)) for x, y in points]
    document = ezdxf.new("R2010", units=ezdxf.units.MM)
    document.modelspace().add_lwpolyline(points, close=True)
    path, mended = folder / "rounded.dxf", folder / "rounded-mended.dxf"
    document.saveas(path)
    inspect(path, "--mend", "--within", "0.02", "--out", str(mended))
    found = list(ezdxf.readfile(mended).modelspace())
    check(len(found) == 1 and found[0].dxftype() == "LWPOLYLINE", f"rounded plate: {found}")
    rows_of = list(found[0].get_points("xyb"))
    check(len(rows_of) == 8 and sum(bool(b) for _, _, b in rows_of) == 4, f"rounded plate: {rows_of}")
    leaving, arriving = [], []
    for (x0, y0, bulge), (x1, y1, _) in zip(rows_of, rows_of[1:] + rows_of[:1]):
        chord = math.atan2(y1 - y0, x1 - x0)
        lean = 2 * math.atan(bulge)
        leaving.append(chord - lean)
        arriving.append(chord + lean)
    for after, before in zip(leaving, arriving[-1:] + arriving[:-1]):
        off = abs((after - before + math.pi) % (2 * math.pi) - math.pi)
        check(off < 1e-7, f"rounded plate: a joint is off tangent by {off}")


def turned_drawings(folder):
    """Any turn, shift and mirroring, made by ezdxf; the turn that is told must undo it."""
    for stem in ("belt-guard", "leeboard", "bracket-inch", "winch-pad"):
        design = ROOT / f"fixtures/parts/{stem}.toml"
        own = folder / stem
        subprocess.run([str(KERFWISE), "cut", str(design), "--out", str(own) + "/"], check=True, capture_output=True)
        nominal = next(own.glob("*-nominal-mm-*.dxf"))
        for degrees, mirrored in [(12.5, False), (77.0, True), (133.3, False), (200.0, True), (301.7, False)]:
            document = ezdxf.readfile(nominal)
            motion = Matrix44.z_rotate(-math.radians(degrees)) @ Matrix44.translate(311.0, -92.5, 0)
            if mirrored:
                motion = Matrix44.scale(-1, 1, 1) @ motion
            for entity in document.modelspace():
                entity.transform(motion)
            path = own / f"turned-{degrees}-{mirrored}.dxf"
            document.saveas(path)
            what = f"{stem} turned by {degrees}{', mirrored' if mirrored else ''}"
            report = inspect(path, "--against", str(design), code=0)
            table = rows(report, "Against")
            strays = [number(r["value"]) for r in table if "strays" in r["what"]]
            scale = 25.4 if stem.endswith("inch") and report["unit"]["name"] == "inches" else 1
            check(len(strays) == 2 and max(strays) * scale < 2e-6, f"{what}: strays {strays}")
            lies = next((r["remark"] for r in table if r["what"] == "how it lies"), "")
            # a part of some symmetry may lie in more ways than one
            if stem == "leeboard":
                turn = re.search(r"turned by ([\d.]+)°", lies)
                # it is mirrored before it is turned
                expected = 360 - degrees if mirrored else degrees
                check(turn is not None and abs(float(turn[1]) - expected) < 2e-3, f"{what}: {lies}")
                check(("MIRRORED" in lies) == mirrored, f"{what}: {lies}")
            limits = rows(report, "Limits of the design")
            # corners that a full round took away cannot be found again
            wrong = [r for r in limits if not r["verdict"].startswith(("keeps it", "cannot be measured"))]
            kept = [r for r in limits if r["verdict"].startswith("keeps it")]
            check(not wrong and (kept or stem == "winch-pad"), f"{what}: {wrong or 'no limits'}")


def a_limit_of_a_part(folder):
    """A `limit` table of a part against shapely: the width of a drawing made too wide."""
    design = folder / "plate.toml"
    design.write_text(
        """[part.plate]
outline = [
  { corner = "a", at = [0, 0], edge = { name = "foot" } },
  { corner = "b", at = [200, 0], edge = { name = "right" } },
  { corner = "c", at = [180, 120], edge = { name = "top" } },
  { corner = "d", at = [0, 120], edge = { name = "left" } },
]
[[part.plate.opening]]
name = "eye"
circle = { at = [60, 40], diameter = 30 }
[[part.plate.limit]]
what = "eye to the foot"
measure = { edge_distance = { of = "eye" } }
min = 24.8
[[part.plate.limit]]
what = "eye"
measure = { diameter = "eye" }
tol = 0.2
"""
    )
    for shift, diameter in [(0.0, 30.0), (-0.4, 30.0), (0.1, 30.5)]:
        document = ezdxf.new("R2010", units=ezdxf.units.MM)
        space = document.modelspace()
        outline = [(0, 0), (200, 0), (180, 120), (0, 120)]
        space.add_lwpolyline(outline, close=True)
        space.add_circle((60, 40 + shift), diameter / 2)
        for entity in space:
            entity.transform(Matrix44.z_rotate(0.83))
        path = folder / f"plate-{shift}-{diameter}.dxf"
        document.saveas(path)
        strip = Point(60, 40 + shift).distance(Polygon(outline).exterior) - diameter / 2
        keeps = strip >= 24.8 and abs(diameter - 30) <= 0.2
        what = f"plate with a hole of {diameter} moved by {shift}"
        report = inspect(path, "--against", str(design), "--allow", "1", code=0 if keeps else 1)
        found = {r["name"]: r for r in rows(report, "Limits of the design")}
        near(number(found["eye to the foot"]["measured"]), strip, f"{what}: strip", 0, 0.006)
        near(number(found["eye"]["measured"]), diameter, f"{what}: diameter", 0, 0.006)
        said = found["eye to the foot"]["verdict"].startswith("keeps it")
        check(said == (strip >= 24.8), f"{what}: {found['eye to the foot']}")
        said = found["eye"]["verdict"].startswith("keeps it")
        check(said == (abs(diameter - 30) <= 0.2), f"{what}: {found['eye']}")
    document = ezdxf.new("R2010", units=ezdxf.units.MM)
    document.modelspace().add_lwpolyline([(0, 0), (200, 0), (180, 120), (0, 120)], close=True)
    path = folder / "plate-without-eye.dxf"
    document.saveas(path)
    report = inspect(path, "--against", str(design), code=1)
    verdicts = [r["verdict"] for r in rows(report, "Limits of the design")]
    check(all("cannot be measured" in verdict for verdict in verdicts) and verdicts, f"no eye: {verdicts}")


def before_sending(folder):
    """What `cut` tells of webs, against shapely's distances."""
    design = ROOT / "fixtures/parts/belt-guard.toml"
    file = ROOT / "fixtures/processes/coarse.toml"
    nominal = next((folder / "belt-guard").glob("*-nominal-mm-*.dxf"))
    rings = [Polygon(line) for line in lines_of(ezdxf.readfile(nominal).modelspace()) if len(line) > 3]
    outer = max(rings, key=lambda ring: ring.area)
    holes = [ring for ring in rings if ring is not outer]
    near_edge = sum(hole.distance(outer.exterior) < 29 for hole in holes)
    pairs = sum(a.distance(b) < 29 for i, a in enumerate(holes) for b in holes[i + 1 :])
    options = ["--process", "coarse-jet", "--processes", str(file)]
    done = subprocess.run(
        [str(KERFWISE), "cut", str(design), *options, "--out", str(folder / "refused") + "/"],
        capture_output=True,
        text=True,
        timeout=60,
    )
    check(done.returncode == 1, f"stated figures refuse: {done.returncode} {done.stderr}")
    check(not (folder / "refused").exists(), "nothing is written of what is refused")
    report = inspect(nominal, *options, code=1)
    names = [finding["name"] for finding in report["findings"]]
    # the narrowest place across the part itself is told too
    check(names.count("near-edge") >= near_edge > 0, f"{near_edge} near the edge: {names}")
    check(names.count("narrow-web") in (pairs, pairs + 1), f"{pairs} pairs: {names}")


def main():
    if not KERFWISE.exists():
        sys.exit("build the command first: cargo build")
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        single_entities(folder)
        whole_drawing(folder)
        units(folder)
        likely_units(folder)
        svg_drawings(folder)
        mending(folder)
        against_a_design(folder)
        turned_drawings(folder)
        a_limit_of_a_part(folder)
        before_sending(folder)
        tangent_arcs(folder)
    sys.exit(tally.close())


if __name__ == "__main__":
    main()
