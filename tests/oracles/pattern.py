#!/usr/bin/env python3
"""A paper pattern through a simulated printer, from its bytes to its pixels and back.

The printer stretches by 1.4 % along x and -0.6 % along y, leans its y axis by 0.3 degrees, and feeds every
sheet with another shift and turn. Sheets of the other orientation go through it turned by a quarter. An
outside renderer (pdfium) draws the pages. What is done then is what a maker does:

1. the calibration page is measured, from its pixels;
2. the readings go back, and the pattern is made again;
3. its sheets are laid together by the tips of the printed register marks, and by nothing else;
4. the printed line is compared with the true outline, worked out here from the dimensions.

It must be within 0.1 mm per metre of the part's length, plus half a pixel. The same is done without the
readings: then it must not be.

Needs numpy, scipy, pypdfium2. Run from the root of the package; prints "N passed, N failed".
"""
import ctypes
import json
import math
import os
import pathlib
import subprocess
import sys
import tempfile

import numpy as np
import pypdfium2
import pypdfium2.raw as pdfium
from scipy.ndimage import gaussian_filter, map_coordinates, maximum_filter, zoom
from scipy.signal import fftconvolve

DPI = 300.0
PIXEL = 25.4 / DPI  # mm
STRETCH_X, STRETCH_Y, LEAN = 1.014, 0.994, math.radians(0.3)
PER_METRE, HALF_A_PIXEL = 0.1, PIXEL / 2

passed = failed = 0


def check(what, fine, says):
    global passed, failed
    passed, failed = passed + bool(fine), failed + (not fine)
    print(("ok   " if fine else "FAIL ") + what + ": " + says, flush=True)


# ---- the printer -------------------------------------------------------------------------------


def printer_matrix():
    """What the printer does to places on an upright sheet, y up."""
    return np.array(
        [[STRETCH_X, STRETCH_Y * math.sin(LEAN)], [0.0, STRETCH_Y * math.cos(LEAN)]]
    )


def print_page(page, feed):
    """The page's pixels, darkness 0 to 1; row 0 is the top. `feed` is (shift x, shift y, turn)."""
    width, height = page.get_size()
    matrix = printer_matrix()
    if width > height:
        # fed turned by a quarter: out of the printer it is turned back
        quarter = np.array([[0.0, -1.0], [1.0, 0.0]])
        matrix = quarter.T @ matrix @ quarter
    shift_x, shift_y, turn = feed
    turned = np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
    matrix = turned @ matrix
    # y down on the raster
    flip = np.diag([1.0, -1.0])
    matrix = flip @ matrix @ flip * (DPI / 72.0)
    middle = np.array([width, height]) / 2.0
    columns, rows = (int(round(side * DPI / 72.0)) for side in (width, height))
    to = np.array([columns, rows]) / 2.0 + np.array([shift_x, -shift_y]) / PIXEL - matrix @ middle
    bitmap = pdfium.FPDFBitmap_Create(columns, rows, 0)
    pdfium.FPDFBitmap_FillRect(bitmap, 0, 0, columns, rows, 0xFFFFFFFF)
    transform = pdfium.FS_MATRIX(
        matrix[0, 0], matrix[1, 0], matrix[0, 1], matrix[1, 1], to[0], to[1]
    )
    clip = pdfium.FS_RECTF(0, 0, columns, rows)
    pdfium.FPDF_RenderPageBitmapWithMatrix(
        bitmap, page.raw, ctypes.byref(transform), ctypes.byref(clip), pdfium.FPDF_ANNOT
    )
    stride = pdfium.FPDFBitmap_GetStride(bitmap)
    address = pdfium.FPDFBitmap_GetBuffer(bitmap)
    pixels = np.ctypeslib.as_array(
        ctypes.cast(address, ctypes.POINTER(ctypes.c_ubyte)), (rows, stride)
    )
    green = pixels[:, 1 : columns * 4 : 4].astype(np.float32)
    pdfium.FPDFBitmap_Destroy(bitmap)
    return (255.0 - green) / 255.0


def to_pixels(points, rows):
    """Millimetres from the lower left to (row, column) of pixel middles."""
    points = np.asarray(points)
    return np.stack([rows - points[..., 1] / PIXEL - 0.5, points[..., 0] / PIXEL - 0.5])


def darkness(image, points):
    return map_coordinates(image, to_pixels(points, image.shape[0]), order=1, mode="nearest")


# ---- reading lines -------------------------------------------------------------------------------

STEP = 0.01  # mm along a profile


def line_offsets(image, points, normals, reach):
    """For each point, how far along its normal the middle of the nearest printed line is; NaN if none or
    if other ink stands too near."""
    offsets = np.arange(-reach - 0.4, reach + 0.4 + STEP / 2, STEP)
    places = points[:, None, :] + offsets[None, :, None] * normals[:, None, :]
    profiles = darkness(image, places)
    found = np.full(len(points), np.nan)
    for index, profile in enumerate(profiles):
        dark = profile > 0.12
        edges = np.flatnonzero(np.diff(dark.astype(int)))
        if dark[0] or dark[-1] or len(edges) < 2:
            continue
        runs = [(a + 1, b + 1) for a, b in zip(edges[::2], edges[1::2])]
        middles = []
        for a, b in runs:
            if not 0.06 < (b - a) * STEP < 0.5:
                continue
            wide = slice(max(a - 15, 0), b + 15)
            weight = profile[wide]
            middles.append((weight @ offsets[wide]) / weight.sum())
        # several lines: the crossing of another; not a clean place
        if len(runs) == 1 and len(middles) == 1 and abs(middles[0]) <= reach:
            found[index] = middles[0]
    return found


def fit_line(image, start, end):
    """The printed line near start - end: a point on it and its direction."""
    start, end = np.asarray(start, float), np.asarray(end, float)
    along = (end - start) / np.linalg.norm(end - start)
    normal = np.array([-along[1], along[0]])
    # off the words at its middle, off the diagonals at its ends
    shares = np.concatenate([np.linspace(0.10, 0.36, 120), np.linspace(0.64, 0.90, 120)])
    points = start + shares[:, None] * (end - start)
    for reach in (3.9, 0.5):
        found = line_offsets(image, points, np.tile(normal, (len(points), 1)), reach)
        good = np.isfinite(found)
        if good.sum() < 60:
            raise RuntimeError(f"a calibration line shows at {good.sum()} of {len(points)} places only")
        points = points + np.where(good, found, 0.0)[:, None] * normal
        points = points[good]
        middle = points.mean(axis=0)
        along = np.linalg.svd(points - middle)[2][0]
        normal = np.array([-along[1], along[0]])
        spread = np.linspace(start, end, 240)[18:-18]
        points = middle + ((spread - middle) @ along)[:, None] * along
    return middle, along


def crossing(first, second):
    (p, u), (q, v) = first, second
    share = np.linalg.solve(np.array([u, -v]).T, q - p)
    return p + share[0] * u


def read_calibration(path, asked):
    document = pypdfium2.PdfDocument(path)
    page = document[0]
    image = print_page(page, (0.4, -0.3, math.radians(0.1)))
    width, height = (side * 25.4 / 72.0 for side in page.get_size())
    x, y = asked["x"] / 2, asked["y"] / 2
    middle = np.array([width, height]) / 2
    a, b, c, d = (middle + corner for corner in ([-x, -y], [x, -y], [x, y], [-x, y]))
    foot, right = fit_line(image, a, b), fit_line(image, b, c)
    top, left = fit_line(image, d, c), fit_line(image, a, d)
    a, b = crossing(foot, left), crossing(foot, right)
    c, d = crossing(top, right), crossing(top, left)
    distance = lambda p, q: float(np.linalg.norm(q - p))
    return {
        "x": distance(a, b),
        "y": distance(a, d),
        "rising": distance(a, c),
        "falling": distance(d, b),
    }


# ---- register marks ------------------------------------------------------------------------------

MARK, MARK_WIDTH = 4.0, 2.4  # half length and half width in mm


def template(scale):
    """Two black triangles whose tips meet, left and right, at `scale` pixels a millimetre."""
    half_x, half_y = int(MARK * scale), int((MARK_WIDTH + 0.8) * scale)
    y, x = np.mgrid[-half_y : half_y + 1, -half_x : half_x + 1] / scale
    return (np.abs(y) <= np.abs(x) * MARK_WIDTH / MARK).astype(float)


def find_marks(image):
    """Tips of all register marks: (place in mm from the lower left, whether the joint is upright)."""
    coarse = 100.0
    small = zoom(gaussian_filter(image, DPI / coarse / 2.5), coarse / DPI, order=1)
    marks = []
    for upright in (True, False):
        shape = template(coarse / 25.4)
        if not upright:
            shape = shape.T
        shape = shape - shape.mean()
        kernel = shape[::-1, ::-1] / np.sqrt((shape**2).sum())
        area = np.ones(shape.shape)
        mean = fftconvolve(small, area, mode="same") / area.size
        square = fftconvolve(small**2, area, mode="same") / area.size
        spread = np.sqrt(np.maximum((square - mean**2) * area.size, 1e-3))
        likeness = fftconvolve(small, kernel, mode="same") / spread
        peaks = (likeness > 0.75) & (likeness == maximum_filter(likeness, size=25))
        for row, column in zip(*np.nonzero(peaks)):
            scale = DPI / coarse
            tip = refine(image, (row + 0.5) * scale - 0.5, (column + 0.5) * scale - 0.5)
            if tip is not None:
                row, column = tip
                place = ((column + 0.5) * PIXEL, (image.shape[0] - 0.5 - row) * PIXEL)
                marks.append((np.array(place), upright))
    return marks


def refine(image, row, column):
    """The point that all edges about it run through: least squares of gradient times distance."""
    radius = int(1.7 / PIXEL)
    for _ in range(12):
        r, c = int(round(row)), int(round(column))
        if not (radius + 2 < r < image.shape[0] - radius - 3):
            return None
        if not (radius + 2 < c < image.shape[1] - radius - 3):
            return None
        window = image[r - radius - 2 : r + radius + 3, c - radius - 2 : c + radius + 3]
        window = gaussian_filter(window, 0.8)
        by_row, by_column = np.gradient(window)
        y, x = np.mgrid[-radius - 2 : radius + 3, -radius - 2 : radius + 3]
        inside = (x**2 + y**2 <= radius**2).ravel()
        gradients = np.stack([by_row.ravel(), by_column.ravel()], axis=1)[inside]
        places = np.stack([y.ravel() + r, x.ravel() + c], axis=1)[inside]
        matrix = gradients.T @ gradients
        right = gradients.T @ np.einsum("ij,ij->i", gradients, places)
        new = np.linalg.solve(matrix, right)
        moved = np.hypot(new[0] - row, new[1] - column)
        row, column = new
        if moved < 1e-3:
            return row, column
    # half-way between two pixels the window changes to and fro
    return (row, column) if moved < 0.05 else None


class Sheet:
    def __init__(self, name, image):
        self.name, self.image = name, image
        letters = name.rstrip("0123456789")
        row = 0
        for letter in letters:
            row = row * 26 + ord(letter) - 64
        self.row, self.column = row, int(name[len(letters) :])
        height, width = image.shape
        self.size = np.array([width, height]) * PIXEL
        middle = self.size / 2
        marks = find_marks(image)
        side = lambda test: [place for place, upright in marks if test(place, upright)]
        by_y = lambda places: sorted(places, key=lambda p: -p[1])
        by_x = lambda places: sorted(places, key=lambda p: p[0])
        self.right = by_y(side(lambda p, upright: upright and p[0] > middle[0]))
        self.left = by_y(side(lambda p, upright: upright and p[0] < middle[0]))
        self.above = by_x(side(lambda p, upright: not upright and p[1] > middle[1]))
        self.below = by_x(side(lambda p, upright: not upright and p[1] < middle[1]))
        self.turn, self.shift = 0.0, np.zeros(2)

    def inside(self, points):
        """Which points lie on the sheet's own part, bounded by its marks, else by the paper."""
        fine = np.ones(len(points), bool)
        bound = lambda places, axis, other: (
            np.mean([p[axis] for p in places]) if places else other
        )
        # without a neighbour all of the paper counts but what its bands take
        fine &= points[:, 0] < bound(self.right, 0, self.size[0] - 18) - 0.3
        fine &= points[:, 0] > bound(self.left, 0, 9) + 0.3
        fine &= points[:, 1] < bound(self.above, 1, self.size[1] - 9) - 0.3
        fine &= points[:, 1] > bound(self.below, 1, 18) + 0.3
        for mark in self.right + self.left + self.above + self.below:
            fine &= np.hypot(*(points - mark).T) > 5.0
        return fine

    def placed(self, point):
        c, s = math.cos(self.turn), math.sin(self.turn)
        return np.array([c * point[0] - s * point[1], s * point[0] + c * point[1]]) + self.shift

    def back(self, points):
        c, s = math.cos(self.turn), math.sin(self.turn)
        off = points - self.shift
        return np.stack([c * off[:, 0] + s * off[:, 1], -s * off[:, 0] + c * off[:, 1]], axis=1)


def stitch(sheets):
    """Lays the sheets so that the tips of their marks meet; gives back the largest gap."""
    places = {(sheet.row, sheet.column): index for index, sheet in enumerate(sheets)}
    ties = []
    for index, sheet in enumerate(sheets):
        for other, own, its in (
            ((sheet.row, sheet.column + 1), "right", "left"),
            ((sheet.row + 1, sheet.column), "below", "above"),
        ):
            neighbour = places.get(other)
            if neighbour is None:
                continue
            ours, theirs = getattr(sheet, own), getattr(sheets[neighbour], its)
            if len(ours) != len(theirs) or len(ours) < 2:
                raise RuntimeError(
                    f"{sheet.name}: {len(ours)} marks {own}, {sheets[neighbour].name}: {len(theirs)}"
                )
            ties += [(index, neighbour, p, q) for p, q in zip(ours, theirs)]
    # a first guess: one after the other
    known, grown = {0}, True
    while grown:
        grown = False
        for a, b, p, q in ties:
            if (a in known) != (b in known):
                new, old, own, its = (b, a, q, p) if a in known else (a, b, p, q)
                sheets[new].shift = sheets[old].placed(its) - own
                known.add(new)
                grown = True
    if len(known) != len(sheets):
        raise RuntimeError("the sheets do not hang together")
    for _ in range(4):
        matrix = np.zeros((2 * len(ties) + 3, 3 * len(sheets)))
        right = np.zeros(2 * len(ties) + 3)
        for row, (a, b, p, q) in enumerate(ties):
            for index, point, sign in ((a, p, 1.0), (b, q, -1.0)):
                turned = sheets[index].placed(point) - sheets[index].shift
                matrix[2 * row, 3 * index] = -sign * turned[1]
                matrix[2 * row + 1, 3 * index] = sign * turned[0]
                matrix[2 * row, 3 * index + 1] = sign
                matrix[2 * row + 1, 3 * index + 2] = sign
            gap = sheets[a].placed(p) - sheets[b].placed(q)
            right[2 * row : 2 * row + 2] = -gap
        matrix[-3:, :3] = np.eye(3)
        step = np.linalg.lstsq(matrix, right, rcond=None)[0].reshape(-1, 3)
        for sheet, (turn, x, y) in zip(sheets, step):
            sheet.turn += turn
            sheet.shift = sheet.shift + np.array([x, y])
    gaps = [np.linalg.norm(sheets[a].placed(p) - sheets[b].placed(q)) for a, b, p, q in ties]
    return max(gaps) if gaps else 0.0


# ---- the true outlines, from the dimensions --------------------------------------------------------


def line(start, end):
    start, end = np.asarray(start, float), np.asarray(end, float)
    count = max(int(np.linalg.norm(end - start) / 2.0), 2)
    shares = (np.arange(count) + 0.5) / count
    along = (end - start) / np.linalg.norm(end - start)
    return start + shares[:, None] * (end - start), np.tile([-along[1], along[0]], (count, 1))


def arc(centre, radius, start, end):
    """Anticlockwise between two directions in radians."""
    if end <= start:
        end += 2 * math.pi
    count = max(int(radius * (end - start) / 2.0), 4)
    angles = start + (np.arange(count) + 0.5) / count * (end - start)
    out = np.stack([np.cos(angles), np.sin(angles)], axis=1)
    return np.asarray(centre) + radius * out, -out


def leeboard():
    head, head_radius, toe, heel = np.array([90.0, 884.0]), 90.0, 60.0, 18.0
    touch = np.array([87.941, 19.139])
    touch /= np.linalg.norm(touch)
    # the leading arc runs through (305, 0) and touches the head's circle in that direction: its radius
    # by bisection of the distance from the centre to (305, 0)
    gap = lambda r: np.linalg.norm(head - touch * (r - head_radius) - [305.0, 0.0]) - r
    low, high = 1000.0, 50000.0
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (middle, high) if gap(low) * gap(middle) > 0 else (low, middle)
    radius = (low + high) / 2
    centre = head - touch * (radius - head_radius)
    toe_centre = np.array([centre[0] + math.sqrt((radius - toe) ** 2 - (toe - centre[1]) ** 2), toe])
    direction = lambda v: math.atan2(v[1], v[0])
    toe_end = direction(toe_centre - centre)
    return 976.0, [
        line([heel, 0], [toe_centre[0], 0]),
        arc(toe_centre, toe, -math.pi / 2, toe_end),
        arc(centre, radius, toe_end, direction(touch)),
        arc(head, head_radius, direction(touch), math.pi),
        line([0, 884], [0, heel]),
        arc([heel, heel], heel, math.pi, 1.5 * math.pi),
        arc(head, 6.5, 0, 2 * math.pi),
        arc([152.5, 180.0], 45, 0, 2 * math.pi),
        arc([145.0, 330.0], 45, 0, 2 * math.pi),
        arc([140.0, 480.0], 45, 0, 2 * math.pi),
    ]


def panel():
    # camber of 100 mm on a chord of 2400 mm: R = (c²/4 + h²) / 2h
    radius = (1200.0**2 + 100.0**2) / 200.0
    centre = np.array([1200.0, 1100.0 - radius])
    half = math.asin(1200.0 / radius)
    x0, x1, y0, y1, r = 1200.0, 1800.0, 220.0, 740.0, 80.0
    quarter = math.pi / 2
    return 2400.0, [
        line([0, 0], [2400, 0]),
        line([2400, 0], [2400, 1000]),
        arc(centre, radius, quarter - half, quarter + half),
        line([0, 1000], [0, 0]),
        line([x0 + r, y0], [x1 - r, y0]),
        line([x1, y0 + r], [x1, y1 - r]),
        line([x1 - r, y1], [x0 + r, y1]),
        line([x0, y1 - r], [x0, y0 + r]),
        arc([x1 - r, y0 + r], r, -quarter, 0),
        arc([x1 - r, y1 - r], r, 0, quarter),
        arc([x0 + r, y1 - r], r, quarter, 2 * quarter),
        arc([x0 + r, y0 + r], r, 2 * quarter, 3 * quarter),
        arc([640.0, 520.0], 60, 0, 2 * math.pi),
        arc([120.0, 140.0], 4, 0, 2 * math.pi),
        arc([120.0, 860.0], 4, 0, 2 * math.pi),
    ]


# ---- the whole way ---------------------------------------------------------------------------------


def print_pattern(path, seed):
    document = pypdfium2.PdfDocument(path)
    random = np.random.default_rng(seed)
    sheets = []
    for index in range(len(document)):
        label = document.get_page_label(index)
        if label.startswith("map"):
            continue
        feed = (*random.uniform(-0.5, 0.5, 2), math.radians(random.uniform(-0.15, 0.15)))
        sheets.append(Sheet(label, print_page(document[index], feed)))
    return sheets


def compare(sheets, outline, start):
    """Residuals of the printed line against the true outline, after the best pose of the whole."""
    points = np.concatenate([p for p, _ in outline])
    normals = np.concatenate([n for _, n in outline])
    pose = np.array([[start[0], start[2]], [start[1], start[3]]])
    shift = np.array(start[4:])
    # from the first sheet outwards: it was fed with a turn, which is several millimetres at the far end
    for reach, radius in ((1.6, 350), (1.6, 700), (1.6, 1400), (1.0, 1e9), (0.6, 1e9), (0.6, 1e9)):
        moved, across = points @ pose.T + shift, normals @ pose.T
        is_near = np.hypot(*(moved - sheets[0].size / 2).T) < radius
        offsets = np.full(len(points), np.nan)
        for sheet in sheets:
            local = sheet.back(moved)
            own = np.flatnonzero(sheet.inside(local) & np.isnan(offsets) & is_near)
            if len(own):
                c, s = math.cos(sheet.turn), math.sin(sheet.turn)
                n = across[own] @ np.array([[c, -s], [s, c]])
                offsets[own] = line_offsets(sheet.image, local[own], n, reach)
        good = np.isfinite(offsets)
        if good.sum() < 50:
            return offsets
        middle = moved[good].mean(axis=0)
        arm = moved[good] - middle
        matrix = np.stack(
            [across[good][:, 1] * arm[:, 0] - across[good][:, 0] * arm[:, 1], *across[good].T], axis=1
        )
        turn, x, y = np.linalg.lstsq(matrix, offsets[good], rcond=None)[0]
        rotation = np.array([[math.cos(turn), -math.sin(turn)], [math.sin(turn), math.cos(turn)]])
        pose, shift = rotation @ pose, rotation @ (shift - middle) + middle + np.array([x, y])
    residual = offsets.copy()
    residual[good] -= matrix @ np.array([turn, x, y])
    return residual


def make(folder, readings=None):
    environment = dict(os.environ, PATTERN_OUT=str(folder))
    if readings is not None:
        environment["PATTERN_READINGS"] = str(readings)
    command = ["cargo", "test", "--quiet", "--test", "pattern", "--", "--ignored", "--exact", "proof"]
    subprocess.run(command, env=environment, check=True, stdout=subprocess.DEVNULL)


def main():
    true = {"leeboard": leeboard(), "panel": panel()}
    with tempfile.TemporaryDirectory() as temporary:
        # given a folder, files in it are used again
        folder = pathlib.Path(sys.argv[1] if len(sys.argv) > 1 else temporary)
        plain, corrected, readings = (folder / name for name in ("plain", "corrected", "readings"))
        for new in (plain, corrected, readings):
            new.mkdir(parents=True, exist_ok=True)
        if not any(plain.iterdir()):
            make(plain)
        for name in true:
            asked = json.loads((plain / f"{name}-asked.json").read_text())
            read = read_calibration(plain / f"{name}-calibration.pdf", asked)
            (readings / f"{name}.json").write_text(json.dumps(read))
            x, y = read["x"] / asked["x"], read["y"] / asked["y"]
            cosine = (read["rising"] ** 2 - read["falling"] ** 2) / (4 * read["x"] * read["y"])
            lean = math.degrees(math.asin(cosine))
            near = abs(x - STRETCH_X) < 1e-4 and abs(y - STRETCH_Y) < 1e-4
            near = near and abs(lean - math.degrees(LEAN)) < 0.01
            check(f"{name}, calibration page", near, f"x {x:.5f}, y {y:.5f}, lean {lean:.4f}°")
        if not any(corrected.iterdir()):
            make(corrected, readings)
        for name, (length, outline) in true.items():
            limit = PER_METRE * length / 1000.0 + HALF_A_PIXEL
            for way in ("upright", "lying"):
                start = json.loads((corrected / f"{name}-{way}.json").read_text())
                sheets = print_pattern(corrected / f"{name}-{way}.pdf", 1)
                gap = stitch(sheets)
                residual = compare(sheets, outline, start)
                good = np.isfinite(residual)
                worst = np.abs(residual[good]).max()
                says = (
                    f"{len(sheets)} sheets, tips meet within {gap:.3f} mm; {good.sum()} of {len(good)} "
                    f"places, worst {worst:.3f} mm of {limit:.3f}, mean "
                    f"{np.abs(residual[good]).mean():.3f}"
                )
                check(f"{name}, {way}", worst <= limit and good.mean() > 0.6, says)
        # the same without the readings must be seen to be wrong
        length, outline = true["leeboard"]
        start = json.loads((plain / "leeboard-upright.json").read_text())
        sheets = print_pattern(plain / "leeboard-upright.pdf", 1)
        stitch(sheets)
        residual = compare(sheets, outline, start)
        good = np.isfinite(residual)
        worst = np.abs(residual[good]).max() if good.any() else math.inf
        wrong = good.mean() < 0.6 or worst > 3 * (PER_METRE * length / 1000 + HALF_A_PIXEL)
        check("leeboard, not corrected, is seen to be wrong", wrong, f"{good.mean():.0%} of places found")
    print(f"{passed} passed, {failed} failed")
    return 1 if failed else 0


if __name__ == "__main__":
    sys.exit(main())
