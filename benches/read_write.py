"""Reading and writing a drawing of 100,000 entities: `kerfwise inspect --mend` against ezdxf.

    cargo build --release && python3 benches/read_write.py

Whole processes, run in turn: ours reads the drawing, puts it together, applies every rule, mends and writes
it, and reads that back; the script (`python3 benches/read_write.py --peer IN OUT`) reads and writes it with
ezdxf 1.4.5 and does nothing else. Prints medians of wall time and peak memory.
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
    """Wall time in seconds and peak memory in MiB of a command as a whole process."""
    start = time.perf_counter()
    child = os.posix_spawn(
        command[0], command, os.environ, file_actions=[(os.POSIX_SPAWN_OPEN, 1, "/dev/null", os.O_WRONLY, 0)]
    )
    _, status, usage = os.wait4(child, 0)
    elapsed = time.perf_counter() - start
    # findings are no failure
    assert os.waitstatus_to_exitcode(status) in (0, 1), f"{command} ended with {status}"
    return elapsed, usage.ru_maxrss / 1024


def main():
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        source = str(folder / "large.dxf")
        drawing(source)
        ours = [str(KERFWISE), "inspect", source, "--mend", "--out", str(folder / "ours.dxf")]
        theirs = [sys.executable, str(pathlib.Path(__file__).resolve()), "--peer", source, str(folder / "theirs.dxf")]
        rows = {"kerfwise inspect --mend": [], "ezdxf, read and write": []}
        for _ in range(RUNS):
            rows["kerfwise inspect --mend"].append(run(ours))
            rows["ezdxf, read and write"].append(run(theirs))
        size = math.ceil(os.path.getsize(source) / 2**20)
        print(f"{ENTITIES} entities, {size} MiB, medians of {RUNS} runs")
    peer_time = statistics.median(t for t, _ in rows["ezdxf, read and write"])
    print(f"{'':26} wall, ms   peak, MiB   times faster")
    for name, values in rows.items():
        wall = statistics.median(t for t, _ in values)
        peak = statistics.median(m for _, m in values)
        print(f"{name:26} {wall * 1e3:8.0f} {peak:10.0f} {peer_time / wall:12.1f}")


if __name__ == "__main__":
    if sys.argv[1:2] == ["--peer"]:
        peer(*sys.argv[2:4])
    else:
        main()
