"""Can every dimensioned drawing be read: nothing on anything, nothing cut off, every hole measured and said?

Words are given the room that they take in DejaVu Sans, one of the widest of the usual faces (advance widths of its `hmtx`
table, in ems).
"""

import collections
import itertools
import math
import re
import xml.etree.ElementTree

import ezdxf
import pytest

import drawn

SVG = "{http://www.w3.org/2000/svg}"
NARROW = {
    " ": 0.318, "'": 0.275, "(": 0.39, ")": 0.39, ",": 0.318, "-": 0.361, ".": 0.318, "/": 0.337, ":": 0.337, "I": 0.295,
    "J": 0.295, "f": 0.352, "i": 0.278, "j": 0.278, "l": 0.278, "r": 0.411, "t": 0.392,
}
WIDE = {"+": 0.838, "M": 0.863, "W": 0.989, "m": 0.974, "w": 0.818, "Ø": 0.787, "O": 0.787, "Q": 0.787}
# Capitals are this high, and letters such as "p" reach this far below their foot.
CAPITALS, BELOW = 0.729, 0.21


def advance(letter):
    if letter in NARROW or letter in WIDE:
        return NARROW.get(letter) or WIDE[letter]
    return 0.77 if letter.isupper() else 0.636


class Words:
    def __init__(self, element, size, anchor):
        self.words = element.text
        self.size = size
        x, y = float(element.get("x")), float(element.get("y"))
        long = sum(map(advance, self.words)) * size
        left = x - long / 2 if anchor == "middle" else x
        self.box = (left, y - CAPITALS * size, left + long, y + (BELOW * size if re.search("[gjpqy,;()]", self.words) else 0))
        turn = element.get("transform")
        if turn:
            _, cx, cy = map(float, re.fullmatch(r"rotate\((-90) ([\d.]+) ([\d.]+)\)", turn).groups())
            # A quarter turn to the left about a point, y down: (dx, dy) becomes (dy, -dx).
            a, b, c, d = self.box
            self.box = (cx + b - cy, cy - (c - cx), cx + d - cy, cy - (a - cx))

    def __repr__(self):
        return f"{self.words!r} at {[round(value, 2) for value in self.box]}"


def read(path):
    """The words, the lines of the part, and all other lines, on the page in millimetres, y down."""
    root = xml.etree.ElementTree.parse(path).getroot()
    page = tuple(map(float, root.get("viewBox").split()))
    words, part, others = [], [], []
    for group in root.iter(f"{SVG}g"):
        size, anchor = float(group.get("font-size", 0)), group.get("text-anchor")
        for element in group:
            if element.tag == f"{SVG}text":
                words.append(Words(element, size, anchor))
            elif element.tag in (f"{SVG}path", f"{SVG}circle", f"{SVG}rect"):
                (part if group.get("data-layer") else others).extend(lines(element))
    return page, words, part, others


def lines(element):
    """Short straight pieces of what is drawn."""
    number = lambda key: float(element.get(key, 0))
    if element.tag == f"{SVG}circle":
        x, y, r = number("cx"), number("cy"), number("r")
        ring = [(x + r * math.cos(math.tau * i / 64), y + r * math.sin(math.tau * i / 64)) for i in range(65)]
        return list(zip(ring, ring[1:]))
    if element.tag == f"{SVG}rect":
        x, y, w, h = (number(key) for key in ("x", "y", "width", "height"))
        ring = [(x, y), (x + w, y), (x + w, y + h), (x, y + h), (x, y)]
        return list(zip(ring, ring[1:]))
    pieces, at, start = [], None, None
    for command, numbers in re.findall(r"([MLAZh])([^MLAZh]*)", element.get("d")):
        values = [float(value) for value in numbers.split()]
        if command == "M":
            at = start = tuple(values)
            continue
        if command == "A":
            radius, _, _, large, sweep, x, y = values
            chord = math.dist(at, (x, y))
            turn = 2 * math.asin(min(1.0, chord / 2 / radius))
            turn = math.tau - turn if large else turn
            bulge = math.tan(turn / 4) * (1 if sweep else -1)
            points = [tuple(point) for point in drawn.points(drawn.segment((*at, bulge), (x, y, 0)), 32)]
            pieces += list(zip(points, points[1:]))
            at = (x, y)
            continue
        after = start if command == "Z" else (at[0] + values[0], at[1]) if command == "h" else tuple(values)
        if after != at:
            pieces.append((at, after))
        at = after
    return pieces


def overlap(a, b):
    return a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]


def reaches(line, box):
    """Whether a line has a point within a box: what is left of it after clipping by all four sides."""
    (x, y), (to_x, to_y) = line
    low, high = 0.0, 1.0
    for start, step, least, most in ((x, to_x - x, box[0], box[2]), (y, to_y - y, box[1], box[3])):
        if step == 0:
            if not least < start < most:
                return False
            continue
        a, b = sorted(((least - start) / step, (most - start) / step))
        low, high = max(low, a), min(high, b)
    return low < high


@pytest.fixture
def sheet(picture):
    build, path = picture
    if path.parent.name != "drawings":
        pytest.skip("a picture of the whole, not a drawing")
    return build, path, *read(path)


def test_letters_are_high_enough(sheet):
    for words in sheet[3]:
        assert words.size * CAPITALS >= 2.2, words


def test_no_words_lie_on_words(sheet):
    for a, b in itertools.combinations(sheet[3], 2):
        assert not overlap(a.box, b.box), f"{a} and {b}"


def test_no_words_lie_on_lines(sheet):
    _, _, _, words, part, others = sheet
    for each in words:
        for line in part + others:
            assert not reaches(line, each.box), f"{each} and {line}"


def test_nothing_is_cut_off(sheet):
    _, _, (left, top, width, height), words, part, others = sheet
    points = [point for line in part + others for point in line]
    points += [corner for each in words for corner in (each.box[:2], each.box[2:])]
    for x, y in points:
        assert left + 2 <= x <= left + width - 2 and top + 2 <= y <= top + height - 2, f"({x}, {y}) of {width} by {height}"


def test_holes_are_counted_and_measured(sheet):
    """Every hole is in a note with its diameter, and its distances from the datum stand beside the part."""
    build, path, _, words, _, _ = sheet
    document = ezdxf.readfile(path.with_name(f"{path.stem}_mm.dxf"))
    holes = [entity for entity in document.modelspace() if entity.dxftype() == "CIRCLE" and entity.dxf.layer != "GUIDE"]
    told = collections.Counter()
    for each in words:
        count = int((re.match(r"(\d+)x ", each.words) or [0, 1])[1])
        for diameter in re.findall(r"Ø([\d.]+)", each.words):
            told[diameter] += count
    plain = lambda value: f"{value:.3f}".rstrip("0").rstrip(".")
    assert told == collections.Counter(plain(2 * hole.dxf.radius) for hole in holes)
    cross = [e for e in document.modelspace() if e.dxftype() == "LINE" and e.dxf.layer == "GUIDE"][-2:]
    datum = cross[0].dxf.start.lerp(cross[0].dxf.end)
    assert datum.isclose(cross[1].dxf.start.lerp(cross[1].dxf.end), abs_tol=1e-6), "the datum's cross comes last"
    sizes = {float(each.words.strip("()")) for each in words if re.fullmatch(r"\(?[\d.]+\)?", each.words)}
    near = lambda value: any(abs(value - size) < 0.0051 for size in sizes)
    right = document.header["$EXTMAX"][0]
    for hole in holes:
        x, y = hole.dxf.center.x, hole.dxf.center.y
        assert abs(x - datum.x) < 0.006 or near(abs(x - datum.x)), f"{hole.dxf.center} across"
        if min(x, right - x) < 150:
            assert abs(y - datum.y) < 0.006 or near(abs(y - datum.y)), f"{hole.dxf.center} up"


def test_the_size_over_all_is_told(sheet):
    build, path, _, words, _, _ = sheet
    document = ezdxf.readfile(path.with_name(f"{path.stem}_mm.dxf"))
    cut = [p for e in document.modelspace() if e.dxf.layer not in ("GUIDE",) for p in drawn.segments(e)]
    left, bottom, right, top = drawn.extents(cut)
    sizes = [float(each.words) for each in words if re.fullmatch(r"[\d.]+", each.words)]
    assert any(abs(size - (right - left)) < 0.0051 for size in sizes), f"{right - left} across"
    # Where dimensions stand on both sides, the two ends are measured from the datum in place of the whole.
    high = top - bottom
    parts = any(min(abs(a + b - high), abs(a - b - high)) < 0.0101 for a in sizes for b in sizes)
    assert parts or any(abs(size - high) < 0.0051 for size in sizes), f"{high} up"


def test_the_title_block_says_what_it_is(sheet):
    build, _, _, words, _, _ = sheet
    said = [each.words for each in words]
    for wanted in ("part", "instrument", "material", "quantity", "hand", "scale", "1:1", "unit", "measured from"):
        assert wanted in said, f"{wanted} is not among {said}"
    assert build.layout["name"] in said
