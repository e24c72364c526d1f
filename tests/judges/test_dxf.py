"""Does an independent reader open every drawing, and does it find in it what the layout says?"""

import math
import re

import ezdxf
import ezdxf.bbox
import pytest

import expected_drawings

# The fixed small set of layers (the design's section 7): numbers are millimetres with `_` for the point.
LAYERS = re.compile(r"CUT_OUTER|CUT_INNER|POCKET_D\d+_\d{1,3}|DRILL_D\d+_\d{1,3}|SLOT|ENGRAVE|GUIDE")

# Coordinates are written with at least seven decimals; what is read back may differ by rounding only.
EXACT = 1e-6


def read(path):
    return ezdxf.readfile(path)


def test_audit_finds_nothing_to_complain_of_or_mend(drawing):
    auditor = read(drawing[1]).audit()
    assert not auditor.errors, f"errors: {[error.message for error in auditor.errors]}"
    assert not auditor.fixes, f"fixes: {[fix.message for fix in auditor.fixes]}"


def test_it_is_r2000_in_millimetres(drawing):
    document = read(drawing[1])
    # AC1015 is the oldest version with both polyline bulges and $INSUNITS; 4 is millimetres and 1 is metric, by the
    # published DXF reference.
    found = (document.dxfversion, document.header["$INSUNITS"], document.header["$MEASUREMENT"])
    assert found == ("AC1015", 4, 1)


def test_layers_are_of_the_small_set_and_nothing_is_on_layer_0(drawing):
    names = {entity.dxf.layer for entity in read(drawing[1]).modelspace()}
    strange = {name for name in names if not LAYERS.fullmatch(name)}
    assert not strange, f"layers out of the set: {strange}"


def test_only_plain_entities_coloured_by_their_layer(drawing):
    document = read(drawing[1])
    for entity in document.modelspace():
        assert entity.dxftype() in {"LINE", "ARC", "CIRCLE", "LWPOLYLINE"}, entity
        assert entity.dxf.color == 256, f"{entity} has a colour of its own"
        assert entity.dxf.layer in document.layers, f"{entity} is on a layer that the file does not declare"


def test_every_number_is_finite(drawing):
    words = drawing[1].read_text(encoding="ascii").split()
    assert not [word for word in words if word.lower().lstrip("+-") in {"nan", "inf", "infinity"}]


def test_contours_are_closed_and_nothing_is_minute(drawing):
    for entity in read(drawing[1]).modelspace():
        if entity.dxftype() == "LWPOLYLINE":
            points = list(entity.get_points("xy"))
            if entity.dxf.layer.startswith(("CUT", "POCKET")):
                assert entity.closed, f"{entity} on {entity.dxf.layer} is open"
            following = points[1:] + (points[:1] if entity.closed else [])
            # A segment under 0.05 mm stalls a machine's look-ahead; needs of people who receive such files.
            shortest = min(math.dist(a, b) for a, b in zip(points, following))
            assert shortest >= 0.05, f"{entity} has a segment of {shortest} mm"


def test_extents_begin_at_the_origin_and_the_header_tells_them(drawing):
    document = read(drawing[1])
    cut = [entity for entity in document.modelspace() if entity.dxf.layer != "GUIDE"]
    box = ezdxf.bbox.extents(cut, fast=False)
    assert box.extmin.x == pytest.approx(0.0, abs=EXACT) and box.extmin.y == pytest.approx(0.0, abs=EXACT)
    everything = ezdxf.bbox.extents(document.modelspace(), fast=False)
    for name, corner in (("$EXTMIN", everything.extmin), ("$EXTMAX", everything.extmax)):
        # The reader's box of an arc is exact to its own flattening distance only.
        told = document.header[name]
        assert math.dist(told[:2], (corner.x, corner.y)) < 0.011, f"{name} says {told}, the drawing reaches {corner}"


def test_inner_cuts_stand_before_outer_ones(drawing):
    layers = [entity.dxf.layer for entity in read(drawing[1]).modelspace()]
    outer = [index for index, name in enumerate(layers) if name == "CUT_OUTER"]
    assert outer, "a part has an edge"
    others = [index for index, name in enumerate(layers) if name != "CUT_OUTER"]
    assert not others or max(others) < min(outer), f"the order is {layers}"


def test_nothing_is_drawn_twice(drawing):
    seen = {}
    for entity in read(drawing[1]).modelspace():
        shape = expected_drawings.fingerprint(entity)
        assert shape not in seen, f"{entity} lies on {seen[shape]}"
        seen[shape] = entity


def test_every_drawing_that_the_instrument_needs_is_there(build):
    found = {path.stem.removesuffix("_mm") for path in build.files("drawings/*.dxf")}
    assert found == set(expected_drawings.names(build))


def test_it_holds_what_the_layout_says(drawing):
    build, path = drawing
    expected = expected_drawings.entities(build, path.stem.removesuffix("_mm"))
    expected_drawings.compare(expected, [e for e in read(path).modelspace() if e.dxf.layer != "GUIDE"])
