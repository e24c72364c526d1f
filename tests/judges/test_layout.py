"""Do the numbers of `layout.json` follow from the document, by exact arithmetic and by formulas worked again?"""

import math

import ezdxf
import mpmath
import pytest

import written
from frame import BoxFrame, neck_width

mpmath.mp.dps = 30

# 2 4 5 7 9 10 12 in every octave: the diatonic pattern as the document describes it.
DIATONIC = [2, 4, 5, 7, 9, 10, 12]


def semitone_of(build, number):
    pattern = written.value(build.document, "scale.pattern")
    if pattern == "chromatic":
        return number
    if pattern == "diatonic":
        octave, step = divmod(number - 1, 7)
        return 12 * octave + DIATONIC[step]
    return pattern[number - 1]


def station_mm(build, semitone):
    """From the crown of the zero fret: pitch varies inversely with length (Mersenne), twelve equal semitones an octave."""
    scale = written.length_mm(build.document, "scale.length")
    scale = mpmath.mpf(scale.numerator) / scale.denominator
    return scale * (1 - mpmath.power(2, -mpmath.mpf(semitone) / 12))


def places(string, *names):
    return [tuple(string[name][axis] for axis in ("x_mm", "y_mm", "z_mm")) for name in names]


def turn_deg(before, corner, after):
    """The angle between two straight pieces, by their cross and dot products."""
    a = [q - p for p, q in zip(before, corner)]
    b = [q - p for p, q in zip(corner, after)]
    cross = (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])
    return math.degrees(math.atan2(math.hypot(*cross), sum(p * q for p, q in zip(a, b))))


def underside(string, x):
    (x0, y0, z0), (x1, y1, z1) = places(string, "zero_fret", "saddle")
    share = (x - x0) / (x1 - x0)
    return y0 + (y1 - y0) * share, z0 + (z1 - z0) * share - string["diameter_mm"] / 2


def surface(layout, y):
    """Height of the playing surface against its centre line: a cylinder along it, or a plane."""
    radius = layout["fretboard"]["radius_mm"]
    return 0.0 if radius is None else math.sqrt(radius * radius - y * y) - radius


def test_the_scale_length_is_the_documents(build):
    assert build.layout["scale_length_mm"] == pytest.approx(float(written.length_mm(build.document, "scale.length")), abs=1e-9)


def test_every_fret_is_where_twelve_equal_semitones_put_it(build):
    for fret in build.layout["frets"]["stations"]:
        assert fret["semitone"] == semitone_of(build, fret["number"])
        off = abs(mpmath.mpf(fret["x_mm"]) - station_mm(build, fret["semitone"]))
        assert off < 1e-6, f"fret {fret['number']} is off by {mpmath.nstr(off, 3)} mm"


def test_frets_are_counted_without_gaps(build):
    numbers = [fret["number"] for fret in build.layout["frets"]["stations"]]
    assert numbers == list(range(1, len(numbers) + 1))
    assert build.layout["frets"]["reached"] == len(numbers)


@pytest.mark.parametrize("name", ["neck-plan", "fretboard"])
def test_drawn_frets_are_measured_from_one_datum(build, name):
    """In the drawing that carries them, from the zero fret's slot and not from fret to fret."""
    paths = build.files(f"drawings/{name}_mm.dxf")
    if not paths or (name == "neck-plan") == (build.layout["fretboard"]["thickness_mm"] > 0):
        return
    lines = [e for e in ezdxf.readfile(paths[0]).modelspace() if e.dxf.layer in ("SLOT", "ENGRAVE")]
    found = sorted(line.dxf.start.x for line in lines)
    assert all(line.dxf.start.x == line.dxf.end.x for line in lines), "frets stand square to the centre line"
    without_slot = {"wrapped wire", "seated wire"}
    let_in = written.length_mm(build.document, "frets.seat_depth") > 0
    marked = [
        fret for fret in build.layout["frets"]["stations"]
        if let_in or fret["kind"] not in without_slot or (fret["kind"] == "wrapped wire" and name == "neck-plan")
    ]
    expected = [mpmath.mpf(0)] + [station_mm(build, fret["semitone"]) for fret in marked]
    assert len(found) == len(expected), f"{len(found)} lines for {len(expected)} frets, the zero fret among them"
    for place, station in zip(found, expected):
        off = abs(mpmath.mpf(place) - mpmath.mpf(found[0]) - station)
        assert off < 1e-6, f"a fret is off by {mpmath.nstr(off, 3)} mm from the zero fret's slot"


def set_back(string, layout):
    """How far the crest of a string lies behind the saddle line, and how far it misses the straight line in plan for that.

    A crest is set back along the box at the `y` that the string has on the saddle line, so that it misses the straight
    line by the string's slope in plan times the setback.
    """
    (_, zero_y, _), (saddle_x, saddle_y, _) = places(string, "zero_fret", "saddle")
    setback = saddle_x - layout["scale_length_mm"]
    return setback, abs((saddle_y - zero_y) / layout["scale_length_mm"] * setback)


def action_mm(layout, string, x, crown, bow):
    """Over a crown that the strings' pull has lowered by `bow`, and what a miss in plan may change on a crowned board:
    the slope of the board there, `y / radius` and a little, times the miss."""
    y, z = underside(string, x)
    radius, (_, miss) = layout["fretboard"]["radius_mm"], set_back(string, layout)
    allowed = 1e-6 + (0.0 if radius is None else 1.1 * (abs(y) + miss) / radius * miss)
    return z - crown - surface(layout, y) + bow, allowed


def test_the_action_is_the_one_asked_for(build):
    """From the crown of the wanted fret to the underside, for every string, on the neck as the strings have bent it."""
    layout = build.layout
    fret = written.value(build.document, "action.fret")
    wanted = float(written.length_mm(build.document, "action.height"))
    frets = zip(layout["frets"]["stations"], layout["playing"]["neck"]["bow_mm"])
    there = [(station, bow) for station, bow in frets if station["semitone"] == fret]
    if not there or there[0][0]["kind"] != layout["frets"]["stations"][0]["kind"]:
        # The bow is told only where there are frets, and the height is measured over a fret of the first kind.
        return
    (station, bow), = there
    for string in layout["strings"]:
        action, allowed = action_mm(layout, string, station["x_mm"], station["crown_mm"], bow)
        assert action == pytest.approx(wanted, abs=allowed), f"string {string['number']}"


def test_actions_are_those_of_the_straight_string_over_the_bent_neck(build):
    layout = build.layout
    for string in layout["strings"]:
        assert len(string["actions_mm"]) == len(layout["frets"]["stations"])
        rows = zip(layout["frets"]["stations"], layout["playing"]["neck"]["bow_mm"], string["actions_mm"])
        for fret, bow, action in rows:
            expected, allowed = action_mm(layout, string, fret["x_mm"], fret["crown_mm"], bow)
            assert action == pytest.approx(expected, abs=allowed), f"string {string['number']} over fret {fret['number']}"


def test_strings_begin_on_the_zero_fret_and_end_behind_the_saddle_line(build):
    layout = build.layout
    for string, tuning in zip(layout["strings"], layout["playing"]["tuning"]):
        (zero_x, zero_y, zero_z), *_ = places(string, "zero_fret")
        assert zero_x == pytest.approx(0.0, abs=1e-9)
        assert set_back(string, layout)[0] == pytest.approx(tuning["setback_mm"], abs=1e-6), "as compensated"
        height = zero_z - string["diameter_mm"] / 2 - surface(layout, zero_y)
        assert height == pytest.approx(layout["zero_fret"]["crown_mm"], abs=1e-6), "it rests on the crown"


def test_compensation_does_no_harm(build):
    for tuning in build.layout["playing"]["tuning"]:
        rms = lambda cents: math.sqrt(sum(value * value for value in cents) / max(1, len(cents)))
        assert tuning["rms_after_cents"] == pytest.approx(rms(tuning["after_cents"]), abs=1e-6)
        assert tuning["rms_after_cents"] <= tuning["rms_before_cents"] + 1e-9


def test_strings_run_straight_in_plan_from_nut_to_tail(build):
    layout, frame = build.layout, BoxFrame(build.layout)
    for string in layout["strings"]:
        (start, end), (_, miss) = places(string, "nut", "tail"), set_back(string, layout)
        slope = abs((end[1] - start[1]) / (end[0] - start[0]))
        # The tail's distance is measured along the lid. In plan the same way is shorter by the cosine of the back angle,
        # and by its sine times the string's fall.
        fall = frame.above(string["saddle"]) - frame.above(string["tail"])
        shorter = (end[0] - layout["scale_length_mm"]) * (1 / frame.cos - 1) + abs(fall * frame.sin)
        for name, (x, y, _) in zip(("zero_fret", "saddle"), places(string, "zero_fret", "saddle")):
            straight = start[1] + (end[1] - start[1]) * (x - start[0]) / (end[0] - start[0])
            allowed = 1e-6 + miss + slope * shorter
            assert y == pytest.approx(straight, abs=allowed), f"string {string['number']} at the {name}"


def test_angles_are_those_of_the_places(build):
    frame = BoxFrame(build.layout)
    for string in build.layout["strings"]:
        post, nut, zero, saddle, tail = places(string, "post", "nut", "zero_fret", "saddle", "tail")
        assert string["break_at_zero_fret_deg"] == pytest.approx(turn_deg(saddle, zero, nut), abs=1e-5)
        assert string["break_at_nut_deg"] == pytest.approx(turn_deg(zero, nut, post), abs=1e-5)
        assert string["break_at_saddle_deg"] == pytest.approx(turn_deg(zero, saddle, tail), abs=1e-5)
        for key, (a, b), sign in (
            ("front_angle_deg", ("zero_fret", "saddle"), 1.0), ("tail_angle_deg", ("saddle", "tail"), -1.0),
        ):
            rise = frame.above(string[b]) - frame.above(string[a])
            run = frame.along(string[b]) - frame.along(string[a])
            assert string[key] == pytest.approx(sign * math.degrees(math.atan2(rise, run)), abs=1e-5), key


def test_the_saddle_stands_where_the_document_wants_it(build):
    layout, frame, plan = build.layout, BoxFrame(build.layout), build.layout["saddle"]
    middle = plan["along_mm"] + plan["shift_mm"]
    undersides = [
        dict(string["saddle"], z_mm=string["saddle"]["z_mm"] - string["diameter_mm"] / 2) for string in layout["strings"]
    ]
    for crest, low in zip(plan["crests"], undersides):
        assert crest["across_mm"] == pytest.approx(low["y_mm"], abs=1e-6)
        assert crest["above_mm"] == pytest.approx(frame.above(low), abs=1e-6), "the underside lies on the crest"
        assert middle + crest["offset_mm"] == pytest.approx(frame.along(low), abs=1e-6), "and where the crest is"
    # The saddle line stands under the string's end before compensation. Its height is that of crests which are not set
    # back: within 0.2 mm of these, which a back angle turns into a place along the lid.
    line = {"x_mm": layout["scale_length_mm"], "z_mm": sum(low["z_mm"] for low in undersides) / len(undersides)}
    allowed = 1e-6 + 0.2 * abs(frame.sin)
    assert frame.along(line) == pytest.approx(plan["along_mm"], abs=allowed)
    from_tail_end = layout["box"]["length_mm"] - plan["along_mm"]
    assert from_tail_end == pytest.approx(float(written.length_mm(build.document, "saddle.from_tail_end")), abs=1e-6)


def test_the_foot_stands_half_way_between_the_outermost_crests_as_far_as_it_may(build):
    plan = build.layout["saddle"]
    adjust = float(written.length_mm(build.document, "saddle.adjust"))
    assert abs(plan["shift_mm"]) <= adjust + 1e-6, "no farther than it may be slid"
    offsets = [crest["offset_mm"] for crest in plan["crests"]]
    if abs(plan["shift_mm"]) < adjust - 1e-6:
        assert min(offsets) + max(offsets) == pytest.approx(0.0, abs=1e-6)


def test_nut_slots_share_the_width_as_the_document_says(build):
    layout, strings = build.layout, build.layout["strings"]
    places_y = [slot["front"]["y_mm"] for slot in layout["nut"]["slots"]]
    if len(strings) < 3:
        return
    mirror = -1 if layout["handed"] == "left" else 1
    centres = [mirror * (b - a) for a, b in zip(places_y, places_y[1:])]
    if written.value(build.document, "nut.spacing") == "equal centres":
        shares = centres
    else:
        shares = [
            distance - (a["diameter_mm"] + b["diameter_mm"]) / 2
            for distance, a, b in zip(centres, strings, strings[1:])
        ]
    assert min(shares) > 0, "bass to treble"
    assert shares == pytest.approx([sum(shares) / len(shares)] * len(shares), abs=1e-6)


def test_nut_slots_are_the_strings_and_a_little_air(build):
    layout = build.layout
    air = {round(s["width_mm"] - t["diameter_mm"], 6) for s, t in zip(layout["nut"]["slots"], layout["strings"])}
    assert len(air) == 1 and min(air) >= 0, f"the same clearance for every string, found {air}"


def test_nobodys_tuners_collide_or_miss_the_headstock(build):
    layout = build.layout
    neck, tuners = layout["neck"], layout["tuners"]
    assert len(tuners) == len(layout["strings"])
    for index, tuner in enumerate(tuners):
        x, y, radius = tuner["bore"]["x_mm"], tuner["bore"]["y_mm"], tuner["diameter_mm"] / 2
        assert neck["head_end_x_mm"] < x - radius and x + radius < layout["nut"]["rear_x_mm"], f"tuner {index}"
        assert abs(y) + radius < neck_width(layout, x) / 2, f"tuner {index} breaks through the edge"
        for other in tuners[:index]:
            apart = math.hypot(other["bore"]["x_mm"] - x, other["bore"]["y_mm"] - y)
            assert apart > radius + other["diameter_mm"] / 2, f"tuner {index} meets another"


def test_the_mirror_of_the_hand(build):
    bass, treble = build.layout["strings"][0], build.layout["strings"][-1]
    if len(build.layout["strings"]) > 1:
        rising = treble["saddle"]["y_mm"] > bass["saddle"]["y_mm"]
        assert rising == (build.layout["handed"] == "right"), "treble lies at positive y of a right-handed instrument"
