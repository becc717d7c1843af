"""Reads the sample PDF files with pikepdf, pdfplumber, pypdfium2, poppler and qpdf.

    cargo test --test drawing_samples && python3 tests/oracles/pdf.py [FOLDER]

FOLDER holds the samples (target/tmp/drawing-samples unless given).
"""

import cmath
import pathlib
import subprocess
import sys
import tempfile

import numpy
import pdfplumber
import pikepdf
import pypdfium2
from PIL import Image

from support import tally
from support.tally import check

ROOT = pathlib.Path(__file__).resolve().parents[2]
FOLDER = pathlib.Path(sys.argv[1]) if len(sys.argv) > 1 else ROOT / "target/tmp/drawing-samples"
MM = 25.4 / 72
MICRON = 1e-3


def near(found, expected, tolerance):
    return abs(found - expected) <= tolerance


def forms(pdf):
    """The form objects of a file."""
    streams = (item for item in pdf.objects if isinstance(item, pikepdf.Stream))
    return [item for item in streams if item.get("/Subtype") == "/Form"]


def asks_for_true_size(path):
    with pikepdf.open(path) as pdf:
        return pdf.Root.ViewerPreferences.PrintScaling == pikepdf.Name("/None")


def paper_is(path, width, height):
    """ISO 216 and inch sizes, exact: single precision leaves 3e-5 points."""
    with pikepdf.open(path) as pdf:
        boxes = [[float(side) for side in page.MediaBox] for page in pdf.pages]
    expected = [0, 0, width / MM, height / MM]
    return all(near(a, b, 4e-5) for box in boxes for a, b in zip(box, expected))


def page_points(page, height):
    """Points of every path of a page, in mm from its lower left, path by path."""
    found = []
    for item in page.lines + page.rects + page.curves:
        places = [place for step in item["path"] for place in step[1:]]
        found.append([complex(x * MM, height - y * MM) for x, y in places])
    return found


def path_points(path, height=297.0):
    """End points and control points of all paths, read from the operators, page by page."""
    with pdfplumber.open(path) as pdf:
        return [page_points(page, height) for page in pdf.pages]


def square_is(path, corner, width, height):
    """Whether the page holds the rectangle within 1 µm."""
    expected = {corner, corner + width, corner + 1j * height, corner + width + 1j * height}
    for points in path_points(path)[0]:
        if len(points) in (4, 5) and all(min(abs(p - e) for e in expected) <= MICRON for p in points):
            return all(min(abs(p - e) for p in points) <= MICRON for e in expected)
    return False


def slot_is_turned(path):
    """The slot of 100 × 40 mm, turned by 0.5 rad about its corner at (105, 100)."""
    [points] = path_points(path)[0]
    # back to where it was drawn
    return curves_stay_on_slot([(point - (105 + 100j)) / cmath.exp(0.5j) for point in points])


def slot_is_mirrored(path):
    """The same slot, left and right exchanged about its corner at (105, 100)."""
    [points] = path_points(path)[0]
    return curves_stay_on_slot([-(point - (105 + 100j)).conjugate() for point in points])


def curves_stay_on_slot(points):
    """Three cubics a quadrant: after the first point, line, 6 × 3 points, line, 6 × 3 points."""
    if len(points) not in (39, 40):
        return False
    worst = 0.0
    for first, centre, side in [(1, 100 + 20j, 1), (20, 20j, -1)]:
        chain = points[first : first + 19]
        for start in range(0, 18, 3):
            a, b, c, d = chain[start : start + 4]
            for part in range(33):
                t = part / 32
                u = 1 - t
                p = u**3 * a + 3 * u * u * t * b + 3 * u * t * t * c + t**3 * d
                worst = max(worst, abs(abs(p - centre) - 20))
                # on its own side of the straight part: an arc bulged the other way fails here
                if (p.real - centre.real) * side < -MICRON:
                    return False
    return worst <= MICRON


def board_is_right(path, pages):
    """240 short lines of a board of 2.4 × 1.2 m, on tiles of 190 × 270 mm, 13 across."""
    with pdfplumber.open(path) as pdf:
        for number in pages:
            shift = 10 + 13.5j - complex(number % 13 * 190, number // 13 * 270)
            found = page_points(pdf.pages[number], 297.0)
            if len(found) != 240:
                return False
            for index, (start, end) in enumerate(found):
                expected = complex(index * 10.012345, index * 5.006789) + shift
                if abs(start - expected) > MICRON:
                    return False
                if abs(end - expected - (7.1234 + 3.2178j)) > MICRON:
                    return False
    return True


DOTS = 300 / 25.4


def darkness(image):
    return 1 - numpy.asarray(image.convert("L"), dtype=float) / 255


def with_pdfium(path, number=0):
    """The page as it is shown: darkness of its dots, and how many dots make a millimetre."""
    page = pypdfium2.PdfDocument(path)[number]
    picture = darkness(page.render(scale=300 / 72).to_pil())
    # it stretches the page to whole dots
    rows, columns = picture.shape
    return picture, (columns / (page.get_width() * MM), rows / (page.get_height() * MM))


def with_poppler(path):
    with tempfile.TemporaryDirectory() as folder:
        stem = f"{folder}/page"
        subprocess.run(["pdftoppm", "-r", "300", "-gray", "-singlefile", path, stem], check=True)
        return darkness(Image.open(f"{stem}.pgm")), (DOTS, DOTS)


def middle_of_lines(profile, dots):
    """Places of the dark lines of a row of dots, in mm: the middle of each."""
    places, weight, moment = [], 0.0, 0.0
    for place, value in enumerate(list(profile) + [0.0]):
        if value > 0.2:
            weight += value
            moment += value * (place + 0.5)
        elif weight:
            places.append(moment / weight / dots)
            weight = moment = 0.0
    return places


def square_measures(image, width, height):
    """The square of the sample, measured on the image where nothing else is near."""
    picture, (across_dots, up_dots) = image
    rows, _ = picture.shape
    # 8 mm under its upper edge, and 8 mm right of its left one
    across = middle_of_lines(picture[rows - int((100 + height - 8) * up_dots)], across_dots)
    up = middle_of_lines(picture[:, int((55 + 8) * across_dots)], up_dots)
    half_dot = 0.5 / DOTS
    sides_right = len(across) == 2 and near(across[1] - across[0], width, half_dot)
    return sides_right and len(up) >= 2 and near(up[-1] - up[0], height, half_dot)


def shows_window_only(path, number, window):
    """Whether a page is dark inside a window (x0, y0, x1, y1 in mm) and white around it."""
    picture, _ = with_pdfium(path, number)
    rows, _ = picture.shape
    x0, y0, x1, y1 = (int(side * DOTS) for side in window)
    anywhere = int((picture > 0.2).sum())
    picture[rows - y1 - 2 : rows - y0 + 2, x0 - 2 : x1 + 2] = 0
    return anywhere > 0 and int((picture > 0.2).sum()) == 0


def words_of(path):
    return subprocess.run(["pdftotext", "-layout", path, "-"], capture_output=True, check=True, text=True).stdout


def changed(name, change):
    """A copy of a sample with something made wrong."""
    path = pathlib.Path(tempfile.mkdtemp()) / name
    with pikepdf.open(FOLDER / name) as pdf:
        change(pdf)
        pdf.save(path)
    return str(path)


def larger(pdf):
    for page in pdf.pages:
        page.contents_add(b"1.01 0 0 1.01 0 0 cm", prepend=True)


def shifted(pdf):
    for page in pdf.pages:
        page.contents_add(b"1 0 0 1 0.006 0 cm", prepend=True)


def unclipped(pdf):
    page = pdf.pages[0]
    instructions = pikepdf.parse_content_stream(page)
    kept = [item for item in instructions if str(item.operator) not in ("W", "n", "re")]
    page.Contents = pdf.make_stream(pikepdf.unparse_content_stream(kept))


def appointed(pdf):
    pdf.Root.ViewerPreferences.PrintScaling = pikepdf.Name("/AppDefault")


def bulged(pdf):
    """Turns the first half-round of the slot inwards."""
    [form] = forms(pdf)
    instructions = list(pikepdf.parse_content_stream(form))
    line = next(item for item in instructions if str(item.operator) == "l")
    x_axis = float(line.operands[0])
    turned_in = []
    for item in instructions:
        operands = list(item.operands)
        if str(item.operator) == "c" and sum(str(other.operator) == "c" for other in turned_in) < 6:
            operands = [2 * x_axis - float(x) if index % 2 == 0 else x for index, x in enumerate(operands)]
        turned_in.append(pikepdf.ContentStreamInstruction(operands, item.operator))
    form.write(pikepdf.unparse_content_stream(turned_in))


samples = sorted(FOLDER.glob("*.pdf"))
check("samples are there", len(samples) >= 7)
for path in samples:
    done = subprocess.run(["qpdf", "--check", path], capture_output=True, check=False)
    check(f"qpdf --check {path.name}", done.returncode == 0)
    check(f"{path.name}: asks the print dialog for true size", asks_for_true_size(path))
    with pikepdf.open(path) as pdf:
        check(f"{path.name}: version 1.7", pdf.pdf_version == "1.7")
        check(f"{path.name}: no dates", not any("Date" in key for key in pdf.docinfo.keys()))
        check(f"{path.name}: identity", len(bytes(pdf.trailer.ID[0])) == 16)

every = str(FOLDER / "all.pdf")
board = str(FOLDER / "board.pdf")
turned = str(FOLDER / "turned.pdf")
stretched = str(FOLDER / "stretched.pdf")

check("A4 exactly", paper_is(every, 210, 297))
check("A5 exactly", paper_is(FOLDER / "document-a5.pdf", 148, 210))
check("letter, lying, exactly", paper_is(FOLDER / "document-letter.pdf", 279.4, 215.9))

with pikepdf.open(every) as pdf:
    groups = [str(group.Name) for group in pdf.Root.OCProperties.OCGs]
    check("layers", groups == ["outside", "inside", "mark", "drill", "words", "centre-lines"])
    check("every layer is in the list", len(pdf.Root.OCProperties.D.Order) == len(groups))
    [form] = forms(pdf)
    used = {str(name) for name in form.Resources.Properties.keys()}
    check("layers used", used == {f"/{name}" for name in groups})
    tags = [str(item.operands[1]) for item in pikepdf.parse_content_stream(form) if str(item.operator) == "BDC"]
    check("what is drawn stands in its layer", set(tags) == used)
    labels = pdf.Root.PageLabels.Nums
    check("page label", str(labels[1].P) == "A1")
    font = form.Resources.Font.F
    check("font carried", "/FontFile2" in font.DescendantFonts[0].FontDescriptor)
    check("title", str(pdf.docinfo["/Title"]) == "Sample")
words = words_of(every)
for wanted in ("Start ⌀ 12.5 ± 0.1 µm �", "Upright words"):
    check(f"words can be found: {wanted}", wanted in words)

with pikepdf.open(board) as pdf:
    check("65 tiles share one drawing", len(pdf.pages) == 65 and len(forms(pdf)) == 1)
check("board: within 1 µm on tiles near and far", board_is_right(board, (0, 12, 26, 52, 64)))
WINDOW = (10, 13.5, 200, 283.5)
check("board: a tile shows its window only", shows_window_only(board, 0, WINDOW))

check("square of 100 mm within 1 µm", square_is(every, 55 + 100j, 100, 100))
check("stretched square within 1 µm", square_is(stretched, 55 + 100j, 100 / 0.986, 100 / 1.01))
check("turned slot: arcs within 1 µm", slot_is_turned(turned))
mirrored = str(FOLDER / "mirrored.pdf")
check("mirrored slot: arcs within 1 µm", slot_is_mirrored(mirrored))
check("the mirrored slot is not the turned one", not slot_is_turned(mirrored))
for name, image in (("pdfium", with_pdfium), ("poppler", with_poppler)):
    check(f"{name}: square of 100 mm", square_measures(image(every), 100, 100))
    check(f"{name}: stretched square", square_measures(image(stretched), 100 / 0.986, 100 / 1.01))

# Documents: letters on the paper, not over one another, pages numbered
for name, width, height in (("a4", 210, 297), ("a5", 148, 210), ("letter", 279.4, 215.9)):
    with pdfplumber.open(FOLDER / f"document-{name}.pdf") as pdf:
        count = len(pdf.pages)
        for number, page in enumerate(pdf.pages, 1):
            text = page.extract_text()
            check(f"{name}, page {number}: numbered", f"Page {number} of {count}" in text)
            sides = [(c["x0"] * MM, c["x1"] * MM, c["top"] * MM, c["bottom"] * MM) for c in page.chars]
            inside = all(x0 > 7 and x1 < width - 7 and y0 > 7 and y1 < height - 4 for x0, x1, y0, y1 in sides)
            check(f"{name}, page {number}: letters inside the margins", inside)

# The checks themselves must be able to fail
check("a page 1 % larger is noticed: operators", not square_is(changed("all.pdf", larger), 55 + 100j, 100, 100))
check("a page 1 % larger is noticed: image", not square_measures(with_pdfium(changed("all.pdf", larger)), 100, 100))
check("a shift of 2 µm is noticed", not board_is_right(changed("board.pdf", shifted), (26,)))
check("a tile without its window is noticed", not shows_window_only(changed("board.pdf", unclipped), 0, WINDOW))
check("another print scaling is noticed", not asks_for_true_size(changed("all.pdf", appointed)))
check("a bulge turned inwards is noticed", not slot_is_turned(changed("turned.pdf", bulged)))

sys.exit(tally.close())
