"""Do the sheets of a class hold its parts, apart and with the grain, and does the cut list agree? A polygon library that is not ours.

`tests/run` makes a class of three students a document and says where: `BOXNECK_CLASS`.
"""

import csv
import itertools
import math
import os
import pathlib
import tomllib

import ezdxf
import pytest
from ezdxf.path import make_path
from shapely.geometry import Polygon, box

import builds

FOLDER = os.environ.get("BOXNECK_CLASS")
STOCK = builds.ROOT / "specs/class/stock.toml"
INCH = 25.4
# How far flattened arcs and written decimals may be off. mm.
OFF = 0.02
# The bit of the documents whose lids lie on these sheets is at least this. mm.
LEAST_BIT = 1.0


def length(value):
    """A length of the stock list, in mm."""
    if isinstance(value, (int, float)):
        return value * INCH
    number, unit = value.rsplit(" ", 1)
    whole = sum(int(part.split("/")[0]) / int(part.split("/")[1]) if "/" in part else float(part) for part in number.split())
    return whole * (INCH if unit == "in" else 1.0)


@pytest.fixture(scope="module")
def stock():
    return tomllib.loads(STOCK.read_text())


@pytest.fixture(scope="module")
def cuts():
    with open(pathlib.Path(FOLDER) / "cut-list.csv", newline="", encoding="utf-8") as file:
        return list(csv.DictReader(file))


def sheets():
    return sorted(pathlib.Path(FOLDER).glob("sheets/*.dxf")) if FOLDER else []


def number_of(path):
    return path.stem.removeprefix("sheet-").removesuffix("_mm")


def rows_of(path, cuts):
    """The rows of one nested drawing: those that say how far from below."""
    return [row for row in cuts if row["number"] == number_of(path) and row["from below mm"]]


def item_of(stock, key):
    kind, place = key.split(".")
    return stock[kind][int(place) - 1]


def frame(item):
    """The size of a sheet with its grain along x."""
    size = [length(item["length"]), length(item["width"])]
    return size[::-1] if item.get("grain") == "width" else size


def polygons(path, layer):
    found = []
    for entity in ezdxf.readfile(path).modelspace().query(f'*[layer=="{layer}"]'):
        points = [(point.x, point.y) for point in make_path(entity).flattening(0.005)]
        if len(points) > 3:
            found.append(Polygon(points))
    return found


def test_there_is_a_class():
    assert FOLDER and sheets(), "BOXNECK_CLASS names a folder with sheets: run tests/run"


@pytest.mark.parametrize("path", sheets(), ids=lambda path: path.stem)
def test_parts_lie_apart_on_their_sheet(path, stock, cuts):
    rows = rows_of(path, cuts)
    item = item_of(stock, rows[0]["stock"])
    # A board that holds pieces side by side is drawn as a sheet is: trimmed at its ends, sawn with the kerf between pieces.
    if rows[0]["stock"].startswith("boards"):
        margin, between = (length(stock["cutting"]["trim"]), 0.0), length(stock["cutting"]["kerf"])
    else:
        margin, between = [length(stock["cutting"]["margin"])] * 2, length(stock["cutting"]["between"]) + LEAST_BIT
    edge = max(polygons(path, "GUIDE"), key=lambda polygon: polygon.area)
    width, height = frame(item)
    left, below, right, above = edge.bounds
    assert math.isclose(right - left, width, abs_tol=OFF) and math.isclose(above - below, height, abs_tol=OFF)
    along, across = (value - OFF for value in margin)
    usable = box(left + along, below + across, right - along, above - across)
    parts = polygons(path, "CUT_OUTER")
    assert len(parts) == len(rows), "a contour a row of the cut list"
    for part in parts:
        assert part.is_valid and usable.contains(part), f"{part.bounds} lies within {usable.bounds}"
    for one, other in itertools.combinations(parts, 2):
        gap = one.distance(other)
        assert gap >= between - OFF, f"{gap} mm between {one.bounds} and {other.bounds}"


@pytest.mark.parametrize("path", sheets(), ids=lambda path: path.stem)
def test_the_cut_list_says_where_and_keeps_the_grain(path, stock, cuts):
    rows = rows_of(path, cuts)
    assert item_of(stock, rows[0]["stock"]).get("grain") != "free", "the grain of this sheet is locked"
    edge = max(polygons(path, "GUIDE"), key=lambda polygon: polygon.area).bounds
    boxes = [part.bounds for part in polygons(path, "CUT_OUTER")]
    for row in rows:
        at = [float(row["from left mm"]) + edge[0], float(row["from below mm"]) + edge[1]]
        wanted = (*at, at[0] + float(row["length mm"]), at[1] + float(row["width mm"]))
        near = [found for found in boxes if all(abs(a - b) < OFF for a, b in zip(found, wanted))]
        assert len(near) == 1, f"{row['student']}: one contour at {wanted}"
        is_long = float(row["length mm"]) >= float(row["width mm"])
        assert is_long or row["part"] == "Heel block", "all but a heel are longer than wide: they lie along the grain"


def test_sheets_are_not_wasted(stock, cuts):
    """What is cut is there, and all sheets but the one that is begun last are at least half used."""
    rows = [row for row in cuts if row["stock"].startswith("sheets")]
    sizes = {row["number"]: math.prod(frame(item_of(stock, row["stock"]))) for row in rows}
    used = dict.fromkeys(sizes, 0.0)
    for row in rows:
        used[row["number"]] += float(row["length mm"]) * float(row["width mm"])
    shares = sorted(used[number] / sizes[number] for number in sizes)
    assert shares[-1] <= 1.0, "what is cut is there"
    assert all(share >= 0.5 for share in shares[1:]), f"{shares} of the sheets used"


def test_boards_hold_their_pieces_and_kerfs(stock, cuts):
    kerf, trim = length(stock["cutting"]["kerf"]), length(stock["cutting"]["trim"])
    boards = itertools.groupby(
        (row for row in cuts if row["stock"].startswith("boards")), key=lambda row: (row["stock"], row["number"])
    )
    count = 0
    for (key, number), rows in boards:
        rows, item = list(rows), item_of(stock, key)
        count += 1
        at = trim
        for row in rows:
            assert math.isclose(float(row["from left mm"]), at, abs_tol=OFF), f"{key} {number}: cut {row['cut']}"
            assert float(row["width mm"]) <= length(item["width"]) + OFF, "the board is wide enough"
            assert -0.1 - OFF <= length(item["thickness"]) - float(row["thickness mm"]) <= 1 + OFF, "and thick enough"
            at += float(row["length mm"]) + kerf
        assert at - kerf <= length(item["length"]) - trim + OFF, f"{key} {number} is long enough"
        lengths = [float(row["length mm"]) for row in rows]
        assert lengths == sorted(lengths, reverse=True), "long pieces are cut first"
    assert count > 0, "there are boards"
    offcuts = {row["number"] for row in cuts if row["stock"] == "boards.2"}
    assert len(offcuts) <= stock["boards"][1]["count"], "no more offcuts than there are"


def test_every_student_is_served_or_told_why(cuts):
    for part in ("Neck", "Lid"):
        served = [row["student"] for row in cuts if row["part"] == part]
        assert len(served) == len(set(served)) == 3 * len(builds.documents()), f"one {part} a student"
    for row in cuts:
        assert row["stock"] != "none" or "in stock" in row["what"], f"{row['student']}: {row['what']}"
