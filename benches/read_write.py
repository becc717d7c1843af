"""Reading and writing a drawing of 100,000 entities: ours against ezdxf 1.4.5.

    cargo build --release && cargo bench --bench read_write_plain --no-run && python3 benches/read_write.py

Whole processes, run in turn:

- plain: `benches/read_write_plain.rs` reads the drawing with the library and writes it, as the peer does
  (`python3 benches/read_write.py --peer IN OUT`: ezdxf reads and writes it, and nothing else);
- `kerfwise inspect --mend`: reads it, puts it together, applies every rule, mends it, measures how far the
  mended lines stray, writes it and reads that back;
- the same with the limits of a process, so that webs, small openings and edges are looked at too.

Prints medians of wall time and of processor time, and peak memory.
"""

import math
import os
import pathlib
import statistics
import sys
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[1]
KERFWISE = ROOT / "target/release/kerfwise"
RUNS = 5
ENTITIES = 100_000


def drawing(path):
    """A plate of slots and holes: lines, arcs and circles, half of them joined end to end."""
    import ezdxf

    document = ezdxf.new("R2000", units=ezdxf.units.MM)
    space = document.modelspace()
    count, row = 0, 0
    while count < ENTITIES:
        x, y = 40 * (row % 100), 30 * (row // 100)
        space.add_line((x, y), (x + 20, y))
        space.add_arc((x + 20, y + 5), 5, 270, 90)
        space.add_line((x + 20, y + 10), (x, y + 10))
        space.add_arc((x, y + 5), 5, 90, 270)
        for hole in range(4):
            space.add_circle((x + 6 * hole, y + 18), 2 + 0.1 * hole)
        count, row = count + 8, row + 1
    document.saveas(path)


def peer(source, target):
    import ezdxf

    ezdxf.readfile(source).saveas(target)


def run(command):
    """Wall and processor time in seconds and peak memory in MiB of a command as a whole process."""
    start = time.perf_counter()
    child = os.posix_spawn(
        command[0], command, os.environ, file_actions=[(os.POSIX_SPAWN_OPEN, 1, "/dev/null", os.O_WRONLY, 0)]
    )
    _, status, usage = os.wait4(child, 0)
    elapsed = time.perf_counter() - start
    # findings are no failure
    assert os.waitstatus_to_exitcode(status) in (0, 1), f"{command} ended with {status}"
    return elapsed, usage.ru_utime + usage.ru_stime, usage.ru_maxrss / 1024


def plain():
    """The newest build of the plain bench."""
    built = [p for p in (ROOT / "target/release/deps").glob("read_write_plain-*") if p.suffix == ""]
    if not built:
        sys.exit("build it first: cargo bench --bench read_write_plain --no-run")
    return str(max(built, key=lambda path: path.stat().st_mtime))


def main():
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        source = str(folder / "large.dxf")
        drawing(source)
        mend = [str(KERFWISE), "inspect", source, "--mend", "--out", str(folder / "ours.dxf")]
        peer_name = "ezdxf, read and write"
        commands = {
            "ours, read and write": [plain(), source, str(folder / "plain.dxf")],
            "kerfwise inspect --mend": mend,
            "the same for waterjet": mend + ["--process", "waterjet", "--thickness", "5"],
            peer_name: [sys.executable, str(pathlib.Path(__file__).resolve()), "--peer", source, str(folder / "theirs.dxf")],
        }
        rows = {row: [] for row in commands}
        for _ in range(RUNS):
            for row, command in commands.items():
                rows[row].append(run(command))
        size = math.ceil(os.path.getsize(source) / 2**20)
        print(f"{ENTITIES} entities, {size} MiB, medians of {RUNS} runs")
    medians = {row: [statistics.median(column) for column in zip(*values)] for row, values in rows.items()}
    peer_wall, peer_cpu, _ = medians[peer_name]
    print(f"{'':26} wall, ms   processor, ms   peak, MiB   times faster (wall, processor)")
    for row, (wall, cpu, peak) in medians.items():
        print(f"{row:26} {wall * 1e3:8.0f} {cpu * 1e3:15.0f} {peak:11.0f} {peer_wall / wall:14.1f} {peer_cpu / cpu:10.1f}")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--peer"]:
        peer(*sys.argv[2:4])
    else:
        main()
