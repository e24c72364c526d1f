"""Do paper templates print at true size, and do their tiles make the instrument when they are put together?"""

import functools
import itertools
import re
import subprocess
import xml.etree.ElementTree

import ezdxf
import ezdxf.bbox
import numpy
import pymupdf
import pytest

import builds
import paper as reading

SIZES = {"a4": (297.0, 210.0), "letter": (279.4, 215.9)}
# What printers leave white: a quarter of an inch.
MARGIN = 6.35
WHOLE = "Frets and strings, from above"
STRIP = "Fret strip, to glue on the neck"
# A template is read with a ruler; the numbers in the file are a hundred times better.
TRUE = 0.005

pages_of = functools.cache(reading.pages)


@pytest.fixture
def pages(paper):
    return pages_of(paper[1])


def kind(paper):
    return paper[1].stem.removeprefix("templates-")


def test_pages_are_exactly_the_paper(paper):
    with pymupdf.open(paper[1]) as document:
        for page in document:
            for box in (page.mediabox, page.cropbox, page.trimbox):
                assert (box.x0, box.y0) == (0, 0)
                if kind(paper) in SIZES:
                    expected = [side * reading.POINTS for side in SIZES[kind(paper)]]
                    assert [box.width, box.height] == pytest.approx(expected, abs=1e-3)
            assert page.rotation == 0


def test_viewers_are_asked_not_to_scale(paper):
    with pymupdf.open(paper[1]) as document:
        found = document.xref_get_key(document.pdf_catalog(), "ViewerPreferences/PrintScaling")
        assert found == ("name", "/None")


def test_nothing_is_mended_and_nothing_is_missing(paper):
    with pymupdf.open(paper[1]) as document:
        assert not document.is_repaired, "the file needed no repair"
        assert not document.needs_pass
        fonts = {font for page in document for font in page.get_fonts()}
        assert fonts, "there are words"
        for xref, ending, _, name, *_ in fonts:
            assert ending == "ttf" and re.match(r"[A-Z]{6}\+", name), f"{name} is embedded as a subset"
            assert len(document.extract_font(xref)[3]) > 1000, f"the file of {name} is there"
        assert not any(page.get_images() for page in document), "vectors only"


def test_every_page_has_rulers_both_ways(pages):
    for page in pages:
        for way in ("level", "upright"):
            lengths = [max(line.size()) * reading.POINTS for line in page.lines if getattr(line, way)()]
            for expected in (283.465, 288.0):
                found = [length for length in lengths if abs(length - expected) <= 0.01]
                assert found, f"page {page.number + 1} has a {way} mark of {expected} pt"


def test_every_page_says_its_number_and_that_it_is_not_to_be_scaled(pages):
    for page in pages:
        text = " ".join(words.text for words in page.words)
        assert f"page {page.number + 1} of {len(pages)}:" in text
        assert "Print at 100 %" in text


def test_printers_can_print_it_all(paper):
    with pymupdf.open(paper[1]) as document:
        for page in document:
            picture = page.get_pixmap(dpi=100, colorspace=pymupdf.csGRAY)
            shades = numpy.frombuffer(picture.samples, dtype=numpy.uint8).reshape(picture.height, picture.stride)
            # A pixel less: what the renderer smooths a line by.
            edge = int(MARGIN / 25.4 * 100) - 1
            bands = shades[:edge], shades[-edge:], shades[:, :edge], shades[:, -edge:]
            assert min(band.min() for band in bands) == 255, f"page {page.number + 1} draws into the margin"


def test_words_are_whole_and_apart(pages):
    for page in pages:
        frames = [tile.frame for tile in page.tiles]
        for words in page.words:
            for frame in frames:
                inside = [reading.within(corner, frame) for corner in (words.low, words.high)]
                assert inside[0] == inside[1], f"page {page.number + 1}: {words.text!r} is cut by a frame"
        for a, b in itertools.combinations(page.words, 2):
            apart = any(a.high[axis] <= b.low[axis] or b.high[axis] <= a.low[axis] for axis in (0, 1))
            assert apart, f"page {page.number + 1}: {a.text!r} lies on {b.text!r}"


def test_crosses_of_neighbours_meet(pages):
    titles = {tile.title for page in pages for tile in page.tiles}
    for title in titles:
        tiles = reading.tiles_of(pages, title)
        moves, worst = reading.assembled(tiles)
        assert len(moves) == len(tiles), f"every tile of {title!r} is there once"
        assert worst < TRUE, f"crosses of {title!r} miss by {worst} mm"


def seen(pages, title):
    """Lines and words of a thing, each with how far it is moved to lie with the others; whether nothing else is among them."""
    tiles = reading.tiles_of(pages, title)
    if tiles:
        moves, _ = reading.assembled(tiles)
        return [(thing, moves[tile.name]) for tile in tiles for thing in tile.lines + tile.words], True
    return [(thing, (0.0, 0.0)) for thing in reading.below(pages, title)], False


def uprights(things, width, dashed=False):
    return [
        (line.middle()[0] + move[0], line.size()[1], line.middle()[1] + move[1])
        for line, move in things
        if isinstance(line, reading.Line) and line.upright() and line.dashed == dashed
        and abs(line.width - width) < 0.01 and line.grey < 0.1
    ]


@pytest.mark.parametrize("title", [WHOLE, STRIP])
def test_stations_are_where_the_layout_has_them(paper, pages, title):
    build, _ = paper
    things, alone = seen(pages, title)
    lines = uprights(things, reading.STATION) + uprights(things, reading.SLOT)
    found = sorted({round(x, 4) for x, height, _ in lines if height > 8})
    numbers = sorted(
        (words.middle()[0] + move[0], int(words.text))
        for words, move in things
        if isinstance(words, reading.Words) and re.fullmatch("[0-9]+", words.text) and not is_of_a_cross(words, pages)
    )
    stations = {0: 0.0} | {fret["number"]: fret["x_mm"] for fret in build.layout["frets"]["stations"]}
    assert {number for _, number in numbers} >= set(stations), "every station has its number"
    near = lambda x: min(found, key=lambda place: abs(place - x))
    # A number stands under its line, or just before it where both read upward.
    zero = near(min(x for x, number in numbers if number == 0) + (1.6 if title == STRIP else 0.0))
    for number, x in stations.items():
        miss = near(zero + x) - zero - x
        assert abs(miss) < TRUE, f"station {number} at {x} mm is {miss} mm off"
        assert any(abs(at - zero - x) < 3 for at, own in numbers if own == number), f"{number} stands at its line"
    wanted = sorted(stations.values())
    if title == WHOLE:
        scale_length = build.layout["scale_length_mm"]
        assert abs(near(zero + scale_length) - zero - scale_length) < TRUE, "the saddle line"
        wanted.append(scale_length)
    if alone:
        assert {number for _, number in numbers} == set(stations), "no other number is there"
        extra = [x - zero for x in found if min(abs(x - zero - at) for at in wanted) > TRUE]
        assert not extra, f"lines without a station at {extra}"


def is_of_a_cross(words, pages):
    """Whether a number stands beside a cross."""
    return any(
        abs(words.low[0] - at[0] - 1.7) < 0.5 and abs(words.middle()[1] - at[1] - 2.5) < 0.5
        for page in pages for tile in page.tiles for at in tile.crosses.values()
    )


def test_crests_are_where_the_layout_has_them(paper, pages):
    things, _ = seen(pages, WHOLE)
    zero = [x for x, height, _ in uprights(things, reading.SLOT) if height > 8]
    middle = [y for x, height, y in uprights(things, reading.SLOT) if height > 8]
    marks = [(x - zero[0], y - middle[0]) for x, height, y in uprights(things, reading.SLOT) if abs(height - 3) < 1e-3]
    for string in paper[0].layout["strings"]:
        wanted = string["saddle"]["x_mm"], string["saddle"]["y_mm"]
        assert min(reading.distance(mark, wanted) for mark in marks) < TRUE, f"a crest at {wanted}"


def test_every_drawing_is_there_at_its_size(paper, pages):
    build, _ = paper
    titles = reading.captions(pages)
    for path in build.files("drawings/*.svg"):
        title = xml.etree.ElementTree.parse(path).getroot().find("{http://www.w3.org/2000/svg}title").text
        # What stands behind a semicolon is among the notes.
        assert title.split("; ")[0] in titles, f"{title!r} is on paper"
        twin = path.with_name(f"{path.stem}_mm.dxf")
        drawing = ezdxf.readfile(twin).modelspace()
        box = ezdxf.bbox.extents(drawing.query('*[layer=="CUT_OUTER"]'), fast=False)
        cuts = [line for page in pages for line in page.lines if abs(line.width - reading.CUT) < 0.01 and line.kind != "line"]
        sizes = [line.size() for line in cuts]
        miss = min(max(abs(size[0] - box.size.x), abs(size[1] - box.size.y)) for size in sizes)
        assert miss < 0.01, f"an outline of {box.size.x} mm by {box.size.y} mm is {miss} mm off"


def test_what_a_printer_does_is_undone(program, tmp_path):
    """A printer whose marks of 100 mm measured 99 mm across and 102 mm up prints everything true, within its margins."""
    measured = {"level": 0.99, "upright": 1.02}
    document = builds.documents()[0]
    call = [program, "make", document, "-o", tmp_path, "--formats", "templates", "--measured-mark", "99,102", "--anyway"]
    subprocess.run(call, capture_output=True, timeout=120)
    made = sorted(tmp_path.glob("*/templates-*.pdf"))
    assert len(made) == 2, "on both office papers"
    for path in made:
        test_printers_can_print_it_all((None, path))
        for page in reading.pages(path):
            for way, factor in measured.items():
                printed = [max(line.size()) * factor for line in page.lines if getattr(line, way)()]
                assert min(abs(length - 100) for length in printed) < TRUE, f"100 mm {way} on page {page.number + 1}"
                assert min(abs(length - 101.6) for length in printed) < TRUE, f"4 in {way} on page {page.number + 1}"
            assert "measured 99.00 mm across, 102.00 mm up" in " ".join(words.text for words in page.words)


def test_every_page_is_marked_where_a_check_fails(program, tmp_path):
    document = tmp_path / "many.toml"
    document.write_text('name = "Too many frets"\n[scale]\nfrets = 36\n')
    call = [program, "make", document, "-o", tmp_path, "--formats", "templates", "--anyway"]
    made = subprocess.run(call, capture_output=True, text=True, timeout=120)
    assert made.returncode == 1, f"36 frets do not fit: {made.stderr}"
    for path in sorted(tmp_path.glob("*/templates-*.pdf")):
        for page in reading.pages(path):
            text = " ".join(words.text for words in page.words)
            assert "MADE ALTHOUGH A CHECK FAILS" in text, f"page {page.number + 1} of {path.name}"
