"""DXF files of Kerfwise, read by ezdxf (1.4.5): plain read and audit without an error or a fix, unique
handles, corners within 1e-9 mm, bulges within 1e-12, areas, layers, units; the same bytes at another
time and in another time zone; a flipped bulge has to turn the comparison red.

    python3 tests/oracles/dxf.py            # lets cargo write the files into a temporary folder
    python3 tests/oracles/dxf.py FOLDER     # checks files written before
"""

import filecmp
import json
import math
import os
import pathlib
import subprocess
import sys
import tempfile
import time

import ezdxf
from ezdxf.lldxf.encoding import decode_dxf_unicode

from support import tally

ROOT = pathlib.Path(__file__).resolve().parents[2]
VERSIONS = {"R12": "AC1009", "R2000": "AC1015", "R2007": "AC1021", "R2013": "AC1027"}
UNIT_CODES = {"mm": (4, 1), "in": (1, 0)}
MILLIMETRES = {"mm": 1.0, "in": 25.4}


def check(fine, message):
    return tally.check(message, fine)


def write_files(folder, zone=None):
    environment = dict(os.environ, KERFWISE_DXF_FOLDER=str(folder))
    if zone:
        environment["TZ"] = zone
    command = ["cargo", "test", "--quiet", "--test", "dxf_files", "files_for_the_outside_check"]
    subprocess.run(command, cwd=ROOT, env=environment, check=True, stdout=subprocess.DEVNULL)


def expected_vertices(item):
    """Corners and bulges; arcs above half a turn in two."""
    vertices = []
    for x, y, end_x, end_y, bulge in item["segments"]:
        if abs(bulge) <= 1 + 1e-9:
            vertices.append((x, y, bulge))
            continue
        # half of the sweep; the middle lies on the arc's own axis
        half = math.tan(math.atan(bulge) / 2)
        chord = math.hypot(end_x - x, end_y - y)
        sagitta = bulge * chord / 2
        normal = ((end_y - y) / chord, -(end_x - x) / chord)
        middle = ((x + end_x) / 2 + normal[0] * sagitta, (y + end_y) / 2 + normal[1] * sagitta)
        vertices.append((x, y, half))
        vertices.append((*middle, half))
    if not item["closed"]:
        vertices.append((*item["segments"][-1][2:4], 0.0))
    return vertices


def found_vertices(entity, scale):
    if entity.dxftype() == "LWPOLYLINE":
        rows = [(x, y, b) for x, y, b in entity.get_points("xyb")]
    else:
        rows = [
            (v.dxf.location.x, v.dxf.location.y, v.dxf.get("bulge", 0.0)) for v in entity.vertices
        ]
    return [(x * scale, y * scale, b) for x, y, b in rows]


def area_of(vertices):
    """Green's theorem, by chords and circular segments."""
    total = 0.0
    for (x0, y0, bulge), (x1, y1, _) in zip(vertices, vertices[1:] + vertices[:1]):
        total += x0 * y1 - x1 * y0
        if bulge:
            angle = 4 * math.atan(bulge)
            radius = math.hypot(x1 - x0, y1 - y0) * (1 + bulge * bulge) / (4 * abs(bulge))
            total += radius * radius * (angle - math.sin(angle))
    return total / 2


def agree(item, entity, scale):
    """What is wrong with the entity; empty if nothing."""
    kind = entity.dxftype()
    if entity.dxf.layer != item["layer"]:
        return f"layer {entity.dxf.layer}"
    if "words" in item:
        # before R2007, letters beyond ASCII are \\U+ and four digits
        words = decode_dxf_unicode(entity.plain_text()) if kind == "TEXT" else None
        return "" if words == item["words"] else f"words {words!r}"
    if "spot" in item:
        at = entity.dxf.location * scale
        off = max(abs(at.x - item["spot"][0]), abs(at.y - item["spot"][1]))
        return "" if kind == "POINT" and off <= 1e-9 else f"{kind} off by {off:e} mm"
    if "circle" in item:
        if kind != "CIRCLE":
            return kind
        x, y, radius = item["circle"]
        centre = entity.dxf.center * scale
        off = max(abs(centre.x - x), abs(centre.y - y), abs(entity.dxf.radius * scale - radius))
        return "" if off <= 1e-9 else f"circle off by {off:e} mm"
    x, y, end_x, end_y, bulge = item["segments"][0]
    if kind in ("LINE", "ARC"):
        if len(item["segments"]) != 1:
            return kind
        if kind == "LINE":
            start, end = entity.dxf.start * scale, entity.dxf.end * scale
        else:
            start, end = entity.start_point * scale, entity.end_point * scale
            sweep = math.radians((entity.dxf.end_angle - entity.dxf.start_angle) % 360.0)
            if abs(math.tan(sweep / 4) - abs(bulge)) > 1e-12:
                return f"arc sweeps {sweep} rad"
            if bulge < 0:
                start, end = end, start
        off = max(abs(start.x - x), abs(start.y - y), abs(end.x - end_x), abs(end.y - end_y))
        return "" if off <= 1e-9 else f"ends off by {off:e} mm"
    expected, found = expected_vertices(item), found_vertices(entity, scale)
    closed = entity.closed if kind == "LWPOLYLINE" else entity.is_closed
    if closed != item["closed"] or len(expected) != len(found):
        return f"{len(found)} vertices for {len(expected)}, closed {closed}"
    for (x, y, bulge), (found_x, found_y, found_bulge) in zip(expected, found):
        off = max(abs(x - found_x), abs(y - found_y))
        if off > 1e-9:
            return f"corner ({x}, {y}) off by {off:e} mm"
        if abs(bulge - found_bulge) > 1e-12:
            return f"bulge {found_bulge} for {bulge}"
    if item["closed"]:
        area = area_of(found)
        if abs(area - item["area"]) > 1e-9 * abs(item["area"]):
            return f"area {area} for {item['area']} mm2"
    return ""


def raw_handles(path):
    lines = path.read_text(encoding="utf-8").splitlines()
    pairs = list(zip(lines[0::2], lines[1::2]))
    handles, kind, header = [], "", True
    for code, value in pairs:
        if code == "  0":
            kind = value
            header = header and value in ("SECTION",)
        wanted = "105" if kind == "DIMSTYLE" else "  5"
        if not header and code == wanted:
            handles.append(value)
    seed = [v for (c, v), (_, before) in zip(pairs[1:], pairs) if before == "$HANDSEED"]
    return handles, seed


def check_file(folder, entry):
    path = folder / entry["file"]
    name = entry["file"]
    drawing = ezdxf.readfile(path)
    auditor = drawing.audit()
    check(not auditor.errors, f"{name}: {[e.message for e in auditor.errors]}")
    check(not auditor.fixes, f"{name}: fixed {[e.message for e in auditor.fixes]}")
    check(drawing.dxfversion == VERSIONS[entry["version"]], f"{name}: {drawing.dxfversion}")
    handles, seed = raw_handles(path)
    check(len(handles) == len(set(handles)), f"{name}: a handle twice")
    if entry["version"] == "R12":
        check(not handles, f"{name}: handles in R12")
    else:
        highest = max(int(handle, 16) for handle in handles)
        check(seed and int(seed[0], 16) > highest, f"{name}: seed {seed}, highest {highest:X}")
        units = (drawing.header["$INSUNITS"], drawing.header["$MEASUREMENT"])
        check(units == UNIT_CODES[entry["unit"]], f"{name}: units {units}")
    used = {item["layer"] for item in entry["items"]}
    layers = {layer.dxf.name: layer for layer in drawing.layers}
    own = set(layers) - {"0", "Defpoints"}
    check(own == used, f"{name}: layers {own} for {used}")
    for layer in used & set(layers):
        looks = (layers[layer].dxf.color, layers[layer].dxf.linetype.upper())
        check(looks == (7, "CONTINUOUS"), f"{name}: layer {layer} is {looks}")
    entities = list(drawing.modelspace())
    check(len(entities) == len(entry["items"]), f"{name}: {len(entities)} entities")
    scale = MILLIMETRES[entry["unit"]]
    for item, entity in zip(entry["items"], entities):
        wrong = agree(item, entity, scale)
        check(not wrong, f"{name}: {wrong}")
    first_lines = path.read_text(encoding="utf-8").splitlines()[:2]
    unit_words = {"mm": "millimetres", "in": "inches"}[entry["unit"]]
    check(unit_words in first_lines[1], f"{name}: its head says {first_lines}")


def check_slot(folder):
    """The closed form, without anything that Kerfwise says about itself."""
    for version in VERSIONS:
        entity = ezdxf.readfile(folder / f"slot-{version}-mm.dxf").modelspace()[0]
        area = area_of(found_vertices(entity, 1.0))
        check(abs(area - (4000 + 400 * math.pi)) < 1e-8, f"slot in {version}: {area} mm2")


def check_faults(folder, index):
    """Each file with a flipped bulge: the comparison has to see it."""
    for entry in index:
        text = (folder / entry["file"]).read_bytes().decode()
        marker = "\r\n 42\r\n"
        at = text.index(marker, text.index("ENTITIES")) + len(marker)
        flipped = text[:at] + (text[at + 1 :] if text[at] == "-" else "-" + text[at:])
        spoiled = folder / ("faulty-" + entry["file"])
        spoiled.write_bytes(flipped.encode())
        entities = list(ezdxf.readfile(spoiled).modelspace())
        scale = MILLIMETRES[entry["unit"]]
        wrongs = [agree(item, entity, scale) for item, entity in zip(entry["items"], entities)]
        check(any(wrongs), f"{entry['file']}: a flipped bulge went unnoticed")
        spoiled.unlink()


def main():
    with tempfile.TemporaryDirectory() as temporary:
        if len(sys.argv) > 1:
            folder = pathlib.Path(sys.argv[1])
        else:
            folder = pathlib.Path(temporary) / "one"
            other = pathlib.Path(temporary) / "two"
            folder.mkdir()
            other.mkdir()
            write_files(folder, "UTC")
            time.sleep(1.1)
            write_files(other, "Pacific/Kiritimati")
            names = [path.name for path in folder.iterdir()]
            same, different, odd = filecmp.cmpfiles(folder, other, names, shallow=False)
            check(not different and not odd, f"not the same bytes: {different + odd}")
            check(len(same) == len(names) > 30, f"{len(same)} files compared")
        index = json.loads((folder / "truth.json").read_text())
        for entry in index:
            check_file(folder, entry)
        check_slot(folder)
        check_faults(folder, index)
    return tally.close()


if __name__ == "__main__":
    sys.exit(main())
