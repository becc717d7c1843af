"""The whole process, cold: `kerfwise` against a plain Python script that does the same outputs.

    cargo build --release && python3 benches/whole_process.py

The script (`python3 benches/whole_process.py --peer FOLDER`) makes a nominal DXF, an SVG and a tiled
A4 pattern of the leeboard with shapely, ezdxf and reportlab, the usual libraries for it. Needs
shapely 2.2.0, ezdxf 1.4.5 and reportlab; prints medians of wall time and peak memory of whole
processes, run in turn.
"""

import math
import os
import pathlib
import statistics
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[1]
DESIGN = ROOT / "fixtures/parts/leeboard.toml"
KERFWISE = ROOT / "target/release/kerfwise"
RUNS = 15


def peer(folder):
    """What a careful person would write: outline by shapely, DXF by ezdxf, PDF by reportlab."""
    import ezdxf
    from reportlab.lib.units import mm
    from reportlab.pdfgen import canvas
    from shapely import affinity
    from shapely.geometry import LineString, Point, Polygon, box

    head = Point(90, 884)
    steps = [math.radians(a) for a in range(12, 181, 2)]
    arc = [(90 + 90 * math.cos(a), 884 + 90 * math.sin(a)) for a in steps]
    board = Polygon([(0, 0), (305, 0), *arc]).buffer(-18, quad_segs=64).buffer(18, quad_segs=64)
    holes = [head.buffer(6.5, quad_segs=64)]
    holes += [Point(152.5, y).buffer(45, quad_segs=64) for y in (180, 330, 480)]
    for hole in holes:
        board = board.difference(hole)
    lines = [list(board.exterior.coords)] + [list(ring.coords) for ring in board.interiors]

    document = ezdxf.new("R2000")
    document.units = ezdxf.units.MM
    for points in lines:
        document.modelspace().add_lwpolyline(points[:-1], close=True)
    document.saveas(folder / "nominal.dxf")

    width, height = board.bounds[2], board.bounds[3]
    paths = ["M" + " L".join(f"{x:.4f},{height - y:.4f}" for x, y in points) + "Z" for points in lines]
    (folder / "nominal.svg").write_text(
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}mm" height="{height}mm" '
        f'viewBox="0 0 {width} {height}"><path fill="none" stroke="black" d="{" ".join(paths)}"/></svg>'
    )

    page = (210 * mm, 297 * mm)
    pdf = canvas.Canvas(str(folder / "pattern.pdf"), pagesize=page)
    step = (180.0, 267.0)
    for row in range(math.ceil(height / step[1])):
        for column in range(math.ceil(width / step[0])):
            corner = (column * step[0], row * step[1])
            window = box(*corner, corner[0] + step[0], corner[1] + step[1])
            for points in lines:
                seen = affinity.translate(
                    LineString(points).intersection(window), 15 - corner[0], 15 - corner[1]
                )
                for part in getattr(seen, "geoms", [seen]):
                    if part.is_empty:
                        continue
                    path = pdf.beginPath()
                    coordinates = list(part.coords)
                    path.moveTo(coordinates[0][0] * mm, coordinates[0][1] * mm)
                    for x, y in coordinates[1:]:
                        path.lineTo(x * mm, y * mm)
                    pdf.drawPath(path)
            pdf.drawString(20 * mm, 5 * mm, f"row {row + 1} column {column + 1}")
            pdf.showPage()
    pdf.save()


def run(command):
    """Wall time in seconds and peak memory in MiB of a command as a whole process."""
    start = time.perf_counter()
    child = os.posix_spawn(
        command[0], command, os.environ, file_actions=[(os.POSIX_SPAWN_OPEN, 1, "/dev/null", os.O_WRONLY, 0)]
    )
    _, status, usage = os.wait4(child, 0)
    elapsed = time.perf_counter() - start
    assert status == 0, f"{command} ended with {status}"
    return elapsed, usage.ru_maxrss / 1024


def main():
    with tempfile.TemporaryDirectory() as name:
        folder = str(pathlib.Path(name)) + "/"
        ours = [
            [str(KERFWISE), "cut", str(DESIGN), "--out", folder],
            [str(KERFWISE), "cut", str(DESIGN), "--format", "svg", "--out", folder],
            [str(KERFWISE), "pattern", str(DESIGN), "--out", folder],
        ]
        job = [str(KERFWISE), "job", str(DESIGN), "--out", folder + "job"]
        theirs = [sys.executable, str(pathlib.Path(__file__).resolve()), "--peer", folder]
        rows = {"kerfwise cut, cut svg, pattern": [], "kerfwise job": [], "python script": []}
        for _ in range(RUNS):
            measured = [run(command) for command in ours]
            rows["kerfwise cut, cut svg, pattern"].append(
                (sum(m[0] for m in measured), max(m[1] for m in measured))
            )
            rows["kerfwise job"].append(run(job))
            rows["python script"].append(run(theirs))
    peer_time = statistics.median(t for t, _ in rows["python script"])
    print(f"medians of {RUNS} runs      wall, ms   peak, MiB   times faster")
    for name, values in rows.items():
        wall = statistics.median(t for t, _ in values)
        peak = statistics.median(m for _, m in values)
        print(f"{name:32} {wall * 1e3:8.1f} {peak:10.1f} {peer_time / wall:12.1f}")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--peer"]:
        peer(pathlib.Path(sys.argv[2]))
    else:
        main()
