"""Is a drawing the same part in every version and style, and do cut lines, tabs and labels keep their word?

Every document is made again with each set of options, drawings only, and compared with its plain build.
"""

import json
import re
import subprocess

import ezdxf
import pytest

import builds
import drawn
from test_dxf import LAYERS

BIT = 3.175
STYLES = {
    "r12": ["--dxf", "r12"],
    "separate": ["--arcs", "separate"],
    "flat": ["--arcs", "flat", "--chord", "0.01mm"],
    "r12-separate": ["--dxf", "r12", "--arcs", "separate"],
    "r12-flat": ["--dxf", "r12", "--arcs", "flat"],
    "cut-line": ["--cut-line", f"{BIT}mm"],
    "r12-cut-line-separate": ["--dxf", "r12", "--cut-line", "1/8 in", "--arcs", "separate"],
    "tabs": ["--tabs", "4", "--tab-width", "4mm"],
    "labels": ["--labels"],
    "inches": ["--unit", "in"],
}


@pytest.fixture(scope="module", params=list(STYLES))
def styled(request, tmp_path_factory):
    """The name of a style, and of every drawing of every document the plain file and the styled one."""
    pairs = []
    for build in builds.made():
        out = tmp_path_factory.mktemp(build.name)
        call = [builds.program(), "make", str(build.document_path), "-o", str(out), "--formats", "dxf"]
        made = subprocess.run([*call, *STYLES[request.param], *builds.make_options()], capture_output=True, text=True, timeout=120)
        assert made.returncode == build.status, f"{build} {STYLES[request.param]}: {made.stderr}"
        folder = out / build.folder.name
        for path in build.files("drawings/*.dxf"):
            found = list(folder.glob(f"drawings/{path.stem.removesuffix('_mm')}_*"))
            assert len(found) == 1, f"{path.stem} is made once, found {found}"
            pairs.append((path, found[0], folder))
        assert len(list(folder.glob("drawings/*"))) == len(build.files("drawings/*.dxf")), "and nothing else is"
    return request.param, pairs


def read(path):
    return ezdxf.readfile(path)


def pieces(document, layer=None):
    chosen = (entity for entity in document.modelspace() if layer in (None, entity.dxf.layer))
    return [piece for entity in chosen for piece in drawn.segments(entity)]


def inch(style):
    return 25.4 if style == "inches" else 1.0


def test_audit_finds_nothing_to_complain_of_or_mend(styled):
    for _, path, _ in styled[1]:
        document = read(path)
        auditor = document.audit()
        assert not auditor.errors, f"{path}: {[error.message for error in auditor.errors]}"
        assert not auditor.fixes, f"{path}: {[fix.message for fix in auditor.fixes]}"
        version = "AC1009" if "r12" in styled[0] else "AC1015"
        # The reader raises R12 to its own oldest version when it loads; what stood in the file is kept beside.
        assert document._loaded_dxfversion == version
        raw = path.read_text(encoding="ascii")
        assert f"$ACADVER\n  1\n{version}\n" in raw
        assert ("$INSUNITS" in raw) == (version == "AC1015"), "R12 knows no unit"


def test_layers_and_entities_are_plain_and_inner_cuts_come_first(styled):
    for _, path, _ in styled[1]:
        entities = list(read(path).modelspace())
        layers = [entity.dxf.layer for entity in entities]
        strange = {name for name in layers if not LAYERS.fullmatch(name) and name != "TAB"}
        assert not strange, f"{path}: {strange}"
        assert "TAB" not in layers or styled[0] == "tabs", f"{path}: tabs on request only"
        first = layers.index("CUT_OUTER")
        assert set(layers[first:]) == {"CUT_OUTER"}, f"{path}: the order is {layers}"
        kinds = {entity.dxftype() for entity in entities}
        polyline = "POLYLINE" if "r12" in styled[0] else "LWPOLYLINE"
        assert kinds <= {"LINE", "ARC", "CIRCLE", polyline}, f"{path}: {kinds}"
        if "separate" in styled[0]:
            assert polyline not in kinds, f"{path}: {kinds}"
        if "flat" in styled[0]:
            arcs = [e for e in entities if any(p[0] == "arc" for p in drawn.segments(e))]
            drilled = [e for e in arcs if e.dxftype() == "CIRCLE" and e.dxf.layer.startswith(("DRILL", "POCKET"))]
            assert arcs == drilled, f"{path}: only drilled holes stay round"


def test_extents_are_the_same(styled):
    style, pairs = styled
    if "cut-line" in style:
        return
    for plain, path, _ in pairs:
        expected, found = drawn.extents(pieces(read(plain))), drawn.extents(pieces(read(path)))
        off = max(abs(a - b * inch(style)) for a, b in zip(expected, found))
        assert off < 0.001, f"{path} is off by {off} mm"


def test_every_layer_is_as_long_as_it_was(styled):
    style, pairs = styled
    if "cut-line" in style:
        return
    total = lambda document, layer: sum(map(drawn.length, pieces(document, layer)))
    for plain, path, _ in pairs:
        before, after = read(plain), read(path)
        for layer in {entity.dxf.layer for entity in before.modelspace()}:
            found = total(after, layer) * inch(style)
            if layer == "CUT_OUTER":
                found += total(after, "TAB")
            # A chord of 0.01 mm off an arc of radius r is shorter than it by 8/3 of 0.01 / r of itself, about.
            tolerance = 0.01 * found if "flat" in style else 1e-5
            if not (layer == "ENGRAVE" and style == "labels"):
                assert found == pytest.approx(total(before, layer), abs=tolerance), f"{path}: {layer}"


def test_ends_meet(styled):
    """Contours in pieces are closed all the same: at every end of a piece another piece ends, to rounding."""
    style, pairs = styled
    for _, path, _ in pairs:
        document = read(path)
        for layer in ("CUT_OUTER", "CUT_INNER"):
            own = pieces(document, layer) + (pieces(document, "TAB") if layer == "CUT_OUTER" else [])
            ends = [end for piece in own for end in drawn.points(piece, 1)]
            for end in ends:
                assert sum(end.distance(other) < 1e-5 for other in ends) % 2 == 0, f"{path}: {layer} is open at {end}"


def test_a_cut_line_is_half_a_bit_off(styled):
    style, pairs = styled
    if "cut-line" not in style:
        return
    for plain, path, folder in pairs:
        assert path.stem == f"{plain.stem.removesuffix('_mm')}_bit3_175_mm"
        assert "CUT LINE OF A BIT OR KERF OF 3.175 MM, NOT TO BE OFFSET AGAIN" in path.read_text(encoding="ascii")
        assert json.loads((folder / "manifest.json").read_text())["drawings"]["cut_line_mm"] == BIT
        before, after = read(plain), read(path)
        for layer in {entity.dxf.layer for entity in before.modelspace()}:
            nominal, cut = pieces(before, layer), pieces(after, layer)
            blind = layer.startswith("POCKET") and all(e.dxftype() == "CIRCLE" for e in after.modelspace() if e.dxf.layer == layer)
            if not layer.startswith(("CUT", "POCKET")) or blind:
                ends = lambda rows: sorted(tuple(map(lambda v: round(v, 6), end)) for p in rows for end in drawn.points(p, 1))
                assert ends(nominal) == ends(cut), f"{path}: {layer} stays where it is"
                continue
            for piece in cut:
                for point in drawn.points(piece, 8):
                    off = min(drawn.distance(point, edge) for edge in nominal)
                    assert off == pytest.approx(BIT / 2, abs=0.001), f"{path}: {layer} at {point} is {off} mm off"
            # Outward, a convex outline of area A and way round P grows to A + P r + pi r r (Steiner); any other to less.
            if layer == "CUT_OUTER":
                way, radius = sum(map(drawn.length, nominal)), BIT / 2
                most = drawn.area(nominal) + way * radius + 3.141592653589793 * radius**2
                found = drawn.area(cut)
                assert drawn.area(nominal) < found <= most + 0.01, f"{path}: {found} of at most {most}"
                if is_convex(nominal):
                    # A corner that hardly turns is drawn without its arc: short by less than this.
                    assert found == pytest.approx(most, abs=0.05), f"{path}: {found}, expected {most}"
            else:
                assert drawn.area(cut) < drawn.area(nominal), f"{path}: {layer} shrinks"


def is_convex(rows):
    if any(row[0] == "arc" for row in rows):
        return False
    turns = [(a[2] - a[1]).det(b[2] - b[1]) for a, b in zip(rows, rows[1:] + rows[:1])]
    return min(turns) >= 0 or max(turns) <= 0


def test_tabs_are_as_wide_as_they_were_asked_for(styled):
    style, pairs = styled
    if style != "tabs":
        return
    for _, path, _ in pairs:
        document = read(path)
        own = [drawn.segments(entity) for entity in document.modelspace() if entity.dxf.layer == "TAB"]
        assert len(own) <= 4, f"{path} has {len(own)} tabs"
        told = re.search(r"TABS: (\d+) OF 4 MM", path.read_text(encoding="ascii"))
        assert told and int(told[1]) == len(own), f"{path} tells its tabs"
        for tab in own:
            assert sum(map(drawn.length, tab)) == pytest.approx(4.0, abs=1e-6), path
        # Each tab wants twice its width of one side, and the two long sides of a part are some 3/8 of its way round each.
        way = sum(map(drawn.length, pieces(document, "CUT_OUTER") + pieces(document, "TAB")))
        assert len(own) == 4 or way < 80, f"{path} has room for all"


def test_labels_are_strokes_within_the_part_and_on_engrave_only(styled):
    style, pairs = styled
    if style != "labels":
        return
    for plain, path, _ in pairs:
        before, after = read(plain), read(path)
        others = lambda document: [e.dxf.layer for e in document.modelspace() if e.dxf.layer != "ENGRAVE"]
        assert others(before) == others(after), f"{path}: nothing but ENGRAVE is different"
        shape = lambda piece: tuple(round(value, 6) for point in drawn.points(piece, 2) for value in point)
        own = {shape(piece) for piece in pieces(before, "ENGRAVE")}
        strokes = [piece for piece in pieces(after, "ENGRAVE") if shape(piece) not in own]
        if "LABEL: NO ROOM FOR ONE" in path.read_text(encoding="ascii"):
            assert not strokes, path
            continue
        assert len(strokes) > 5, f"{path} has a label"
        lines = [piece for piece in pieces(before) if piece not in strokes]
        left, bottom, right, top = drawn.extents(pieces(before, "CUT_OUTER"))
        for stroke in strokes:
            assert stroke[0] == "line"
            for point in drawn.points(stroke, 2):
                assert left < point.x < right and bottom < point.y < top, f"{path}: {point} is off the part"
                off = min(drawn.distance(point, line) for line in lines)
                assert off > 1.0, f"{path}: the label comes within {off} mm of a line"


def test_the_manifest_says_what_was_chosen(styled):
    style, pairs = styled
    record = json.loads((pairs[0][2] / "manifest.json").read_text())["drawings"]
    expected = {
        "version": "r12" if "r12" in style else "r2000",
        "unit": "in" if style == "inches" else "mm",
        "arcs": next((arcs for arcs in ("separate", "flat") if arcs in style), "bulges"),
        "chord_mm": 0.01 if "flat" in style else None,
        "cut_line_mm": BIT if "cut-line" in style else None,
        "tabs": 4 if style == "tabs" else None,
        "tab_width_mm": 4.0 if style == "tabs" else None,
        "labels": style == "labels",
    }
    assert record == expected


def test_inches_in_the_old_version_are_refused(build, tmp_path):
    call = [builds.program(), "make", str(build.document_path), "-o", str(tmp_path), "--dxf", "r12", "--unit", "in"]
    made = subprocess.run([*call, *builds.make_options()], capture_output=True, text=True, timeout=120)
    assert made.returncode == 2 and "millimetres" in made.stderr, made.stderr
    assert not list(tmp_path.iterdir()), "nothing is written"
