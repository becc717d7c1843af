"""Times GEOS (by shapely) on outlines flattened by the bench: `geos.py FILE…`, one line of JSON each.

A file is JSON: {"distance": mm, "chord": mm, "rings": [[[x, y], …], …]}, the outer ring first.
"""

import json
import math
import sys
import time

from shapely import Polygon


def quadrant_segments(distance: float, chord: float) -> int:
    step = 2 * math.acos(1 - chord / abs(distance))
    return max(1, math.ceil(math.pi / 2 / step))


for name in sys.argv[1:]:
    with open(name, encoding="utf-8") as file:
        case = json.load(file)
    polygon = Polygon(case["rings"][0], case["rings"][1:])
    segments = quadrant_segments(case["distance"], case["chord"])
    found = polygon.buffer(case["distance"], quad_segs=segments)
    start = time.process_time()
    runs = 0
    while runs < 3 or time.process_time() - start < 0.5:
        found = polygon.buffer(case["distance"], quad_segs=segments)
        runs += 1
    seconds = (time.process_time() - start) / runs
    print(json.dumps({"seconds": seconds, "area": found.area}), flush=True)
