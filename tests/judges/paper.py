"""What lies on the pages of paper templates, in millimetres from a page's lower left corner, and where it lies when tiles are put together?"""

import dataclasses
import functools
import re

import pymupdf

POINTS = 72 / 25.4

# The pens: width in millimetres, and how dark (0 is black).
CUT, SLOT, STATION, FINE = 0.35, 0.25, 0.18, 0.12
FRAME_GREY = 0.45


@dataclasses.dataclass
class Line:
    """One path; a shape's ends are those of its bounds."""

    width: float
    grey: float
    dashed: bool
    kind: str  # "line", "rectangle", "curve" (some of it) or "loop" (the rest)
    low: tuple
    high: tuple

    def size(self):
        return self.high[0] - self.low[0], self.high[1] - self.low[1]

    def middle(self):
        return tuple((a + b) / 2 for a, b in zip(self.low, self.high))

    def upright(self):
        return self.kind == "line" and self.size()[0] < 1e-3

    def level(self):
        return self.kind == "line" and self.size()[1] < 1e-3


@dataclasses.dataclass
class Words:
    text: str
    low: tuple
    high: tuple
    upward: bool

    def middle(self):
        return tuple((a + b) / 2 for a, b in zip(self.low, self.high))


@dataclasses.dataclass
class Tile:
    """A frame on a page: what it is of, its name, its crosses by number, and what is seen in it."""

    title: str
    name: str
    page: int
    frame: Line
    crosses: dict
    lines: list
    words: list


class Page:
    def __init__(self, page):
        self.height = page.mediabox.height / POINTS
        self.number = page.number
        self.lines = [self.line(drawing) for drawing in page.get_drawings() if "s" in drawing["type"]]
        blocks = page.get_text("dict")["blocks"]
        spans = [(line["dir"], span) for block in blocks for line in block.get("lines", []) for span in line["spans"]]
        self.words = [self.span(way, span) for way, span in spans if span["text"].strip()]

    def point(self, x, y):
        return x / POINTS, self.height - y / POINTS

    def line(self, drawing):
        corners = []
        for item in drawing["items"]:
            if item[0] == "re":
                corners += [self.point(item[1].x0, item[1].y0), self.point(item[1].x1, item[1].y1)]
            elif item[0] == "qu":
                corners += [self.point(point.x, point.y) for point in (item[1].ul, item[1].ur, item[1].ll, item[1].lr)]
            elif item[0] == "c":
                ends = [self.point(point.x, point.y) for point in item[1:]]
                corners += [bezier(ends, step / 40) for step in range(41)]
            else:
                corners += [self.point(point.x, point.y) for point in item[1:]]
        kinds = {item[0] for item in drawing["items"]}
        alone = len(drawing["items"]) == 1 and kinds == {"l"}
        kind = "line" if alone else "curve" if "c" in kinds else "rectangle" if kinds == {"re"} else "loop"
        low, high = (tuple(pick(axis) for axis in zip(*corners)) for pick in (min, max))
        dashed = drawing["dashes"] not in ("", "[] 0")
        return Line(drawing["width"] / POINTS, drawing["color"][0], dashed, kind, low, high)

    def span(self, way, span):
        """The room that the letters take: from the line's descent to the capitals' height, not the font's own bounds."""
        (x, y), size = span["origin"], span["size"]
        left, top, right, bottom = span["bbox"]
        if way[0] > 0.5:
            low, high = self.point(left, y + 0.2 * size), self.point(right, y - 0.73 * size)
        else:
            low, high = self.point(x - 0.73 * size, bottom), self.point(x + 0.2 * size, top)
        return Words(span["text"], low, high, way[0] <= 0.5)

    @functools.cached_property
    def tiles(self):
        return list(self.found_tiles())

    def found_tiles(self):
        for frame in self.lines:
            if frame.kind != "rectangle" or abs(frame.grey - FRAME_GREY) > 0.01:
                continue
            above = [
                words for words in self.words
                if abs(words.low[0] - frame.low[0]) < 0.5 and 0 < words.low[1] - frame.high[1] < 25
                and ", tile " in words.text
            ]
            caption = min(above, key=lambda words: words.low[1])
            title, name = caption.text.rsplit(", tile ", 1)
            lines = [line for line in self.lines if line is not frame and within(line.middle(), frame)]
            words = [words for words in self.words if within(words.middle(), frame)]
            yield Tile(title, name, self.number, frame, dict(self.crosses(frame, words)), lines, words)

    def crosses(self, frame, words):
        for ring in self.lines:
            width, height = ring.size()
            if ring.kind != "curve" or abs(width - 4) > 1e-3 or abs(height - 4) > 1e-3 or abs(ring.width - FINE) > 0.01:
                continue
            center = ring.middle()
            arms = [
                line for line in self.lines
                if line.kind == "line" and abs(max(line.size()) - 7) < 1e-3 and distance(line.middle(), center) < 1e-3
            ]
            if not within(center, frame) or len(arms) != 2:
                continue
            number = [
                text for text in words
                if text.text.isdigit() and 0 < text.low[0] - center[0] < 3 and 1 < text.middle()[1] - center[1] < 4
            ]
            assert len(number) == 1, f"a cross at {center} has one number, found {number}"
            yield int(number[0].text), center


def bezier(ends, share):
    rest = 1 - share
    weights = rest**3, 3 * rest**2 * share, 3 * rest * share**2, share**3
    return tuple(sum(weight * end[axis] for weight, end in zip(weights, ends)) for axis in (0, 1))


def distance(a, b):
    return ((a[0] - b[0]) ** 2 + (a[1] - b[1]) ** 2) ** 0.5


def within(point, frame):
    return all(low <= at <= high for low, at, high in zip(frame.low, point, frame.high))


def pages(path):
    with pymupdf.open(path) as document:
        return [Page(page) for page in document]


def assembled(tiles):
    """How far each tile is moved to lie with the first, and the worst of what its other crosses then miss by."""
    moves, known, worst = {}, {}, 0.0
    waiting = list(tiles)
    while waiting:
        tile = next((tile for tile in waiting if not moves or set(tile.crosses) & set(known)), None)
        assert tile is not None, f"{[tile.name for tile in waiting]} share no cross with the tiles before"
        waiting.remove(tile)
        shared = sorted(set(tile.crosses) & set(known))
        assert not moves or len(shared) >= 2, f"{tile.name} shares the crosses {shared}, two are needed"
        move = tuple(a - b for a, b in zip(known[shared[0]], tile.crosses[shared[0]])) if shared else (0.0, 0.0)
        moves[tile.name] = move
        for number, at in tile.crosses.items():
            there = at[0] + move[0], at[1] + move[1]
            worst = max(worst, distance(known.setdefault(number, there), there))
    return moves, worst


def tiles_of(all_pages, title):
    return [tile for page in all_pages for tile in page.tiles if tile.title == title]


def below(all_pages, title):
    """What lies on and beside the outline under a title, of a thing in one piece; things on its right may be among it."""
    for page in all_pages:
        for caption in page.words:
            if caption.text != title:
                continue
            under = [
                line for line in page.lines
                if line.kind != "line" and abs(line.width - CUT) < 0.01 and line.high[1] < caption.low[1]
                and abs(line.low[0] - caption.low[0]) < 1
            ]
            outline = max(under, key=lambda line: line.high[1])
            low, high = outline.low[1] - 25, outline.high[1] + 25
            return [
                thing for thing in page.lines + page.words
                if thing.middle()[0] >= outline.low[0] and low <= thing.middle()[1] <= high
            ]
    raise AssertionError(f"{title!r} is on no page")


def captions(all_pages):
    """The titles of all things, tiles once."""
    return {re.sub(r", tile [A-Z]+[0-9]+$", "", words.text) for page in all_pages for words in page.words}
