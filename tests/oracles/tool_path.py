"""Tool paths as they stand in the written DXF, judged without anything of ours.

    cargo build && cargo test --test tool_path && python3 tests/oracles/tool_path.py

Runs the command on every demo design for every process that cuts its material, reads the nominal file and the
tool path with ezdxf, flattens their arcs here, and measures with shapely:

- no cut and no lead comes nearer to the finished edges than half the kerf, and none runs into the part;
- beside every edge that is cut there is a path at half the kerf;
- pierces keep their own radius from the part;
- every opening is cut before its outside, and lines to mark before all;
- the part lies on the side of travel that the process wants.

Then the orders that `tests/tool_path.rs` left are held against a lower bound of the shortest way: Held and
Karp, "The traveling-salesman problem and minimum spanning trees", Operations Research 18 (1970) 1138-1162.
A way within 10 % of the bound is within 10 % of the tour of any solver.
"""

import json
import math
import pathlib
import re
import subprocess
import sys
import time

import ezdxf
import numpy
import shapely
from shapely import LineString, Polygon

from support import tally
from support.tally import check

ROOT = pathlib.Path(__file__).resolve().parents[2]
KERFWISE = ROOT / "target/debug/kerfwise"
DESIGNS = sorted((ROOT / "fixtures/parts").glob("*.toml"))
PROCESSES = ["waterjet", "laser", "laser-non-metal", "plasma", "fine-plasma", "flame", "router", "wire-erosion"]
FOLDER = ROOT / "target/tmp/tool_path_files"
# the chords stand this far from their arcs at most, in millimetres
CHORD = 1e-4
SLACK = 3e-4


def run(*arguments):
    return subprocess.run([KERFWISE, *map(str, arguments)], capture_output=True, text=True)


def flat_arc(centre, radius, start, sweep):
    """Points of an arc, the first left out."""
    step = 2 * math.acos(max(1 - CHORD / radius, 0.0)) if radius > CHORD else 1.0
    count = max(2, math.ceil(abs(sweep) / step))
    angles = start + sweep * numpy.arange(1, count + 1) / count
    return [(centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles]


def flat(rows, closed):
    """A chain of (x, y, bulge) as points."""
    points = [rows[0][:2]]
    following = rows[1:] + (rows[:1] if closed else [])
    for (x0, y0, bulge), (x1, y1, _) in zip(rows, following):
        if bulge:
            chord = math.hypot(x1 - x0, y1 - y0)
            radius = chord * (1 + bulge * bulge) / (4 * abs(bulge))
            height = chord * (1 - bulge * bulge) / (4 * bulge)
            cx = (x0 + x1) / 2 - (y1 - y0) / chord * height
            cy = (y0 + y1) / 2 + (x1 - x0) / chord * height
            points += flat_arc((cx, cy), radius, math.atan2(y0 - cy, x0 - cx), 4 * math.atan(bulge))
        points.append((x1, y1))
    return points


def lines(path):
    """Entities in the order of the file: layer, kind, points."""
    found = []
    for entity in ezdxf.readfile(path).modelspace():
        kind, layer = entity.dxftype(), entity.dxf.layer
        if kind == "LWPOLYLINE":
            points = flat(list(entity.get_points("xyb")), entity.closed)
            found.append((layer, "closed" if entity.closed else "open", points))
        elif kind == "CIRCLE":
            c, r = entity.dxf.center, entity.dxf.radius
            points = [(c.x + r, c.y)] + flat_arc((c.x, c.y), r, 0.0, 2 * math.pi)
            found.append((layer, "closed", points))
        elif kind == "LINE":
            found.append((layer, "open", [entity.dxf.start.vec2, entity.dxf.end.vec2]))
        elif kind == "ARC":
            c, a0, a1 = entity.dxf.center, entity.dxf.start_angle, entity.dxf.end_angle
            sweep = math.radians((a1 - a0) % 360.0)
            points = [tuple(entity.start_point.vec2)]
            points += flat_arc((c.x, c.y), entity.dxf.radius, math.radians(a0), sweep)
            found.append((layer, "open", points))
        elif kind == "POINT":
            found.append((layer, "spot", [tuple(entity.dxf.location.vec2)]))
        else:
            check(f"{path.name}: a {kind} in a cut file", False)
    return found


def dense(points, step=0.5):
    line = LineString(points)
    count = max(2, int(line.length / step))
    return line.interpolate(numpy.linspace(0, line.length, count))


def number_in(path, pattern):
    # long remarks are broken over several
    text = " ".join(re.findall(r"^999\r?\n(.*?)\r?$", path.read_text(), re.M))
    text = re.sub(r"\s+", " ", text)
    match = re.search(pattern, text)
    return float(match.group(1)) if match else None


def judge(name, nominal, path, pierce, text):
    kerf = number_in(path, r"for a cut ([\d.]+) mm wide")
    if not check(f"{name}: says its kerf", kerf is not None):
        return
    # a kerf is written with four decimals
    half, slack = kerf / 2, SLACK + 5e-5
    closed = [(layer, points) for layer, kind, points in lines(nominal) if kind == "closed"]
    outer = next(points for layer, points in closed if layer == "outside")
    holes = [points for layer, points in closed if layer == "inside"]
    part = Polygon(outer, holes)
    boundary = part.boundary
    work = lines(path)
    kinds = [layer for layer, _, _ in work]
    cuts = [(layer, points) for layer, kind, points in work if layer in ("outside", "inside")]
    for layer, kind, _ in work:
        check(f"{name}: {layer} is {kind}", kind == ("spot" if layer == "drill" else kind))
    inside = [index for index, layer in enumerate(kinds) if layer == "inside"]
    outside = [index for index, layer in enumerate(kinds) if layer == "outside"]
    marks = [index for index, layer in enumerate(kinds) if layer in ("mark", "drill")]
    check(f"{name}: openings before the outside", max(inside, default=-1) < min(outside))
    check(f"{name}: marks before cuts", max(marks, default=-1) < min(inside + outside))

    inner = part.buffer(-1e-3)
    has_plate_edge = '"plate edge"' in text
    for layer, points in cuts:
        places = dense(points)
        away = shapely.distance(places, boundary)
        check(f"{name}: {layer} cut off the part", away.min() >= half - slack, away.min(), half)
        in_part = shapely.contains(inner, places).any()
        check(f"{name}: {layer} cut outside the material", not in_part)
        start = shapely.Point(points[0])
        comes_from_edge = layer == "outside" and has_plate_edge
        if not comes_from_edge and pierce is not None:
            room = start.distance(boundary)
            check(f"{name}: pierce clear of the part", room >= pierce / 2 - slack, room, pierce)

    # every edge that is cut has its path: by points of the nominal edges
    paths = shapely.union_all([LineString(points) for _, points in cuts])
    drilled = [points[0] for layer, kind, points in work if layer == "drill"]
    for layer, points in closed:
        ring = Polygon(points)
        centre = (ring.centroid.x, ring.centroid.y)
        if any(math.dist(centre, spot) < 1e-6 for spot in drilled):
            continue
        away = shapely.distance(dense(points), paths)
        share = float((abs(away - half) <= slack).mean())
        near_enough = float((away <= 1.5 * half + slack).mean())
        least = 0.5 if layer == "outside" and ("plate edge" in text or "leave on" in text) else 0.999
        check(f"{name}: {layer} has its path", near_enough >= least, near_enough)
        check(f"{name}: {layer} path at half the kerf", share >= min(least, 0.6), share)
    return cuts, part


def directions(name, cuts, process):
    """Signed area of what a cut goes round; its leads are small beside it."""
    right = process in ("plasma", "fine-plasma")
    for layer, points in cuts:
        ring = shapely.LinearRing(points) if len(points) > 3 else None
        if ring is None or not math.dist(points[0], points[-1]) < 30:
            continue
        xy = numpy.array(points)
        area = 0.5 * float(
            numpy.sum(xy[:, 0] * numpy.roll(xy[:, 1], -1) - numpy.roll(xy[:, 0], -1) * xy[:, 1])
        )
        anticlockwise = area > 0
        expected = (layer == "inside") == right
        check(f"{name}: direction of an {layer} cut", anticlockwise == expected, area)


def files():
    FOLDER.mkdir(parents=True, exist_ok=True)
    judged = 0
    for design in DESIGNS:
        text = design.read_text()
        told = json.loads(run("check", design, "--json").stdout)
        names = sorted(set(re.findall(r"^\[part\.([\w-]+)\]", text, re.M)))
        check(f"{design.name}: read", bool(told) and bool(names))
        for part in names:
            own = FOLDER / f"{design.stem}-{part}"
            plain = own / "nominal"
            plain.mkdir(parents=True, exist_ok=True)
            for old in own.rglob("*.*"):
                old.unlink()
            done = run("cut", design, "--part", part, "--out", f"{plain}/")
            if not check(f"{design.stem}: nominal", done.returncode == 0, done.stderr):
                continue
            nominal = next(plain.glob("*.dxf"))
            for process in PROCESSES:
                for pierce in (None, 2.4):
                    folder = own / f"{process}-{pierce}"
                    folder.mkdir(exist_ok=True)
                    more = [] if pierce is None else ["--pierce", pierce]
                    done = run("cut", design, "--part", part, "--process", process, "--out", f"{folder}/", *more)
                    name = f"{design.stem} {part} {process} {pierce or ''}"
                    if done.returncode != 0:
                        refused = "does not cut" in done.stderr or "never" in done.stderr
                        place = "-->" in done.stderr and "mm" in done.stderr
                        check(f"{name}: refused with a reason", refused or place, done.stderr)
                        continue
                    found = judge(name, nominal, next(folder.glob("*.dxf")), pierce, text)
                    if found:
                        judged += 1
                        directions(name, found[0], process)
    check("enough tool paths were judged", judged >= 30, judged)
    a_fault_is_seen()
    print(f"{judged} tool paths")


TOGETHER = """
[plate.sheet]
material = "aluminium 5083"
thickness = 4
[part.cheek]
plate = "sheet"
quantity = 3
outline = [
  { corner = "a", at = [0, 0], fillet = 8 },
  { corner = "b", at = [120, 0], fillet = 8 },
  { corner = "c", at = [90, 70] },
  { corner = "d", at = [0, 70] },
]
[[part.cheek.opening]]
name = "bolt"
circle = { at = [30, 35], diameter = 20 }
[[part.cheek.scribe]]
name = "fold"
along = "a-b"
inset = 8
[part.strap]
plate = "sheet"
quantity = 2
outline = [
  { corner = "a", at = [500, 500] },
  { corner = "b", at = [740, 500] },
  { corner = "c", at = [740, 540] },
  { corner = "d", at = [500, 540] },
]
[[part.strap.opening]]
name = "hole"
circle = { diameter = 12 }
places = [[520, 520], [720, 520]]
"""


def together():
    """Several parts in one file: apart, clear of each other's cuts, and each with its openings first."""
    own = FOLDER / "together"
    own.mkdir(parents=True, exist_ok=True)
    design = own / "parts.toml"
    design.write_text(TOGETHER.replace('along = "a-b"', 'along = "foot"').replace(
        '{ corner = "a", at = [0, 0], fillet = 8 }', '{ corner = "a", at = [0, 0], fillet = 8, edge = { name = "foot" } }'
    ))
    for gap, kerf, mirror in [(12, 1.2, False), (5, 1.2, False), (12, 6, True), (8, 0.3, False)]:
        name = f"together, gap {gap}, kerf {kerf}{', mirrored' if mirror else ''}"
        for old in own.rglob("*.dxf"):
            old.unlink()
        common = ["cut", design, "--together", "--gap", gap, "--out", f"{own}/", "--replace"]
        common += ["--mirror"] if mirror else []
        # strips and leads change nothing about where a part lies
        done = run(*common)
        check(f"{name}: nominal", done.returncode == 0, done.stderr)
        nominal = next(own.glob("*-nominal-*.dxf"))
        done = run(*common, "--kerf", kerf)
        if not check(f"{name}: tool path", done.returncode == 0, done.stderr):
            continue
        path = next(own.glob("*-tool-path-*.dxf"))
        closed = [(layer, points) for layer, kind, points in lines(nominal) if kind == "closed"]
        outers = [Polygon(points) for layer, points in closed if layer == "outside"]
        holes = [Polygon(points) for layer, points in closed if layer == "inside"]
        check(f"{name}: five pieces and seven openings", (len(outers), len(holes)) == (5, 7))
        for index, outer in enumerate(outers):
            for other in outers[index + 1 :]:
                check(f"{name}: pieces apart", outer.distance(other) >= gap - 1e-6, outer.distance(other), gap)
        edges = shapely.union_all([ring.exterior for ring in outers + holes])
        material = shapely.union_all(outers).difference(shapely.union_all(holes)).buffer(-1e-3)
        work = lines(path)
        kinds = [layer for layer, _, _ in work]
        first_cut = min(index for index, layer in enumerate(kinds) if layer in ("outside", "inside"))
        check(f"{name}: marks first", all(layer != "mark" for layer in kinds[first_cut:]))
        order = {}
        for index, (layer, _, points) in enumerate(work):
            if layer not in ("outside", "inside"):
                continue
            away = shapely.distance(dense(points), edges).min()
            check(f"{name}: clear of every piece", away >= kerf / 2 - SLACK, away, kerf / 2)
            check(f"{name}: in the waste", not shapely.contains(material, dense(points)).any())
            middle = LineString(points)
            piece = min(range(len(outers)), key=lambda i: outers[i].distance(middle))
            order.setdefault(piece, []).append((index, layer))
        for piece, cuts in order.items():
            layers = [layer for _, layer in cuts]
            check(f"{name}: openings before the outside", layers == sorted(layers), layers)
            places = [index for index, _ in cuts]
            check(f"{name}: one piece after another", places == list(range(places[0], places[0] + len(places))))
        check(f"{name}: every piece is cut", sorted(order) == list(range(5)), order)


def a_fault_is_seen():
    """A path on the finished line itself must not pass."""
    own = FOLDER / "leeboard-leeboard"
    path = next((own / "plasma-None").glob("*.dxf"))
    before = tally.passed, tally.failed
    spoiled = FOLDER / "spoiled.dxf"
    spoiled.write_text(path.read_text().replace("for a cut 1.8 mm wide", "for a cut 2.2 mm wide"))
    print("a spoiled file, which must fail:")
    judge("spoiled", next((own / "nominal").glob("*.dxf")), spoiled, None, (ROOT / "fixtures/parts/leeboard.toml").read_text())
    seen = tally.failed > before[1]
    tally.passed, tally.failed = before
    check("a path 0.2 mm too near is seen", seen)


def one_tree(points, prices, special):
    """Length of the cheapest spanning tree without the special place and its two cheapest edges, with a price
    on every place; and how many edges each place has in it. Prim's way, a row at a time."""
    n = len(points)
    rest = numpy.ones(n, bool)
    rest[special] = False
    degrees = numpy.zeros(n, int)

    def costs(i):
        return numpy.hypot(*(points - points[i]).T) + prices + prices[i]

    first = 0 if special != 0 else 1
    best, parent = costs(first), numpy.full(n, first)
    rest[first] = False
    best[special] = numpy.inf
    total = 0.0
    for _ in range(n - 2):
        i = int(numpy.argmin(numpy.where(rest, best, numpy.inf)))
        total += best[i]
        degrees[[i, parent[i]]] += 1
        rest[i] = False
        row = costs(i)
        nearer = rest & (row < best)
        best[nearer], parent[nearer] = row[nearer], i
    row = costs(special)
    row[special] = numpy.inf
    two = numpy.argsort(row)[:2]
    degrees[two] += 1
    degrees[special] = 2
    return total + row[two].sum(), degrees


def bound(points, tour, rounds=80):
    """The Held-Karp bound of the closed tour, by ascent from below: steps in proportion to what is missing to
    the tour that is known (Held, Wolfe and Crowder, Mathematical Programming 6 (1974) 62-88)."""
    prices = numpy.zeros(len(points))
    best, share, before = 0.0, 1.0, 0
    for _ in range(rounds):
        length, degrees = one_tree(points, prices, 0)
        value = length - 2 * prices.sum()
        best = max(best, value)
        off = degrees - 2
        if not off.any():
            break
        direction = off + 0.4 * before
        prices += share * (tour - value) / float(off @ off) * direction
        before = off
        share *= 0.96
    return best


def orders():
    told = json.loads((ROOT / "target/tmp/tool_path/orders.json").read_text())
    for entry in told:
        points = numpy.array(entry["places"])
        way = points[entry["order"]]
        length = float(numpy.hypot(*numpy.diff(way, axis=0).T).sum())
        length += float(numpy.hypot(*way[0]))
        # there and back: a tour of the places and the origin
        tour = length + float(numpy.hypot(*way[-1]))
        least = bound(numpy.vstack([points, [[0.0, 0.0]]]), tour)
        check(f"{entry['name']}: within 10 % of the bound", tour <= 1.10 * least, tour, least)
        print(f"{entry['name']}: {tour:.0f} mm, bound {least:.0f} mm, {100 * (tour / least - 1):.1f} % above")


def main():
    begun = time.time()
    files()
    together()
    orders()
    print(f"({time.time() - begun:.0f} s)", file=sys.stderr)
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
