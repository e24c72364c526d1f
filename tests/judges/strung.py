"""What do the strings do, worked out again from physics and `layout.json`?

Nothing here follows the program's own way of computing: strings and drift by `mpmath` at 30 digits, the neck by strips
and running sums, the lid by finite differences, chance by another generator. Lengths in mm, forces in N.
"""

import math

import mpmath
import numpy

import written
from frame import BoxFrame, neck_width

mpmath.mp.dps = 30
mpf = mpmath.mpf

# Music wire, from memory of engineering handbooks: kg/m3 and MPa.
STEEL_DENSITY, STEEL_MODULUS = 7850, 203000
# From memory, within 2 %.
WRAP_DENSITIES = {
    "phosphor bronze": 8860, "bronze": 8860, "C51000": 8860, "80/20 bronze": 8700, "8020": 8700, "80/20": 8700,
    "80/20 brass": 8700, "brass": 8500, "nickel": 8900, "pure nickel": 8900, "plated steel": 7850,
    "nickel-plated steel": 7850, "nickel steel": 7850, "steel": 7850,
}
# Wood Handbook, FPL-GTR-190 (2010), Table 5-3a, 12 % moisture: modulus in GPa, and for the mahoganies Table 5-5b; the
# plywood is from memory.
WOOD_MODULI = {
    "hard maple": 12.6, "red maple": 11.3, "red oak": 12.5, "white oak": 12.3, "yellow-poplar": 10.9, "black walnut": 11.6,
    "black cherry": 10.3, "white ash": 12.0, "basswood": 10.1, "red alder": 9.5, "yellow birch": 13.9, "hickory": 14.9,
    "beech": 11.9, "sweetgum": 11.3, "mahogany": 10.3, "African mahogany": 9.7, "sugar pine": 8.2,
    "eastern white pine": 8.5, "Douglas-fir": 13.4, "Sitka spruce": 10.8, "western red cedar": 7.7, "redwood": 7.6,
    "birch plywood": 9.0,
}

DEFAULT_STRINGS = [
    {"diameter": "0.036 in", "core": "0.017 in", "wrap": "phosphor bronze"},
    {"diameter": "0.024 in", "core": "0.014 in", "wrap": "phosphor bronze"},
    {"diameter": "0.017 in"},
]


def length(build, key, default):
    """A length of the document in mm, or its default, which is written with its unit."""
    found = build.document
    for step in key.split("."):
        if step not in found:
            return float(written.parse_length_mm(default, "mm"))
        found = found[step]
    return float(written.parse_length_mm(found, written.value(build.document, "units")))


class String:
    """One string at its pitch, for one diameter of its core."""

    def __init__(self, build, index, which="nominal"):
        plan, pull = build.layout["strings"][index], build.layout["playing"]["pulls"][index]
        asked = build.document.get("strings", DEFAULT_STRINGS)[index]
        inch = written.value(build.document, "units")
        self.diameter = mpf(plan["diameter_mm"])
        wound = "core" in asked or "wrap" in asked
        if "core" in asked:
            exact = written.parse_length_mm(asked["core"], inch)
            self.core = mpf(exact.numerator) / exact.denominator
        elif wound:
            factor = {"low": mpf("0.8"), "nominal": mpf(1), "high": mpf("1.2")}[which]
            self.core = min(factor * (mpf("0.206") + mpf("0.227") * self.diameter), mpf("0.75") * self.diameter)
        else:
            self.core = self.diameter
        area = mpmath.pi / 4 * self.core**2
        self.mass = STEEL_DENSITY * area * mpf("1e-6")
        if wound:
            wire = (self.diameter - self.core) / 2
            turn = mpmath.hypot(mpmath.pi * (self.core + wire), wire)
            density = WRAP_DENSITIES[asked.get("wrap", "phosphor bronze")]
            # For each turn, which advances by the wire's thickness, one helix of wire.
            self.mass += density * mpmath.pi / 4 * wire**2 * mpf("1e-6") * turn / wire
        scale = mpf(build.layout["scale_length_mm"])
        self.tension = self.mass * (2 * scale / 1000 * mpf(plan["frequency_hz"])) ** 2
        self.stretch = STEEL_MODULUS * area
        self.bending = STEEL_MODULUS * mpmath.pi / 64 * self.core**4
        self.estimated = wound and "core" not in asked
        self.pull = pull


class Path:
    """One string from zero fret over the crest to its hole, along and above the lid."""

    def __init__(self, layout, index):
        frame, places = BoxFrame(layout), layout["strings"][index]
        zero, crest, hole = (
            (mpf(frame.along(places[name])), mpf(frame.above(places[name]))) for name in ("zero_fret", "saddle", "tail")
        )
        self.front_run, self.front_rise = crest[0] - zero[0], crest[1] - zero[1]
        self.tail_run, self.tail_drop = hole[0] - crest[0], crest[1] - hole[1]
        self.crest, self.hole = crest[1], hole[1]

    def pieces(self, travel, drop=None):
        """Front and tail after the crest has travelled toward the tail."""
        drop = self.tail_drop if drop is None else drop
        front = mpmath.hypot(self.front_run + travel, self.front_rise)
        return front, mpmath.hypot(self.tail_run - travel, drop)


def cents(ratio):
    return 1200 * mpmath.log(ratio, 2)


def pitch_cents(string, strain, front_before, front_after):
    """Change of pitch when a string of the first strain comes to another, Hooke's and Mersenne's laws."""
    at_rest = string.tension / string.stretch
    frequency = lambda e, front: mpmath.sqrt(string.stretch * e * (1 + e)) / front
    return cents(frequency(strain, front_after) / frequency(at_rest, front_before))


def slipping_cents(string, path, travel, drop=None):
    before, after = path.pieces(mpf(0), drop), path.pieces(travel, drop)
    unstretched = sum(before) / (1 + string.tension / string.stretch)
    return pitch_cents(string, sum(after) / unstretched - 1, before[0], after[0])


def dragged_cents(string, path, travel, friction):
    """The crest goes toward the tail and drags the string: the sounding part ends with the greater tension."""
    before, after = path.pieces(mpf(0)), path.pieces(travel)
    at_rest = string.tension / string.stretch
    unstretched = sum(before) / (1 + at_rest)
    wrap = mpmath.atan(path.front_rise / (path.front_run + travel)) + mpmath.atan(path.tail_drop / (path.tail_run - travel))
    grip = mpmath.exp(friction * abs(wrap))
    stuck = [length * (1 + at_rest) / was - 1 for length, was in zip(after, before)]
    if stuck[1] > 0 and stuck[0] <= grip * stuck[1]:
        return pitch_cents(string, stuck[0], before[0], after[0])
    lost = lambda strain: after[0] / (1 + strain) + after[1] / (1 + strain / grip) - unstretched
    strain = mpmath.findroot(lost, at_rest)
    return pitch_cents(string, strain, before[0], after[0])


def drift_per_mm(string, path, drop=None):
    return mpmath.diff(lambda travel: slipping_cents(string, path, travel, drop), mpf(0))


def break_even_drop(string, path):
    """The drop from crest to hole at which the drift is none; nothing where there is none up to 80 degrees."""
    ends = mpf(0), path.tail_run * mpmath.tan(mpmath.radians(80))
    slope = lambda drop: drift_per_mm(string, path, drop)
    if slope(ends[0]) * slope(ends[1]) > 0:
        return None
    return mpmath.findroot(slope, ends, solver="anderson", tol=1e-20)


def worst_drift(strings, paths, hole_heights):
    """The largest drift of any string for a millimetre either way, at each of an array of hole heights."""
    worst = numpy.zeros(len(hole_heights))
    for string, path in zip(strings, paths):
        run, rise, tail = float(path.front_run), float(path.front_rise), float(path.tail_run)
        drop, rest = float(path.crest) - hole_heights, float(string.tension / string.stretch)
        whole = lambda travel: numpy.hypot(run + travel, rise) + numpy.hypot(tail - travel, drop)
        for travel in (1.0, -1.0):
            strain = (1 + rest) * whole(travel) / whole(0.0) - 1
            with numpy.errstate(invalid="ignore", divide="ignore"):
                drift = 600 * numpy.log2(strain * (1 + strain) / (rest * (1 + rest)))
            drift -= 1200 * math.log2(math.hypot(run + travel, rise) / math.hypot(run, rise))
            worst = numpy.maximum(worst, numpy.where(strain > 0, numpy.abs(drift), numpy.inf))
    return worst


def least(function, low, high, rounds=60, points=41):
    """The place of the least value of a function of arrays, by ever finer rows of points."""
    for _ in range(rounds):
        row = numpy.linspace(low, high, points)
        best = row[int(numpy.argmin(function(row)))]
        step = (high - low) / (points - 1)
        low, high = max(low, best - step), min(high, best + step)
        if step < 1e-10:
            break
    return best


class Run:
    """One string's underside over the crowns of the bent neck."""

    def __init__(self, build, index):
        layout = build.layout
        string, stations = layout["strings"][index], layout["frets"]["stations"]
        self.scale = layout["scale_length_mm"]
        zero, crest = string["zero_fret"], string["saddle"]
        self.setback = crest["x_mm"] - self.scale
        self.zero_height = zero["z_mm"] - string["diameter_mm"] / 2
        self.crest_height = crest["z_mm"] - string["diameter_mm"] / 2
        # The string over the saddle line, before it was set back, lies at the same height over every fret.
        share = self.scale / (self.scale + self.setback)
        self.level_crest_height = self.zero_height + (self.crest_height - self.zero_height) * share
        slope = (crest["y_mm"] - zero["y_mm"]) / (crest["x_mm"] - zero["x_mm"])
        radius = layout["fretboard"]["radius_mm"]
        surface = lambda y: 0.0 if radius is None else math.sqrt(radius**2 - y**2) - radius
        self.places = [station["x_mm"] for station in stations]
        self.semitones = [station["semitone"] for station in stations]
        self.crowns = [
            station["crown_mm"] + surface(zero["y_mm"] + slope * station["x_mm"]) - bow
            for station, bow in zip(stations, layout["playing"]["neck"]["bow_mm"])
        ]


def error_cents(string, run, fret, setback, crest_height, lib=mpmath):
    """Anderson and Beausoleil's model (2024) for one fret; the setback may be an array where `lib` is numpy."""
    number = float if lib is numpy else mpf
    scale, place = number(run.scale), number(run.places[fret])
    zero, crest, crown = number(run.zero_height), number(crest_height), number(run.crowns[fret])
    finger = min(number(8), place / 4)
    ratio = number(2) ** (number(run.semitones[fret]) / 12)
    stretch_ratio, tension = number(string.stretch / string.tension), number(string.tension)
    bending = number(string.bending)
    open_length = lib.sqrt((scale + setback) ** 2 + (crest - zero) ** 2)
    run_before, rise = scale + setback - place, crest - crown
    sounding = lib.sqrt(run_before**2 + rise**2)
    # Straight on past the crown, down to the finger, and from there to the zero fret.
    pressed = crown - rise * finger / run_before
    to_finger = lib.sqrt(finger**2 + (crown - pressed) ** 2)
    behind = lib.sqrt((place - finger) ** 2 + (zero - pressed) ** 2)
    stretch = (sounding + to_finger + behind) / open_length - 1
    growth = 1 + stretch_ratio * stretch
    stiff = lambda share: 1 + share + (1 + lib.pi**2 / 2) * share**2
    # The open string's end share is that of the scale length at the open tension.
    open_share = lib.sqrt(bending / tension) / scale
    fretted_share = open_share * open_length / (sounding * lib.sqrt(growth))
    factor = open_length / (ratio * sounding) * lib.sqrt((1 + stretch) * growth) * stiff(fretted_share) / stiff(open_share)
    return 1200 * lib.log(factor) / lib.log(number(2))


def rms_cents(string, run, setbacks):
    """Root mean square error over all frets at each of an array of setbacks, the crest at the level line's height."""
    rows = [error_cents(string, run, fret, setbacks, run.level_crest_height, numpy) for fret in range(len(run.places))]
    return numpy.sqrt(numpy.mean(numpy.square(rows), axis=0))


def half_widths(layout, section, width, top, bottom, z):
    """Half the neck's width at an array of levels; no width outside."""
    half, up = width / 2, z - bottom
    if section == "eased":
        radius = layout["neck"]["edge_radius_mm"]
        low = numpy.clip(radius - up, 0, radius)
        found = half - radius + numpy.sqrt(radius**2 - low**2)
    elif section == "oval":
        # Straight sides above a three-centred arch whose rise is 0.6 of the thickness, its shoulders half of that.
        rise = min(0.6 * (layout["neck"]["top_z_mm"] - bottom), 0.9 * half)
        small = rise / 2
        large = (half**2 + rise**2 - 2 * half * small) / (2 * (rise - small))
        meeting = large - large * (large - rise) / (large - small)
        flat = numpy.sqrt(numpy.clip(large**2 - (large - up) ** 2, 0, None))
        shoulder = half - small + numpy.sqrt(numpy.clip(small**2 - (rise - up) ** 2, 0, None))
        found = numpy.where(up >= rise, half, numpy.where(up <= meeting, flat, shoulder))
    else:
        found = numpy.full_like(z, half)
    return numpy.where((z >= bottom) & (z <= top), found, 0.0)


def strips(layers):
    """Area, centroid and second moment of widths over rows of strips: pairs of levels and widths."""
    area = sum(float(numpy.sum(width * step)) for _, width, step in layers)
    centroid = sum(float(numpy.sum(level * width * step)) for level, width, step in layers) / area
    second = sum(float(numpy.sum(width * step * ((level - centroid) ** 2 + step**2 / 12))) for level, width, step in layers)
    return area, centroid, second


def layer(bottom, top, widths, count=600):
    step = (top - bottom) / count
    level = bottom + step * (numpy.arange(count) + 0.5)
    return level, widths(level), step


class Neck:
    """The neck as a beam, by strips across and running sums along."""

    def __init__(self, build):
        self.layout = layout = build.layout
        neck, heel, frame = layout["neck"], layout["heel"], BoxFrame(layout)
        top, bottom = neck["top_z_mm"], neck["bottom_z_mm"]
        board = layout["fretboard"]["thickness_mm"]
        wood = neck["wood"]
        # The table's modulus holds shear, by its footnote a tenth; plywood is as it is.
        modulus = WOOD_MODULI[wood] * 1000 * (1.0 if "plywood" in wood else 1.1)
        slot_half = length(build, "zero_fret.slot_width", "0.6 mm") / 2
        slot_depth = length(build, "zero_fret.slot_depth", "1.6 mm")
        self.wall = frame.wall_x(top)
        lead = layout["box"]["length_mm"] / 3 if neck["joint"] == "through" else 0.0
        self.held, self.nut = self.wall + lead, min(neck["nut_front_x_mm"], -slot_half)
        strings = layout["strings"]
        runs = [Run(build, index) for index in range(len(strings))]
        crest = sum(run.level_crest_height for run in runs) / len(runs)
        zero = layout["zero_fret"]["crown_mm"]
        pull = lambda x: zero + (crest - zero) * x / layout["scale_length_mm"]
        self.tension = sum(float(String(build, index).tension) for index in range(len(strings)))

        def across(x, slot, with_heel):
            width = neck_width(layout, x)
            stick_top = min(top, -slot)
            layers = [layer(bottom, stick_top, lambda z: 2 * half_widths(layout, neck["section"], width, stick_top, bottom, z))]
            if board > slot:
                layers.append(layer(-board, -slot, lambda z: numpy.full_like(z, width), 40))
            if with_heel:
                layers.append(layer(heel["bottom_z_mm"], heel["top_z_mm"], lambda z: numpy.full_like(z, width)))
            return strips(layers), min([bottom] + ([heel["bottom_z_mm"]] if with_heel else [])), max(stick_top, -slot if board > slot else stick_top)

        def cut(x):
            if x > self.wall:
                recess = neck["tongue_top_above_lid_mm"]
                level = min(frame.level_z(recess, neck["box_x_mm"]), frame.level_z(recess, neck["tail_end_x_mm"]))
                found = strips([layer(bottom, level, lambda z: numpy.full_like(z, neck["width_at_box_mm"]))])
                return found, bottom, level
            slot = slot_depth if abs(x) < slot_half else 0.0
            return across(x, slot, heel is not None and x > heel["front_x_mm"])

        # Every edge of a step lies between two places, so that no place has two sections.
        edges = sorted({self.nut, -slot_half, slot_half, self.wall, self.held} | ({heel["front_x_mm"]} if heel else set()))
        rows = [numpy.linspace(a, b, 2 + max(2, int((b - a) / 2))) for a, b in zip(edges, edges[1:]) if b - a > 1e-9]
        middles = numpy.concatenate([(row[1:] + row[:-1]) / 2 for row in rows])
        steps = numpy.concatenate([row[1:] - row[:-1] for row in rows])
        sections = [cut(x) for x in middles]
        rigidity = numpy.array([modulus * second for (_, _, second), _, _ in sections])
        # In the tongue the strings are counted as far above the axis as at the wall.
        arms = numpy.array([
            pull(min(x, self.wall)) - centroid for x, ((_, centroid, _), _, _) in zip(middles, sections)
        ])
        softest = rigidity.min()
        euler = math.pi**2 * softest / (self.held - layout["neck"]["nut_front_x_mm"]) ** 2
        self.amplified = 1 / (1 - self.tension / euler)
        self.middles, self.steps, self.curvature = middles, steps, self.tension * arms / rigidity
        # Cuts so narrow that they do not bend the neck, and yet weaken it: each fret's, and the headstock's step.
        weak = []
        for station in layout["frets"]["stations"]:
            depth = slot_depth if station["kind"] == "fret wire" else length(build, "frets.seat_depth", "0 mm")
            x = station["x_mm"]
            if depth > 0:
                weak.append((x, across(x, depth, heel is not None and x > heel["front_x_mm"])))
        head = layer(bottom, neck["head_top_z_mm"], lambda z: numpy.full_like(z, neck["width_at_nut_mm"]))
        weak.append((neck["nut_front_x_mm"], (strips([head]), bottom, neck["head_top_z_mm"])))
        cuts = list(zip(arms, sections)) + [(pull(x) - section[0][1], section) for x, section in weak]
        self.stress = max(
            self.tension * abs(arm) * max(high - centroid, centroid - low) / second + self.tension / area
            for arm, ((area, centroid, second), low, high) in cuts
        )

    def bent(self, x):
        """How far the beam has bent at `x`, held at its end inside the box."""
        left = self.middles - self.steps / 2
        # The moment of the curvature beyond x about x; a cell that x cuts counts by its far part.
        start = numpy.maximum(left, x)
        width = numpy.maximum(left + self.steps - start, 0.0)
        return float(numpy.sum(self.curvature * width * (start + width / 2 - x))) * self.amplified

    def rise(self, x):
        return self.bent(x) - self.bent(self.wall)

    def bow(self, x):
        scale = self.layout["scale_length_mm"]
        return self.rise(0.0) * (1 - x / scale) - self.rise(x)


def lid_sink(layout, force, cells=260):
    """How far a lid with supported edges sinks under the saddle: finite differences, two Poisson problems in one."""
    body, saddle = layout["box"], layout["saddle"]
    sides = body["length_mm"] - 2 * body["wall_mm"], body["width_mm"] - 2 * body["wall_mm"]
    rigidity = WOOD_MODULI[body["lid_wood"]] * 1000 * body["lid_mm"] ** 3 / (12 * (1 - 0.3**2))
    middle = saddle["along_mm"] + saddle["shift_mm"] - body["wall_mm"], sides[1] / 2
    sizes = saddle["thickness_mm"], min(abs(saddle["ends_mm"][1] - saddle["ends_mm"][0]), sides[1])
    shares, bases, values, weights = [], [], [], []
    for side, at, size in zip(sides, middle, sizes):
        step = side / cells
        nodes = step * numpy.arange(1, cells)
        # Which share of the load belongs to a node's cell.
        low, high = numpy.maximum(nodes - step / 2, at - size / 2), numpy.minimum(nodes + step / 2, at + size / 2)
        shares.append(numpy.maximum(high - low, 0.0) / size / step)
        second = (2 * numpy.eye(cells - 1) - numpy.eye(cells - 1, k=1) - numpy.eye(cells - 1, k=-1)) / step**2
        value, base = numpy.linalg.eigh(second)
        values.append(value)
        bases.append(base)
        near = numpy.clip(1 - numpy.abs(nodes - at) / step, 0.0, None)
        weights.append(near)
    load = bases[0].T @ numpy.outer(*shares) @ bases[1]
    sunk = bases[0] @ (load / (values[0][:, None] + values[1][None, :]) ** 2) @ bases[1].T
    return force / rigidity * float(weights[0] @ sunk @ weights[1])


def buzz_pairs(build, index):
    """Every pair of a fretted place and a later fret of one string: fretted, over, share of the way, room."""
    layout, run = build.layout, Run(build, index)
    assumed, tension = layout["playing"]["assumed"], float(String(build, index).tension)
    ends = [(0.0, run.zero_height)] + list(zip(run.places, run.crowns))
    crest_x = run.scale + run.setback
    pairs = []
    for fretted, (x0, z0) in enumerate(ends[:-1]):
        sounding = crest_x - x0
        pluck = min(assumed["pluck_from_saddle_mm"], sounding / 2)
        drawn = assumed["pluck_n"] * assumed["pluck_toward_neck_share"] / (tension * (1 / pluck + 1 / (sounding - pluck)))
        for over, (x, z) in list(enumerate(ends))[fretted + 1:]:
            u = x - x0
            swing = drawn * min(u / pluck, (sounding - u) / (sounding - pluck))
            share = u / sounding
            pairs.append((fretted, over, share, z0 + (run.crest_height - z0) * share - z - swing))
    return pairs


def needed_raises(pairs, count_of_frets, scatter, instruments, seed):
    """How far the crests of each of many drawn instruments must rise for no pair to touch."""
    strays = numpy.zeros((instruments, count_of_frets + 1))
    strays[:, 1:] = numpy.random.default_rng(seed).normal(0.0, scatter, (instruments, count_of_frets)) if scatter else 0.0
    raises = numpy.full(instruments, -numpy.inf)
    for fretted, over, share, room in pairs:
        left = room + (1 - share) * strays[:, fretted] - strays[:, over]
        raises = numpy.maximum(raises, -left / share)
    return raises
